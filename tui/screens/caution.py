"""What may hurt in a step, said before it starts."""

from typing import ClassVar

from textual.app import ComposeResult
from textual.binding import Binding, BindingType

from tui.panes.painted import Lines
from tui.screens.dialog import Dialog
from tui.show.cells import plain, wrap
from tui.show.rows import BAD, STRONG, Line, Span, line


class Caution(Dialog[bool]):
    """Dismisses with True where the step is to start."""

    DEFAULT_CSS = "#caution { width: 100%; height: auto; }"
    HINT = "Enter start · F1 help · Esc not yet"
    BINDINGS: ClassVar[list[BindingType]] = [
        Binding("enter", "start", "start", show=False),
        Binding("question_mark", "help", "help", show=False),
    ]

    def __init__(self, title: str, caution: str, *, live: bool = False) -> None:
        super().__init__(title)
        self.caution = plain(caution)
        self.live = live

    def inside(self) -> ComposeResult:
        yield Lines(id="caution")

    def lay_out(self) -> None:
        super().lay_out()
        told: list[Line] = []
        if self.live:
            live = "LIVE: one circuit, its fuse last in and first out, hands off bare metal, nobody beneath"
            told.extend(line(Span(each, BAD)) for each in wrap(live, self.box_width()))
        told.extend(line(Span(each, STRONG)) for each in wrap(self.caution, self.box_width()))
        self.fill("caution", told)

    def help_told(self) -> tuple[str, ...]:
        return (
            "This is what can hurt in the step. Read it before the work begins.",
            "Enter: start the step; its minutes count from now, and Ctrl+Z takes that back.",
            "Esc: not yet; the step stays as it was.",
            "Arrows do nothing here.",
        )

    def action_start(self) -> None:
        self.dismiss(True)
