"""The wiring as a tree, with current, volts, gauge and fuse at each point. Enter opens a run's or heater's working."""

from logic.assessment.wiring_plan import wiring_plan
from tui.screens.full import Full
from tui.show import numbers
from tui.show.rows import Row
from tui.show.wiring_drawing import wiring_rows
from tui.wiring import Wiring


class WiringTree(Full):
    KEYS = (("enter", "working"), ("escape", "back"))

    def __init__(self, wiring: Wiring) -> None:
        super().__init__()
        self.wiring = wiring

    def title_text(self) -> str:
        return "wiring, every heater on: amperes while charging, volts and drops in the night"

    def rows(self, width: int) -> list[Row]:
        snapshot = self.wiring.snapshot()
        supply = snapshot.profile.supply
        told = f"{numbers.value_text(supply.volts, 'volts', snapshot.units)} in the night"
        told += f", {numbers.value_text(supply.charging, 'volts', snapshot.units)} charging"
        return wiring_rows(
            wiring_plan(snapshot.assessment),
            snapshot.profile,
            width,
            snapshot.units,
            snapshot.marks,
            supply=told,
        )

    def row_opened(self, key: str) -> None:
        kind, _, name = key.partition(":")
        figure = {"run": f"run.{name}.current", "heater": f"heater.{name}.volts"}.get(kind, "supply.current")
        from tui.screens.working import Working

        self.app.push_screen(Working(self.wiring, figure))
