"""The day's record: what happened when, minutes planned and left; begin and end a day, notes, the tape."""

from tui.screens.full import Full
from tui.show.day_rows import day_rows
from tui.show.rows import Row
from tui.wiring import Wiring


class DayRecord(Full):
    KEYS = (("enter", "do it"), ("escape", "back"))

    def __init__(self, wiring: Wiring) -> None:
        super().__init__()
        self.wiring = wiring

    def title_text(self) -> str:
        return "the day's record"

    def rows(self, width: int) -> list[Row]:
        return day_rows(self.wiring.snapshot(), self.wiring.session.events, width)

    def row_opened(self, key: str) -> None:
        kind, _, name = key.partition(":")
        if kind == "deed":
            self.do(name)

    def do(self, name: str) -> None:
        """Carry out one of the declared actions from here."""
        carry_out = getattr(self.app, "action_deed", None)
        if carry_out is not None:
            carry_out(name)
            self.refresh_rows()  # what asks nothing is done by now

    def on_screen_resume(self) -> None:
        self.refresh_rows()
