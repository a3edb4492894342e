"""Keys that come before a screen stands wait for it: a quick hand, a scanner or a paste loses none of them.

Textual hands a key to what has the focus, and a screen that has just been opened has no widget yet.
"""

from textual import events
from textual.screen import Screen, ScreenResultType

from tui.panes.in_order import obeyed_at_once, pass_on


class EarlyKeys(Screen[ScreenResultType]):
    """A screen that keeps the keys of its first instants until it has its focus."""

    _stands = False
    _early: tuple[events.Event, ...] = ()

    @property
    def stands(self) -> bool:
        """Whether it can take keys: it has its widgets and its focus."""
        return self._stands

    def _forward_event(self, event: events.Event) -> None:
        if isinstance(event, events.Key) and not self._stands:
            self._early = (*self._early, event)
        else:
            super()._forward_event(event)

    async def _on_key(self, event: events.Key) -> None:
        """Where no widget has the focus: at once as well, and to the next screen where this one is left."""
        if self.focused is not None:
            return
        if self.app.screen is not self:
            pass_on(event, self)
        else:
            await obeyed_at_once(event, self)

    def on_mount(self) -> None:
        """What is composed has its focus by now, by AUTO_FOCUS."""
        self._stands = True
        early, self._early = self._early, ()
        for event in early:
            (self.focused or self)._forward_event(event)
