"""A rig of thirty tanks and sixty heaters with two thousand readings on the screen: all of it is reached, whole.

No test asserts a time; how long it takes is measured by hand.
"""

from contextlib import asynccontextmanager
from typing import Any

import pytest

from tests.screens.big_rig import LONG_COLOUR, LONG_NAME, LONG_WHY, NAMES_LIMIT, READINGS, TANKS, big_session
from tests.screens.driver import LARGE, SMALL, Driven, driven
from tests.screens.fake import FakeClock
from tests.screens.real import assert_painted_whole, assessed, leave, open_by, opened, said_in

PANES = (("f5", "rig"), ("f6", "figures"), ("f7", "steps"), ("f8", "punch"))
SCREENS = ("f10", "ctrl+n", "ctrl+g", "ctrl+t", "ctrl+l", "ctrl+r", "ctrl+f", "ctrl+o")
SIZES = pytest.mark.parametrize("size", [SMALL, LARGE], ids=["80x24", "100x30"])
FIRST = "tank.tank-01.length"


@asynccontextmanager
async def big(home, size: tuple[int, int]) -> Any:
    """The big rig, opened as one that was worked on before; the screen on coming back is left by a key."""
    session, now = big_session(home)
    try:
        async with driven(size, session=session, clock=FakeClock(now.at)) as driver:
            await driver.until(lambda: driver.app.screen is not driver.app.desk)
            await leave(driver)
            yield driver
    finally:
        session.close()


def last_choosable(rows: Any) -> str:
    return [row.key for row in rows.rows if row.choosable][-1]


async def to_both_ends(driver: Driven, rows: Any) -> None:
    """End, then Home: the whole of the last and the first row is seen, and what is painted is as wide as it must be."""
    await driver.press("end")
    await driver.until(lambda: rows.cursor == last_choosable(rows))
    await driver.settle()
    assert_painted_whole(driver)
    row = rows.row_of(rows.cursor)
    below = rows.scroll_offset.y + rows.scrollable_content_region.height
    first = sum(len(each.lines) for each in rows.rows[: rows.rows.index(row)])
    assert rows.scroll_offset.y <= first < first + len(row.lines) <= below
    await driver.press("home")
    await driver.until(lambda: rows.cursor != last_choosable(rows) or len(rows.rows) == 1)
    await driver.settle()
    assert_painted_whole(driver)


@SIZES
async def test_every_pane_of_a_big_rig_is_gone_through_to_its_end_and_painted_whole(tmp_path, size):
    async with big(tmp_path, size) as driver:
        assert len(driver.session.profile.tanks) == TANKS
        assert len(driver.session.profile.heaters) == 2 * TANKS
        assert len(driver.session.state.readings) == READINGS
        assert_painted_whole(driver)
        assert LONG_NAME[:20] in driver.lines[0]
        for key, name in PANES:
            await driver.press(key)
            await driver.until(lambda name=name: driver.app.focused.id == name)
            pane = driver.app.desk.pane(name)
            await driver.until(lambda pane=pane: pane.rows)
            assert len(pane.rows) > pane.scrollable_content_region.height
            await to_both_ends(driver, pane)
            assert pane.max_scroll_x == 0


@SIZES
async def test_every_screen_of_a_big_rig_is_gone_through_to_its_end_and_painted_whole(tmp_path, size):
    async with big(tmp_path, size) as driver:
        for key in SCREENS:
            await open_by(driver, key)
            assert_painted_whole(driver)
            rows = opened(driver)
            if any(row.choosable for row in rows.rows):
                await to_both_ends(driver, rows)
            assert rows.max_scroll_x == 0
            await leave(driver)


@SIZES
async def test_readings_of_a_big_rig_are_typed_in_walking_order_and_by_parts_of_a_name(tmp_path, size):
    async with big(tmp_path, size) as driver:
        assert assessed(driver).wanted[:1] == (FIRST,)
        await driver.sees("tank-01 tank · length")
        await driver.take("41 1/16")
        await driver.type("tank-17 wid")
        await driver.sees("tank-17 tank · width")
        await driver.take(" 24 1/8")
        await driver.type("pad-30-b len")
        await driver.sees("pad-30-b · length")
        await driver.take(" 12")
        taken = [(each.slot, each.typed) for each in driver.session.state.readings[-3:]]
        assert taken == [
            (FIRST, "41 1/16"), ("tank.tank-17.width", "24 1/8"), ("heater.pad-30-b.length", "12"),
        ]  # fmt: skip
        assert_painted_whole(driver)


@SIZES
async def test_names_of_sixty_letters_are_folded_and_none_is_cut(tmp_path, size):
    async with big(tmp_path, size) as driver:
        await open_by(driver, "ctrl+l")
        assert LONG_COLOUR in said_in(driver)
        await leave(driver)
        await open_by(driver, "f10")
        assert LONG_WHY in said_in(driver)
        assert_painted_whole(driver)
        await leave(driver)
        assert all(len(name) == NAMES_LIMIT for name in (LONG_NAME, LONG_WHY, LONG_COLOUR))
