"""What a sheet has no room for is said on it, and all else is whole; status says what isn't worked out."""

import msgspec
import pytest

from logic.assessment import case, spell_budget
from logic.assessment.assess import assess
from logic.data.events import ReadingTaken
from logic.data.profile_file import load_profile
from logic.data.slots import slots_of
from logic.data.state import Instant, Item, Note, Reading, State, StepEvent
from logic.handover import readings_record, room, schedule, standing
from logic.handover.html_page import html_page
from logic.handover.sheet import sheet_of
from logic.session.session import new_session
from tests.contract.sheet_page import Page, sections_of
from tests.technician import RIGS
from tui.command_line.status import status_lines

NOW = Instant(1.0e9, 3600)
PROFILE = load_profile(RIGS / "two-tanks.toml").profile


def taken(times: int, *, struck: int = 0) -> State:
    """Every size that is planned read so often, a mark of the tape apart at most."""
    planned = [slot for slot in slots_of(PROFILE) if slot.planned is not None and slot.kind == "length"]
    readings = [
        Reading(
            f"{turn:04}{place:04}",
            slot.id,
            f"{turn} turn",
            slot.planned,
            NOW,
            resolution=0.0015875,
            unit="in",
        )
        for turn in range(times)
        for place, slot in enumerate(planned)
    ]
    put = msgspec.structs.replace
    return State(
        readings=tuple(
            put(
                reading,
                struck=number < struck,
                typed=f"struck {number}" if number < struck else reading.typed,
            )
            for number, reading in enumerate(readings)
        )
    )


def page_of(state: State) -> tuple[str, Page]:
    made = html_page(sheet_of(assess(PROFILE, state, NOW), state))
    return made, Page(made)


def test_with_very_many_readings_those_that_decide_are_listed_and_the_others_counted(monkeypatch):
    state = taken(2)
    _, whole = page_of(state)
    assert "more than a sheet has room for" not in whole.text
    monkeypatch.setattr(readings_record, "MANY_READINGS", len(state.readings) - 1)
    _, page = page_of(state)
    slots = assess(PROFILE, state, NOW).slots
    read = [slot for slot in slots if slot.readings]
    apart = [slot for slot in read if not slot.deciding and slot.state == "agreed"]
    assert apart
    assert f"{len(state.readings)} readings are more than a sheet has room for" in page.text
    assert f"{len(apart)} others were read, and nothing speaks against them" in page.text

    def rows_of(one: Page) -> int:
        return sum(len(rows) - 1 for rows in one.tables.values() if rows[0][0] == "slot")

    assert rows_of(whole) - rows_of(page) == len(apart)


def test_a_reading_in_dispute_is_listed_among_very_many_too(monkeypatch):
    state = taken(2)
    other = next(slot for slot in slots_of(PROFILE) if slot.id.endswith(".keepout.1.x"))
    far = Reading(
        "9999", other.id, "far off", (other.planned or 0.0) + 0.2, NOW, resolution=0.0015875, unit="in"
    )
    state = msgspec.structs.replace(state, readings=(*state.readings, far))
    monkeypatch.setattr(readings_record, "MANY_READINGS", 10)
    _, page = page_of(state)
    assert "far off" in page.text


def test_where_even_those_that_are_listed_are_too_many_what_decides_stands(monkeypatch):
    state = taken(2)
    keepouts = [slot for slot in slots_of(PROFILE) if ".keepout." in slot.id]
    off = tuple(
        Reading(f"9{place:03}", slot.id, "far off", slot.planned + 0.2, NOW, resolution=0.0015875, unit="in")
        for place, slot in enumerate(keepouts)
    )
    state = msgspec.structs.replace(state, readings=(*state.readings, *off))
    deciding = [slot for slot in assess(PROFILE, state, NOW).slots if slot.deciding]
    monkeypatch.setattr(readings_record, "MANY_READINGS", 10)
    monkeypatch.setattr(readings_record, "MOST_LINES", len(deciding) + 1)
    made, page = page_of(state)
    section = sections_of(made)["Readings"]
    assert section.count("<tr>") - section.count("<thead>") == len(deciding) + 1
    assert section.count("far off") == 1
    assert f"{len(deciding) + 1} stand here, what decides before the rest" in page.text


def test_of_a_slot_read_over_and_over_the_newest_stand(monkeypatch):
    monkeypatch.setattr(readings_record, "MANY_READINGS", 10)
    monkeypatch.setattr(readings_record, "MOST_OF_A_SLOT", 3)
    _, page = page_of(taken(5))
    assert "4 turn" in page.text
    assert "2 turn" in page.text
    assert "1 turn" not in page.text
    assert "Of each the newest 3 stand here." in page.text


def test_of_very_many_struck_readings_the_last_are_listed(monkeypatch):
    monkeypatch.setattr(room, "MOST_LINES", 3)
    _, page = page_of(taken(2, struck=5))
    assert "struck 4" in page.text
    assert "struck 1" not in page.text
    assert "The last 3 of 5 readings that were struck or moved." in page.text


def test_of_very_many_items_the_gravest_stand_and_the_rest_is_counted(monkeypatch):
    notes = tuple(Item(f"n{number}", "note", "", f"only a note {number}", NOW) for number in range(4))
    graver = (Item("u", "use", "", "a hindrance", NOW), Item("s", "stop", "", "a grave thing", NOW))
    state = State(items=(*notes, *graver))
    _, whole = page_of(state)
    for item in state.items:
        assert item.text in whole.text
    for module in (room, standing):
        monkeypatch.setattr(module, "MOST_LINES", 3)
    made, page = page_of(state)
    assert "a grave thing" in page.text
    assert "a hindrance" in page.text
    assert "only a note 1" not in page.text
    assert "The first 3 of 6 open items that were written down, the gravest first." in page.text
    assert "All of them stand in the session" in sections_of(made)["What stands"]


@pytest.mark.parametrize("kind", ["notes", "skipped"])
def test_of_very_many_notes_and_skips_the_last_stand(monkeypatch, kind):
    monkeypatch.setattr(room, "MOST_LINES", 2)
    notes = tuple(Note(f"{number}", "", f"said {number}", NOW) for number in range(4))
    skips = tuple(
        StepEvent(f"{number}", "stands:rig", "skipped", NOW, note=f"said {number}", name="Ann")
        for number in range(4)
    )
    _, page = page_of(State(notes=notes) if kind == "notes" else State(steps=skips))
    assert "said 3" in page.text
    assert "said 1" not in page.text
    assert "The last 2 of 4" in page.text


def test_of_a_rig_with_very_many_tanks_fewer_are_drawn_and_all_stand_in_tables(monkeypatch):
    monkeypatch.setattr(schedule, "MANY_TANKS", 1)
    monkeypatch.setattr(schedule, "MOST_OF_MANY_DRAWN", 1)
    made, page = page_of(State())
    assert "The first 1 of 2 tanks are drawn" in page.text
    assert made.count("aria-label='cold spell of") == 1
    for tank in PROFILE.tanks:
        assert tank.id in sections_of(made)["As built"]


@pytest.mark.parametrize(("module", "limit"), [(spell_budget, "MOST_PADS_MOVED"), (case, "MOST_SIZES_READ")])
@pytest.mark.parametrize("most", [0, 1_000_000])
def test_what_isnt_worked_out_is_said_by_status_and_on_the_sheet(monkeypatch, tmp_path, module, limit, most):
    monkeypatch.setattr(module, limit, most)
    session = new_session(load_profile(RIGS / "two-tanks.toml"), NOW, home=tmp_path)
    try:
        event = msgspec.structs.replace(
            session.events[-1],
            id=session.events[-1].id + "0",
            payload=ReadingTaken("tank.gray.wall", "6 mm", 0.006),
        )
        session.take_in([event])
        lines = [line for line in status_lines(session, NOW) if line.startswith("figures: ")]
        page = Page(html_page(sheet_of(session.assess(NOW), session.state)))
    finally:
        session.close()
    said = "what the readings leave uncertain isn't worked out"
    assert bool(lines) == (most == 0)
    assert all(said in line for line in lines)
    assert (said in page.text.partition("Left out: ")[2][:200]) == (most == 0)
