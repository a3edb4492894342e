"""Any size and back while a number is half typed, what is recorded in a window too small, and the mouse.

The mouse does what the keys do: one click chooses a row, a second one opens it, the wheel scrolls.
"""

from itertools import pairwise

import pytest
from textual import events

from tests.screens.driver import driven
from tests.screens.real import (
    FULL,
    MISTAKES,
    TWO_TANKS,
    assert_painted_whole,
    assert_rows_fit,
    at_work,
    opened,
)
from tui.desk import FOUR, ONE, TINY
from tui.screens.choose import Choose
from tui.screens.form import FieldInput, Form

SIZES = {
    (79, 23): TINY, (80, 24): ONE, (99, 29): ONE, (100, 30): FOUR, (160, 50): FOUR, (200, 60): FOUR,
}  # fmt: skip
UP_AND_DOWN = (*SIZES, *reversed(SIZES))
PANES = ("rig", "figures", "steps", "punch")


async def resized(driver, size) -> None:
    """The terminal has another size, and all is painted for it."""
    await driver.pilot.resize_terminal(*size)
    await driver.until(lambda: driver.app.screen.size == size)
    await driver.settle()


# --- sizes ---


async def test_text_half_typed_and_the_focus_stay_through_every_size_and_back(tmp_path):
    async with at_work(TWO_TANKS, tmp_path) as driver:
        line = driver.app.desk.line
        await driver.type("38 1/")
        for size in UP_AND_DOWN:
            await resized(driver, size)
            assert (line.value, line.cursor_position) == ("38 1/", 5)
            assert driver.app.focused is line
            assert driver.app.desk.has_class(SIZES[size])
            assert "38 1/" in driver.text
            assert_painted_whole(driver)
        for size in ((200, 60), (79, 23), (100, 30), (80, 24), (160, 50)):
            await resized(driver, size)
            assert line.value == "38 1/"
        await driver.type("2\n")
        await driver.until(lambda: driver.app.wiring.snapshot().slot("tank.gray.length").readings)
        assert driver.app.wiring.snapshot().slot("tank.gray.length").readings[-1].typed == "38 1/2"


async def test_size_that_changes_between_two_keys_loses_none(tmp_path):
    async with at_work(TWO_TANKS, tmp_path) as driver:
        for sign, size in zip("38 1/2", SIZES, strict=True):
            await driver.press(sign)
            await driver.pilot.resize_terminal(*size)
        await driver.until(lambda: driver.app.desk.line.value == "38 1/2")


async def test_pane_keeps_the_focus_and_its_row_through_the_sizes_that_show_it(tmp_path):
    async with at_work(FULL, tmp_path) as driver:
        for key, name in zip(("f5", "f6", "f7", "f8"), PANES, strict=True):
            await driver.press(key)
            await driver.until(lambda name=name: driver.app.focused.id == name)
            pane = driver.app.desk.pane(name)
            await driver.press(*["down"] * 7)
            await driver.settle()
            row = pane.cursor
            for size in (each for each in UP_AND_DOWN if SIZES[each] is not TINY):
                await resized(driver, size)
                assert driver.app.focused is pane
                assert pane.cursor == row
                assert pane.display
                assert any(line.count("›") for line in driver.lines)
                assert_rows_fit(pane)


async def test_window_too_small_says_so_and_still_records(tmp_path):
    async with at_work(TWO_TANKS, tmp_path) as driver:
        await driver.type("38")
        await resized(driver, (79, 23))
        await driver.sees("The window is 79 by 23: the panes need 80 by 24.", "Readings are still taken")
        await driver.type(" 1/2\n21\n")
        await driver.until(lambda: driver.app.wiring.snapshot().slot("tank.gray.width").readings)
        taken = [driver.app.wiring.snapshot().slot(f"tank.gray.{name}") for name in ("length", "width")]
        assert [view.readings[-1].typed for view in taken] == ["38 1/2", "21"]
        await resized(driver, (30, 8))
        await driver.press("f2")
        await driver.until(lambda: not driver.app.wiring.snapshot().slot("tank.gray.width").readings)
        await resized(driver, (100, 30))
        await driver.sees("Punch list", "single")


async def test_window_too_small_at_the_start_is_no_other(tmp_path):
    async with at_work(TWO_TANKS, tmp_path, (79, 23)) as driver:
        await driver.sees("The window is 79 by 23")
        await driver.type("38 1/2\n")
        await driver.until(lambda: driver.app.wiring.snapshot().slot("tank.gray.length").readings)


@pytest.mark.parametrize("size", [(160, 50), (200, 60)], ids=["160x50", "200x60"])
async def test_large_window_is_used_by_all_four_panes(tmp_path, size):
    async with at_work(FULL, tmp_path, size) as driver:
        await driver.take("41 3/8")
        width, height = size
        panes = [driver.app.desk.pane(name) for name in PANES]
        assert sum(pane.outer_size.width for pane in panes[:2]) == width
        assert sum(pane.outer_size.width for pane in panes[2:]) == width
        assert len({pane.outer_size.width for pane in panes}) == 1
        # Head, alarm and keys take a line each, the dock five.
        assert panes[0].outer_size.height + panes[2].outer_size.height == height - 8
        for pane in panes:
            assert pane.region.width > 0
            assert_rows_fit(pane)
        assert_painted_whole(driver)
        large = driver.app.desk.lines("large")
        assert large.display
        painted = ["".join(segment.text for segment in large.render_line(y)) for y in range(5)]
        assert sum(bool(row.strip()) for row in painted) >= 3
        with_room = sum(len(row.lines) for pane in panes for row in pane.rows)
        await resized(driver, (100, 30))
        assert sum(len(row.lines) for pane in panes for row in pane.rows) >= with_room


@pytest.mark.parametrize(("bigger", "smaller"), list(pairwise(reversed(SIZES))))
async def test_dialog_keeps_what_is_typed_through_another_size(tmp_path, bigger, smaller):
    async with at_work(TWO_TANKS, tmp_path, bigger) as driver:
        await driver.press("f9")
        await driver.until(
            lambda: isinstance(driver.app.screen, Form) and isinstance(driver.app.focused, FieldInput)
        )
        await driver.type("strap bent")
        field = driver.app.focused
        for size in (smaller, bigger):
            await resized(driver, size)
            assert driver.app.focused is field
            assert field.value == "strap bent"
            assert "strap bent" in driver.text


# --- the mouse ---


async def click(driver, widget, y: int) -> None:
    """One click on a line of a list, with no double click made of two."""
    await driver.pilot.click(widget, offset=(6, y))
    await driver.settle()


def line_of(rows, key: str) -> int:
    """Where a row stands in the list as it is scrolled now; a framed list has its frame above it."""
    return rows._first_line[key] - rows.scroll_offset.y + rows.gutter.top


def in_view(rows) -> list[str]:
    """The rows that are seen and can be chosen."""
    height = rows.scrollable_content_region.height
    return [
        row.key
        for row in rows.rows
        if row.choosable and 0 <= rows._first_line[row.key] - rows.scroll_offset.y < height
    ]


@pytest.mark.parametrize("name", PANES)
async def test_click_chooses_a_row_and_a_second_one_opens_it(tmp_path, name):
    async with at_work(TWO_TANKS, tmp_path, (160, 50)) as driver:
        pane = driver.app.desk.pane(name)
        before = pane.cursor
        key = next(
            each
            for each in reversed(in_view(pane))
            if each != before and not each.startswith(("more:", "values:"))
        )
        where = line_of(pane, key)
        await click(driver, pane, where)
        assert pane.cursor == key
        assert driver.app.focused is pane
        assert driver.app.screen is driver.app.desk
        rows = pane.rows
        assert where in range(line_of(pane, key), line_of(pane, key) + len(pane.row_of(key).lines))
        await click(driver, pane, where)
        await driver.until(lambda: driver.app.screen is not driver.app.desk or pane.rows != rows)


async def test_click_in_a_dialog_chooses_and_a_second_one_takes(tmp_path):
    async with at_work(TWO_TANKS, tmp_path) as driver:
        await driver.press("f5", "home", "f4")
        await driver.until(lambda: isinstance(driver.app.screen, Choose) and driver.app.screen.choices.rows)
        rows = driver.app.screen.choices
        key = next(each.id for each in rows.offered() if each.text.startswith("add a tank"))
        await driver.settle()
        await click(driver, rows, line_of(rows, key))
        assert rows.cursor == key
        assert isinstance(driver.app.screen, Choose)
        await click(driver, rows, line_of(rows, key))
        await driver.sees("Add a part")


async def test_click_in_a_full_screen_chooses_and_a_second_one_opens(tmp_path):
    async with at_work(TWO_TANKS, tmp_path) as driver:
        await driver.press("ctrl+g")
        await driver.sees("wiring, every heater on")
        await driver.until(lambda: opened(driver).rows and opened(driver).cursor)
        rows = opened(driver)
        key = "heater:gray-pad"
        await click(driver, rows, line_of(rows, key))
        assert rows.cursor == key
        await click(driver, rows, line_of(rows, key))
        await driver.sees("working: pad gray-pad, volts")


async def test_click_in_a_form_gives_its_field_the_focus(tmp_path):
    async with at_work(TWO_TANKS, tmp_path) as driver:
        await driver.press("f9")
        await driver.until(
            lambda: isinstance(driver.app.screen, Form) and isinstance(driver.app.focused, FieldInput)
        )
        await driver.settle()
        last = driver.app.screen.query(FieldInput).last()
        assert driver.app.focused is not last
        await driver.pilot.click(last)
        await driver.until(lambda: driver.app.focused is last)


@pytest.mark.parametrize("name", PANES)
async def test_wheel_scrolls_a_pane_and_leaves_cursor_and_line_alone(tmp_path, name):
    async with at_work(FULL, tmp_path) as driver:
        await driver.type("41")
        pane = driver.app.desk.pane(name)
        before = pane.cursor
        top = pane.scroll_offset.y
        where = {"widget": pane, "offset": (6, 4)}
        for down, back in (
            (events.MouseScrollDown, events.MouseScrollUp),
            (events.MouseScrollUp, events.MouseScrollDown),
        ):
            if down is events.MouseScrollUp and not top:
                continue
            await driver.pilot._post_mouse_events([down], **where)
            await driver.until(lambda: pane.scroll_offset.y != top)
            await driver.pilot._post_mouse_events([back], **where)
            await driver.until(lambda: pane.scroll_offset.y == top)
        assert pane.cursor == before
        assert driver.app.focused is driver.app.desk.line
        assert driver.app.desk.line.value == "41"


async def test_click_into_the_line_gives_it_the_focus_and_keeps_its_text():
    async with driven() as driver:
        await driver.type("41")
        await driver.press("f6")
        await driver.until(lambda: driver.app.focused.id == "figures")
        await driver.pilot.click("#line", offset=(2, 0))
        await driver.until(lambda: driver.app.focused is driver.app.desk.line)
        await driver.type(" 3/8")
        await driver.until(lambda: driver.app.desk.line.value == "41 3/8")


@pytest.mark.parametrize("name", PANES)
async def test_click_chooses_the_row_that_was_seen_under_it(tmp_path, name):
    """The row that had the cursor before folds away what it said, and the focus brings more: no row may slip away."""
    async with at_work(MISTAKES, tmp_path, (160, 50)) as driver:
        pane = driver.app.desk.pane(name)
        first = next(key for key in in_view(pane) if not key.startswith(("fold:", "group:")))
        clicked = 0
        for key in in_view(pane):
            await driver.press("escape")
            await driver.until(lambda: driver.app.focused is driver.app.desk.line)
            pane.scroll_to(y=0, animate=False, immediate=True)
            pane.choose(first, tell=False)
            await driver.settle()
            if key not in in_view(pane) or key == pane.cursor:
                continue
            await click(driver, pane, line_of(pane, key))
            assert pane.cursor == key
            assert driver.app.screen is driver.app.desk
            clicked += 1
        assert clicked >= 3


@pytest.mark.parametrize("name", PANES)
async def test_click_that_brings_the_focus_to_the_row_of_the_cursor_opens_nothing_yet(tmp_path, name):
    async with at_work(TWO_TANKS, tmp_path, (160, 50)) as driver:
        pane = driver.app.desk.pane(name)
        key, where = pane.cursor, line_of(pane, pane.cursor)
        await click(driver, pane, where)
        assert driver.app.focused is pane
        assert (pane.cursor, driver.app.screen) == (key, driver.app.desk)
        rows = pane.rows
        await click(driver, pane, where)
        await driver.until(lambda: driver.app.screen is not driver.app.desk or pane.rows != rows)
