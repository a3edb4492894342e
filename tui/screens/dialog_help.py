"""Help over a dialog: what is asked there, and what its keys do. The dialog waits below, with what is typed in it."""

from collections.abc import Sequence
from typing import ClassVar

from textual.app import ComposeResult
from textual.binding import Binding, BindingType

from tui.panes.painted import Lines
from tui.screens.dialog import Dialog
from tui.show.rows import Line, wrapped


class DialogHelp(Dialog[None]):
    """A few plain lines. Esc, Enter and F1 go back to the dialog."""

    DEFAULT_CSS = "#told { width: 100%; height: auto; }"
    HINT = "Esc back to what was asked"
    BINDINGS: ClassVar[list[BindingType]] = [Binding("enter", "step_back", "back", show=False)]

    def __init__(self, told: Sequence[str]) -> None:
        super().__init__("Help")
        self.told = tuple(told)

    def inside(self) -> ComposeResult:
        yield Lines(id="told")

    def lay_out(self) -> None:
        super().lay_out()
        lines: list[Line] = []
        for each in self.told:
            lines.extend(wrapped(each, self.box_width()))
        self.fill("told", lines)

    def action_help(self) -> None:
        """Help is open already: the same key closes it."""
        self.dismiss(None)
