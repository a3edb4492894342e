"""What may hurt in a step, said before it starts. A number typed unseen, with its Enter, starts nothing."""

from typing import ClassVar

from textual import events
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
    NOT_TAKEN = "not taken, what was typed here · read this, then Enter start · Esc not yet"
    BINDINGS: ClassVar[list[BindingType]] = [
        Binding("enter", "start", "start", show=False),
        Binding("question_mark", "help", "help", show=False),
    ]

    def __init__(self, title: str, caution: str, *, live: bool = False) -> None:
        super().__init__(title)
        self.caution = plain(caution)
        self.live = live
        self.typed = False  # the Enter that comes next ends something typed

    def inside(self) -> ComposeResult:
        yield Lines(id="caution")

    def lay_out(self) -> None:
        super().lay_out()
        if self.typed:
            self.say_not_taken()
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
            "Letters, digits and arrows do nothing here, nor does the Enter that ends what was typed.",
        )

    def on_key(self, event: events.Key) -> None:
        """Someone types on without having seen this."""
        if event.is_printable and event.character != "?":
            self.typed = True
            self.app.bell()
            self.say_not_taken()

    def say_not_taken(self) -> None:
        self.fill("hint", [line(Span(each, BAD)) for each in wrap(self.NOT_TAKEN, self.box_width())])

    def action_start(self) -> None:
        if self.typed:
            self.typed = False
        else:
            self.dismiss(True)
