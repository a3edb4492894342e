"""Keys are taken strictly in the order in which they were pressed.

Textual carries out an input's own keys (Enter, backspace, arrows) and those of the app (F4) only once they have
bubbled up to the app, while letters are taken at once: in a burst, a letter typed after Enter would come before it.
And keys that were already on their way when the focus moved would stay behind. A scanner, a paste or a quick hand
makes such bursts.
"""

from typing import Any, Self

from rich.style import Style
from textual import events
from textual.geometry import Region, Size
from textual.strip import Strip
from textual.widget import Widget
from textual.widgets import Input

from logic.data.clean_text import clean_piece
from tui.panes.kept_strips import keep_strips


class InOrder(Input):
    """An input that obeys its own keys at once, and passes on what came too late for it."""

    def __init__(self, *args: Any, **named: Any) -> None:
        self._being_laid_out = False
        self._wholly_stale = False  # all of it is to be painted anew already
        self._looks: dict[tuple[object, ...], Style] = {}
        super().__init__(*args, **named)
        keep_strips(self)

    def _size_updated(
        self, size: Size, virtual_size: Size, container_size: Size, layout: bool = True
    ) -> bool:
        """What is laid out anew is painted with the rest: Textual's own would paint it once more, a frame later."""
        self._being_laid_out = True
        try:
            return super()._size_updated(size, virtual_size, container_size, layout)
        finally:
            self._being_laid_out = False

    def refresh(
        self, *regions: Region, repaint: bool = True, layout: bool = False, recompose: bool = False
    ) -> Self:
        """What is typed moves nothing else: an input whose size doesn't hang on its text asks for no layout.

        Textual's own asks for one with every key, and with it all scroll bars of the screen are painted anew.
        """
        moves = layout and (not self.size or self.styles.auto_dimensions)
        if self._being_laid_out or (self._wholly_stale and not moves and not recompose):
            return self
        self._wholly_stale = self.is_mounted and repaint and not regions
        return super().refresh(*regions, repaint=repaint, layout=moves, recompose=recompose)

    def render_lines(self, crop: Region) -> list[Strip]:
        self._wholly_stale = False
        return super().render_lines(crop)

    def notify_style_update(self) -> None:
        super().notify_style_update()
        self._looks.clear()

    @property
    def rich_style(self) -> Style:
        """Worked out once for each theme and focus; Textual's own is with every paint."""
        if () not in self._looks:
            self._looks[()] = super().rich_style
        return self._looks[()]

    def get_component_rich_style(
        self, *names: str, partial: bool = False, default: Style | None = None
    ) -> Style:
        asked = (*names, partial)
        if asked not in self._looks:
            self._looks[asked] = super().get_component_rich_style(*names, partial=partial, default=default)
        return self._looks[asked]

    def _on_paste(self, event: events.Paste) -> None:
        event.stop()
        event.prevent_default()
        self.paste(event.text)

    def paste(self, text: str) -> None:
        """Take all of it, in one line and without what a terminal would obey: Textual's own takes the first line."""
        text = self.pasted(text)
        if text:
            self.replace(text, *self.selection)

    def pasted(self, text: str) -> str:
        """What a paste comes to."""
        return clean_piece(text)

    async def _on_key(self, event: events.Key) -> None:
        if has_lost_focus(self):
            pass_on(event, self)
            return
        if not await self.obeyed(event):
            await super()._on_key(event)

    async def obeyed(self, event: events.Key) -> bool:
        """Carry out one of the input's own keys; whether it was one."""
        for binding in self._bindings.key_to_bindings.get(event.key, ()):
            event.stop()
            event.prevent_default()
            await self.run_action(binding.action)
            return True
        return await obeyed_at_once(event, self)


async def obeyed_at_once(event: events.Key, widget: Widget) -> bool:
    """Carry out what a key does in the app or its screen, before the next key comes to the widget; whether it did."""
    if event.is_printable or not await widget.app._check_bindings(event.key):
        return False
    event.stop()
    event.prevent_default()
    return True


def has_lost_focus(widget: Widget) -> bool:
    """Whether the focus has moved on while a key was on its way to a widget."""
    focused = widget.app.focused
    return focused is not widget and (focused is not None or widget.app.screen is not widget.screen)


def pass_on(event: events.Key, widget: Widget) -> None:
    """Give a key that came too late for a widget to what has the focus now, or to the screen that will have it."""
    event.stop()
    event.prevent_default()
    (widget.app.focused or widget.app.screen)._forward_event(events.Key(event.key, event.character))
