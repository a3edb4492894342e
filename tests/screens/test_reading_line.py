"""The reading line: what it asks, what it takes, what it keeps."""

import pytest

from logic.session.intents import (
    MoveReading,
    RecordReading,
    StrikeReading,
    SwapLastTwo,
    TakeBackReading,
    UndoLast,
)
from tests.screens.driver import SMALL, driven
from tests.screens.fake import FakeSession


def slots_read(driver) -> list[tuple[str, str]]:
    return [(intent.slot, intent.typed) for intent in driver.sent if isinstance(intent, RecordReading)]


async def test_line_names_the_slot_wanted_with_its_unit_and_the_two_after_it():
    async with driven() as driver:
        await driver.sees("gray tank · length, in", "then width, height", "30 owed")


async def test_digits_and_enter_record_in_walking_order():
    async with driven() as driver:
        await driver.take("41 3/8")
        await driver.take("24")
        await driver.take("9+1/2")
        assert slots_read(driver) == [
            ("tank.gray.length", "41 3/8"), ("tank.gray.width", "24"), ("tank.gray.height", "9+1/2"),
        ]  # fmt: skip
        await driver.sees("outlet x, in", "27 owed")


async def test_what_was_taken_is_said_with_the_figures_it_moved_and_their_values_before():
    async with driven() as driver:
        await driver.take("42")
        await driver.sees("gray tank, length 42 in", "volume, inside 39.3 gal (was 38.3 gal)")
        await driver.sees("← was 38.3 gal")


async def test_value_just_taken_stands_large_where_there_is_room():
    async with driven() as driver:
        await driver.take("41 3/8")
        assert any("╻ ╻ ╺┓" in line for line in driver.lines)


async def test_first_value_stays_out_of_sight_until_the_second_is_taken():
    async with driven() as driver:
        await driver.type("41 3/8\n")
        await driver.sees("hidden")
        rows = [line for line in driver.lines if "length" in line and "single" in line]
        assert rows
        assert "41 3/8" not in rows[0]
        await driver.take("24")
        driver.clock.on(60)
        await driver.type("gray tank len 41 3/8\n")
        await driver.sees("agreed")
        assert any("41 3/8 in" in line and "agreed" in line for line in driver.lines)


async def test_empty_enter_does_nothing():
    async with driven() as driver:
        await driver.press("enter", "enter")
        await driver.settle()
        assert driver.sent == []


async def test_list_fills_the_slots_that_it_named():
    async with driven() as driver:
        await driver.type("41;24;9")
        await driver.sees("fills then width, height")
        await driver.press("enter")
        await driver.until(lambda: len(driver.sent) == 3)
        assert slots_read(driver) == [
            ("tank.gray.length", "41"), ("tank.gray.width", "24"), ("tank.gray.height", "9"),
        ]  # fmt: skip


async def test_list_keeps_what_was_not_taken():
    async with driven() as driver:
        await driver.type("41;5 9/8;9\n")
        await driver.until(lambda: driver.app.desk.line.value == "5 9/8; 9")
        await driver.sees("5 9/8")
        assert slots_read(driver)[-1] == ("tank.gray.width", "5 9/8")
        await driver.press(*["backspace"] * 8)
        await driver.type("24;9\n")
        await driver.until(lambda: len(driver.session.state.readings) == 3)
        assert [reading.slot for reading in driver.session.state.readings] == [
            "tank.gray.length", "tank.gray.width", "tank.gray.height",
        ]  # fmt: skip


async def test_refused_reading_says_why_with_examples_and_stays_typed():
    async with driven() as driver:
        await driver.type("413/8\n")
        await driver.sees("413/8", "41 3/8", "51 5/8")
        assert driver.app.desk.line.value == "413/8"
        assert driver.session.state.readings == ()


async def test_typed_parts_of_a_name_go_to_that_slot():
    async with driven() as driver:
        await driver.type("black h 10 1/4")
        await driver.sees("black tank · height, in")
        await driver.press("enter")
        await driver.until(lambda: driver.session.state.readings)
        assert slots_read(driver) == [("tank.black.height", "10 1/4")]
        await driver.sees("gray tank · length, in")


async def test_name_of_several_slots_is_not_guessed():
    async with driven() as driver:
        await driver.type("gray 41\n")
        await driver.sees("may be", "type one more part of its name")
        assert driver.app.desk.line.value == "gray 41"
        assert driver.sent == []


async def test_bounced_key_is_asked_about_and_enter_again_takes_it():
    async with driven() as driver:
        await driver.type("41\n")
        await driver.until(lambda: driver.session.state.readings)
        await driver.type("gray tank len 41\n")
        await driver.sees("Enter again takes it")
        assert len(driver.session.state.readings) == 1
        await driver.press("enter")
        await driver.until(lambda: len(driver.session.state.readings) == 2)


async def test_comma_is_asked_about_with_both_meanings():
    async with driven() as driver:
        await driver.type("12,5\n")
        await driver.sees("12.5", "comma")
        assert driver.session.state.readings == ()
        await driver.press("1")
        await driver.until(lambda: driver.app.desk.line.value == "12.5")
        await driver.press("enter")
        await driver.until(lambda: driver.session.state.readings)
        assert driver.session.state.readings[0].typed == "12.5"


async def test_up_and_down_ask_for_another_slot():
    async with driven() as driver:
        await driver.press("down", "down")
        await driver.sees("gray tank · height, in")
        await driver.press("up")
        await driver.sees("gray tank · width, in")
        await driver.press("escape")
        await driver.sees("gray tank · length, in")


@pytest.mark.parametrize("pane", ["f5", "f6", "f7", "f8"])
async def test_digit_typed_in_a_pane_opens_the_line_and_enter_gives_the_focus_back(pane):
    async with driven() as driver:
        await driver.press(pane)
        await driver.until(lambda: driver.app.focused is not driver.app.desk.line)
        focused = driver.app.focused
        await driver.type("41")
        await driver.until(lambda: driver.app.desk.line.value == "41")
        assert driver.app.focused is driver.app.desk.line
        await driver.press("enter")
        await driver.until(lambda: driver.app.focused is focused)
        assert slots_read(driver) == [("tank.gray.length", "41")] or pane == "f5"
        assert len(driver.session.state.readings) == 1


@pytest.mark.parametrize("pane", ["escape", "f5", "f6", "f7", "f8"])
async def test_f2_takes_the_last_reading_back_from_anywhere(pane):
    async with driven() as driver:
        await driver.take("41")
        await driver.press(pane, "f2")
        await driver.until(lambda: any(isinstance(each, TakeBackReading) for each in driver.sent))
        assert driver.session.state.readings[0].struck


async def test_f2_leaves_what_is_typed():
    async with driven() as driver:
        await driver.take("41")
        await driver.type("24")
        await driver.press("f2")
        await driver.until(lambda: driver.session.state.readings[0].struck)
        assert driver.app.desk.line.value == "24"


async def test_swap_puts_the_last_two_into_each_others_slots():
    async with driven() as driver:
        await driver.take("24")
        await driver.take("41")
        await driver.press("f3")
        await driver.until(lambda: any(isinstance(each, SwapLastTwo) for each in driver.sent))
        slots = {reading.typed: reading.slot for reading in driver.session.state.readings}
        assert slots == {"24": "tank.gray.width", "41": "tank.gray.length"}


async def test_undo_takes_typing_back_before_anything_recorded():
    async with driven() as driver:
        await driver.take("41")
        await driver.type("24")
        await driver.until(lambda: driver.app.desk.line.value == "24")
        await driver.press("ctrl+z")
        await driver.until(lambda: driver.app.desk.line.value == "2")
        await driver.press("ctrl+y")
        await driver.until(lambda: driver.app.desk.line.value == "24")
        await driver.press("ctrl+z", "ctrl+z")
        await driver.until(lambda: driver.app.desk.line.value == "")
        assert not any(isinstance(each, UndoLast) for each in driver.sent)
        await driver.press("ctrl+z")
        await driver.until(lambda: driver.session.state.readings == ())
        await driver.press("ctrl+y")
        await driver.until(lambda: len(driver.session.state.readings) == 1)


async def test_reading_is_struck_and_moved_from_its_slots_list():
    async with driven() as driver:
        await driver.take("24")
        await driver.press("f5")
        await driver.until(lambda: driver.app.focused is driver.app.desk.pane("rig"))
        pane = driver.app.desk.pane("rig")
        pane.choose("slot:tank.gray.length")
        await driver.press("enter")
        await driver.sees("1st hidden")
        pane.choose(f"reading:{driver.session.state.readings[0].id}")
        await driver.press("f4")
        await driver.sees("move it to the slot where it belongs")
        await driver.press("2")
        await driver.sees("belongs to")
        await driver.type("gray tank width")
        await driver.press("enter")
        await driver.until(lambda: any(isinstance(each, MoveReading) for each in driver.sent))
        assert driver.session.state.readings[0].slot == "tank.gray.width"
        pane.choose("slot:tank.gray.width")
        await driver.press("f4")
        await driver.sees("strike its reading")
        await driver.press("2")
        await driver.until(lambda: any(isinstance(each, StrikeReading) for each in driver.sent))
        assert driver.session.state.readings[0].struck


async def test_reading_that_is_not_saved_stays_visibly_so():
    async with driven() as driver:
        driver.session.fail = "the disk is full"
        await driver.type("41\n")
        await driver.sees("NOT SAVED", "the disk is full")
        await driver.press("f6", "f5", "escape")
        await driver.sees("NOT SAVED")


async def test_question_mark_helps_while_the_line_is_empty_and_is_typed_otherwise():
    async with driven() as driver:
        await driver.type("4?")
        await driver.until(lambda: driver.app.desk.line.value == "4?")
        await driver.press("escape", "?")
        await driver.sees("The reading line")


async def test_resize_while_typing_loses_neither_text_nor_focus():
    async with driven() as driver:
        await driver.type("41 3")
        await driver.until(lambda: driver.app.desk.line.value == "41 3")
        for size in (SMALL, (60, 12), (160, 50), (100, 30)):
            await driver.pilot.resize_terminal(*size)
            await driver.until(lambda size=size: tuple(driver.app.size) == size)
            assert driver.app.desk.line.value == "41 3"
            assert driver.app.focused is driver.app.desk.line
        await driver.type("/8\n")
        await driver.until(lambda: driver.session.state.readings)
        assert slots_read(driver) == [("tank.gray.length", "41 3/8")]


async def test_below_80_by_24_a_plain_message_and_readings_are_still_taken():
    async with driven((60, 12)) as driver:
        await driver.sees("the panes need 80 by 24")
        await driver.take("41")
        assert len(driver.session.state.readings) == 1
        await driver.sees("41 in")


async def test_session_that_another_holds_is_looked_at_and_says_who():
    from logic.data.wording import words

    session = FakeSession()
    session.because = words("held by Ann on tailgate since 09:20")
    async with driven(session=session) as driver:
        await driver.sees("only looked at: held by Ann on tailgate")
        await driver.type("41\n")
        await driver.until(lambda: driver.sent)
        assert driver.app.desk.line.value == "41"


async def test_what_was_refused_stays_until_the_next_number_takes_its_place():
    async with driven() as driver:
        await driver.type("5 9/8\n")
        await driver.sees("below one")
        await driver.until(lambda: driver.app.desk.line.value == "5 9/8")
        await driver.type("41")
        await driver.until(lambda: driver.app.desk.line.value == "41")
        await driver.press("ctrl+z")
        await driver.press("ctrl+z")
        await driver.until(lambda: driver.app.desk.line.value == "5 9/8")


async def test_a_whole_number_typed_fast_on_coming_back_keeps_its_spaces():
    session = FakeSession()
    async with driven(session=session) as driver:
        await driver.take("41")
    async with driven(session=session) as driver:
        await driver.sees("You are back")
        await driver.type("38 1/2")
        await driver.until(lambda: driver.app.desk.line.value == "38 1/2")


async def test_name_that_fits_several_slots_is_asked_about_and_esc_takes_the_question_away():
    async with driven() as driver:
        await driver.type("gray 3")
        await driver.sees("which slot? parts of its name, then the value")
        await driver.press("enter")
        await driver.sees("type one more part of its name")
        assert slots_read(driver) == []
        await driver.press("escape")
        await driver.until(lambda: "type one more part of its name" not in driver.text)
        await driver.sees("gray tank · length, in")
