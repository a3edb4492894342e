"""The cold spell of a tank as a plot: outside, contents, heaters on or off, ice; left and right go to the next tank."""

from tui.screens.bottom_view import BottomView
from tui.show.names import place_name
from tui.show.rows import BAD, FAINT, Row, Span, line, wrapped
from tui.show.spell_drawing import axis_width, legend, spell_drawing
from tui.show.spell_rows import spell_notes
from tui.show.spell_series import spell_series

ICE_AND_HOURS = 2  # rows of the plot below the heaters'
HELD_BACK = 3  # columns for the cursor and the edge


class SpellPlot(BottomView):
    def title_text(self) -> str:
        snapshot = self.wiring.snapshot()
        tanks = snapshot.profile.tanks
        nights = snapshot.profile.design.nights
        return (
            f"{nights} nights of {place_name(f'tank.{tanks[self.tank].id}')}, {self.tank + 1} of {len(tanks)}"
            if tanks
            else "no tank"
        )

    def rows(self, width: int) -> list[Row]:
        snapshot = self.wiring.snapshot()
        tanks = snapshot.profile.tanks
        if not tanks:
            return [Row("none", (line(Span("this rig has no tank", FAINT)),))]
        tank = tanks[self.tank % len(tanks)]
        trial = spell_series(snapshot.profile, tank.id, 8)
        if trial is None:
            return [Row("empty", wrapped(f"tank {tank.id} holds nothing in the spell", width, BAD))]
        room = max(24, width - axis_width(trial, snapshot.units) - HELD_BACK)
        series = spell_series(snapshot.profile, tank.id, room)
        assert series is not None
        notes = spell_notes(snapshot, tank.id, width)
        below = len(legend(snapshot.marks, axis_width(series, snapshot.units) + room))
        used = sum(len(row.lines) for row in notes) + len(series.heaters) + below + ICE_AND_HOURS
        height = max(8, min(24, self.app.size.height - 3 - used))
        drawing = spell_drawing(series, height, snapshot.units, snapshot.marks)
        return [Row("drawing", tuple(drawing), choosable=False), *notes]
