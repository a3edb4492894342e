"""Words that stand on the screen: names as one says them, no path of the profile, no deed that would be refused."""

from contextlib import asynccontextmanager

import pytest

from logic.data.state import Instant
from logic.session.intents import (
    AcceptItem,
    ChangeProfile,
    FinishStep,
    RecordReading,
    TakeBackReading,
    WriteItem,
)
from tests.screens.real import TWO_TANKS, assessed, at_work, open_by
from tests.screens.test_steps_and_punch import in_pane
from tui.show import numbers
from tui.show.clock import moment, time_to_come


async def test_menu_of_a_slot_and_of_its_tank_say_names_and_no_path(tmp_path):
    async with at_work(TWO_TANKS, tmp_path) as driver:
        await in_pane(driver, "f5", "rig", "slot:tank.gray.length")
        await driver.press("f4")
        await driver.sees("gray tank, length", "copy gray tank", "take gray tank away")
        assert "tank.gray" not in driver.text


async def test_menu_of_a_figure_is_headed_by_its_name(tmp_path):
    async with at_work(TWO_TANKS, tmp_path) as driver:
        await in_pane(driver, "f6", "figures", "tank.gray.holds_to")
        await driver.press("f4")
        await driver.sees("gray tank, holds to", "open its working")
        assert "tank.gray" not in driver.text


async def test_skip_is_not_offered_of_a_step_that_cannot_be_skipped(tmp_path):
    async with at_work(TWO_TANKS, tmp_path) as driver:
        await in_pane(driver, "f7", "steps", "step:chocks:rig")
        await driver.press("f4")
        await driver.sees("hold it, with a note")
        assert "skip it" not in driver.text


DEAD = "step:proven-dead:rig"
BEFORE_DEAD = (
    "profile-complete:rig", "parts-bought:rig", "drain-flush:tank.gray", "drain-flush:tank.black", "chocks:rig",
    "stands:rig", "tow-plug:rig", "solar:rig", "shore-cord:rig", "generator:rig", "alternator:rig",
    "battery-negative:rig",
)  # fmt: skip


@asynccontextmanager
async def asked_whether_dead(tmp_path):
    """The form of *proven dead*, all sources off before."""
    async with at_work(TWO_TANKS, tmp_path) as driver:
        for step in BEFORE_DEAD:
            driver.app.send(FinishStep(step))
        await in_pane(driver, "f7", "steps", DEAD)
        await driver.press("ctrl+s")
        await driver.sees("Enter start")
        await driver.press("enter")
        await driver.sees("started: power off, proven dead")
        await driver.press("ctrl+s")
        await driver.sees("known source before", "on a source that you know is live")
        yield driver


def is_proven_dead(driver):
    return any(step.id == "proven-dead:rig" and step.state == "done" for step in assessed(driver).steps)


async def test_nothing_is_proven_dead_with_nothing_written_down(tmp_path):
    async with asked_whether_dead(tmp_path) as driver:
        await driver.type("\n\n\n\n")
        await driver.sees("write down what you found: known source before, circuit,")
        assert not is_proven_dead(driver)


async def test_a_circuit_that_shows_volts_is_not_proven_dead(tmp_path):
    async with asked_whether_dead(tmp_path) as driver:
        await driver.type("12.6 V\n11.9\n12.6 V\n\n")
        await driver.sees("the circuit shows 11.9: it is live")
        assert not is_proven_dead(driver)


async def test_three_readings_of_the_meter_prove_a_circuit_dead(tmp_path):
    async with asked_whether_dead(tmp_path) as driver:
        await driver.type("12.6 V\n0 V\n12.6 V\n\n")
        await driver.until(lambda: is_proven_dead(driver))


# 14:51 on a Wednesday, an hour east of Greenwich: the stop is of local time.
AFTERNOON = Instant(1_795_614_660.0, 3600)


@pytest.mark.parametrize(
    ("typed", "clock"),
    [
        ("16:30", "16:30"), ("1630", "16:30"), ("4:30 pm", "16:30"), ("4:30PM", "16:30"), ("4 p.m.", "16:00"),
        ("12 am", "Thu 00:00"), ("6:00 am", "Thu 06:00"), ("13:00", "Thu 13:00"),
        ("4:30", None), ("430", None), ("16:30 pm", None), ("0 pm", None), ("half past four", None),
    ],
)  # fmt: skip
def test_stop_is_said_by_either_clock_and_never_guessed(typed, clock):
    at = time_to_come(typed, AFTERNOON)
    assert (at if at is None else moment(at, AFTERNOON)) == clock


async def test_a_stop_that_is_no_time_leaves_the_form_open_and_says_why(tmp_path):
    async with at_work(TWO_TANKS, tmp_path) as driver:
        driver.app.action_deed("begin-day")
        await driver.sees("The day begins")
        await driver.type("when dark\n")
        await driver.sees("found when dark; expected a time of day", "stop at")
        assert not driver.session.state.days
        await driver.press("ctrl+u")
        await driver.type("4:30 pm\n")
        await driver.until(lambda: driver.session.state.days)
        await driver.sees("stop at 16:30")
        driver.app.action_deed("begin-day")
        await driver.sees("Today's stop")


async def test_undo_and_the_days_record_name_a_reading_as_one_says_it_with_its_unit(tmp_path):
    async with at_work(TWO_TANKS, tmp_path) as driver:
        driver.app.send(RecordReading("tank.gray.wall", "1/4"))
        driver.app.send(RecordReading("tank.gray.width", "24"))
        # A second one: the first is no longer kept out of sight.
        driver.app.send(RecordReading("tank.gray.width", "23 15/16 in"))
        driver.app.send(TakeBackReading())
        await driver.press("ctrl+z")
        await driver.sees("undone: reading struck: gray tank, width 23 15/16 in")
        await open_by(driver, "ctrl+r", "the day's record")
        await driver.sees(
            "gray tank, wall: 1/4 in", "gray tank, width: 24 in", "struck: gray tank, width 23 15/16 in"
        )


async def test_the_days_record_names_what_was_changed_and_what_was_accepted(tmp_path):
    async with at_work(TWO_TANKS, tmp_path) as driver:
        driver.app.send(ChangeProfile("tank.gray.length", "44 in"))
        driver.app.send(ChangeProfile("rig.name", "the blue one"))
        driver.app.send(WriteItem("clamp by the axle", "stop", "tank.gray"))
        (item,) = driver.session.state.items
        driver.app.send(AcceptItem(item.id, "goes in May", "Ann"))
        await open_by(driver, "ctrl+r", "the day's record")
        await driver.sees("gray tank, length changed to 44 in", "rig, name changed to the blue one")
        await driver.sees("accepted by Ann: clamp by the axle (goes in May)")


async def test_a_likely_fault_names_the_readings_that_speak_for_it(tmp_path):
    async with at_work(TWO_TANKS, tmp_path) as driver:
        driver.app.send(RecordReading("heater.gray-pad.resistance", "0.4"))
        await open_by(driver, "ctrl+t", "Likely, most likely first")
        await driver.sees("pad gray-pad, resistance reads 0.4 Ω: with this fault")
        assert "heater.gray-pad" not in driver.text


async def test_the_punch_list_keeps_a_first_reading_to_itself_until_the_second_is_taken(tmp_path):
    async with at_work(TWO_TANKS, tmp_path) as driver:
        driver.app.send(RecordReading("tank.gray.length", "41 3/8"))
        told = next(each for each in assessed(driver).findings if each.rule == "single")
        assert numbers.fill(told.text, "us") == "gray tank, length: read once"


async def test_no_list_of_deeds_shows_a_first_reading_before_the_second_is_taken(tmp_path):
    async with at_work(TWO_TANKS, tmp_path) as driver:
        driver.app.send(RecordReading("tank.gray.length", "41 3/8"))
        driver.app.send(RecordReading("tank.gray.wall", "1/4"))
        for slot, said in (("length", "gray tank, length: hidden"), ("wall", "gray tank, wall: 1/4 in")):
            await in_pane(driver, "f5", "rig", f"slot:tank.gray.{slot}")
            await driver.press("enter")
            await driver.sees("by R. Tester" if slot == "length" else "1st 1/4 in")
            reading = next(each for each in driver.session.state.readings if each.slot.endswith(slot))
            await in_pane(driver, "f5", "rig", f"reading:{reading.id}")
            await driver.press("f4")
            await driver.sees(said)
            assert "41 3/8" not in driver.text
            await driver.type("move it\n")
            await driver.sees("belongs to")
            assert "41 3/8" not in driver.text
            await driver.press("escape")
