"""What a hand-over sheet is made of, before it is HTML or Markdown: sections of plain blocks.

Every text in a block is plain text. The renderers escape it; nothing here is ever markup.
"""

import msgspec


class Paragraph(msgspec.Struct, frozen=True):
    text: str
    strong: bool = False


class Bullets(msgspec.Struct, frozen=True):
    lines: tuple[str, ...]
    ordered: bool = False
    boxes: bool = False  # an empty box before each, to be ticked by hand


class Table(msgspec.Struct, frozen=True):
    """Rows of cells under their heads; `numbers` are the columns that are set to the right.

    widths : of the columns, in hundredths of the table; empty: as their texts ask.
    """

    heads: tuple[str, ...]
    rows: tuple[tuple[str, ...], ...]
    numbers: tuple[int, ...] = ()
    widths: tuple[int, ...] = ()


class Drawing(msgspec.Struct, frozen=True):
    """An SVG made by this project, its texts already escaped, and the words that say the same."""

    svg: str
    caption: str


class Card(msgspec.Struct, frozen=True):
    """A table to be cut out and kept at the switch or the fuse holder."""

    title: str
    table: Table
    foot: str = ""


Block = Paragraph | Bullets | Table | Drawing | Card


class Section(msgspec.Struct, frozen=True):
    title: str
    blocks: tuple[Block, ...]
    page: bool = False  # begins a page when printed


class Sheet(msgspec.Struct, frozen=True):
    title: str
    under: str  # the line under the title: rig, day, verdict
    sections: tuple[Section, ...]
    foot: str
