"""The Punch list as rows: found and written items by weight, accepted and done ones at the end."""

from typing import NamedTuple

from logic.data.finding import WEIGHTS, Acceptance, Verdict
from tui.show import numbers
from tui.show.cells import width_of
from tui.show.marks import weight_mark
from tui.show.names import name_of
from tui.show.rows import BAD, FAINT, GOOD, PLAIN, WARN, Line, Row, Span, line, wrapped
from tui.show.snapshot import Snapshot

WEIGHT_ROLES = {"stop": BAD, "use": WARN, "note": PLAIN}


class Entry(NamedTuple):
    """A finding or an item, alike for the list."""

    id: str
    weight: str
    place: str
    text: str
    remedy: str = ""
    written: bool = False
    open: bool = False
    acceptable: bool = True
    state: str = "open"  # open | done | accepted
    accepted: Acceptance | None = None


def entries(snapshot: Snapshot) -> list[Entry]:
    """Findings and items in one list, the heaviest first, what no longer counts last."""
    units = snapshot.units
    found = [
        Entry(
            finding.id, finding.weight, finding.place, numbers.fill(finding.text, units),
            numbers.fill(finding.remedy, units), open=finding.open, acceptable=finding.acceptable,
            state="accepted" if finding.accepted else "open", accepted=finding.accepted,
        )
        for finding in snapshot.assessment.findings
    ]  # fmt: skip
    written = [
        Entry(
            item.id,
            item.weight,
            item.place,
            item.text,
            written=True,
            state=item.state,
            accepted=item.accepted,
        )
        for item in snapshot.state.items
    ]
    order = {weight: index for index, weight in enumerate(WEIGHTS)}
    return sorted(found + written, key=lambda entry: (entry.state != "open", order.get(entry.weight, 9)))


def punch_rows(snapshot: Snapshot, width: int, *, only: str = "", chosen: str | None = None) -> list[Row]:
    """All rows of the Punch list; `only` leaves one weight."""
    rows = []
    for entry in entries(snapshot):
        if only and entry.weight != only:
            continue
        rows.append(entry_row(snapshot, entry, width, full=f"entry:{entry.id}" == chosen))
    if not rows:
        said = f"nothing of weight {only}" if only else "nothing found, nothing written"
        rows.append(Row("empty", (line(Span(said, FAINT)),), choosable=False))
    return rows


def entry_row(snapshot: Snapshot, entry: Entry, width: int, *, full: bool) -> Row:
    """Weight in a mark and a word, place and text; opened: the remedy, who accepted it and why."""
    marks = snapshot.marks
    counts = entry.state == "open"
    role = WEIGHT_ROLES.get(entry.weight, PLAIN) if counts else FAINT
    mark = weight_mark(marks, entry.weight) if counts else marks.accepted
    word = entry.weight if counts else entry.state
    head = f"{mark} {word:<5} "
    name = name_of(entry.place, snapshot.profile) if entry.place else ""
    told = f"{name}: {entry.text}" if name and not says_place(entry) else entry.text
    first, *rest = wrapped(told, width - len(head), PLAIN if counts else FAINT)
    lines: list[Line] = [line(Span(head, role), *first)]
    lines.extend(line(" " * len(head), *each) for each in rest)
    indent = " " * 4
    if full:
        if entry.remedy:
            lines.extend(wrapped(entry.remedy, width, GOOD if counts else FAINT, indent=indent))
        if entry.open and counts:
            lines.extend(wrapped("mending it needs the belly open", width, WARN, indent=indent))
        if not entry.acceptable and counts:
            lines.extend(wrapped("can't be accepted: it has to be mended", width, FAINT, indent=indent))
    if entry.accepted is not None:
        lines.extend(wrapped(f"{entry.accepted.name}: {entry.accepted.reason}", width, FAINT, indent=indent))
    return Row(f"entry:{entry.id}", tuple(lines))


def verdict_text(verdict: Verdict) -> str:
    """The verdict on closing, in the words that it always has."""
    return "nothing known stops closing" if verdict.closable else f"DO NOT CLOSE: {verdict.stop} stop"


def verdict_counts(verdict: Verdict, width: int) -> str:
    """The verdict with what is left of the other weights; what has no room is left out whole."""
    said = verdict_text(verdict)
    for more in (f", {verdict.use} use, {verdict.note} note", f", {verdict.needs_open} want the belly open"):
        if width_of(said + more) <= width and not (more.startswith(", 0 want")):
            said += more
    return said


def says_place(entry: Entry) -> bool:
    """Whether an entry's text already names its place, by the id of the part."""
    parts = entry.place.partition(":")[2] or entry.place
    name = parts.split(".")[1] if "." in parts else parts
    return name.replace("-", " ") in entry.text.replace("-", " ")
