"""A hand-over sheet as Markdown. Every word is escaped, so that it shows as it was typed."""

import re

from logic.data.clean_text import clean_text
from logic.handover.blocks import Block, Bullets, Card, Columns, Drawing, Paragraph, Section, Sheet, Table

# Signs that Markdown, or the HTML inside it, gives a meaning to wherever they stand.
_MEANT = re.compile(r"([\\`*_{}\[\]<>|~&$])")
# Those that mean something only where a line begins, and a number with its dot there.
_LINE_START = re.compile(r"^([#+=-])|^(\d+)([.)])(?=\s|$)")
# What some readers make a link of without being asked.
_LINK = re.compile(
    r"(?i)[:.@](?:(?<=[a-z]:)(?=\S)|(?<=[^\W\d]\.)(?=[^\W\d])|(?<=\w@)(?=\w))"  # the sign first: quick to find
)


def markdown_page(sheet: Sheet) -> str:
    """The whole file as text; where the page has a drawing stand the words that say the same."""
    parts = [f"# {_plain(sheet.title)}", f"**{_plain(sheet.under)}**"]
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
        case Columns(groups):
            return "\n\n".join(f"### {_plain(group.title)}\n\n{_table(group.table)}" for group in groups)
        case Drawing(words=words):
            return f"(A drawing in the HTML sheet.) {_plain(words)}"
        case Card(title, lines, table, foot):
            parts = [f"### {_plain(title)}", *(f"**{_plain(line)}**" for line in lines)]
            parts += [] if table is None else [_table(table)]
            return "\n\n".join([*parts, _plain(foot)] if foot else parts)


def _table(table: Table) -> str:
    ruler = ["---:" if column in table.numbers else "---" for column in range(len(table.heads))]
    lines = [table.heads, ruler, *table.rows]
    return "\n".join(
        "| " + " | ".join(text if cells is ruler else _plain(text) for text in cells) + " |"
        for cells in lines
    )


def _plain(text: str) -> str:
    one_line = " ".join(clean_text(text).split())
    meant = _MEANT.sub(r"\\\1", one_line)
    unlinked = _LINK.sub(r"\\\g<0>", meant)
    return _LINE_START.sub(lambda start: f"\\{start[1]}" if start[1] else f"{start[2]}\\{start[3]}", unlinked)
