"""Driving the screen in tests: start it on a fake session, wait for what is to be seen, read it as plain text."""

import asyncio
import os
from collections.abc import Callable
from contextlib import asynccontextmanager, suppress
from pathlib import Path
from typing import Any

from textual import events
from textual._context import visible_screen_stack
from textual.keys import _character_to_key

from tests.screens.fake import FakeClock, FakeSession
from tui.app import Bellypan
from tui.show.marks import SIGNS, Marks
from tui.wiring import Wiring

GOLDEN = Path(__file__).parent / "golden"
RENEW = "BELLYPAN_RENEW_GOLDEN"  # set to 1: golden screens are written anew, to be reviewed as a diff
DEADLINE = 10.0
POLL = 0.003  # between two looks at a condition
SMALL, LARGE = (80, 24), (100, 30)


class Driven:
    """A running program with its session and clock."""

    def __init__(self, app: Bellypan, pilot: Any, session: FakeSession, clock: FakeClock) -> None:
        self.app, self.pilot, self.session, self.clock = app, pilot, session, clock

    @property
    def lines(self) -> list[str]:
        """The screen as plain text, a dialog over what lies below it."""
        visible_screen_stack.set(self.app._background_screens)
        strips = self.app.screen._compositor.render_strips()
        return ["".join(segment.text for segment in strip).rstrip() for strip in strips]

    @property
    def text(self) -> str:
        return "\n".join(self.lines)

    async def until(self, condition: Callable[[], Any], *, deadline: float = DEADLINE) -> None:
        """Wait for a condition, and for what the keys so far still bring; fail with what was last seen.

        What the next line of a test looks at is thus never a frame behind what it waited for.
        """
        await self._wait(condition, deadline)
        await self.settle()

    async def _wait(self, condition: Callable[[], Any], deadline: float = DEADLINE) -> None:
        loop = asyncio.get_running_loop()
        end = loop.time() + deadline
        while not condition():
            if loop.time() > end:
                raise AssertionError(f"not seen within {deadline} s; the screen:\n{self.text}")
            await asyncio.sleep(POLL)

    async def settle(self) -> None:
        """Wait until the keys sent so far are dealt with, and what came of them is painted: for what must not happen.

        A key goes from the app to what has the focus, and what that asks for comes back to the screen and the app.
        """
        for _ in range(2):
            if self.app._exit or not self.app.screen_stack:
                return
            come = asyncio.Event()
            if self.app.call_later(come.set):  # behind the last key, which may wait for its turn then
                await self._come(come)
            await self._wait(lambda: self.app.all_keys_taken or self.app._exit)
            for pump in (self.app, self.app.focused or self.app.screen, self.app.screen, self.app):
                done = asyncio.Event()
                if pump.call_later(done.set):
                    await self._come(done)
            painted = asyncio.Event()
            if self.app.screen.call_after_refresh(painted.set):
                await self._come(painted)

    async def _come(self, event: asyncio.Event) -> None:
        """Wait for what a pump was asked to do, unless the program is left before."""
        loop = asyncio.get_running_loop()
        end = loop.time() + DEADLINE
        while not event.is_set() and not self.app._exit:
            assert loop.time() < end, f"not dealt with within {DEADLINE} s; the screen:\n{self.text}"
            with suppress(TimeoutError):
                await asyncio.wait_for(event.wait(), timeout=0.1)

    async def sees(self, *texts: str) -> None:
        """Wait until all of these stand on the screen."""
        await self.until(lambda: all(text in self.text for text in texts))

    async def type(self, typed: str) -> None:
        """Send the keys of a text; a line break is Enter."""
        await self.press(*("enter" if sign == "\n" else sign for sign in typed))

    async def press(self, *keys: str) -> None:
        """Send keys as the terminal's driver does, in order, without waiting for each to be done."""
        driver = self.app._driver
        assert driver is not None
        for key in keys:
            name = key if len(key) > 1 or key.isalnum() else _character_to_key(key)
            event = events.Key(name, key if len(key) == 1 else None)
            event.set_sender(self.app)
            driver.send_message(event)
            await asyncio.sleep(0)

    async def take(self, typed: str) -> None:
        """Type a reading, and wait until it was sent and the line is empty again."""
        before = self.acts
        await self.type(f"{typed}\n")
        await self.until(lambda: self.acts > before and not self.app.desk.line.value)
        self.clock.on(30.0)

    @property
    def acts(self) -> int:
        """How many intents were sent; of a real session, how many events it has."""
        return len(getattr(self.session, "sent", self.session.events))

    @property
    def sent(self) -> list[Any]:
        return self.session.sent


@asynccontextmanager
async def driven(
    size: tuple[int, int] = LARGE,
    *,
    session: FakeSession | None = None,
    clock: FakeClock | None = None,
    marks: Marks = SIGNS,
) -> Any:
    """The program on a fake session, the first frame standing."""
    clock = clock or FakeClock()
    session = session or FakeSession()
    app = Bellypan(lambda: Wiring(session, marks=marks, now=clock), marks=marks)
    async with app.run_test(size=size, notifications=True, tooltips=True) as pilot:
        driver = Driven(app, pilot, session, clock)
        await driver.until(lambda: app.screen_stack and app.desk.line.taker and "owed" in driver.text)
        yield driver
        await driver.settle()  # keys that are still on their way want a screen


def same_as_golden(name: str, text: str) -> None:
    """Whether a screen is what its golden file says; with the flag set, the file is written instead."""
    path = GOLDEN / f"{name}.txt"
    if os.environ.get(RENEW) == "1":
        path.write_text(f"{text}\n", encoding="utf-8")
        return
    assert path.exists(), f"no golden screen {name}: set {RENEW}=1 to write it, and review it"
    assert text.rstrip("\n") == path.read_text(encoding="utf-8").rstrip("\n")
