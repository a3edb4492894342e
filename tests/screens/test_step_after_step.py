"""Where the Steps pane leads: on from a finished step to what is offered, never away from a look elsewhere."""

import pytest

from logic.data.profile_file import load_profile
from logic.data.step import Block, Step
from logic.data.wording import words
from logic.session.intents import FinishStep, StartStep
from logic.session.session import new_session
from tests.screens.driver import driven
from tests.screens.fake import FakeClock
from tests.technician import RIGS
from tui.show.step_rows import next_step


def step(name: str, state: str, *, finishing: bool = False) -> Step:
    waits = (Block("dwell", words("adhesive"), words("wait")),) if finishing else ()
    return Step(f"{name}:rig", name, "rig", "bond", name, state, 5.0, False, finishing=waits)


def test_the_step_at_work_leads_then_what_is_offered_first_and_a_wait_never_before_work():
    cures, pull, brush = (
        step("dwell", "running", finishing=True),
        step("pull", "ready"),
        step("brush", "ready"),
    )
    assert next_step((cures, brush, pull), ("pull:rig", "brush:rig")) is pull
    assert next_step((cures, brush, pull)) is brush
    splice = step("splice", "running")
    assert next_step((cures, brush, splice), ("brush:rig",)) is splice
    assert next_step((cures, step("fill", "waiting"))) is cures
    assert next_step(()) is None


@pytest.fixture
def session(tmp_path):
    clock = FakeClock()
    opened = new_session(load_profile(RIGS / "two-tanks.toml"), clock(), home=tmp_path, by="R. Tester")
    yield opened, clock
    opened.close()


async def test_cursor_goes_on_from_a_finished_step_to_what_is_offered(session):
    opened, clock = session
    async with driven(session=opened, clock=clock) as driver:
        await driver.press("f7")
        await driver.until(lambda: driver.app.focused.id == "steps")
        pane = driver.app.desk.pane("steps")
        seen = []
        for _ in range(3):
            here = pane.cursor
            assert here == f"step:{opened.assess(clock()).day.offered[0]}"
            step_id = here.removeprefix("step:")
            driver.app.send(StartStep(step_id))
            assert pane.cursor == here
            driver.app.send(FinishStep(step_id))
            await driver.until(lambda here=here: pane.cursor != here)
            seen.append(here)
        assert len(set(seen)) == 3


async def test_cursor_stays_where_a_person_looks_while_another_step_is_finished(session):
    opened, clock = session
    async with driven(session=opened, clock=clock) as driver:
        await driver.press("f7")
        pane = driver.app.desk.pane("steps")
        await driver.until(lambda: pane.has_focus)
        pane.choose("step:last-walk:rig")
        for intent in (StartStep("profile-complete:rig"), FinishStep("profile-complete:rig")):
            driver.app.send(intent)
        await driver.settle()
        assert pane.cursor == "step:last-walk:rig"


async def test_footer_of_the_steps_and_their_help_tell_how_to_hold_skip_and_overrule(session):
    opened, clock = session
    async with driven((80, 24), session=opened, clock=clock) as driver:
        await driver.press("f7")
        await driver.sees("F4 hold, skip, overrule")
        await driver.press("?")
        await driver.sees("The work in order. Ctrl+S starts")
        assert "Enter or F4: hold, skip, overrule, record." in " ".join(driver.text.split())
