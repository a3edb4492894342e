"""Random keys on the screen, a few cases of the long run: `python -m tests.fuzz.screen_keys`."""

import pytest

from tests.fuzz.screen_keys import case, start_case
from tests.screens.driver import LARGE
from tests.screens.real import TWO_TANKS, at_work
from tests.screens.terminal_beside import terminal_beside


@pytest.mark.parametrize("number", [1_000_002, 2_000_001, 2_000_002])
async def test_random_keys_leave_the_screen_whole_and_lose_nothing(number, tmp_path, monkeypatch):
    monkeypatch.chdir(tmp_path)
    with terminal_beside() as terminal:
        done = await case(number, tmp_path / "kept", terminal, bursts=12)
    assert done["events"] > 0


@pytest.mark.parametrize("number", [7, 10])
async def test_random_keys_in_the_first_list_end_nothing(number, tmp_path, monkeypatch):
    monkeypatch.setenv("BELLYPAN_HOME", str(tmp_path))
    with terminal_beside() as terminal:
        assert await start_case(number, tmp_path, terminal, bursts=12)


@pytest.mark.parametrize("key", ["pagedown", "pageup", "end", "down", "enter"])
async def test_keys_in_the_palette_before_its_list_has_a_height_end_nothing(key, tmp_path):
    async with at_work(TWO_TANKS, tmp_path, LARGE) as driver:
        await driver.press("ctrl+p", key)
        await driver.settle()
        await driver.pilot.resize_terminal(60, 3)
        await driver.press(key)
        await driver.settle()
        assert driver.app.is_running


async def test_two_enters_at_once_in_the_palette_choose_once(tmp_path):
    async with at_work(TWO_TANKS, tmp_path, LARGE) as driver:
        await driver.take("gray wall 1/4")
        await driver.take("gray wall 3/8")
        await driver.press("ctrl+p")
        await driver.type("take the last")
        await driver.sees("Take the last reading back")
        await driver.press("down", "enter", "enter", "enter")
        await driver.until(lambda: driver.app.screen is driver.app.desk)
        await driver.until(lambda: driver.session.state.readings[-1].struck)
        await driver.settle()
        assert [each.struck for each in driver.session.state.readings] == [False, True]


async def test_the_palette_opens_once_whatever_lies_over_it(tmp_path):
    """The screen on coming back comes over it by itself; a second palette, opened there, ended it all."""
    async with at_work(TWO_TANKS, tmp_path, LARGE) as driver:
        await driver.press("ctrl+p")
        await driver.until(lambda: len(driver.app.screen_stack) == 2)
        driver.clock.on(3600.0)
        driver.app.tick()
        await driver.until(lambda: len(driver.app.screen_stack) == 3)
        await driver.press("ctrl+p")
        await driver.settle()
        assert len(driver.app.screen_stack) <= 3
        assert driver.app.is_running
