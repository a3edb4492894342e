"""The wiring as a tree of text: each run with current, drop, gauge and fuse, each heater with its volts."""

from logic.assessment.wiring_plan import WiringRow
from logic.data.profile import Profile
from logic.data.safe_sides import side_of
from tui.show import numbers
from tui.show.marks import LETTERS, Marks
from tui.show.names import place_name
from tui.show.rows import BAD, FAINT, HEAD, PLAIN, STRONG, Row, Span, folded, line


def branch(row: WiringRow, marks: Marks) -> tuple[str, str]:
    """What stands before a row of the tree, and before its further lines."""
    down, tee, corner, blank = (
        ("|  ", "+- ", "`- ", "   ") if marks == LETTERS else ("│  ", "├─ ", "└─ ", "   ")
    )
    before = "".join(down if goes_on else blank for goes_on in row.lines)
    return before + (corner if row.last else tee), before + (blank if row.last else down)


def said_of_run(row: WiringRow, units: str) -> list[str]:
    """A run's numbers, in the order in which they are asked for."""
    told = []
    if row.length is not None:
        told.append(numbers.value_text(row.length, "route", units))
    if row.amps is not None:
        told.append(numbers.value_text(row.amps, "amps", units))
    if row.gauge is not None:
        told.append(numbers.value_text(row.gauge, "gauge", units))
    else:
        told.append("no gauge keeps every rule")
    told.append(
        f"fuse {numbers.value_text(row.fuse, 'rating', units)}"
        if row.fuse is not None
        else "no fuse of its own"
    )
    if row.drop is not None:
        told.append(f"drops {numbers.value_text(row.drop, 'volts', units)}")
    if row.switch is not None:
        told.append(f"switch {numbers.value_text(row.switch, 'rating', units)}")
    return told


def said_of_return(row: WiringRow, units: str) -> str:
    """Where a run's current comes back, and how much in all."""
    if row.back == "own":
        amps = f", {numbers.value_text(row.back_amps, 'amps', units)}" if row.back_amps is not None else ""
        lent = row.back_amps is not None and row.amps is not None and row.back_amps > row.amps * 1.001
        return f"own return{amps}{', lent to others' if lent else ''}"
    if row.back == "chassis":
        return "returns by the chassis"
    return f"returns by run {row.back}"


def wiring_rows(
    plan: tuple[WiringRow, ...], profile: Profile, width: int, units: str, marks: Marks, *, supply: str
) -> list[Row]:
    """The tree, from the supply outwards."""
    rows = [Row("supply", (line(Span("supply", HEAD), Span(f"  {supply}", PLAIN)),))]
    for row in plan:
        first, further = branch(row, marks)
        if row.kind == "run":
            told, back = said_of_run(row, units), said_of_return(row, units)
            spans = [Span(f"run {row.id}", STRONG), *(Span(f"  {each}", PLAIN) for each in told)]
            spans.append(Span(f"  {back}", FAINT))
        else:
            volts = (
                "no volts: it is fed by nothing"
                if row.volts is None
                else numbers.value_text(row.volts, "volts", units)
            )
            spans = [
                Span(place_name(f"heater.{row.id}", profile), STRONG),
                Span(f"  {volts}", BAD if row.volts is None else PLAIN),
            ]
            if row.amps is not None:
                spans.append(Span(f"  {numbers.value_text(row.amps, 'amps', units)}"))
            if row.drop is not None:
                side = side_of(f"heater.{row.id}.drop")
                spans.append(Span(f"  drop {numbers.value_text(row.drop, 'share', units, side)}"))
        lines = folded(tuple(spans), width - len(first))
        kept = [
            line(Span(first, FAINT), *lines[0]),
            *(line(Span(further, FAINT), *each) for each in lines[1:]),
        ]
        rows.append(Row(f"{row.kind}:{row.id}", tuple(kept)))
    return rows
