"""Tables and folded paragraphs as ready lines; widths are counted in terminal cells, never with `len`."""

import shutil
import sys
from collections.abc import Sequence

NARROWEST = 40  # cells: a terminal that says less is not believed
LEAST_ROOM = 24  # cells: with less beside it a text goes below
INDENT = "  "


def cells(text: str) -> int:
    """How many cells of a terminal a text takes."""
    if text.isascii():
        return len(text)
    from rich.cells import cell_len

    return cell_len(text)


def screen_width() -> int | None:
    """The width of the terminal on standard output; None where there is none, and no line is folded."""
    if sys.stdout is None or not sys.stdout.isatty():
        return None
    return max(NARROWEST, shutil.get_terminal_size().columns)


def table(rows: Sequence[Sequence[str]], *, indent: str = INDENT, gap: int = 2) -> list[str]:
    """Rows with their columns lined up; a column that is empty throughout is left out.

    The last column is folded where the terminal is too narrow for it, below itself or else below the row.
    """
    if not rows:
        return []
    columns = max(len(row) for row in rows)
    full = [[*row, *[""] * (columns - len(row))] for row in rows]
    widths = [max(cells(row[number]) for row in full) for number in range(columns - 1)]
    lines = []
    for row in full:
        start = indent + "".join(
            cell + " " * (width - cells(cell) + gap)
            for cell, width in zip(row[:-1], widths, strict=True)
            if width
        )
        lines.extend(hung(start, row[-1]))
    return lines


def hung(start: str, text: str) -> list[str]:
    """`text` after `start`, folded so that every further line begins below its first word.

    Where too little room is left beside `start` the text stands below it, a step further in.
    """
    width = screen_width()
    room = None if width is None else width - cells(start)
    if width is None or room is None or room >= min(LEAST_ROOM, cells(text)):
        first, *rest = folded(text, room)
        margin = " " * cells(start)
        return [(start + first).rstrip(), *((margin + line).rstrip() for line in rest)]
    margin = " " * (cells(start) - cells(start.lstrip(" "))) + 2 * INDENT
    words = folded(start.rstrip(), width)
    return [*words, *(margin + line for line in folded(text, width - cells(margin)))]


def folded(text: str, room: int | None) -> list[str]:
    """A text in lines of at most `room` cells, broken between words; one line where `room` is None."""
    if room is None or cells(text) <= room:
        return [text]
    lines: list[str] = []
    line = ""
    for word in text.split(" "):
        longer = f"{line} {word}" if line else word
        if line and cells(longer) > room:
            lines.append(line)
            line = word
        else:
            line = longer
    return [*lines, line]
