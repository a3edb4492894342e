"""A figure's working as rows: value, formula, limit, sources, and the slots it hangs on with how each is
known."""

from logic.assessment.model_limits import MODEL_LIMITS
from logic.data.figure import Figure
from tui.show import numbers
from tui.show.marks import slot_mark
from tui.show.names import place_name
from tui.show.rows import BAD, FAINT, GOOD, HEAD, PLAIN, STRONG, WARN, Line, Row, Span, line, wrapped
from tui.show.slot_rows import STATE_ROLES, value_text
from tui.show.snapshot import Snapshot


def working_rows(snapshot: Snapshot, figure_id: str, width: int) -> list[Row]:
    """The rows of one figure; a note where the rig has it no more."""
    figure = next((each for each in snapshot.assessment.figures if each.id == figure_id), None)
    if figure is None:
        return [Row("gone", wrapped("this rig has no such figure any more", width, FAINT))]
    blocks = [
        ("figure", value_lines(snapshot, figure, width)),
        ("working", headed("How it is worked out", numbers.working(figure, snapshot.units), width)),
        ("sources", source_lines(figure, width)),
        ("slots", slot_lines(snapshot, figure, width)),
        ("limits", limit_lines(figure, width)),
    ]
    return [Row(key, (*lines, ())) for key, lines in blocks if lines]


def value_lines(snapshot: Snapshot, figure: Figure, width: int) -> tuple[Line, ...]:
    """The value with band and limit, and what it was before the last event."""
    text = numbers.figure_text(figure, snapshot.units)
    place = place_name(figure.place, snapshot.profile)
    lines = list(wrapped(f"{place}, {figure.title}: {text.value}", width, STRONG))
    if text.u:
        lines.extend(wrapped(f"{text.u}, one standard uncertainty of the readings", width, PLAIN))
    if text.band:
        lines.extend(wrapped(f"{text.band}, the band of the model", width, PLAIN))
    before = snapshot.moved.get(figure.id)
    if before is not None:
        lines.extend(wrapped(f"was {before} before the last event", width, "moved"))
    if figure.value is None and figure.why_not is not None:
        lines.extend(wrapped(numbers.fill(figure.why_not, snapshot.units), width, WARN))
    if figure.holds is not None:
        limit = numbers.fill(figure.limit, snapshot.units) if figure.limit is not None else ""
        said = f"{'holds' if figure.holds else 'does not hold'}: {limit}".rstrip(": ")
        lines.extend(wrapped(said, width, GOOD if figure.holds else BAD))
    return tuple(lines)


def headed(head: str, text: str, width: int) -> tuple[Line, ...]:
    return (line(Span(head, HEAD)), *wrapped(text, width)) if text else ()


def limit_lines(figure: Figure, width: int) -> tuple[Line, ...]:
    """What the model doesn't know, beside the figures that come out of it: those of heat."""
    if not figure.place.startswith(("tank.", "drain.", "bay.")):
        return ()
    lines: list[Line] = [line(Span("What the model does not know", HEAD))]
    for each in MODEL_LIMITS:
        lines.extend(wrapped(each, width, FAINT))
    return tuple(lines)


def source_lines(figure: Figure, width: int) -> tuple[Line, ...]:
    """The sources by their names in the table, each with its section and mark; an id only where no table has it."""
    if not figure.sources:
        return ()
    lines: list[Line] = [line(Span("Sources", HEAD))]
    for source in figure.sources:
        lines.extend(wrapped(numbers.source_text(source) or source, width))
    return tuple(lines)


def slot_lines(snapshot: Snapshot, figure: Figure, width: int) -> tuple[Line, ...]:
    """The readings that it hangs on; one whose second is owed keeps its value to itself."""
    views = [view for name in figure.slots if (view := snapshot.slot(name)) is not None]
    if not views:
        return ()
    lines: list[Line] = [line(Span("Hangs on", HEAD))]
    for view in views:
        name = f"{place_name(view.place, snapshot.profile)} {view.title}"
        mark = slot_mark(snapshot.marks, view.state)
        told = f"{name}  {value_text(snapshot, view)}  {view.state} {mark}"
        lines.extend(wrapped(told, width, STATE_ROLES.get(view.state, PLAIN)))
    return tuple(lines)
