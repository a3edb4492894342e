"""The last walk on the screen: every place and every stop of it, Enter to what puts it right, seen said there."""

import pytest

from logic.assessment.last_walk import last_walk_of
from logic.data.profile_file import load_profile
from logic.session.intents import StartStep
from logic.session.session import new_session
from tests.screens.driver import LARGE, SMALL, driven
from tests.screens.fake import FakeClock
from tests.technician import RIGS, finished
from tui.show.rows import line_width, text_of


def opened_on(rig, home):
    clock = FakeClock()
    return new_session(load_profile(RIGS / f"{rig}.toml"), clock(), home=home, by="R. Tester"), clock


@pytest.fixture
def session(tmp_path):
    opened, clock = opened_on("two-tanks", tmp_path)
    yield opened, clock
    opened.close()


@pytest.fixture
def drained(tmp_path):
    """A rig with valves: they are confirmed by a look, and nothing but make safe comes before."""
    opened, clock = opened_on("full-belly", tmp_path)
    yield opened, clock
    opened.close()


def said(driver) -> str:
    return "\n".join(text_of(line) for row in driver.app.screen.list.rows for line in row.lines)


async def walk(driver) -> None:
    await driver.press("ctrl+f")
    await driver.sees("the last walk: all that will be out of sight")


@pytest.mark.parametrize("size", [SMALL, LARGE])
async def test_walk_shows_every_place_in_its_order_scrolls_and_is_left_with_esc(session, size):
    opened, clock = session
    async with driven(size, session=opened, clock=clock) as driver:
        await walk(driver)
        halts = last_walk_of(driver.app.wiring.snapshot().assessment, opened.state)
        heads = [f"{number} of {len(halts)} · {halt.title}" for number, halt in enumerate(halts, start=1)]
        places = [said(driver).index(head) for head in heads]
        assert places == sorted(places)
        assert f"{driver.app.wiring.snapshot().assessment.verdict.stop} stop closing" in said(driver)
        rows = driver.app.screen.list
        assert all(line_width(line) <= rows.row_width for row in rows.rows for line in row.lines)
        assert "the whole underside" not in driver.text
        await driver.press("end")
        await driver.sees("the whole underside")
        await driver.press("escape")
        await driver.until(lambda: driver.app.screen is driver.app.desk)


async def test_much_of_one_kind_is_one_row_until_enter_opens_it(session):
    opened, clock = session
    async with driven(session=opened, clock=clock) as driver:
        await walk(driver)
        rows = driver.app.screen.list
        fold = next(row.key for row in rows.rows if row.key.startswith("fold:"))
        before = len(rows.rows)
        rows.choose(fold)
        await driver.press("enter")
        await driver.until(lambda: len(rows.rows) > before)
        await driver.press("enter")
        await driver.until(lambda: len(rows.rows) == before)


async def test_enter_goes_to_the_step_that_is_open_there(session):
    opened, clock = session
    async with driven(session=opened, clock=clock) as driver:
        await walk(driver)
        driver.app.screen.list.choose("look:rig:confirm-drip-loops:rig")
        await driver.press("enter")
        await driver.until(lambda: driver.app.screen is driver.app.desk and driver.app.focused.id == "steps")
        assert driver.app.desk.pane("steps").cursor == "step:confirm-drip-loops:rig"


async def test_enter_on_a_size_that_is_owed_asks_for_it_in_the_line(session):
    opened, clock = session
    async with driven(session=opened, clock=clock) as driver:
        await walk(driver)
        rows = driver.app.screen.list
        halt = next(iter(last_walk_of(driver.app.wiring.snapshot().assessment, opened.state)))
        rows.choose(f"fold:{halt.place}:finding")
        await driver.press("enter")
        owed = next(look for look in halt.looks if look.rule == "planned")
        await driver.until(lambda: rows.row_of(f"look:{halt.place}:{owed.id}"))
        rows.choose(f"look:{halt.place}:{owed.id}")
        await driver.press("enter")
        await driver.until(lambda: driver.app.wiring.target == owed.about)


async def test_what_was_seen_is_said_on_the_walk_and_a_refusal_says_what_comes_first(drained):
    opened, clock = drained
    valve = next(step.id for step in opened.assess(clock()).steps if step.template == "confirm-valve")
    async with driven(session=opened, clock=clock) as driver:
        await walk(driver)
        rows = driver.app.screen.list
        rows.choose(f"look:{valve.partition(':')[2]}:{valve}")
        await driver.press("ctrl+s")
        await driver.sees("make safe is not finished")
        for step in opened.assess(clock()).steps:
            if step.group == "make safe" or step.template == "drain-flush":
                clock.on(30)
                opened.act(StartStep(step.id), clock())
                opened.act(finished(step.id), clock())
        driver.app.wiring.tick()
        await driver.press("ctrl+s")
        await driver.until(
            lambda: any(step.step == valve and step.kind == "done" for step in opened.state.steps)
        )
        look = rows.row_of(f"look:{valve.partition(':')[2]}:{valve}")
        await driver.until(lambda: "seen" in text_of(rows.row_of(look.key).lines[0]))


async def test_walk_is_a_key_away_from_the_closing_steps(session):
    opened, clock = session
    async with driven(session=opened, clock=clock) as driver:
        await driver.press("f7")
        await driver.until(lambda: driver.app.focused.id == "steps")
        driver.app.desk.pane("steps").choose("step:last-walk:rig")
        await driver.press("f4")
        await driver.sees("look at the last walk")
        await driver.press("1")
        await driver.sees("the last walk: all that will be out of sight")
