"""What is said beside the reading line, in as many lines as there are: of a list, only whole entries."""

from collections.abc import Sequence

from tui.show.cells import wrap
from tui.show.rows import FAINT, Line, Span, line

ENTRY = "\N{UNIT SEPARATOR}"  # between the entries of a list, until it is known how many of them there is room for
MORE = " …"


def said_lines(said: Sequence[tuple[str, str]], width: int, most: int, *, between: str) -> list[Line]:
    """Texts with their roles in at most `most` lines; `between` stands between the entries of a list.

    A list that is too long says how many entries it leaves out; any other text that is too long ends with an
    ellipsis, never within a number.
    """
    told: list[Line] = []
    for text, role in said:
        room = most - len(told)
        if not text or room <= 0:
            continue
        entries = text.split(ENTRY)
        parts = wrap(between.join(entries), width)
        if len(parts) > room and len(entries) > 1:
            parts = whole_entries(entries, width, room, between=between)
        if len(parts) > room:
            parts = [*parts[: room - 1], f"{wrap(parts[room - 1], width - len(MORE))[0]}{MORE}"]
        told.extend(line(Span(part, role if part.strip() != MORE.strip() else FAINT)) for part in parts)
    return told


def whole_entries(entries: Sequence[str], width: int, most: int, *, between: str) -> list[str]:
    """As many entries as fit into `most` lines, and how many are left out."""
    for count in range(len(entries) - 1, -1, -1):
        text = between.join([*entries[:count], f"{len(entries) - count} more"])
        parts = wrap(text, width)
        if len(parts) <= most:
            return parts
    return wrap(between.join(entries), width)
