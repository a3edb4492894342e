"""Keys that come before a screen stands wait for it: a quick hand, a scanner or a paste loses none of them.

Textual hands a key to what has the focus, and a screen that has just been opened has no widget yet.
"""

from textual import events
from textual.screen import Screen, ScreenResultType


class EarlyKeys(Screen[ScreenResultType]):
    """A screen that keeps the keys of its first instants until it has its focus."""

    _stands = False
    _early: tuple[events.Event, ...] = ()

    def _forward_event(self, event: events.Event) -> None:
        if isinstance(event, events.Key) and not self._stands:
            self._early = (*self._early, event)
        else:
            super()._forward_event(event)

    def on_mount(self) -> None:
        """What is composed has its focus by now, by AUTO_FOCUS."""
        self._stands = True
        early, self._early = self._early, ()
        for event in early:
            (self.focused or self)._forward_event(event)
