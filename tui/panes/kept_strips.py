"""What a widget painted last, kept until something of it is to be painted anew.

Textual asks every widget that lies between the outermost changes for all its lines, and goes through styles, titles
and filters of each to find the lines it knows already. Here a widget at rest answers at once, and one that changed
works out the lines from the first to the last of what changed.
"""

from textual._styles_cache import StylesCache
from textual.geometry import Region
from textual.strip import Strip
from textual.widget import Widget


class KeptStrips(StylesCache):
    """Textual's own lines of a widget, and beside them the whole answer given last."""

    def __init__(self) -> None:
        super().__init__()
        self._asked: tuple[object, ...] = ()  # for what the answer was given; (): there is none
        self._answer: list[Strip] = []

    def clear(self) -> None:
        super().clear()
        self._asked = ()

    def render_widget(self, widget: Widget, crop: Region) -> list[Strip]:
        """The widget's lines within `crop`."""
        asked = (crop, widget.size, widget.get_line_filters())
        lines = crop.line_range
        if asked != self._asked:
            self._answer = super().render_widget(widget, crop)
        elif changed := self._dirty_lines.intersection(lines):
            first, last = min(changed), max(changed)
            band = Region(crop.x, first, crop.width, last - first + 1)
            answer = self._answer.copy()
            answer[first - lines.start : last + 1 - lines.start] = super().render_widget(widget, band)
            self._answer = answer
        self._asked = asked
        return self._answer


def keep_strips(*widgets: Widget) -> None:
    """Have widgets keep what they paint."""
    for widget in widgets:
        widget._styles_cache = KeptStrips()
