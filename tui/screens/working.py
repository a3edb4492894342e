"""A figure opened: its formula with this case's numbers, its source, and the readings that it hangs on."""

from tui.screens.full import Full
from tui.show.names import name_of
from tui.show.rows import Row
from tui.show.working_rows import working_rows
from tui.wiring import Wiring


class Working(Full):
    def __init__(self, wiring: Wiring, figure_id: str) -> None:
        super().__init__()
        self.wiring = wiring
        self.figure_id = figure_id

    def title_text(self) -> str:
        return f"working: {name_of(self.figure_id, self.wiring.snapshot().profile)}"

    def rows(self, width: int) -> list[Row]:
        return working_rows(self.wiring.snapshot(), self.figure_id, width)
