"""What the screen says of keeping the session: not saved and saved at last, leaving, held by another, taken over."""

import pytest

from logic.data.state import Instant
from logic.data.wording import words
from logic.session.intents import RecordReading
from tests.screens.driver import LARGE, SMALL, driven
from tests.screens.fake import FakeSession
from tests.screens.real import TWO_TANKS, at_work
from tui.deeds import keeping

SIZES = (LARGE, SMALL)


@pytest.fixture
def soon(monkeypatch):
    """What waits is tried again without a wait, and another's session is looked at as often."""
    monkeypatch.setattr(keeping, "TRIED_AGAIN", 0.01)


@pytest.mark.parametrize("size", SIZES)
async def test_reading_that_is_not_saved_says_so_until_it_is_and_then_says_that(size, soon):
    async with driven(size) as driver:
        driver.session.fail = "no space left on device"
        await driver.type("41\n")
        await driver.sees("NOT SAVED: 1", "F4 copies elsewhere", "no space left on device")
        await driver.type("42\n")
        await driver.sees("NOT SAVED: 2")
        driver.session.fail = ""
        await driver.sees("saved now: 2 records that waited are on the disk")
        assert "NOT SAVED" not in driver.lines[-7]


async def test_what_waited_is_said_to_be_saved_beside_what_is_taken_next(monkeypatch):
    async with driven() as driver:
        driver.session.fail = "no space left on device"
        await driver.type("41\n")
        await driver.sees("NOT SAVED: 1")
        driver.session.fail = ""
        driver.session.unsaved = ()  # as the session does first when it can write again
        driver.app.wiring.late = 1
        await driver.type("42\n")
        await driver.sees("saved now: the record that waited is on the disk", "taken 13:50")


@pytest.mark.parametrize("size", SIZES)
async def test_leaving_with_something_not_saved_is_asked_about_and_esc_stays(size):
    async with driven(size) as driver:
        driver.session.fail = "no space left on device"
        await driver.type("41\n")
        await driver.sees("NOT SAVED: 1")
        await driver.press("ctrl+q")
        await driver.sees(
            "1 record is not saved: no space left on device", "leave, and lose what isn't saved: 1 of 2"
        )
        await driver.press("ctrl+q")
        await driver.settle()
        assert len(driver.app.screen_stack) == 2
        await driver.press("escape")
        await driver.until(lambda: driver.app.screen is driver.app.desk)
        await driver.press("ctrl+q")
        await driver.sees("leave, and lose")
        await driver.press("3")
        await driver.until(lambda: driver.app._exit)


async def test_leaving_needs_no_answer_once_it_can_be_saved():
    async with driven() as driver:
        driver.session.fail = "no space left on device"
        await driver.type("41\n")
        await driver.sees("NOT SAVED: 1")
        driver.session.fail = ""
        await driver.press("ctrl+q")
        await driver.until(lambda: driver.app._exit)
        assert driver.session.unsaved == ()


async def test_copy_elsewhere_stands_first_behind_f4_while_something_waits():
    async with driven() as driver:
        await driver.press("f4")
        await driver.sees("add a tank, drain, heater, run or bay")
        assert "copy the session" not in driver.text
        await driver.press("escape")
        await driver.until(lambda: driver.app.screen is driver.app.desk)
        driver.session.fail = "no space left on device"
        await driver.type("41\n")
        await driver.sees("NOT SAVED: 1")
        await driver.press("f4")
        await driver.sees("1 copy the session to a file elsewhere")
        await driver.press("enter")
        await driver.sees("Copy the session", "a new file on another disk")


def held() -> FakeSession:
    session = FakeSession()
    session.because = words("held by Ann on tailgate since 09:20")
    return session


async def test_one_who_looks_on_has_it_worked_out_anew_where_there_is_news_and_each_minute(monkeypatch):
    async with driven(session=held()) as driver:
        wiring, ticks = driver.app.wiring, []
        tick, at = wiring.tick, wiring.now().at // 60.0 * 60.0
        monkeypatch.setattr(wiring, "tick", lambda: ticks.append(at) or tick())
        for seconds in (0.5, 1.5, 2.5):
            monkeypatch.setattr(wiring, "now", lambda seconds=seconds: Instant(at + 60.0 + seconds))
            driver.app.tick()
        assert len(ticks) == 1
        driver.session.holder_gone = True
        driver.app.tick()
        driver.app.tick()
        assert len(ticks) == 2
        monkeypatch.setattr(wiring, "now", lambda: Instant(at + 120.5))
        driver.app.tick()
        assert len(ticks) == 3


@pytest.mark.parametrize("size", SIZES)
async def test_taking_over_is_offered_when_the_holder_has_gone_and_not_before(size):
    async with driven(size, session=held()) as driver:
        await driver.sees("only looked at: held by Ann on tailgate")
        driver.app.tick()
        await driver.press("f4")
        await driver.sees("add a tank, drain, heater, run or bay")
        assert "take the session over" not in driver.text
        await driver.press("escape")
        await driver.until(lambda: driver.app.screen is driver.app.desk)
        driver.session.holder_gone = True
        driver.app.tick()
        await driver.sees("Ann on tailgate has gone: F4 takes over", "F4 takes the session over")
        await driver.type("41")
        await driver.press("f4")
        await driver.sees("1 take the session over")
        await driver.press("enter")
        await driver.sees("taken over: what is typed here is recorded now")
        assert "has gone" not in driver.text
        await driver.press("enter")
        await driver.until(lambda: driver.session.state.readings)
        assert [each for each in driver.sent if isinstance(each, RecordReading)][-1].typed == "41"


async def test_it_can_not_be_taken_over_while_it_is_held():
    async with driven(session=held()) as driver:
        driver.app.action_deed("take-over")
        await driver.sees("it can't be taken over now", "held by Ann on tailgate")
        assert driver.session.read_only


async def test_a_session_of_our_own_is_not_taken_over():
    async with driven() as driver:
        driver.app.action_deed("take-over")
        await driver.sees("this session is this program's already")


async def test_another_program_is_looked_at_once_a_second():
    async with driven(session=held()) as driver:
        [clock] = [timer for timer in driver.app._timers if timer.name == "clock"]
        assert clock._interval == pytest.approx(1.05, abs=0.06)


async def test_that_it_was_taken_is_said_whatever_else_is_to_be_said(tmp_path):
    async with at_work(TWO_TANKS, tmp_path) as driver:
        await driver.type("90\n")
        await driver.sees("taken 13:50: gray tank, length 90 in", "the plan says 38 1/2 in")


async def test_two_digits_typed_into_a_list_leave_it_once():
    async with driven() as driver:
        await driver.press("f4")
        await driver.until(lambda: driver.app.screen is not driver.app.desk)
        await driver.type("16")
        await driver.until(lambda: driver.app.screen is driver.app.desk)
        await driver.settle()
        assert driver.app.is_running
