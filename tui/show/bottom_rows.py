"""What stands below the drawing of a tank's bottom: each pad's place and clearances, keep-outs, outlet, corner zero."""

from logic.assessment.bottom_plan import BottomPlan
from logic.data.figure import Figure
from tui.show import numbers
from tui.show.cells import plain
from tui.show.rows import BAD, FAINT, PLAIN, STRONG, WARN, Line, Row, wrapped
from tui.show.snapshot import Snapshot

ROWS = ("x", "y", "turned", "clearance", "to_outlet")


def bottom_notes(snapshot: Snapshot, plan: BottomPlan, width: int) -> list[Row]:
    """The rows below the drawing."""
    figures = {figure.id: figure for figure in snapshot.assessment.figures}
    size = f"{length(snapshot, plan.length)} along the vehicle, {length(snapshot, plan.width)} across"
    rows = [
        Row("size", wrapped(f"seen from below, front of the vehicle to the left; {size}", width, FAINT)),
        Row("zero", wrapped("0 marks the corner that is measured from", width, FAINT)),
    ]
    for box in plan.boxes:
        if box.kind == "pad":
            rows.append(Row(f"pad:{box.id}", pad_lines(snapshot, box.id, figures, width)))
        else:
            at = f"{length(snapshot, box.length)} by {length(snapshot, box.width)}"
            rows.append(
                Row(f"keepout:{box.id}", wrapped(f"keep-out {box.id}, {plain(box.label)}: {at}", width))
            )
    if plan.outlet is not None:
        rows.append(
            Row("outlet", wrapped(f"outlet: {length(snapshot, plan.outlet.radius * 2)} across", width, PLAIN))
        )
    for heater in plan.homeless:
        figure = figures.get(f"heater.{heater}.x")
        why = numbers.fill(figure.why_not, snapshot.units) if figure is not None and figure.why_not else ""
        rows.append(Row(f"homeless:{heater}", wrapped(f"pad {heater} has no place: {why}", width, BAD)))
    return rows


def length(snapshot: Snapshot, metres: float) -> str:
    return numbers.value_text(metres, "length", snapshot.units)


def pad_lines(snapshot: Snapshot, heater: str, figures: dict[str, Figure], width: int) -> tuple[Line, ...]:
    """A pad: where it lies, what it clears by, how far the outlet is."""
    told = []
    role = STRONG
    for name in ROWS:
        figure = figures.get(f"heater.{heater}.{name}")
        if figure is None or figure.value is None:
            continue
        text = numbers.figure_text(figure, snapshot.units)
        if name == "turned":
            told.append("turned, its length lies across" if figure.value else "its length lies along")
            continue
        said = f"{figure.title} {text.value}"
        told.append(f"{said} {text.spread}".rstrip())
        if name == "clearance" and figure.value < 0:
            role = BAD
        elif name == "clearance" and figure.u is not None and figure.value < 2 * figure.u:
            role = WARN
    return wrapped(f"pad {heater}: {'; '.join(told)}", width, role)
