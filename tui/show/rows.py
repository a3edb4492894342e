"""Rows of a pane as plain data: keyed, made of lines, made of spans of text in a role.

What a role looks like is the theme's business. Rows are compared to find what has to be drawn again.
"""

from collections.abc import Callable, Iterable, Sequence
from functools import lru_cache
from typing import NamedTuple

from tui.show.cells import pad, width_of, wrap

# Roles that a span can have. Each differs from plain text in more than its hue, or has a word beside it.
PLAIN, FAINT, STRONG, HEAD, GOOD, WARN, BAD, MOVED = (
    "plain", "faint", "strong", "head", "good", "warn", "bad", "moved",
)  # fmt: skip
ROLES = (PLAIN, FAINT, STRONG, HEAD, GOOD, WARN, BAD, MOVED)


class Span(NamedTuple):
    text: str
    role: str = PLAIN


Line = tuple[Span, ...]


class Row(NamedTuple):
    """One thing in a list; `key` is its identity for cursor, scroll and drawing."""

    key: str
    lines: tuple[Line, ...]
    choosable: bool = True


def line(*spans: Span | str) -> Line:
    """A line of spans; a bare text is plain."""
    return tuple(span if isinstance(span, Span) else Span(span) for span in spans if span)


def text_of(spans: Line) -> str:
    """What a line says, without its roles."""
    return "".join(span.text for span in spans)


def line_width(spans: Line) -> int:
    return sum(width_of(span.text) for span in spans)


@lru_cache(maxsize=4096)
def wrapped(text: str, width: int, role: str = PLAIN, *, indent: str = "") -> tuple[Line, ...]:
    """A text in one role over as many lines as it takes, each after `indent`."""
    inner = width - width_of(indent)
    return tuple(line(Span(f"{indent}{part}", role)) for part in wrap(text, inner))


@lru_cache(maxsize=4096)
def beside(
    label: str, spans: Line, width: int, *, column: int, role: str = PLAIN, indent: str = "", hang: str = ""
) -> tuple[Line, ...]:
    """A label and what belongs to it: in one line where that fits, else the label wrapped before it.

    The label's column is `column` cells wide, indent included; the spans are never cut. `hang` stands before the
    label's further lines.
    """
    value = line_width(spans)
    room = width - value
    if room >= column:
        return _labelled(label, spans, column, role, indent, hang)
    if room - 1 >= width_of(indent) + 8:  # a narrower column still holds a word
        return _labelled(label, spans, room, role, indent, hang)
    return (*wrapped(label, width, role, indent=indent), *folded(spans, width, indent=f"{indent}  "))


def _labelled(label: str, spans: Line, column: int, role: str, indent: str, hang: str) -> tuple[Line, ...]:
    parts = wrap(label, column - width_of(indent) - 1)
    if hang and len(parts) > 1:
        rest = wrap(" ".join(parts[1:]), column - width_of(indent) - 1 - width_of(hang))
        parts = [parts[0], *(f"{hang}{part}" for part in rest)]
    first = line(Span(pad(f"{indent}{parts[0]}", column), role), *spans)
    return (first, *(line(Span(f"{indent}{part}", role)) for part in parts[1:]))


@lru_cache(maxsize=4096)
def folded(spans: Line, width: int, *, indent: str = "") -> tuple[Line, ...]:
    """Spans over several lines where they are wider than `width`: broken between spans, then at blanks."""
    lines: list[Line] = []
    current: list[Span] = []
    used = width_of(indent)
    for span in spans:
        size = width_of(span.text)
        if used + size <= width:
            current.append(span)
            used += size
            continue
        if current:
            lines.append(line(indent, *current))
            current, used = [], width_of(indent)
        parts = wrap(span.text.strip(), width - width_of(indent))
        lines.extend(line(indent, Span(part, span.role)) for part in parts[:-1])
        current, used = [Span(parts[-1], span.role)], width_of(indent) + width_of(parts[-1])
    if current:
        lines.append(line(indent, *current))
    return tuple(lines)


class KeptRows:
    """Rows kept from one showing to the next, as long as all that they say is the same."""

    def __init__(self) -> None:
        self._kept: dict[str, tuple[tuple[object, ...], list[Row]]] = {}

    def rows(self, key: str, hang_on: tuple[object, ...], make: Callable[[], list[Row]]) -> list[Row]:
        """The rows of a part; `hang_on`: everything that goes into them, made anew where any of it differs."""
        found = self._kept.get(key)
        if found is None or found[0] != hang_on:
            found = self._kept[key] = hang_on, make()
        return found[1]


def spread(left: Line, right: Line, width: int) -> Line:
    """Two ends of one line with blanks between; they may touch where there is no room."""
    gap = max(1, width - line_width(left) - line_width(right))
    return (*left, Span(" " * gap), *right)


def changed_lines(old: Sequence[Line], new: Sequence[Line]) -> Iterable[tuple[int, int]]:
    """(first, count) of each stretch of lines that differ, over the longer of the two."""
    length, both = max(len(old), len(new)), min(len(old), len(new))
    # Most lines are the very same objects, several hundred of them at each showing.
    differ = [y for y, (was, now) in enumerate(zip(old, new, strict=False)) if was is not now and was != now]
    start = end = -1
    for y in (*differ, *range(both, length)):
        if y != end:
            if end > start:
                yield start, end - start
            start = y
        end = y + 1
    if end > start:
        yield start, end - start
