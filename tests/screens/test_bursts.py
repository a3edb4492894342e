"""Keys in bursts, as from a quick hand or over a slow line: what they leave is a list at rest, its cursor in view.

Random keys, each case by its number. At rest: the cursor's row is whole in view, or its first line heads the list where
the row is higher than that; at the head, what stands above the first row may keep that row out. Laying everything
out once more changes nothing: rows, offset and scroll bar are what they would be without the burst.
"""

import random

import pytest

from tests.screens.driver import LARGE, SMALL
from tests.screens.real import FULL, MISTAKES, TWO_TANKS, assert_painted_whole, at_work
from tests.screens.test_sizes_and_mouse import resized
from tui.panes.row_list import RowList

ARROWS = ("up", "down", "up", "down", "pageup", "pagedown", "home", "end")
FOCUS = ("f5", "f6", "f7", "f8", "tab", "shift+tab", "escape")
DEEDS = ("enter", "ctrl+s", "left", "right", "shift+left", "shift+right", "f12", "f4")
SCREENS = ("f1", "ctrl+t", "ctrl+l", "ctrl+r", "ctrl+f", "ctrl+o")
KINDS = (*[ARROWS] * 5, *[FOCUS] * 3, DEEDS, DEEDS, SCREENS, "0123456789")
OTHER_SIZES = (SMALL, LARGE, (160, 50), (99, 29), (81, 25))
BURSTS, MOST_KEYS = 12, 9


def assert_at_rest(rows: RowList) -> None:
    """What every list holds to once no key is on its way."""
    high, top, count = rows.scrollable_content_region.height, rows.scroll_y, len(rows._lines)
    most = max(0, count - high)
    assert rows.virtual_size.height == count
    assert rows.max_scroll_y == most
    assert 0 <= top <= most
    assert rows.scroll_target_y == top, "the wheel would go on from elsewhere"
    assert rows.show_vertical_scrollbar == (count > high)
    if rows.show_vertical_scrollbar:
        bar = rows.vertical_scrollbar
        assert (bar.window_virtual_size, bar.window_size, bar.position) == (count, high, top)
    laid = rows.lay_out(rows.row_width)
    assert tuple(getattr(laid, "rows", laid)) == rows.rows, "the rows say something else than is seen"
    choosable = [row.key for row in rows.rows if row.choosable]
    if choosable:
        assert_in_view(rows, first=rows.cursor == choosable[0])


def assert_in_view(rows: RowList, *, first: bool) -> None:
    row, high, top = rows.row_of(rows.cursor), rows.scrollable_content_region.height, rows.scroll_y
    assert row is not None
    assert row.choosable
    begins = rows._first_line[row.key]
    if first and top == 0:
        return
    if len(row.lines) > high:
        assert top == begins, (rows.id, row.key)
    else:
        assert top <= begins <= begins + len(row.lines) <= top + high, (rows.id, row.key)


def seen_lists(driver) -> list[RowList]:
    return [rows for rows in driver.app.screen.query(RowList) if rows.display and rows.size]


async def burst(driver, chance: random.Random) -> list[str]:
    """Some keys without a pause; now and then the terminal gets another size among them."""
    keys = [chance.choice(chance.choice(KINDS)) for _ in range(chance.randint(1, MOST_KEYS))]
    at = chance.randint(0, len(keys))
    await driver.press(*keys[:at])
    if chance.random() < 0.2:
        await driver.pilot.resize_terminal(*chance.choice(OTHER_SIZES))
    await driver.press(*keys[at:])
    return keys


@pytest.mark.parametrize("size", [SMALL, LARGE], ids=["80x24", "100x30"])
@pytest.mark.parametrize("rig", [TWO_TANKS, FULL, MISTAKES], ids=["two-tanks", "full-belly", "mistakes"])
@pytest.mark.parametrize("number", range(3))
async def test_after_any_burst_each_list_is_at_rest_and_painted_so(tmp_path, rig, size, number):
    chance = random.Random(f"{rig.stem} {size} {number}")
    async with at_work(rig, tmp_path, size) as driver:
        for _ in range(BURSTS):
            keys = await burst(driver, chance)
            await driver.settle()
            for rows in seen_lists(driver):
                try:
                    assert_at_rest(rows)
                except AssertionError as wrong:
                    raise AssertionError(f"after {keys}\n{driver.text}") from wrong
            assert_painted_whole(driver)
            if driver.app.screen is not driver.app.desk and chance.random() < 0.7:
                await driver.press("escape")
                await driver.settle()


# --- each fault that bursts brought to light, by itself ---


async def test_arrows_after_a_key_of_a_pane_move_in_that_pane(tmp_path):
    async with at_work(TWO_TANKS, tmp_path) as driver:
        target = driver.app.wiring.snapshot().target
        await driver.press("f6", "down", "down", "f7", "down")
        await driver.settle()
        figures, steps = driver.app.desk.pane("figures"), driver.app.desk.pane("steps")
        assert figures.cursor == [row.key for row in figures.rows if row.choosable][2]
        assert driver.app.focused is steps
        assert driver.app.wiring.snapshot().target == target


async def test_page_keys_just_after_a_pane_is_shown_go_a_page(tmp_path):
    async with at_work(FULL, tmp_path, SMALL) as driver:
        await driver.press("f6", "pagedown")
        await driver.settle()
        pane = driver.app.desk.pane("figures")
        await driver.press("home", "pagedown")
        await driver.settle()
        at_once = pane.cursor
        await driver.press("home")
        await driver.settle()
        await driver.press("pagedown")
        await driver.settle()
        assert pane.cursor == at_once
        assert pane._cursor_line() > pane.scrollable_content_region.height // 2


async def test_enter_and_an_arrow_at_once_go_into_what_was_unfolded(tmp_path):
    async with at_work(TWO_TANKS, tmp_path) as driver:
        await driver.press("f5")
        await driver.until(lambda: driver.app.focused.id == "rig")
        pane = driver.app.desk.pane("rig")
        pane.choose("heater.gray-pad")
        await driver.press("enter", "down")
        await driver.settle()
        assert pane.cursor is not None
        assert pane.cursor.startswith("slot:heater.gray-pad.")


async def test_the_entry_chosen_says_its_remedy_as_soon_as_the_punch_list_has_the_focus(tmp_path):
    """Also the one that a weight left alone brings under the cursor."""
    async with at_work(MISTAKES, tmp_path) as driver:
        await driver.press("f8", "right", "right")
        await driver.settle()
        pane = driver.app.desk.pane("punch")
        row = pane.row_of(pane.cursor)
        assert pane.cursor.startswith("entry:")
        assert len(row.lines) > 1
        assert_at_rest(pane)


@pytest.mark.parametrize("keys", [("ctrl+f", "end"), ("ctrl+l", "end"), ("f1", "end")])
async def test_the_scroll_bar_is_where_a_list_was_scrolled_before_it_had_one(tmp_path, keys):
    async with at_work(FULL, tmp_path) as driver:
        await driver.press(*keys)
        await driver.settle()
        rows = driver.app.screen.list
        assert rows.scroll_y == rows.max_scroll_y > 0
        assert rows.vertical_scrollbar.position == rows.scroll_y


async def test_the_wheel_goes_on_from_what_is_seen_where_fewer_lines_are_left(tmp_path):
    async with at_work(FULL, tmp_path, SMALL) as driver:
        await driver.press("f7", "end")
        await driver.settle()
        await resized(driver, (160, 50))
        pane = driver.app.desk.pane("steps")
        assert pane.scroll_target_y == pane.scroll_y > 0


async def test_a_digit_just_after_a_key_of_a_pane_takes_the_focus_to_the_line(tmp_path):
    async with at_work(TWO_TANKS, tmp_path) as driver:
        await driver.press("f7", "4", "1")
        await driver.settle()
        assert driver.app.focused is driver.app.desk.line
        assert driver.app.desk.line.value == "41"


@pytest.mark.parametrize("key", ["ctrl+f", "ctrl+l", "f10"])
async def test_the_other_units_are_shown_in_the_screen_that_lies_over_the_desk(tmp_path, key):
    async with at_work(TWO_TANKS, tmp_path) as driver:
        await driver.press(key)
        await driver.settle()
        rows = driver.app.screen.list
        before = rows.rows
        await driver.press("f12")
        await driver.settle()
        assert rows.rows != before
        assert_at_rest(rows)
