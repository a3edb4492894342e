"""Keys one after the other, also where one of them opens a screen, leaves one, or moves the focus.

Textual gives each key at once to what has the focus, and what it does may come later: a key typed after Enter then
went to the box that Enter was about to close, and letters of one word to two places. A quick hand, a paste, or a
terminal that was held up makes such bursts. Here a key waits until what the one before asked for has come about. What
follows a letter in the same field waits for nothing: it comes to the field behind it.
"""

import asyncio
from collections import deque
from functools import partial
from typing import Any

from textual import events
from textual.app import App
from textual.dom import DOMNode
from textual.message_pump import MessagePump
from textual.widgets import Input

PAUSE, PATIENCE = 0.001, 1.0  # s between two looks at what the next key waits for, and for how long


class KeysInTurn(App[Any]):
    """An app that takes keys and pastes in turn."""

    def __init__(self) -> None:
        super().__init__()
        self._turns: deque[events.Event] = deque()  # keys that wait
        self._last: tuple[events.Event, MessagePump] | None = None  # the key before, and what it was given to
        self._followed = 0  # counts the ways gone: one that was given up comes to nothing
        self._patient_until = 0.0
        self._alarm: asyncio.TimerHandle | None = None

    @property
    def all_keys_taken(self) -> bool:
        """Whether no key waits for its turn."""
        return not self._turns

    async def on_event(self, event: events.Event) -> None:
        if not isinstance(event, events.Key | events.Paste) or event.is_forwarded:
            await super().on_event(event)
        elif self._turns:
            self._turns.append(event)
        elif self._must_wait(event):
            self._turns.append(event)
            self._follow()
        else:
            await self._give(event)

    def _target(self) -> MessagePump:
        return self.focused or (self.screen if self.screen_stack else self)

    def _must_wait(self, event: events.Event) -> bool:
        if self._last is None:
            return False
        before, given_to = self._last
        if given_to is not self._target() or not _is_a_letter(before, given_to):
            return True
        return isinstance(event, events.Key) and self._is_obeyed_here(event.key)

    def _is_obeyed_here(self, key: str) -> bool:
        """Whether a key does something before it comes to the field that has the focus."""
        found = (each.key_to_bindings.get(key, ()) for _, each in self.screen._binding_chain)
        return any(binding.priority for bindings in found for binding in bindings)

    async def _give(self, event: events.Event) -> None:
        self._last = event, self._target()
        await super().on_event(event)

    def _follow(self) -> None:
        """Come back once the last key is through: behind it in the queue of each that it may go to on its way up."""
        assert self._last is not None
        given_to = self._last[1]
        above = given_to.ancestors_with_self if isinstance(given_to, DOMNode) else []
        self._patient_until = asyncio.get_running_loop().time() + PATIENCE
        self._hop([each for each in above if each is not self], self._followed)

    def _hop(self, way: list[MessagePump], followed: int) -> None:
        if followed != self._followed:
            return
        while way:
            pump, *way = way
            if pump.call_later(self._hop, way, followed):
                # What is on its way out may go without a word.
                self._set_alarm(partial(self._still_there, pump, way))
                return
        self._look()

    def _still_there(self, pump: MessagePump, way: list[MessagePump]) -> None:
        if pump.is_running and not pump._closing:
            self._set_alarm(partial(self._still_there, pump, way))
        else:
            self._followed += 1
            self._hop(way, self._followed)

    def _set_alarm(self, call: Any) -> None:
        if self._alarm is not None:
            self._alarm.cancel()
        self._alarm = asyncio.get_running_loop().call_later(PAUSE, call)

    def _look(self) -> None:
        """Look whether all has come about, behind what has come up to the app."""
        self.call_later(self._next_turn)

    def _is_settled(self) -> bool:
        """Whether what takes the next key stands, and nothing more is on its way to it."""
        if not self.screen_stack:
            return True
        screen = self.screen
        if not all(getattr(each, "stands", True) for each in (screen, self.focused)):
            return False
        return not any(node.message_queue_size for node in (screen, *screen.walk_children()))

    async def _next_turn(self) -> None:
        """Once all has come about, give the next keys, until one of them may move something again."""
        if not self._is_settled() and asyncio.get_running_loop().time() < self._patient_until:
            self._set_alarm(self._look)
            return
        if self._alarm is not None:
            self._alarm.cancel()
            self._alarm = None
        self._followed += 1
        self._last = None
        while self._turns and not self._exit:
            if self._must_wait(self._turns[0]):
                self._follow()
                return
            await self._give(self._turns.popleft())


def _is_a_letter(event: events.Event, target: MessagePump) -> bool:
    """Whether a field takes it as text and does nothing else; `?` in an empty line is none."""
    return (
        isinstance(event, events.Key)
        and event.is_printable
        and event.character != "?"
        and isinstance(target, Input)
    )
