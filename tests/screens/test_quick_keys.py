"""Keys typed within an instant of the key that opens a list, a form or a screen: each arrives, in order.

They are sent as the terminal's driver sends them, one after the other, with no wait for what they do.
"""

import pytest

from logic.session.intents import RecordReading
from tests.screens.real import TWO_TANKS, at_work
from tests.screens.test_steps_and_punch import in_pane

NAMED = ("enter", "escape", "down", "f2", "f4", "f9", "f10", "ctrl+p")


async def burst(driver, *keys):
    """All keys at once: a word of several letters is typed, a key's name is pressed."""
    await driver.press(*(sign for key in keys for sign in ((key,) if key in NAMED else key)))


@pytest.mark.parametrize("by", ["name", "number"])
async def test_a_list_that_has_just_been_opened_takes_what_is_typed_at_once(tmp_path, by):
    """What narrows it, the Enter that takes it, and the answers of the form that follows."""
    async with at_work(TWO_TANKS, tmp_path) as driver:
        await in_pane(driver, "f7", "steps", "step:parts-bought:rig")
        how = ("hold", "enter") if by == "name" else ("3",)
        await burst(driver, "f4", *how, "rain", "enter")
        await driver.until(lambda: driver.session.state.steps)
        held = driver.session.state.steps[-1]
        assert (held.step, held.kind, held.note) == ("parts-bought:rig", "held", "rain")
        assert driver.app.desk.line.value == ""


async def test_arrows_and_enter_in_a_list_that_has_just_been_opened(tmp_path):
    async with at_work(TWO_TANKS, tmp_path) as driver:
        await in_pane(driver, "f7", "steps", "step:parts-bought:rig")
        await burst(driver, "f4", "down", "down", "enter", "dark", "enter")
        await driver.until(lambda: driver.session.state.steps)
        assert (driver.session.state.steps[-1].kind, driver.session.state.steps[-1].note) == ("held", "dark")


async def test_a_form_opened_from_the_line_takes_what_is_typed_at_once(tmp_path):
    async with at_work(TWO_TANKS, tmp_path) as driver:
        await burst(driver, "f9", "strap", "enter", "enter")
        await driver.until(lambda: driver.session.state.items or driver.app.screen is not driver.app.desk)
        await driver.sees("strap")
        assert driver.app.desk.line.value == ""


async def test_take_back_comes_before_the_reading_that_was_typed_after_it(tmp_path):
    async with at_work(TWO_TANKS, tmp_path) as driver:
        driver.app.send(RecordReading("tank.gray.wall", "1/4"))
        await burst(driver, "gray wall 1/2", "enter", "f2", "gray wall 3/8", "enter")
        await driver.until(lambda: len(driver.session.state.readings) == 3)
        assert [(each.typed, each.struck) for each in driver.session.state.readings] == [
            ("1/4", False), ("1/2", True), ("3/8", False)
        ]  # fmt: skip


async def test_a_screen_opened_and_left_at_once_leaves_the_line_what_was_typed_after_it(tmp_path):
    async with at_work(TWO_TANKS, tmp_path) as driver:
        await burst(driver, "f10", "escape", "38 1/2", "enter")
        await driver.until(lambda: driver.session.state.readings)
        assert driver.session.state.readings[-1].typed == "38 1/2"


async def test_the_palette_takes_what_is_typed_at_once(tmp_path):
    async with at_work(TWO_TANKS, tmp_path) as driver:
        await burst(driver, "ctrl+p", "swap last")
        await driver.until(lambda: driver.app.screen is not driver.app.desk)
        await driver.until(lambda: driver.app.screen.query_one("Input").value == "swap last")
        assert driver.app.desk.line.value == ""


async def test_a_palette_whose_list_went_before_it_takes_no_key_and_ends_nothing(tmp_path):
    """While it is taken away, its parts go first; a key may wait for it to stand at that very moment."""
    async with at_work(TWO_TANKS, tmp_path) as driver:
        await driver.press("ctrl+p")
        await driver.until(lambda: driver.app.screen is not driver.app.desk and driver.app.screen.stands)
        palette = driver.app.screen
        await palette.query_one("CommandList").remove()
        assert not palette.stands
        assert not driver.app._is_settled()
        palette.dismiss()
        await driver.until(lambda: driver.app.screen is driver.app.desk and driver.app._is_settled())
