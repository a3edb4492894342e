"""Widgets that paint lines of spans: what role a span has is looked up in the theme, and nothing is markup."""

from typing import ClassVar

from rich.segment import Segment
from rich.style import Style
from textual.color import Color, ColorParseError
from textual.geometry import Region, Size
from textual.scrollbar import ScrollBarRender
from textual.strip import Strip
from textual.widget import Widget

from tui.panes.kept_strips import keep_strips
from tui.show.cells import steady
from tui.show.letters import in_letters
from tui.show.marks import LETTERS
from tui.show.rows import (
    BAD,
    FAINT,
    GOOD,
    HEAD,
    MOVED,
    PLAIN,
    STRONG,
    WARN,
    Line,
    Span,
    changed_lines,
    line_width,
)

# What each role looks like: a colour of the theme, and what the eye sees without colour. Looked up here and not by
# the style sheet's component classes, which cost a style for each role of each widget before the first frame.
LOOKS: dict[str, tuple[str, Style]] = {
    PLAIN: ("ink", Style()),
    FAINT: ("faint", Style()),
    STRONG: ("strong-ink", Style(bold=True)),
    HEAD: ("head", Style(bold=True)),
    GOOD: ("good", Style()),
    WARN: ("warn", Style(bold=True)),
    BAD: ("bad", Style(bold=True)),
    MOVED: ("moved", Style(bold=True, underline=True)),
}


class PlainBar(ScrollBarRender):
    """A scroll bar whose ends are whole cells, for a terminal that has plain letters only."""

    VERTICAL_BARS: ClassVar[list[str]] = [" "] * 8
    HORIZONTAL_BARS: ClassVar[list[str]] = [" "] * 8


class Painted(Widget):
    """Looks up what a role looks like, once for each theme."""

    def __init__(self, *, id: str | None = None, classes: str | None = None) -> None:
        super().__init__(id=id, classes=classes)
        self._looks: dict[str, Style] = {}
        keep_strips(self)

    def notify_style_update(self) -> None:
        super().notify_style_update()
        self._looks.clear()

    @property
    def in_letters(self) -> bool:
        """Whether the terminal is one for plain letters."""
        return getattr(self.app, "marks", None) is LETTERS

    def look(self, role: str) -> Style:
        """The style of a role, on the widget's own background."""
        found = self._looks.get(role)
        if found is None:
            name, marked = LOOKS[role]
            ground = self.background_colors[1]
            colours = Style(color=self.colour(name, ground).rich_color, bgcolor=ground.rich_color)
            found = self._looks[role] = colours + marked
        return found

    def colour(self, name: str, ground: Color) -> Color:
        """A colour of the theme by its name; one that a theme leaves to the ground is what stands out on it."""
        try:
            colour = Color.parse(self.app.theme_variables[name])
        except ColorParseError:
            return ground.get_contrast_text()
        if colour.auto:
            return ground.blend(ground.get_contrast_text(), colour.a, alpha=1.0)
        return ground.blend(colour, colour.a, alpha=1.0) if colour.a < 1 and colour.ansi is None else colour

    def strip_of(self, spans: Line, width: int, *, over: Style | None = None) -> Strip:
        """A line painted to `width` cells; `over` is laid over every span."""
        if self.in_letters:
            spans = in_letters(spans)
        segments = [
            Segment(steady(text), self.look(role) + over if over is not None else self.look(role))
            for span in spans
            for text, role in (unlined(span) if span.role == MOVED else (span,))
        ]
        used = line_width(spans)
        if used < width:
            blank = self.look(PLAIN)
            segments.append(Segment(" " * (width - used), blank + over if over is not None else blank))
        return Strip(segments, max(used, width)).crop(0, width)


def unlined(span: Span) -> Line:
    """A span that is underlined, without a line under the blanks around its text."""
    text = span.text.strip(" ")
    before, _, after = span.text.partition(text) if text else (span.text, "", "")
    parts = ((before, PLAIN), (text, span.role), (after, PLAIN))
    return tuple(Span(part, role) for part, role in parts if part)


class Lines(Painted):
    """A few lines of text that take what they are given and draw only those that changed."""

    def __init__(self, *, id: str | None = None, classes: str | None = None) -> None:
        super().__init__(id=id, classes=classes)
        self.lines: tuple[Line, ...] = ()

    def _size_updated(
        self, size: Size, virtual_size: Size, container_size: Size, layout: bool = True
    ) -> bool:
        """These lines never scroll: a new size of theirs is no reason to lay everything out a second time."""
        self.set_reactive(Lines.virtual_size, virtual_size)
        return super()._size_updated(size, virtual_size, container_size, layout)

    def put(self, *lines: Line) -> None:
        """Show these lines."""
        old, self.lines = self.lines, lines
        rows = list(changed_lines(old, lines))
        if rows:
            width = self.size.width
            self.refresh(*(Region(0, first, width, count) for first, count in rows))

    def render_line(self, y: int) -> Strip:
        spans = self.lines[y] if y < len(self.lines) else ()
        return self.strip_of(spans, self.size.width)
