"""A hand-over sheet as one HTML file: no script, nothing loaded, fit to print on A4 and Letter."""

from html import escape

from logic.handover.blocks import Block, Bullets, Card, Drawing, Paragraph, Section, Sheet, Table

# Nothing but the page's own style may run or load, whatever a name or a note in it says.
CONTENT_SECURITY_POLICY = (
    "default-src 'none'; style-src 'unsafe-inline'; img-src data:; base-uri 'none'; form-action 'none'"
)

STYLE = """
@page { margin: 15mm 13mm; }
:root { color-scheme: light; }
* { box-sizing: border-box; }
body { font: 10.5pt/1.45 "Liberation Sans", "DejaVu Sans", Arial, sans-serif; color: #111; background: #fff;
  max-width: 186mm; margin: 8mm auto; padding: 0 4mm; }
header { border-bottom: 2.5pt solid #111; margin-bottom: 5mm; }
h1 { font-size: 19pt; margin: 0 0 1mm; }
header p { margin: 0 0 2mm; }
h2 { font-size: 13pt; margin: 7mm 0 2mm; border-bottom: .75pt solid #777; break-after: avoid; }
p, li { margin: 1mm 0; overflow-wrap: anywhere; }
.strong { font-weight: bold; }
ul, ol { margin: 1mm 0 2mm; padding-left: 6mm; }
ul.boxes { list-style: none; padding-left: 0; }
ul.boxes li::before { content: "\\2610"; padding-right: 2mm; }
table { border-collapse: collapse; width: 100%; margin: 2mm 0 3mm; }
th, td { border: .5pt solid #777; padding: .8mm 1.6mm; text-align: left; vertical-align: top; }
td { overflow-wrap: anywhere; }
th { background: #eee; }
thead { display: table-header-group; }
tr, figure, .card { break-inside: avoid; }
td.number, th.number { text-align: right; font-variant-numeric: tabular-nums; }
figure { margin: 3mm 0; }
figure svg { display: block; width: 100%; height: auto; }
figcaption { font-size: 9pt; color: #333; margin-top: 1mm; }
.card { border: 1.2pt dashed #111; padding: 3mm; margin: 3mm 0; max-width: 120mm; }
.card h3 { margin: 0 0 1mm; font-size: 11pt; }
footer { margin-top: 8mm; border-top: .75pt solid #777; font-size: 9pt; color: #333; }
@media print { body { margin: 0; padding: 0; max-width: none; } .page { break-before: page; } }
"""


def html_page(sheet: Sheet) -> str:
    """The whole file as text; every word that came from a person or a file is escaped."""
    sections = "\n".join(_section(section) for section in sheet.sections)
    return (
        "<!doctype html>\n"
        '<html lang="en">\n<head>\n<meta charset="utf-8">\n'
        f'<meta http-equiv="Content-Security-Policy" content="{escape(CONTENT_SECURITY_POLICY)}">\n'
        '<meta name="viewport" content="width=device-width, initial-scale=1">\n'
        '<meta name="referrer" content="no-referrer">\n'
        f"<title>{escape(sheet.title)}</title>\n<style>{STYLE}</style>\n</head>\n<body>\n"
        f"<header>\n<h1>{escape(sheet.title)}</h1>\n<p>{escape(sheet.under)}</p>\n</header>\n"
        f"<main>\n{sections}\n</main>\n"
        f"<footer><p>{escape(sheet.foot)}</p></footer>\n</body>\n</html>\n"
    )


def _section(section: Section) -> str:
    page = ' class="page"' if section.page else ""
    blocks = "\n".join(_block(block) for block in section.blocks)
    return f"<section{page}>\n<h2>{escape(section.title)}</h2>\n{blocks}\n</section>"


def _block(block: Block) -> str:
    match block:
        case Paragraph(text, strong):
            return f'<p class="strong">{escape(text)}</p>' if strong else f"<p>{escape(text)}</p>"
        case Bullets(lines, ordered, boxes):
            tag = "ol" if ordered else "ul"
            kind = ' class="boxes"' if boxes else ""
            items = "".join(f"<li>{escape(line)}</li>" for line in lines)
            return f"<{tag}{kind}>{items}</{tag}>"
        case Table():
            return _table(block)
        case Drawing(svg, caption):
            return f"<figure>{svg}<figcaption>{escape(caption)}</figcaption></figure>"
        case Card(title, table, foot):
            last = f"<p>{escape(foot)}</p>" if foot else ""
            return f'<div class="card"><h3>{escape(title)}</h3>{_table(table)}{last}</div>'


def _table(table: Table) -> str:
    def cell(tag: str, text: str, column: int) -> str:
        kind = ' class="number"' if column in table.numbers else ""
        return f"<{tag}{kind}>{escape(text)}</{tag}>"

    head = "".join(cell("th", text, column) for column, text in enumerate(table.heads))
    rows = "".join(
        "<tr>" + "".join(cell("td", text, column) for column, text in enumerate(row)) + "</tr>"
        for row in table.rows
    )
    columns = "".join(f'<col style="width: {width}%">' for width in table.widths)
    return f"<table>{columns}<thead><tr>{head}</tr></thead><tbody>{rows}</tbody></table>"
