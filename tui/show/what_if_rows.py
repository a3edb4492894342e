"""What if, as rows: the changes, the figures that they would move beside today's, findings that come or go."""

from collections.abc import Collection, Sequence
from typing import Any, NamedTuple

from logic.data.state import Assessment
from tui.show import numbers
from tui.show.names import name_of, place_name
from tui.show.profile_values import values_of
from tui.show.rows import BAD, FAINT, GOOD, HEAD, MOVED, PLAIN, STRONG, Row, Span, beside, line, wrapped
from tui.show.snapshot import Snapshot


class Change(NamedTuple):
    """One value that is tried."""

    path: str
    before: str  # as shown
    typed: str
    value: Any  # as the document would have it; None: left out


def what_if_rows(
    snapshot: Snapshot,
    trial: Assessment | None,
    changes: Sequence[Change],
    faults: Sequence[str],
    width: int,
    opened: Collection[str],
) -> list[Row]:
    """Everything of the screen, the changes first."""
    rows: list[Row] = [
        Row(f"fault:{number}", wrapped(fault, width, BAD)) for number, fault in enumerate(faults)
    ]
    if not changes:
        rows.append(
            Row(
                "hint",
                wrapped(
                    "choose a value below and change it: nothing is recorded until you keep it", width, FAINT
                ),
            )
        )
    for change in changes:
        said = (
            f"{name_of(change.path, snapshot.profile)}: {change.typed or 'left out'}, today {change.before}"
        )
        rows.append(Row(f"change:{change.path}", wrapped(said, width, STRONG)))
    if trial is not None:
        rows.extend(moved_rows(snapshot, trial, width))
        rows.extend(finding_rows(snapshot, trial, width))
    rows.append(Row("values", ((), line(Span("Values of the profile", HEAD))), choosable=False))
    for place in places_of(snapshot):
        is_open = place in opened
        mark = snapshot.marks.open if is_open else snapshot.marks.shut
        name = place_name(place, snapshot.profile)
        rows.append(Row(f"place:{place}", (line(Span(f"{mark} {name}", HEAD)),)))
        if is_open:
            for value in values_of(snapshot.document, place):
                tail = line(
                    Span(value.text, FAINT if value.default else PLAIN),
                    Span("  default", FAINT) if value.default else "",
                )
                rows.append(
                    Row(f"value:{value.path}", beside(value.label, tail, width, column=26, indent="    "))
                )
    return rows


def places_of(snapshot: Snapshot) -> list[str]:
    """Every place with values of the profile."""
    document = snapshot.document
    found = ["design", "supply", "wiring", "parts"]
    for kind in ("bay", "tank", "drain", "heater", "run"):
        found.extend(f"{kind}.{part['id']}" for part in document.get(kind, ()))
    return found


def moved_rows(snapshot: Snapshot, trial: Assessment, width: int) -> list[Row]:
    """The figures whose shown value would be another one, today's beside it."""
    units = snapshot.units
    today = {figure.id: numbers.figure_text(figure, units) for figure in snapshot.assessment.figures}
    rows = []
    for figure in trial.figures:
        text, now = numbers.figure_text(figure, units), today.get(figure.id)
        if now is not None and text == now:
            continue
        was = f"today {now.value} {now.spread}".rstrip() if now is not None else "today there is none"
        told = line(Span(f"{text.value} {text.spread}".rstrip(), MOVED), Span(f"   {was}", PLAIN))
        label = f"{place_name(figure.place, snapshot.profile)}, {figure.title}"
        rows.append(
            Row(f"moved:{figure.id}", beside(label, told, width, column=max(24, width // 2), indent="  "))
        )
    head = f"{len(rows) or 'no'} figure{'s' if len(rows) > 1 else ''} would move"
    return [Row("moved", ((), line(Span(head, HEAD))), choosable=False), *rows]


def finding_rows(snapshot: Snapshot, trial: Assessment, width: int) -> list[Row]:
    """Findings that would come, and those that would go."""
    today = {finding.id: finding for finding in snapshot.assessment.findings}
    then = {finding.id: finding for finding in trial.findings}
    rows = []
    for name in then.keys() - today.keys():
        finding = then[name]
        place, text = name_of(finding.place, trial.profile), numbers.fill(finding.text, snapshot.units)
        said = f"comes, {finding.weight}: {place}: {text}"
        rows.append(Row(f"comes:{name}", wrapped(said, width, BAD, indent="  ")))
    for name in today.keys() - then.keys():
        finding = today[name]
        place, text = name_of(finding.place, snapshot.profile), numbers.fill(finding.text, snapshot.units)
        said = f"goes, {finding.weight}: {place}: {text}"
        rows.append(Row(f"goes:{name}", wrapped(said, width, GOOD, indent="  ")))
    return sorted(rows)
