"""Widgets that paint lines of spans: what role a span has is looked up in the theme, and nothing is
markup."""

from typing import ClassVar

from rich.segment import Segment
from rich.style import Style
from textual.geometry import Region
from textual.strip import Strip
from textual.widget import Widget

from tui.show.rows import ROLES, Line, line_width

COMPONENTS = {f"role--{role}" for role in ROLES}


class Painted(Widget):
    """Looks up what a role looks like, once for each theme."""

    COMPONENT_CLASSES: ClassVar[set[str]] = COMPONENTS

    def __init__(self, *, id: str | None = None, classes: str | None = None) -> None:
        super().__init__(id=id, classes=classes)
        self._looks: dict[str, Style] = {}

    def notify_style_update(self) -> None:
        super().notify_style_update()
        self._looks.clear()

    def look(self, role: str) -> Style:
        """The style of a role, on the widget's own background."""
        found = self._looks.get(role)
        if found is None:
            found = self._looks[role] = self.get_component_rich_style(f"role--{role}")
        return found

    def strip_of(self, spans: Line, width: int, *, over: Style | None = None) -> Strip:
        """A line painted to `width` cells; `over` is laid over every span."""
        segments = [
            Segment(span.text, self.look(span.role) + over if over is not None else self.look(span.role))
            for span in spans
        ]
        used = line_width(spans)
        if used < width:
            blank = self.look("plain")
            segments.append(Segment(" " * (width - used), blank + over if over is not None else blank))
        return Strip(segments, max(used, width)).crop(0, width)


class Lines(Painted):
    """A few lines of text that take what they are given and draw only those that changed."""

    def __init__(self, *, id: str | None = None, classes: str | None = None) -> None:
        super().__init__(id=id, classes=classes)
        self.lines: tuple[Line, ...] = ()

    def put(self, *lines: Line) -> None:
        """Show these lines."""
        old, self.lines = self.lines, lines
        for y in range(max(len(old), len(lines))):
            if y >= len(old) or y >= len(lines) or old[y] != lines[y]:
                self.refresh_row(y)

    def refresh_row(self, y: int) -> None:
        self.refresh(Region(0, y, self.size.width, 1))

    def render_line(self, y: int) -> Strip:
        spans = self.lines[y] if y < len(self.lines) else ()
        return self.strip_of(spans, self.size.width)
