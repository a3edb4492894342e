"""Words that stand on the screen: names as one says them, no path of the profile, nothing offered that can't be done."""

from tests.screens.driver import driven
from tests.screens.real import TWO_TANKS, at_work
from tests.screens.test_steps_and_punch import in_pane


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
