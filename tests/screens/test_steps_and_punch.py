"""Steps and the punch list by keys: start, done, hold, skip, overrule; write, done, accept, jump, filter."""

from logic.session.intents import (
    AcceptItem,
    BeginDay,
    FinishItem,
    FinishStep,
    HoldStep,
    OverruleStep,
    SetPace,
    SkipStep,
    StartStep,
    WriteItem,
)
from tests.screens.driver import driven


async def in_pane(driver, key: str, name: str, row: str):
    await driver.press(key)
    await driver.until(lambda: driver.app.focused.id == name)
    pane = driver.app.desk.pane(name)
    pane.choose(row)
    await driver.until(lambda: pane.cursor == row)
    return pane


def sent(driver, kind):
    return [intent for intent in driver.sent if isinstance(intent, kind)]


async def test_caution_is_shown_before_a_step_starts_and_esc_starts_nothing():
    async with driven() as driver:
        await in_pane(driver, "f7", "steps", "step:dead:rig")
        await driver.press("ctrl+s")
        await driver.sees("Shore cord out before the battery", "Enter start")
        await driver.press("escape")
        await driver.until(lambda: driver.app.screen is driver.app.desk)
        assert not sent(driver, StartStep)
        await driver.press("ctrl+s")
        await driver.sees("Enter start")
        await driver.press("enter")
        await driver.until(lambda: sent(driver, StartStep))
        await driver.sees("now 0 of 15")


async def test_a_reading_typed_at_a_caution_that_nobody_saw_starts_nothing():
    async with driven() as driver:
        await in_pane(driver, "f7", "steps", "step:dead:rig")
        await driver.press("ctrl+s")
        await driver.type("41 3/8\n")
        await driver.sees("not taken, what was typed here")
        await driver.settle()
        assert not sent(driver, StartStep)
        assert driver.app.screen is not driver.app.desk
        await driver.press("enter")
        await driver.until(lambda: sent(driver, StartStep))


async def test_same_key_finishes_a_step_that_runs():
    async with driven() as driver:
        await in_pane(driver, "f7", "steps", "step:flush:tank.gray")
        await driver.press("ctrl+s")
        await driver.until(lambda: sent(driver, StartStep))
        await driver.press("ctrl+s")
        await driver.until(lambda: sent(driver, FinishStep))
        await driver.sees("all done")


async def test_step_is_held_with_a_note_from_its_menu():
    async with driven() as driver:
        await in_pane(driver, "f7", "steps", "step:splice:run.feed")
        await driver.press("f4")
        await driver.sees("hold it, with a note")
        await driver.press("3")
        await driver.sees("held because")
        await driver.type("no splices left\n")
        await driver.until(lambda: sent(driver, HoldStep))
        assert sent(driver, HoldStep)[0].note == "no splices left"
        await driver.sees("held: no splices left")


async def test_step_is_skipped_with_a_reason_and_a_name():
    async with driven() as driver:
        await in_pane(driver, "f7", "steps", "step:splice:run.feed")
        await driver.press("f4")
        await driver.sees("skip it")
        await driver.press("4")
        await driver.sees("skipped because")
        await driver.type("none here\nAnn\n")
        await driver.until(lambda: sent(driver, SkipStep))
        assert (sent(driver, SkipStep)[0].note, sent(driver, SkipStep)[0].name) == ("none here", "Ann")


async def test_what_holds_a_step_is_said_and_can_be_overruled_with_reason_and_name():
    async with driven() as driver:
        await in_pane(driver, "f7", "steps", "step:bond-pad:heater.gray-a")
        await driver.sees("wall 46 °F, wants 50 °F", "released by: warm water in the tank")
        await driver.press("f4")
        await driver.sees("overrule what holds it")
        await driver.press("5")
        await driver.sees("overruled because")
        await driver.type("dry and warm enough\nAnn\n")
        await driver.until(lambda: sent(driver, OverruleStep))
        assert sent(driver, OverruleStep)[0].gate == "surface"


async def test_what_a_step_wants_recorded_is_asked_when_it_is_done():
    async with driven() as driver:
        await in_pane(driver, "f7", "steps", "step:bond-pad:heater.gray-a")
        await driver.press("f4")
        await driver.sees("overrule what holds it")
        await driver.press("5")
        await driver.sees("overruled because")
        await driver.type("ok\nAnn\n")
        await driver.until(lambda: sent(driver, OverruleStep))
        await driver.press("ctrl+s")
        await driver.sees("Solvent vapour", "Enter start")
        await driver.press("enter")
        await driver.until(lambda: sent(driver, StartStep))
        await driver.press("ctrl+s")
        await driver.sees("Done: bond pad gray-a")
        await driver.type("yes\nyes\n\n")
        await driver.until(lambda: sent(driver, FinishStep))
        assert sent(driver, FinishStep)[0].recorded == {"pressed": "yes", "rolled": "yes"}


async def test_timer_stands_in_the_line_of_alarms_and_the_bell_rings_at_its_end():
    async with driven() as driver:
        await in_pane(driver, "f7", "steps", "step:survey:tank.gray")
        await driver.press("ctrl+s")
        await driver.sees("readings, twice, gray 15:50 (in 2 h)")
        driver.clock.on(2 * 3600 + 1)
        driver.app.wiring.touched = driver.clock.at
        rang = []
        driver.app.bell = lambda: rang.append(True)
        driver.app.tick()
        await driver.until(lambda: rang)
        await driver.sees("its time is up: readings, twice")


async def test_item_is_written_set_to_done_and_accepted():
    async with driven() as driver:
        await driver.press("f9")
        await driver.sees("what is to be done")
        await driver.type("clamp by the axle\n\n\n")
        await driver.until(lambda: sent(driver, WriteItem))
        assert sent(driver, WriteItem)[0] == WriteItem("clamp by the axle", "stop", "tank.gray")
        item = driver.session.state.items[0]
        await in_pane(driver, "f8", "punch", f"entry:{item.id}")
        await driver.press("f4")
        await driver.sees("accept it")
        await driver.press("2")
        await driver.until(lambda: sent(driver, FinishItem))
        await driver.sees("done")


async def test_finding_is_accepted_with_reason_and_name_and_stays_listed():
    async with driven() as driver:
        await in_pane(driver, "f8", "punch", "entry:battery:supply")
        await driver.press("f4")
        await driver.sees("accept it")
        await driver.press("2")
        await driver.sees("accepted because")
        await driver.type("short trips only\nAnn\n")
        await driver.until(lambda: sent(driver, AcceptItem))
        await driver.sees("accepted", "Ann: short trips only", "1 use")


async def test_what_cannot_be_accepted_says_so():
    async with driven() as driver:
        await in_pane(driver, "f8", "punch", "entry:no-fuse:run.feed")
        driver.app.action_deed("accept")
        await driver.sees("this can't be accepted: it has to be mended", "a fuse of 10 A")


async def test_jump_goes_to_the_slot_that_an_entry_is_about():
    async with driven() as driver:
        await in_pane(driver, "f8", "punch", "entry:planned:tank.gray.height")
        await driver.press("f4")
        await driver.sees("go to gray tank, height")
        await driver.press("1")
        await driver.until(lambda: driver.app.focused.id == "rig")
        await driver.sees("gray tank · height, in")


async def test_one_weight_alone_is_shown_with_left_and_right():
    async with driven() as driver:
        await driver.press("f8")
        await driver.until(lambda: driver.app.focused.id == "punch")
        await driver.press("right", "right")
        await driver.sees("Punch list, use only")
        assert not any("■ stop" in line for line in driver.lines)
        await driver.press("left", "left")
        await driver.sees("■ stop")


async def test_days_stop_is_set_and_stands_in_the_line_of_alarms():
    async with driven() as driver:
        await driver.press("ctrl+r")
        await driver.sees("begin a day")
        await driver.press("enter")
        await driver.sees("stop at")
        await driver.type("1630\n")
        await driver.until(lambda: sent(driver, BeginDay))
        await driver.press("escape")
        await driver.sees("stop at 16:30", "day 1")


async def test_first_timer_is_set_on_the_day_screen_and_taken_back_with_undo():
    async with driven() as driver:
        await driver.press("ctrl+r")
        await driver.sees("plan minutes for a first-timer")
        driver.app.screen.list.choose("deed:pace")
        await driver.press("enter")
        await driver.until(lambda: sent(driver, SetPace) == [SetPace(True)])
        await driver.sees("plan minutes for a technician again", "minutes planned for a first-timer")
        await driver.press("escape", "ctrl+z")
        await driver.until(lambda: not driver.session.state.first_timer)


async def test_verdict_stands_on_every_size():
    for size in ((100, 30), (80, 24), (60, 12)):
        async with driven(size) as driver:
            assert "DO NOT CLOSE: 4 stop" in driver.lines[0]


async def test_ten_idle_minutes_bring_the_screen_on_coming_back_and_a_digit_goes_on_into_the_line():
    async with driven() as driver:
        await driver.take("41")
        driver.clock.on(700)
        driver.app.tick()
        await driver.sees("You are back", "wanted next: gray tank · width")
        await driver.type("2")
        await driver.until(lambda: driver.app.screen is driver.app.desk)
        assert driver.app.desk.line.value == "2"
