"""The last walk as rows: place by place as one crawls, what lies there, what was read, proven and seen, what stops."""

from collections.abc import Collection, Iterator, Sequence

from logic.assessment.last_walk import ACCEPTED, FINDING, OPEN, OTHER_STEP, SEEN, STEP, Halt, Look
from tui.show import numbers
from tui.show.marks import Marks, step_mark, weight_mark
from tui.show.rows import BAD, FAINT, GOOD, HEAD, PLAIN, WARN, Line, Row, Span, beside, line, spread, wrapped

MOST_APART = 2  # things of one kind at a place that stand by themselves; more are one row that opens
INDENT, DEEPER = "  ", "    "

# What of a place is folded into one row where there is much of it: steps that the walk doesn't look at, and sizes.
FOLDED = {
    OTHER_STEP: ("other steps of it not done", ()),
    FINDING: ("sizes not read twice", ("planned", "single")),
}


def last_walk_rows(
    halts: Sequence[Halt],
    width: int,
    units: str,
    marks: Marks,
    *,
    opened: Collection[str] = (),
    chosen: str | None = None,
) -> list[Row]:
    """All rows of the walk. `chosen`: the row under the cursor, which says what would put it right."""
    rows = [Row("how", (*summary(halts, width), ()), choosable=False)]
    for number, halt in enumerate(halts, start=1):
        rows.append(halt_row(halt, number, len(halts), width, units))
        for key, looks in gathered(halt):
            if len(looks) > MOST_APART and key:
                is_open = key in opened
                rows.append(folded_row(key, looks, width, units, marks, is_open=is_open))
                if not is_open:
                    continue
            rows.extend(
                look_row(halt, look, width, units, marks, full=row_key(halt, look) == chosen)
                for look in looks
            )
    return rows


def summary(halts: Sequence[Halt], width: int) -> tuple[Line, ...]:
    """How much of the walk is left, in one sentence."""
    stops = sum(halt.stops for halt in halts)
    if not halts:
        return wrapped("nothing is planned under there yet: no tank, no heater, no run", width, FAINT)
    places = f"{len(halts)} places, in the order in which one crawls"
    if stops:
        at = sum(1 for halt in halts if halt.stops)
        return wrapped(f"{places}; {stops} stop closing, at {at} of them", width, BAD)
    left = sum(halt.open for halt in halts)
    if left:
        return wrapped(f"{places}; nothing stops closing, {left} still open", width, WARN)
    return wrapped(f"{places}; all seen, nothing known stops closing", width, GOOD)


def row_key(halt: Halt, look: Look) -> str:
    return f"look:{halt.place}:{look.id}"


def look_of(halts: Sequence[Halt], key: str | None) -> Look | None:
    """The look that a row stands for."""
    return next((look for halt in halts for look in halt.looks if row_key(halt, look) == key), None)


def halt_row(halt: Halt, number: int, total: int, width: int, units: str) -> Row:
    """A place: its number on the way, its name, how much stops there; below it what lies there."""
    said, role = standing(halt)
    head = spread(line(Span(f"{number} of {total} · {halt.title}", HEAD)), line(Span(said, role)), width)
    lines: list[Line] = [(), head] if number > 1 else [head]
    if halt.there is not None:
        lines.extend(wrapped(numbers.fill(halt.there, units), width, FAINT, indent=INDENT))
    return Row(f"halt:{halt.place}", tuple(lines), choosable=False)


def standing(halt: Halt) -> tuple[str, str]:
    """How a place stands, in two words."""
    if halt.stops:
        return f"{halt.stops} stop", BAD
    return (f"{halt.open} open", WARN) if halt.open else ("all seen", GOOD)


def gathered(halt: Halt) -> Iterator[tuple[str, list[Look]]]:
    """The looks of a place in their order; those that are folded together under one key, at the first one's place."""
    folded: dict[str, list[Look]] = {}
    order: list[tuple[str, list[Look]]] = []
    for look in halt.looks:
        key = fold_key(halt, look)
        if not key:
            order.append(("", [look]))
        elif key in folded:
            folded[key].append(look)
        else:
            folded[key] = [look]
            order.append((key, folded[key]))
    yield from order


def fold_key(halt: Halt, look: Look) -> str:
    """Under what a look is folded; empty: it stands by itself."""
    if look.state != OPEN or look.kind not in FOLDED:
        return ""
    rules = FOLDED[look.kind][1]
    return f"fold:{halt.place}:{look.kind}" if not rules or look.rule in rules else ""


def folded_row(
    key: str, looks: Sequence[Look], width: int, units: str, marks: Marks, *, is_open: bool
) -> Row:
    """Many of one kind in one row, with the first of them."""
    what = FOLDED[key.rpartition(":")[2]][0]
    first = numbers.fill(looks[0].text, units)
    role = BAD if looks[0].stops else WARN
    mark = marks.open if is_open else marks.shut
    head, *rest = wrapped(f"{what}: {len(looks)}, the first: {first}", width - len(INDENT), role)
    return Row(key, (line(Span(f"{mark} ", role), *head), *(line(INDENT, *each) for each in rest)))


def look_row(halt: Halt, look: Look, width: int, units: str, marks: Marks, *, full: bool) -> Row:
    """One thing to look at: mark, text, and how it stands in a word; under the cursor what would put it right."""
    mark, word, role = how_it_stands(look, marks)
    text = numbers.fill(look.text, units)
    lines = list(
        beside(
            f"{mark} {text}",
            line(Span(f" {word}", role)),
            width,
            column=width - len(word) - 1,
            role=PLAIN if look.state == OPEN else FAINT,
            hang=INDENT,
        )
    )
    if full and look.remedy is not None and look.state == OPEN:
        remedy = numbers.fill(look.remedy, units)
        if remedy:
            lines.extend(wrapped(remedy, width, GOOD, indent=DEEPER))
    return Row(row_key(halt, look), tuple(lines))


def how_it_stands(look: Look, marks: Marks) -> tuple[str, str, str]:
    """Mark, word and role of a look."""
    if look.state == ACCEPTED:
        return marks.accepted, "accepted", FAINT
    if look.state == SEEN:
        return marks.done, {"read": "read", "proven": "proven"}.get(look.kind, "seen"), GOOD
    if look.kind == STEP and look.weight != "use":
        return step_mark(marks, "waiting"), "stop" if look.stops else "open", BAD if look.stops else WARN
    return weight_mark(marks, look.weight), look.weight or "open", BAD if look.stops else WARN
