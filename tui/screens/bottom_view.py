"""The bottom of a tank to scale, with its pads, ribs, outlet and clearances; left and right go to the next tank."""

from typing import ClassVar

from textual.binding import Binding, BindingType

from logic.assessment.bottom_plan import bottom_plan
from tui.screens.full import Full
from tui.show.bottom_drawing import bottom_drawing
from tui.show.bottom_rows import bottom_notes
from tui.show.names import place_name
from tui.show.rows import FAINT, Row, Span, line
from tui.wiring import Wiring

LEAST_NOTES = 5  # rows that stay for what is said below the drawing


class BottomView(Full):
    BINDINGS: ClassVar[list[BindingType]] = [
        Binding("left", "another(-1)", "tank before", show=False),
        Binding("right", "another(1)", "next tank", show=False),
    ]
    KEYS: ClassVar[tuple[tuple[str, str], ...]] = (
        ("left", "tank before"),
        ("right", "next tank"),
        ("escape", "back"),
    )

    def __init__(self, wiring: Wiring, place: str) -> None:
        super().__init__()
        self.wiring = wiring
        self.tank = self.tank_of(place)

    def tank_of(self, place: str) -> int:
        """The number of the tank that a place is, or belongs to."""
        profile = self.wiring.snapshot().profile
        kind, _, name = place.partition(".")
        if kind == "heater":
            name = next((heater.on for heater in profile.heaters if heater.id == name), "")
        if kind in ("heater", "drain"):
            name = next((drain.tank for drain in profile.drains if drain.id == name), name)
        return next((number for number, tank in enumerate(profile.tanks) if tank.id == name), 0)

    def title_text(self) -> str:
        tanks = self.wiring.snapshot().profile.tanks
        return (
            f"bottom of {place_name(f'tank.{tanks[self.tank].id}')}, {self.tank + 1} of {len(tanks)}"
            if tanks
            else "no tank"
        )

    def rows(self, width: int) -> list[Row]:
        snapshot = self.wiring.snapshot()
        tanks = snapshot.profile.tanks
        if not tanks:
            return [Row("none", (line(Span("this rig has no tank", FAINT)),))]
        plan = bottom_plan(snapshot.assessment, tanks[self.tank % len(tanks)].id)
        notes = bottom_notes(snapshot, plan, width)
        room = self.app.size.height - 2 - max(LEAST_NOTES, min(sum(len(row.lines) for row in notes), 10))
        drawing = bottom_drawing(plan, width, max(room, 8), snapshot.marks)
        return [Row("drawing", tuple(drawing), choosable=False), *notes]

    def action_another(self, by: int) -> None:
        tanks = self.wiring.snapshot().profile.tanks
        if tanks:
            self.tank = (self.tank + by) % len(tanks)
            self.refresh_rows()
