"""The cut list and the shopping list as rows: what is cut from which spool, holes, joints, what is bought."""

from logic.assessment.parts_list import Cut, PartsList, Purchase, WireSpools
from logic.data.profile import Profile
from tui.show import numbers
from tui.show.cells import pad
from tui.show.marks import Marks
from tui.show.names import place_name
from tui.show.rows import BAD, FAINT, HEAD, PLAIN, STRONG, WARN, Line, Row, Span, line, wrapped

TICK_COLUMN = 10


def part_rows(parts: PartsList, profile: Profile, width: int, units: str, marks: Marks) -> list[Row]:
    """All of it, in the order in which it is used: cuts, spools, holes, joints, shopping."""
    rows: list[Row] = []
    if not parts.feasible:
        said = "no gauges keep every rule: thick ones stand here in their place; see the punch list"
        rows.append(Row("infeasible", (*wrapped(said, width, BAD), ())))
    rows.append(head("Cut, each from one length"))
    rows.extend(cut_row(cut, width, units, marks) for cut in parts.cuts)
    rows.append(head("From these spools"))
    rows.extend(spool_row(spools, parts, width, units) for spools in parts.spools)
    rows.append(head("Holes"))
    for hole in parts.holes:
        bore, drill = (numbers.value_text(value, "length", units) for value in (hole.bore, hole.hole.drill))
        said = f"for {place_name(hole.through)}: drill {drill}, for a sleeve of {bore}; line the edge, seal"
        rows.append(Row(hole.id, wrapped(said, width, indent="  ")))
    rows.append(head("Splices, staggered, adhesive-lined, none under a clamp"))
    for splice in parts.splices:
        back = numbers.value_text(splice.from_end, "length", units)
        colour = f", {splice.colour}" if splice.colour else ""
        far = "; too far apart in gauge for one crimp" if splice.steps > 1 else ""
        joins = place_name(splice.joins, profile)
        said = f"{place_name(f'run.{splice.run}')}, {splice.conductor}, to {joins}: {back} before the end{colour}{far}"
        rows.append(Row(splice.id, wrapped(said, width, WARN if far else PLAIN, indent="  ")))
    rows.append(head("To buy"))
    rows.extend(purchase_row(purchase, width, units, marks) for purchase in parts.shopping)
    return rows


def head(text: str) -> Row:
    return Row(f"head:{text}", (line(Span(text, HEAD)),), choosable=False)


def ticked(done: bool, word: str, marks: Marks) -> Span:
    said = f"{marks.done} {word}" if done else f"{marks.waiting} not yet"
    return Span(pad(said, TICK_COLUMN), STRONG if done else FAINT)


def hung(tick: Span, said: str, width: int) -> tuple[Line, ...]:
    """A tick before a text, the text's further lines under its first."""
    first, *rest = wrapped(said, width - TICK_COLUMN)
    return (line(tick, *first), *(line(" " * TICK_COLUMN, *each) for each in rest))


def cut_row(cut: Cut, width: int, units: str, marks: Marks) -> Row:
    """One wire: gauge, colour, length to cut, and what it was cut to."""
    length, route = (numbers.value_text(value, "route", units) for value in (cut.length, cut.route))
    gauge = numbers.value_text(float(cut.gauge), "gauge", units)
    twisted = f", twisted with {cut.twisted - 1} more" if cut.twisted else ""
    said = f"{length}  {gauge} {cut.colour}  run {cut.run} {cut.conductor}, route {route}{twisted}"
    if cut.cut_to is not None:
        said += f"; cut to {numbers.value_text(cut.cut_to, 'route', units)}"
    return Row(cut.id, hung(ticked(cut.ticked, "cut", marks), said, width))


def spool_row(spools: WireSpools, parts: PartsList, width: int, units: str) -> Row:
    """The spools of one wire, and which cuts come from each."""
    runs = {cut.id: f"{place_name(f'run.{cut.run}')} {cut.conductor}" for cut in parts.cuts}
    gauge = numbers.value_text(float(spools.gauge), "gauge", units)
    lines = list(wrapped(f"{gauge} {spools.colour}", width, STRONG, indent="  "))
    for length, places in spools.plan.spools:
        names = ", ".join(runs.get(spools.cuts[place], spools.cuts[place]) for place in places)
        lines.extend(wrapped(f"{numbers.value_text(length, 'route', units)}: {names}", width, indent="    "))
    for place in spools.plan.too_long:
        lines.extend(wrapped(f"longer than any spool: {spools.cuts[place]}", width, WARN, indent="    "))
    if not spools.plan.proven:
        lines.extend(
            wrapped("a plan with less may exist: too many cuts to prove", width, FAINT, indent="    ")
        )
    return Row(spools.id, tuple(lines))


def purchase_row(purchase: Purchase, width: int, units: str, marks: Marks) -> Row:
    """One line of the shopping list."""
    amount = numbers.value_text(purchase.amount.value, purchase.amount.kind, units)
    said = f"{amount}  {numbers.fill(purchase.what, units)}"
    return Row(purchase.id, hung(ticked(purchase.ticked, "bought", marks), said, width))
