"""The wiring as a tree, as SVG: current, volts, gauge and fuse at each point."""

from logic.assessment.wiring_plan import WiringRow
from logic.data.quantities import show
from logic.data.safe_sides import side_of
from logic.data.wording import NEAREST
from logic.handover.blocks import Drawing
from logic.handover.svg import box, label, rule, svg

WIDTH, ROW, INDENT, LEFT, TOP, SIZE = 640.0, 30.0, 22.0, 14.0, 34.0, 10.0

CAPTION = "The wiring: a box across the line is a fuse, a box upright a heater; currents are those at most."


def wiring_drawing(rows: tuple[WiringRow, ...], units: str) -> Drawing:
    """The drawing; each row carries its own words, so that it reads without colour."""
    body = [
        box(LEFT, 8, 74, 18, line=1.6),
        label(LEFT + 37, 21, "supply", size=SIZE, anchor="middle", bold=True),
    ]
    for number, row in enumerate(rows):
        y = TOP + number * ROW + ROW / 2
        x = LEFT + row.depth * INDENT + 8
        for depth, goes_on in enumerate(row.lines):
            if goes_on:
                trunk = LEFT + depth * INDENT + 8
                body.append(rule(trunk, y - ROW / 2, trunk, y + ROW / 2))
        body.append(rule(x, y - ROW / 2 - (8 if number == 0 else 0), x, y if row.last else y + ROW / 2))
        body.append(rule(x, y, x + 14, y))
        start = x + 18
        if row.kind == "heater":
            body.append(box(start - 4, y - 10, 8, 20, line=1.4))
            start += 10
        elif row.fuse is not None:
            body.append(box(start - 4, y - 5, 16, 10, fill="#fff", line=1.4))
            body.append(rule(start - 4, y, start + 12, y))
            start += 18
        first, second = row_words(row, units)
        body.append(label(start, y - 2, first, size=SIZE, bold=True))
        body.append(label(start, y + 10, second, size=SIZE - 1))
    total = TOP + len(rows) * ROW + 10
    said = " ".join(f"{'; '.join(row_words(row, units))}." for row in rows)
    return Drawing(svg(WIDTH, total, body, "wiring from the supply to the heaters"), CAPTION, said)


def row_words(row: WiringRow, units: str) -> tuple[str, str]:
    """The two lines of a row: what it is, and what flows in it."""
    if row.kind == "heater":
        flows = [
            _shown(row.amps, "amps", units, "at the charging volts"),
            _shown(row.volts, "volts", units, "in the night"),
        ]
        side = side_of(f"heater.{row.id}.drop")
        flows.append(_shown(row.drop, "share", units, "less than the supply", side=side))
        return f"heater {row.id}", ", ".join(flow for flow in flows if flow) or "no run feeds it"
    wire = "no gauge fits" if row.gauge is None else show(row.gauge, "gauge", units)
    names = [f"run {row.id}", wire, show(row.length or 0.0, "route", units)]
    if row.fuse is not None:
        names.append(f"fuse {show(row.fuse, 'rating', units)}")
    if row.switch is not None:
        names.append(f"switch {show(row.switch, 'rating', units)}")
    back = {"own": "its own return", "chassis": "return by the chassis"}.get(
        row.back, f"return through {row.back}'s"
    )
    flows = [_shown(row.amps, "amps", units, ""), _shown(row.drop, "volts", units, "lost in it")]
    if row.back_amps is not None:
        back = f"{back} carries {show(row.back_amps, 'amps', units)}"
    return ", ".join(names), ", ".join([flow for flow in flows if flow] + [back])


def _shown(value: float | None, kind: str, units: str, after: str, *, side: int = NEAREST) -> str:
    return "" if value is None else f"{show(value, kind, units, side)} {after}".strip()
