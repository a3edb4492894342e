"""The cut list, the spools, holes, joints, and what to buy. Enter ticks a wire that is cut or a part that is bought."""

from logic.assessment.parts_list import parts_list
from logic.session.intents import NotSaved, Refused, TickPart
from tui.screens.full import Full
from tui.show import numbers
from tui.show.part_rows import part_rows
from tui.show.rows import Row
from tui.wiring import Wiring

TICKED = ("cut:", "buy:")


class CutList(Full):
    KEYS = (("enter", "tick, or untick"), ("escape", "back"))

    def __init__(self, wiring: Wiring) -> None:
        super().__init__()
        self.wiring = wiring
        self.said = ""

    def title_text(self) -> str:
        return self.said or "cut list and shopping list"

    def rows(self, width: int) -> list[Row]:
        snapshot = self.wiring.snapshot()
        parts = parts_list(snapshot.profile, snapshot.state.ticks)
        return part_rows(parts, snapshot.profile, width, snapshot.units, snapshot.marks)

    def row_opened(self, key: str) -> None:
        """Tick what is cut or bought; once more unticks it."""
        if not key.startswith(TICKED):
            return
        done = any(tick.part == key for tick in self.wiring.snapshot().state.ticks)
        result = self.wiring.send(TickPart(key, not done))
        words = result.reason if isinstance(result, Refused | NotSaved) else result.said
        self.said = numbers.fill(words, self.wiring.snapshot().units)
        self.refresh_rows()
