"""Golden screens as plain text, at 80×24 and at 100×30, in the states that matter. An unused golden fails.

They guard today's look and nothing else; renew them with BELLYPAN_RENEW_GOLDEN=1 and review the difference.
"""

import pytest

from tests.screens.driver import GOLDEN, LARGE, SMALL, driven, same_as_golden
from tests.screens.fake import FakeSession
from tests.screens.test_more_screens import LOOKS
from tui.show.cells import width_of
from tui.show.marks import LETTERS

SIZES = {"80x24": SMALL, "100x30": LARGE}


async def fresh(driver) -> None:
    """The first frame of a new session."""


async def readings(driver) -> None:
    """Three readings, the last of them just taken; an item written."""
    for typed in ("41 3/8", "24", "9 1/2"):
        await driver.take(typed)
    await driver.sees("9 1/2 in")


async def dispute(driver) -> None:
    """The first pass of the gray tank, then a second reading an inch off."""
    for typed in ("41", "24", "9", "38", "12"):
        await driver.take(typed)
    await driver.take("gray tank len 42")
    await driver.sees("in dispute")


async def refused(driver) -> None:
    await driver.type("413/8\n")
    await driver.sees("51 5/8")


async def steps_pane(driver) -> None:
    """The Steps pane, one step at work, one held."""
    await driver.press("f7")
    await driver.until(lambda: driver.app.desk.pane("steps").has_focus)
    pane = driver.app.desk.pane("steps")
    pane.choose("step:survey:tank.gray")
    await driver.press("ctrl+s")
    await driver.sees("until 15:50")
    await driver.settle()
    pane.choose("step:bond-pad:heater.gray-a")
    await driver.sees("Solvent vapour")


async def punch_pane(driver) -> None:
    """The Punch list, an entry chosen."""
    await driver.press("f8")
    await driver.until(lambda: driver.app.focused.id == "punch" and driver.app.focused.cursor)
    await driver.press("down", "down", "down", "down")
    await driver.sees("a wrap on it")


async def help_screen(driver) -> None:
    await driver.press("f1")
    await driver.sees("Always")


async def working(driver) -> None:
    await driver.take("41")
    await driver.press("f6")
    await driver.until(lambda: driver.app.focused.id == "figures" and driver.app.focused.rows)
    await driver.press("enter")
    await driver.sees("How it is worked out", "Hangs on")


async def menu(driver) -> None:
    await driver.press("f5")
    await driver.until(lambda: driver.app.focused.id == "rig")
    await driver.press("f4")
    await driver.sees("what the profile says")


async def write_item(driver) -> None:
    await driver.press("f9")
    await driver.sees("what is to be done")
    await driver.type("clamp by the axle")
    await driver.sees("clamp by the axle")


async def palette(driver) -> None:
    await driver.press("f12")
    await driver.sees("shown in mm")


async def day(driver) -> None:
    await driver.take("41 3/8")
    await driver.press("ctrl+r")
    await driver.sees("session begun")


async def what_if(driver) -> None:
    await driver.press("ctrl+o")
    await driver.sees("nothing is recorded until you keep it")


async def last_walk(driver) -> None:
    await driver.press("ctrl+f")
    await driver.sees("the last walk: all that will be out of sight", "1 of ")


STATES = {
    "fresh": fresh, "readings": readings, "dispute": dispute, "refused": refused, "steps": steps_pane,
    "punch": punch_pane, "help": help_screen, "working": working, "menu": menu, "item": write_item,
    "metric": palette, "day": day, "what-if": what_if,
    "last-walk": last_walk,
}  # fmt: skip


@pytest.mark.parametrize("size", SIZES)
@pytest.mark.parametrize("state", STATES)
async def test_screen_is_as_reviewed(state, size):
    async with driven(SIZES[size]) as driver:
        await STATES[state](driver)
        await driver.settle()
        assert_fits(driver, SIZES[size])
        same_as_golden(f"{state}-{size}", driver.text)


async def test_screen_in_plain_ascii_is_as_reviewed():
    async with driven(SMALL, marks=LETTERS) as driver:
        await driver.take("41 3/8")
        await driver.settle()
        # The degree sign, ± and × stand in numbers; marks and frames do not go beyond ASCII.
        assert not {"▾", "•", "›", "╭", "│", "■", "✓"} & set(driver.text)
        same_as_golden("ascii-80x24", driver.text)


async def test_coming_back_is_as_reviewed():
    session = FakeSession()
    async with driven(session=session) as driver:
        await driver.take("41")
    async with driven(session=session) as driver:
        await driver.sees("You are back")
        await driver.settle()
        same_as_golden("back-100x30", driver.text)


def test_no_golden_is_unused():
    known = {f"{state}-{size}.txt" for state in (*STATES, *LOOKS) for size in SIZES}
    known |= {"ascii-80x24.txt", "back-100x30.txt"}
    assert {path.name for path in GOLDEN.iterdir()} <= known


def assert_fits(driver, size) -> None:
    """Nothing goes beyond the screen, and nothing scrolls sideways."""
    width, height = size
    assert len(driver.lines) == height
    assert all(width_of(line) <= width for line in driver.lines)
    for pane in driver.app.desk.panes:
        if not pane.display:
            continue
        assert not pane.show_horizontal_scrollbar
        assert pane.max_scroll_x == 0
