"""The punch list on a real rig: what is only still to be done folds, what is wrong stands first; by place."""

import pytest

from logic.data.profile_file import load_profile
from logic.session.intents import FinishStep, RecordReading, SkipStep, StartStep, WriteItem
from logic.session.session import new_session
from tests.screens.driver import LARGE, SMALL, driven
from tests.screens.fake import FakeClock
from tests.technician import RIGS
from tui.deeds.punch import go_to
from tui.show.punch_rows import FOLDED, LEAST_FOLDED, arranged, entries, part_of, parts_named, put_right_at
from tui.show.rows import line_width, text_of


@pytest.fixture
def opened(tmp_path):
    """A rig's session by its name, and its clock; closed at the end."""
    sessions = []

    def begin(rig):
        clock = FakeClock()
        session = new_session(
            load_profile(RIGS / f"{rig}.toml"), clock(), home=tmp_path / rig, by="R. Tester"
        )
        sessions.append(session)
        return session, clock

    yield begin
    for session in sessions:
        session.close()


async def at_desk(driver):
    """Past the screen on coming back, which a session that was worked on begins with."""
    await driver.sees("You are back")
    await driver.press("space")
    await driver.until(lambda: driver.app.screen is driver.app.desk)


async def punch(driver):
    await driver.press("f8")
    await driver.until(lambda: driver.app.focused.id == "punch")
    return driver.app.desk.pane("punch")


def listed(pane) -> list[str]:
    return [" ".join(text_of(line).strip() for line in row.lines) for row in pane.rows]


@pytest.mark.parametrize("size", [SMALL, LARGE])
async def test_first_morning_is_a_handful_of_rows_and_the_verdict_counts_every_stop(opened, size):
    session, clock = opened("two-tanks")
    async with driven(size, session=session, clock=clock) as driver:
        pane = await punch(driver)
        stops = driver.app.wiring.snapshot().assessment.verdict.stop
        assert stops > 100
        assert len(pane.rows) < 12
        counted = sum(
            len(found)
            for _, found in arranged(entries(driver.app.wiring.snapshot()), driver.app.wiring.snapshot())
        )
        assert counted == len(entries(driver.app.wiring.snapshot()))
        assert f"DO NOT CLOSE: {stops} stop" in driver.text
        assert all(line_width(line) <= pane.row_width for row in pane.rows for line in row.lines)


async def test_folded_row_says_what_is_next_and_enter_opens_it_to_each(opened):
    session, clock = opened("two-tanks")
    async with driven(session=session, clock=clock) as driver:
        pane = await punch(driver)
        snapshot = driver.app.wiring.snapshot()
        not_done = [each for each in snapshot.assessment.findings if each.rule == "open-step"]
        first = next(
            step for step in snapshot.assessment.steps if step.id == snapshot.assessment.day.offered[0]
        )
        row = next(said for said in listed(pane) if "steps not done" in said)
        assert f"steps not done: {len(not_done)}" in row
        assert f"next is {first.title}" in row
        pane.choose("fold:stop:open-step")
        before = len(pane.rows)
        await driver.press("enter")
        await driver.until(lambda: len(pane.rows) == before + len(not_done))
        assert pane.row_of(f"entry:{not_done[-1].id}") is not None
        await driver.press("enter")
        await driver.until(lambda: len(pane.rows) == before)


async def test_dispute_stands_first_and_a_skip_and_an_item_by_themselves(opened):
    session, clock = opened("two-tanks")
    slot = session.assess(clock()).wanted[0]
    for typed in ("38 1/2 in", "39 1/2 in"):
        clock.on(30)
        session.act(RecordReading(slot, typed), clock())
    session.act(SkipStep("confirm-spare-mains:rig", "none fitted", "Ann"), clock())
    session.act(SkipStep("label:rig", "none fitted", "Ann"), clock())
    session.act(WriteItem("bolt by the axle"), clock())
    async with driven(session=session, clock=clock) as driver:
        await at_desk(driver)
        pane = await punch(driver)
        keys = [row.key for row in pane.rows]
        assert keys[0] == f"entry:dispute:{slot}"
        folds = [number for number, key in enumerate(keys) if key.startswith("fold:")]
        alone = ["entry:open-step:label:rig", "entry:confirm:confirm-spare-mains:rig"]
        assert all(keys.index(key) < folds[0] for key in alone)
        assert any("bolt by the axle" in said for said in listed(pane)[: folds[0]])


async def test_few_of_a_kind_do_not_fold():
    async with driven() as driver:
        pane = await punch(driver)
        planned = [key for key in (row.key for row in pane.rows) if key.startswith("entry:planned:")]
        assert 0 < len(planned) < LEAST_FOLDED
        assert not any(row.key.startswith("fold:") for row in pane.rows)


async def test_one_place_alone_by_keys_and_by_its_name(opened):
    session, clock = opened("two-tanks")
    async with driven(session=session, clock=clock) as driver:
        pane = await punch(driver)
        snapshot = driver.app.wiring.snapshot()
        parts = [part for part, _ in parts_named(snapshot)]
        seen = []
        for part in parts:
            await driver.press("shift+right")
            await driver.until(lambda part=part: pane.part == part)
            shown = arranged([each for each in entries(snapshot) if part_of(each) == part], snapshot)
            assert sum(len(found) for _, found in shown) == dict(parts_named(snapshot))[part]
            seen.append(pane.border_title)
        assert len(set(seen)) == len(parts)
        await driver.press("shift+right")
        await driver.until(lambda: pane.part is None)
        await driver.press("f4")
        await driver.sees("show one place alone")
        await driver.type("one place\n")
        await driver.sees("Which place?")
        await driver.type("gray-pad\n")
        await driver.until(lambda: pane.part == "heater.gray-pad")
        await driver.sees("Punch list, pad gray-pad only", "DO NOT CLOSE: 121 stop")
        await driver.press("right")
        await driver.sees("Punch list, stop of pad gray-pad only")


@pytest.mark.parametrize("rig", ["two-tanks", "full-belly", "with-mistakes"])
async def test_every_entry_leads_to_its_slot_its_step_or_its_place(opened, rig):
    session, clock = opened(rig)
    for step in ("profile-complete:rig", "chocks:rig"):
        session.act(StartStep(step), clock())
        session.act(FinishStep(step), clock())
    clock.on(26 * 3600)
    async with driven(session=session, clock=clock) as driver:
        app = driver.app
        await at_desk(driver)
        snapshot = app.wiring.snapshot()
        steps = {step.id for step in snapshot.assessment.steps}
        assert any(each.rule == "lapsed" for each in entries(snapshot))
        kinds = {(each.rule, each.place.split(".")[0]): each for each in entries(snapshot)}
        for entry in kinds.values():
            where = put_right_at(entry, snapshot)
            go_to(app, where)
            await driver.settle()
            if where in steps:
                assert app.desk.pane("steps").cursor == f"step:{where}", entry
            elif snapshot.slot(where) is not None:
                assert app.wiring.target == where
                assert app.desk.pane("rig").cursor == f"slot:{where}", entry
            else:
                assert app.desk.pane("rig").cursor == where, entry


def test_what_folds_is_never_a_mistake():
    """Only what is still to be done: no rule about a wire, a fuse, a pad's fit, heat or a test that failed."""
    assert set(FOLDED) == {"planned", "single", "open-step", "untested", "confirm"}
