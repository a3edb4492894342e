"""Text from people is shown as text: markup, control characters, wide and combining letters, right to left."""

import copy

import pytest

from logic.data.state import Instant
from logic.session.intents import WriteItem
from tests.screens.driver import LARGE, SMALL, driven
from tests.screens.fake import DOCUMENT, WEDNESDAY, FakeClock, FakeSession
from tui.show.cells import width_of
from tui.show.desk_lines import head_line
from tui.show.marks import SIGNS
from tui.show.rows import line_width
from tui.show.slot_rows import rig_rows
from tui.wiring import Wiring

HOSTILE = [
    "see [gray] tank", "[/x] ends it", "[bold red]loud", "[link=x]y[/link]", "\\[escaped] twice", "水槽タンク",
    "e\u0301\u0301\u0301 combining", "שלום עולם", "a\x1b[31mred", "tab\tand\nline", "‮evil‬", "{braces} %s",
    "x" * 60,
]  # fmt: skip


def session_named(name: str) -> FakeSession:
    from logic.data.clean_text import clean_text

    document = copy.deepcopy(DOCUMENT)
    document["rig"]["name"] = clean_text(name)[:60]
    document["tank"][0]["keepout"] = [
        {"x": "10 in", "y": "0 in", "length": "2 in", "width": "24 in", "why": clean_text(name)[:60]}
    ]
    return FakeSession(document)


@pytest.mark.parametrize("size", [SMALL, LARGE], ids=["80x24", "100x30"])
async def test_hostile_text_is_shown_as_text_and_shifts_nothing(size):
    session = session_named("see [gray] tank")
    for text in HOSTILE:
        session.act(WriteItem(text, "note"), Instant(WEDNESDAY))
    async with driven(size, session=session) as driver:
        await driver.press("f8")
        await driver.until(lambda: driver.app.focused.id == "punch")
        pane = driver.app.desk.pane("punch")
        for item in session.state.items:
            pane.choose(f"entry:{item.id}")
            await driver.until(lambda item=item: item.text.split()[0][:20] in " ".join(driver.text.split()))
            assert "\x1b" not in driver.text
            assert all(width_of(line) <= size[0] for line in driver.lines)
            framed = [line for line in driver.lines if line.startswith(("│", "┃"))]
            assert framed
            assert all(width_of(line) == size[0] for line in framed)


@pytest.mark.parametrize("text", HOSTILE)
def test_hostile_name_of_a_rig_or_a_keepout_lays_out_at_every_width(text):
    session = session_named(text)
    snapshot = Wiring(session, marks=SIGNS, now=FakeClock()).snapshot()
    for width in (30, 44, 76, 120):
        lines = [line for row in rig_rows(snapshot, width, {"tank.gray"}) for line in row.lines]
        lines.append(head_line(snapshot, max(width, 60)))
        assert all(line_width(line) <= max(width, 60) for line in lines)


async def test_markup_in_a_refusal_and_in_the_days_record_is_text():
    async with driven() as driver:
        await driver.type("[/x] 41\n")
        await driver.until(lambda: driver.app.desk.line.value == "[/x] 41")
        await driver.sees("[/x]")
        await driver.press("escape", "f9")
        await driver.sees("what is to be done")
        await driver.type("see [gray] tank")
        await driver.press("enter", "enter", "enter")
        await driver.until(lambda: driver.session.state.items)
        await driver.press("ctrl+r")
        await driver.sees("see [gray] tank")


async def test_markup_in_a_dialogs_title_and_in_the_palette_is_text():
    async with driven() as driver:
        await driver.press("f9")
        await driver.sees("what is to be done")
        await driver.type("[/x] hold")
        await driver.press("enter", "enter", "enter")
        await driver.until(lambda: driver.session.state.items)
        await driver.press("f8")
        await driver.until(lambda: driver.app.focused.id == "punch")
        driver.app.desk.pane("punch").choose(f"entry:{driver.session.state.items[0].id}")
        await driver.press("f4")
        await driver.sees("[/x] hold", "accept it")
