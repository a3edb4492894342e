"""A terminal beside a driven program: what all that it wrote, frame after frame, has left on the screen.

A frame writes only what differs. What would be painted now may be right while a frame before it left something out.
"""

from collections.abc import Iterator
from contextlib import contextmanager

import pyte
from textual.drivers.headless_driver import HeadlessDriver

from tests.screens.driver import Driven


class Beside:
    """The terminal of the program that runs."""

    def __init__(self) -> None:
        self.screen = pyte.Screen(80, 24)
        self.stream = pyte.Stream(self.screen)
        self.program: object = None

    def take(self, driver: HeadlessDriver, data: str) -> None:
        """What a program writes; another program begins with an empty screen."""
        if driver is not self.program:
            self.program = driver
            self.screen.reset()
        size = driver._app.size
        if (self.screen.columns, self.screen.lines) != tuple(size):
            self.screen.resize(size.height, size.width)
        self.stream.feed(data)

    def lines(self) -> list[str]:
        return [line.rstrip() for line in self.screen.display]

    async def shows_what_is_painted(self, driver: Driven) -> None:
        """Wait until it does: the last frame may be on its way. Raises AssertionError with the lines that differ."""
        try:
            await driver._wait(lambda: self.lines() == driver.lines, 3.0)
        except AssertionError:
            both = zip(self.lines(), driver.lines, strict=True)
            differ = [f"line {y}: {old!r} for {new!r}" for y, (old, new) in enumerate(both) if old != new]
            raise AssertionError("left on the terminal:\n" + "\n".join(differ)) from None


@contextmanager
def terminal_beside() -> Iterator[Beside]:
    """Programs driven within this write to a terminal."""
    beside = Beside()
    kept = {name: HeadlessDriver.__dict__[name] for name in ("is_headless", "write")}
    HeadlessDriver.is_headless = property(lambda _: False)  # type: ignore[method-assign,assignment]
    HeadlessDriver.write = lambda driver, data: beside.take(driver, data)  # type: ignore[method-assign]
    try:
        yield beside
    finally:
        for name, value in kept.items():
            setattr(HeadlessDriver, name, value)
