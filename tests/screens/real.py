"""Driving the screen on a real session, on the disk: what it shows is compared with what the session says.

A golden screen says how a thing looks; here is what a screen must say, taken from the assessment and put into
text by the project's one formatter.
"""

from collections.abc import Callable
from contextlib import asynccontextmanager
from pathlib import Path
from typing import Any

from textual._styles_cache import StylesCache
from textual.geometry import Region
from textual.strip import Strip

from logic.data.profile_file import load_profile
from logic.data.state import Assessment
from logic.session.session import Session, new_session
from tests.screens.driver import LARGE, Driven, driven
from tests.screens.fake import FakeClock
from tui.panes.row_list import RowList
from tui.show import numbers
from tui.show.cells import width_of
from tui.show.rows import line_width, text_of

RIGS = Path(__file__).parents[2] / "rigs"
TWO_TANKS, MISTAKES, FULL = (RIGS / f"{name}.toml" for name in ("two-tanks", "with-mistakes", "full-belly"))


def session_of(rig: Path, home: Path, clock: FakeClock) -> Session:
    """A new session of a rig's file, kept under `home`."""
    return new_session(load_profile(rig), clock(), home=home, by="R. Tester")


@asynccontextmanager
async def at_work(
    rig: Path, home: Path, size: tuple[int, int] = LARGE, *, before: Callable[[Session], Any] | None = None
) -> Any:
    """The program on a new session of a rig's file. `before`: what happens to the session before it is shown."""
    clock = FakeClock()
    session = session_of(rig, home, clock)
    if before is not None:
        before(session)
    try:
        async with driven(size, session=session, clock=clock) as driver:  # type: ignore[arg-type]
            yield driver
    finally:
        session.close()


def assessed(driver: Driven) -> Assessment:
    """What the screen has before it: the same assessment, not one of a second later."""
    return driver.app.wiring.snapshot().assessment


def shown(driver: Driven, figure_id: str) -> str:
    """A figure's value as the one formatter says it."""
    figure = next(each for each in assessed(driver).figures if each.id == figure_id)
    return numbers.figure_text(figure, driver.app.wiring.snapshot().units).value


def opened(driver: Driven) -> Any:
    """The list of the screen that lies over the desk."""
    return driver.app.screen.list


def whole(rows: RowList) -> str:
    """All that a list says, also what is scrolled out of sight; runs of blanks as one."""
    return " ".join(" ".join(text_of(line) for row in rows.rows for line in row.lines).split())


def said_in(driver: Driven) -> str:
    return whole(opened(driver))


def assert_rows_fit(rows: RowList) -> None:
    """No row is wider than the list, so that none is cut; nothing scrolls sideways."""
    assert rows.rows
    for row in rows.rows:
        for each in row.lines:
            assert line_width(each) <= rows.row_width, text_of(each)
    assert rows.max_scroll_x == 0


def assert_painted_whole(driver: Driven) -> None:
    """Each line is exactly as wide as the screen, nothing shifted by a letter of another width, and nothing stale."""
    width, height = driver.app.size
    strips = driver.app.screen._compositor.render_strips()
    assert len(strips) == height
    assert_painted_anew_the_same(driver, strips)
    for strip in strips:
        assert sum(width_of(segment.text) for segment in strip if not segment.control) == width, strip
    for widget in driver.app.screen.query(RowList):
        inner = widget.scrollable_content_region
        for y in range(Region.from_offset((0, 0), inner.size).height):
            strip = widget.render_line(y)
            assert strip.cell_length == sum(width_of(segment.text) for segment in strip) == inner.width


def assert_painted_anew_the_same(driver: Driven, strips: list[Strip]) -> None:
    """What each widget keeps of its last painting is what it would paint now, with nothing kept."""
    compositor = driver.app.screen._compositor
    caches = {widget: widget._styles_cache for widget in compositor.visible_widgets}
    for widget in caches:
        widget.notify_style_update()
        widget._styles_cache = StylesCache()
    fresh = compositor.render_strips()
    for widget, cache in caches.items():
        widget._styles_cache = cache
    for y, (kept, anew) in enumerate(zip(strips, fresh, strict=True)):
        assert kept.simplify() == anew.simplify(), f"line {y}"


async def open_by(driver: Driven, key: str, *texts: str) -> None:
    """Open a screen by its key, from the line."""
    await driver.press(key)
    await driver.until(lambda: driver.app.screen is not driver.app.desk and driver.app.screen.is_mounted)
    await driver.until(lambda: opened(driver).rows and driver.app.focused is opened(driver))
    await driver.sees(*texts)


async def leave(driver: Driven, focus: str = "line") -> None:
    """Esc: back on the desk, the focus where it was."""
    await driver.press("escape")
    await driver.until(lambda: driver.app.screen is driver.app.desk)
    await driver.until(lambda: driver.app.focused is not None and driver.app.focused.id == focus)
