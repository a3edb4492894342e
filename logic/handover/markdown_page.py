"""A hand-over sheet as Markdown. Every word is escaped, so that it shows as it was typed."""

import re

from logic.handover.blocks import Block, Bullets, Card, Drawing, Paragraph, Section, Sheet, Table

# Signs that Markdown or the HTML inside it gives a meaning to.
_MEANT = re.compile(r"([\\`*_{}\[\]<>()#+!|~&$-])")
_LINE_START = re.compile(r"^(\d+)([.)])")


def markdown_page(sheet: Sheet) -> str:
    """The whole file as text; drawings are left out, their captions stay."""
    parts = [f"# {_plain(sheet.title)}", _plain(sheet.under)]
    parts += [_section(section) for section in sheet.sections]
    parts.append(f"---\n\n{_plain(sheet.foot)}")
    return "\n\n".join(parts) + "\n"


def _section(section: Section) -> str:
    return "\n\n".join([f"## {_plain(section.title)}", *(_block(block) for block in section.blocks)])


def _block(block: Block) -> str:
    match block:
        case Paragraph(text, strong):
            return f"**{_plain(text)}**" if strong and text else _plain(text)
        case Bullets(lines, ordered, boxes):
            marks = [f"{number}." for number in range(1, len(lines) + 1)] if ordered else ["-"] * len(lines)
            box = "[ ] " if boxes else ""
            return "\n".join(f"{mark} {box}{_plain(line)}" for mark, line in zip(marks, lines, strict=True))
        case Table():
            return _table(block)
        case Drawing(_, caption):
            return f"(Drawing, in the HTML sheet: {_plain(caption)})"
        case Card(title, table, foot):
            parts = [f"### {_plain(title)}", _table(table)]
            return "\n\n".join([*parts, _plain(foot)] if foot else parts)


def _table(table: Table) -> str:
    ruler = ["---:" if column in table.numbers else "---" for column in range(len(table.heads))]
    lines = [table.heads, ruler, *table.rows]
    return "\n".join(
        "| " + " | ".join(text if cells is ruler else _plain(text) for text in cells) + " |"
        for cells in lines
    )


def _plain(text: str) -> str:
    one_line = " ".join(text.split())
    return _LINE_START.sub(r"\1\\\2", _MEANT.sub(r"\\\1", one_line))
