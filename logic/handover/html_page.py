"""A hand-over sheet as one HTML file: no script, nothing loaded, fit to print on A4 and Letter."""

import re
from functools import lru_cache
from html import escape

from logic.data.clean_text import clean_text
from logic.handover.blocks import (
    Block,
    Bullets,
    Card,
    Columns,
    Drawing,
    Group,
    Paragraph,
    Section,
    Sheet,
    Table,
)
from logic.handover.page_style import CONTENT_SECURITY_POLICY, STYLE

LONGEST_WHOLE = 18
"""Characters of a word that a column keeps whole; a column with a longer one may break it anywhere."""

SHORT_CELL = 16
"""Characters of a cell that is never parted, such as a moment."""

ROOM, ROOM_IN_COLUMN = 84, 34
"""Characters of such cells that a line of a table has room for, beside what may be parted."""

FEW_ROWS = 8
"""Rows of a small table that isn't parted at the end of a column."""

_MOMENT = re.compile(r"\d{4}-\d\d-\d\d[ \u00a0]\d\d:\d\d")
_WHOLE = r'<span class="whole">\g<0></span>'

# An amount and its unit, an opening bracket and what stands in it: never parted at the end of a line.
_HELD = re.compile(r" (?:(?<=[\d½¼¾⅛⅜⅝⅞] )(?=[^\s(])|(?<=[…×] )|(?=[…×]))")


def html_page(sheet: Sheet) -> str:
    """The whole file as text; every word that came from a person or a file is cleaned and escaped."""
    sections = "\n".join(_section(section) for section in sheet.sections)
    return (
        "<!doctype html>\n"
        '<html lang="en">\n<head>\n<meta charset="utf-8">\n'
        f'<meta http-equiv="Content-Security-Policy" content="{escape(CONTENT_SECURITY_POLICY)}">\n'
        '<meta name="viewport" content="width=device-width, initial-scale=1">\n'
        '<meta name="referrer" content="no-referrer">\n'
        f"<title>{_text(sheet.title)}</title>\n<style>{STYLE}</style>\n</head>\n<body>\n"
        f"<header>\n<h1>{_text(sheet.title)}</h1>\n<p>{_text(sheet.under)}</p>\n</header>\n"
        f"<main>\n{sections}\n</main>\n"
        f"<footer><p>{_text(sheet.foot)}</p></footer>\n</body>\n</html>\n"
    )


def _text(text: str) -> str:
    """One text, as text: what came from right to left stays within itself by the style's `plaintext`."""
    return escape(clean_text(text))


def _section(section: Section) -> str:
    page = ' class="page"' if section.page else ""
    blocks = "\n".join(_block(block) for block in section.blocks)
    return f"<section{page}>\n<h2>{_text(section.title)}</h2>\n{blocks}\n</section>"


def _block(block: Block) -> str:
    match block:
        case Paragraph(text, strong):
            return f'<p class="strong">{_text(text)}</p>' if strong else f"<p>{_text(text)}</p>"
        case Bullets():
            return _bullets(block)
        case Table():
            return _table(block)
        case Columns(groups):
            return f'<div class="columns">{"".join(_group(group) for group in groups)}</div>'
        case Drawing(svg, caption):
            return f"<figure>{svg}<figcaption>{_text(caption)}</figcaption></figure>"
        case Card(title, lines, table, foot):
            parts = "".join(f'<p class="large">{_text(line)}</p>' for line in lines)
            parts += "" if table is None else _table(table)
            parts += f"<p>{_text(foot)}</p>" if foot else ""
            return f'<div class="card"><h3>{_text(title)}</h3>{parts}</div>'


def _group(group: Group) -> str:
    kind = ' class="few"' if len(group.table.rows) <= FEW_ROWS else ""
    return f"<div{kind}>{_table(group.table, caption=group.title, kind='small')}</div>"


def _bullets(block: Bullets) -> str:
    tag = "ol" if block.ordered else "ul"
    kinds = [kind for kind, wanted in (("boxes", block.boxes), ("small", block.small)) if wanted]
    kind = f' class="{" ".join(kinds)}"' if kinds else ""
    return f"<{tag}{kind}>" + "".join(f"<li>{_text(line)}</li>" for line in block.lines) + f"</{tag}>"


def _table(table: Table, *, caption: str = "", kind: str = "") -> str:
    broken = {column for column in range(len(table.heads)) if _has_long_word(table, column)}
    whole = _whole_columns(table, room=ROOM_IN_COLUMN if kind else ROOM)

    def cell(tag: str, text: str, column: int) -> str:
        kinds = ["number"] if column in table.numbers else []
        kinds += ["broken"] if column in broken else ["whole"] if column in whole and tag == "td" else []
        named = f' class="{" ".join(kinds)}"' if kinds else ""
        if tag == "th" or column in broken:
            return f"<{tag}{named}>{_text(text)}</{tag}>"
        return f"<{tag}{named}>{_held(text)}</{tag}>"

    head = "".join(cell("th", text, column) for column, text in enumerate(table.heads))
    rows = "".join(
        "<tr>" + "".join(cell("td", text, column) for column, text in enumerate(row)) + "</tr>"
        for row in table.rows
    )
    columns = "".join(f'<col style="width: {width}%">' for width in table.widths)
    named = f' class="{kind}"' if kind else ""
    title = f"<caption>{_text(caption)}</caption>" if caption else ""
    return f"<table{named}>{title}{columns}<thead><tr>{head}</tr></thead><tbody>{rows}</tbody></table>"


@lru_cache(maxsize=2048)  # most cells of a long table say what one before them says
def _held(text: str) -> str:
    """A cell's text with what belongs together held together."""
    held = clean_text(text)
    if " " not in held and "\u00a0" not in held:
        return escape(held)
    return _MOMENT.sub(_WHOLE, escape(_HELD.sub("\u00a0", held)))


def _whole_columns(table: Table, *, room: int) -> set[int]:
    """The columns whose cells stand in one line: short ones, where they find room together."""
    longest = [max((len(row[column]) for row in table.rows), default=0) for column in range(len(table.heads))]
    short = {column: size for column, size in enumerate(longest) if size <= SHORT_CELL}
    return set(short) if sum(short.values()) <= room else set()


def _has_long_word(table: Table, column: int) -> bool:
    """Whether a cell of a column holds a word that isn't kept whole."""
    long = (row[column] for row in table.rows if len(row[column]) > LONGEST_WHOLE)
    return any(len(word) > LONGEST_WHOLE for cell in long for word in cell.replace("-", " ").split())
