"""What a hand-over sheet is made of, before it is HTML or Markdown: sections of plain blocks.

Every text in a block is plain text. The renderers escape it; nothing here is ever markup.
"""

import msgspec


class Paragraph(msgspec.Struct, frozen=True):
    text: str
    strong: bool = False


class Bullets(msgspec.Struct, frozen=True):
    """Lines of a list.

    small : a long one that is looked something up in, set small and in two columns.
    """

    lines: tuple[str, ...]
    ordered: bool = False
    boxes: bool = False  # an empty box before each, to be ticked by hand
    small: bool = False


class Table(msgspec.Struct, frozen=True):
    """Rows of cells under their heads; `numbers` are the columns that are set to the right.

    widths : of the columns, in hundredths of the table; empty: as their texts ask.
    """

    heads: tuple[str, ...]
    rows: tuple[tuple[str, ...], ...]
    numbers: tuple[int, ...] = ()
    widths: tuple[int, ...] = ()


class Group(msgspec.Struct, frozen=True):
    """A small table under a title of its own, one of many."""

    title: str
    table: Table


class Columns(msgspec.Struct, frozen=True):
    """Many small tables of one kind, set side by side in two columns where there is room."""

    groups: tuple[Group, ...]


class Drawing(msgspec.Struct, frozen=True):
    """An SVG made by this project, its texts already escaped, and the words that say the same."""

    svg: str
    caption: str  # under the drawing
    words: str  # in its place, where no drawing can be


class Card(msgspec.Struct, frozen=True):
    """Something to be cut out and kept at the switch or the fuse holder."""

    title: str
    lines: tuple[str, ...] = ()  # large
    table: Table | None = None
    foot: str = ""


Block = Paragraph | Bullets | Table | Columns | Drawing | Card


class Section(msgspec.Struct, frozen=True):
    title: str
    blocks: tuple[Block, ...]
    page: bool = False  # begins a page when printed


class Sheet(msgspec.Struct, frozen=True):
    title: str
    under: str  # the line under the title: verdict and day
    sections: tuple[Section, ...]
    foot: str


def without_empty_columns(table: Table, *, keep: int = 1) -> Table:
    """The table less the columns in which no row says anything; the first `keep` of them stay."""
    stays = [
        column
        for column in range(len(table.heads))
        if column < keep or any(row[column] not in ("", "–") for row in table.rows)
    ]
    if len(stays) == len(table.heads):
        return table
    widths = tuple(table.widths[column] for column in stays) if table.widths else ()
    return Table(
        heads=tuple(table.heads[column] for column in stays),
        rows=tuple(tuple(row[column] for column in stays) for row in table.rows),
        numbers=tuple(number for number, column in enumerate(stays) if column in table.numbers),
        widths=tuple(round(width * 100 / sum(widths)) for width in widths),
    )
