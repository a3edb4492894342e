"""The Figures pane as rows: by place, each figure with its band or uncertainty and whether its limit
holds."""

from collections.abc import Sequence
from functools import partial

from logic.assessment.moments import LATER
from logic.data.figure import Figure
from tui.show import numbers
from tui.show.cells import pad, shorten, width_of
from tui.show.figure_order import in_order
from tui.show.moment_facts import facts_first, figures_first
from tui.show.names import place_name, place_of_slot
from tui.show.rows import (
    BAD,
    FAINT,
    GOOD,
    HEAD,
    MOVED,
    PLAIN,
    STRONG,
    KeptRows,
    Line,
    Row,
    Span,
    beside,
    folded,
    line,
    wrapped,
)
from tui.show.snapshot import Snapshot

LABEL_LEAST = 14
WIDE = 60
SPREAD, SPREAD_WIDE = 14, 22  # cells for a band or an uncertainty; for both


def place_at_work(snapshot: Snapshot) -> str:
    """The place that the figures begin with: where the next reading is, or the step at work."""
    if snapshot.assessment.moment == LATER:
        return ""  # the work is over: the whole rig
    running = [step.place for step in snapshot.assessment.steps if step.state == "running"]
    if running and snapshot.assessment.moment not in ("planning", "survey"):
        return running[-1]
    if snapshot.target is not None:
        return place_of_slot(snapshot.target)
    return running[-1] if running else ""


def figure_rows(snapshot: Snapshot, width: int, kept: KeptRows | None = None) -> list[Row]:
    """All rows of the Figures pane: a head for each place, then its figures. `kept`: those shown before."""
    kept = kept or KeptRows()
    here = place_at_work(snapshot)
    rows = fact_rows(snapshot, width, here)
    for place, figures in in_order(snapshot.assessment.figures, snapshot.assessment.moment, here=here):
        name = place_name(place, snapshot.profile)
        moved = tuple(snapshot.moved.get(figure.id) for figure in figures)
        hang_on = (figures, moved, name, width, snapshot.units, snapshot.marks)
        rows.extend(kept.rows(place, hang_on, partial(rows_of_place, snapshot, place, name, figures, width)))
    return rows


def rows_of_place(
    snapshot: Snapshot, place: str, name: str, figures: Sequence[Figure], width: int
) -> list[Row]:
    """A place's head and its figures, their values in one column."""
    texts = [numbers.figure_text(figure, snapshot.units) for figure in figures]
    value = max((width_of(text.value) for text in texts), default=0)
    longest = max((width_of(figure.title) for figure in figures), default=0) + 4
    label = max(LABEL_LEAST, min(longest, width - value - (SPREAD if width < WIDE else SPREAD_WIDE)))
    return [
        Row(f"place:{place}", (line(Span(shorten(name, width), HEAD)),), choosable=False),
        *(
            figure_row(snapshot, figure, text, width, label=label, value=value)
            for figure, text in zip(figures, texts, strict=True)
        ),
    ]


def fact_rows(snapshot: Snapshot, width: int, here: str) -> list[Row]:
    """What stands first at this moment and is no figure."""
    facts = facts_first(snapshot, here)
    for label, figure in figures_first(snapshot, here):
        said, role = said_in_brief(snapshot, figure)
        facts.append((label, said, role))
    if not facts:
        return []
    rows = [Row("moment", (line(Span(f"now: {snapshot.assessment.moment}", HEAD)),), choosable=False)]
    for number, (label, said, role) in enumerate(facts):
        rows.append(Row(f"fact:{number}", fact_lines(label, said, role, width), choosable=False))
    return rows


def fact_lines(label: str, said: str, role: str, width: int) -> tuple[Line, ...]:
    """A fact in one line where it fits, else what it says below its label: read in that order either way."""
    column = max(LABEL_LEAST + 4, width_of(label) + 4)
    if column + width_of(said) <= width:
        return beside(label, line(Span(said, role)), width, column=column, indent="  ")
    return (*wrapped(label, width, indent="  "), *wrapped(said, width, role, indent="    "))


def said_in_brief(snapshot: Snapshot, figure: Figure) -> tuple[str, str]:
    """A figure in one span: value, spread, and whether it holds."""
    text = numbers.figure_text(figure, snapshot.units)
    said = f"{text.value}  {text.spread}".rstrip()
    if figure.holds is None:
        return said, STRONG
    if figure.holds:
        return f"{said}  holds {snapshot.marks.holds}", GOOD
    return f"{said}  does not hold {snapshot.marks.fails}", BAD


def figure_row(
    snapshot: Snapshot, figure: Figure, text: numbers.FigureText, width: int, *, label: int, value: int
) -> Row:
    """One figure: title, value, band or ±u, and in a word and a mark whether its limit is kept."""
    marks = snapshot.marks
    before = snapshot.moved.get(figure.id)
    spans: list[Span] = [Span(pad(text.value, value), MOVED if before is not None else STRONG)]
    if text.spread:
        spans.append(Span(f"  {text.spread}", PLAIN))
    if figure.holds is not None:
        said = (
            f"  {'holds' if figure.holds else 'does not hold'} {marks.holds if figure.holds else marks.fails}"
        )
        spans.append(Span(said, GOOD if figure.holds else BAD))
    lines = list(figure_lines(figure.title, tuple(spans), width, label=label))
    if before is not None:
        lines.extend(wrapped(f"{marks.moved} was {before}", width, MOVED, indent="    "))
    if figure.value is None and figure.why_not is not None:
        lines.extend(wrapped(numbers.fill(figure.why_not, snapshot.units), width, FAINT, indent="    "))
    return Row(figure.id, tuple(lines))


def figure_lines(title: str, spans: Line, width: int, *, label: int) -> tuple[Line, ...]:
    """Title and value in one line, and with them what fits there; the rest stands below, under the value.

    A title that is too long for its column shifts the value to the right; one too long for that is wrapped.
    """
    size = width_of(title) + 4
    column = label if size <= label else min(size, width - width_of(spans[0].text.rstrip()))
    shifted = column > label
    value = (Span(spans[0].text.rstrip(), spans[0].role),) if shifted else spans[:1]
    head = beside(title, value, width, column=column, indent="  ", hang="  ")
    rest = list(spans[1:])
    room = width - column - width_of(value[0].text)
    while rest and not shifted and len(head) == 1 and width_of(rest[0].text) <= room:
        room -= width_of(rest[0].text)
        head = (line(*head[0], rest.pop(0)),)
    if not rest:
        return head
    below = tuple(
        Span(span.text.strip() + ("  " if span is not rest[-1] else ""), span.role) for span in rest
    )
    indent = label if label + sum(width_of(span.text) for span in below) <= width else 4
    return (*head, *folded(below, width, indent=" " * indent))
