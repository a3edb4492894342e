"""The Punch list as rows: found and written items by weight, accepted and done ones at the end.

What is only work still to be done, the same rule over many steps or slots, is one row that opens; what was found
wrong always stands by itself and before it. Counts are the verdict's and don't change with it.
"""

from collections.abc import Collection, Sequence
from typing import NamedTuple

from logic.data.finding import WEIGHTS, Acceptance, Verdict
from tui.show import numbers
from tui.show.cells import width_of
from tui.show.marks import weight_mark
from tui.show.names import name_of, place_name, place_of_slot
from tui.show.rows import BAD, FAINT, GOOD, PLAIN, WARN, Line, Row, Span, line, wrapped
from tui.show.snapshot import Snapshot

# Rules that fold where they find much, and what that is called: nothing is wrong yet, it is only still to be done.
# In the order of the work.
FOLDED = {
    "planned": "sizes not read",
    "single": "sizes read only once",
    "open-step": "steps not done",
    "untested": "tests not made",
    "confirm": "things not confirmed by a look",
}
DEEPER = "  "  # before an entry of a row that is open
ORDER = tuple(FOLDED)
LEAST_FOLDED = 4  # fewer stand each by themselves
FIRST = ("dispute", "impossible")  # of a weight: what no further work can build on

# Where what a rule found at a part is put right, if not at that part: the step there, or another place.
STEP_OF_RULE = {"surface": "bond-pad", "dew": "bond-pad", "dwell": "dwell", "no-sheet": "sheet-made"}
PLACE_OF_RULE = {"cold": "design", "cold-band": "design"}

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
    rule: str = ""


def entries(snapshot: Snapshot) -> list[Entry]:
    """Findings and items in one list, the heaviest first, what no longer counts last."""
    units = snapshot.units
    found = [
        Entry(
            finding.id, finding.weight, finding.place, numbers.fill(finding.text, units),
            numbers.fill(finding.remedy, units), open=finding.open, acceptable=finding.acceptable,
            state="accepted" if finding.accepted else "open", accepted=finding.accepted, rule=finding.rule,
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
    return sorted(
        found + written,
        key=lambda entry: (entry.state != "open", order.get(entry.weight, 9), entry.rule not in FIRST),
    )


def part_of(entry: Entry) -> str:
    """The part of the rig that an entry is about; empty: a written item that says none."""
    return place_of_slot(entry.place.rpartition(":")[2]) if entry.place else ""


def parts_named(snapshot: Snapshot) -> list[tuple[str, int]]:
    """Every part that has an open entry, with their number, in the order of the list."""
    counts: dict[str, int] = {}
    for entry in entries(snapshot):
        if entry.state == "open":
            counts[part_of(entry)] = counts.get(part_of(entry), 0) + 1
    return list(counts.items())


def part_name(snapshot: Snapshot, part: str) -> str:
    return place_name(part, snapshot.profile) if part else "no place"


def put_right_at(entry: Entry, snapshot: Snapshot) -> str:
    """The slot, the step or the place at which an entry is put right."""
    if entry.rule == "lapsed":
        return next((step.id for step in snapshot.assessment.steps if step.lapsed), entry.place)
    if entry.rule in STEP_OF_RULE:
        return f"{STEP_OF_RULE[entry.rule]}:{entry.place}"
    return PLACE_OF_RULE.get(entry.rule, entry.place)


def punch_rows(
    snapshot: Snapshot,
    width: int,
    *,
    only: str = "",
    part: str | None = None,
    chosen: str | None = None,
    opened: Collection[str] = (),
) -> list[Row]:
    """All rows of the Punch list; `only` leaves one weight, `part` one part of the rig."""
    listed = [
        entry
        for entry in entries(snapshot)
        if (not only or entry.weight == only) and (part is None or part_of(entry) == part)
    ]
    rows = []
    for key, gathered in arranged(listed, snapshot):
        if key:
            is_open = key in opened
            rows.append(folded_row(snapshot, key, gathered, width, is_open=is_open))
            if not is_open:
                continue
        rows.extend(
            entry_row(
                snapshot, entry, width, full=f"entry:{entry.id}" == chosen, indent=DEEPER if key else ""
            )
            for entry in gathered
        )
    if not rows:
        rows.append(Row("empty", (line(Span(nothing_said(snapshot, only, part), FAINT)),), choosable=False))
    return rows


def nothing_said(snapshot: Snapshot, only: str, part: str | None) -> str:
    if not only and part is None:
        return "nothing found, nothing written"
    said = f"nothing of weight {only}" if only else "nothing"
    return said if part is None else f"{said} at {part_name(snapshot, part)}"


def arranged(listed: Sequence[Entry], snapshot: Snapshot) -> list[tuple[str, list[Entry]]]:
    """The entries in rows: by themselves, then what folds; within a weight, so that the heaviest stay first."""
    skipped = {step.id for step in snapshot.assessment.steps if step.state == "skipped"}
    by_weight: dict[str, dict[str, list[Entry]]] = {}
    for entry in listed:
        weight = entry.weight if entry.state == "open" else ""
        folds = weight and entry.rule in FOLDED and entry.place not in skipped
        key = f"fold:{weight}:{entry.rule}" if folds else ""
        by_weight.setdefault(weight, {}).setdefault(key, []).append(entry)
    rows: list[tuple[str, list[Entry]]] = []
    for gathered in by_weight.values():
        for key, found in sorted(gathered.items(), key=lambda each: rank_of(each[0])):
            rows.append((key if len(found) >= LEAST_FOLDED else "", found))
    return rows


def rank_of(key: str) -> int:
    """What is wrong comes before what is only still to be done, and that in the order of the work."""
    return 1 + ORDER.index(key.rpartition(":")[2]) if key else 0


def folded_row(snapshot: Snapshot, key: str, gathered: Sequence[Entry], width: int, *, is_open: bool) -> Row:
    """Many entries of one rule as one row: how many, and which of them is next."""
    marks = snapshot.marks
    _, weight, rule = key.split(":", 2)
    head = f"{weight_mark(marks, weight)} {weight:<5} "
    said = f"{marks.open if is_open else marks.shut} {FOLDED[rule]}: {len(gathered)}"
    if not is_open:
        said += f", next is {next_name(snapshot, gathered)}"
    first, *rest = wrapped(said, width - len(head), PLAIN)
    lines = [line(Span(head, WEIGHT_ROLES.get(weight, PLAIN)), *first)]
    lines.extend(line(" " * len(head), *each) for each in rest)
    return Row(key, tuple(lines))


def next_name(snapshot: Snapshot, gathered: Sequence[Entry]) -> str:
    """What is done next of many: the step that is offered first, the slot that is wanted first; else the first."""
    assessment = snapshot.assessment
    places = {entry.place for entry in gathered}
    running = [step.id for step in assessment.steps if step.state == "running"]
    offered = assessment.day.offered if assessment.day is not None else ()
    first = next(
        (each for each in (*running, *offered, *assessment.wanted) if each in places), gathered[0].place
    )
    title = next((step.title for step in assessment.steps if step.id == first), "")
    return title or name_of(first, snapshot.profile)


def entry_row(snapshot: Snapshot, entry: Entry, width: int, *, full: bool, indent: str = "") -> Row:
    """Weight in a mark and a word, place and text; opened: the remedy, who accepted it and why."""
    marks = snapshot.marks
    counts = entry.state == "open"
    role = WEIGHT_ROLES.get(entry.weight, PLAIN) if counts else FAINT
    mark = weight_mark(marks, entry.weight) if counts else marks.accepted
    word = entry.weight if counts else entry.state
    head = f"{indent}{mark} {word:<5} "
    name = name_of(entry.place, snapshot.profile) if entry.place else ""
    told = f"{name}: {entry.text}" if name and not says_place(entry) else entry.text
    first, *rest = wrapped(told, width - len(head), PLAIN if counts else FAINT)
    lines: list[Line] = [line(Span(head, role), *first)]
    lines.extend(line(" " * len(head), *each) for each in rest)
    indent += " " * 4
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
