"""Help: what the pane one is in is for, and every key, from the table of actions."""

from tui.screens.full import Full
from tui.show.help_rows import help_rows
from tui.show.marks import Marks
from tui.show.rows import Row


class Help(Full):
    def __init__(self, pane: str, marks: Marks) -> None:
        super().__init__()
        self.pane = pane
        self.marks = marks

    def title_text(self) -> str:
        return "help"

    def rows(self, width: int) -> list[Row]:
        return help_rows(self.pane, self.marks, width)
