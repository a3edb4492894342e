"""How the HTML sheet looks, on a screen and on paper, and what a browser may do with it: nothing but show it."""

# Nothing but the page's own style may run or load, whatever a name or a note in it says.
CONTENT_SECURITY_POLICY = "default-src 'none'; style-src 'unsafe-inline'; base-uri 'none'; form-action 'none'"

STYLE = """
@page { margin: 14mm 13mm 16mm;
  @bottom-right { content: counter(page) " / " counter(pages); font: 8pt "Liberation Sans", Arial, sans-serif; } }
:root { color-scheme: light; }
* { box-sizing: border-box; }
body { font: 10pt/1.4 "Liberation Sans", "DejaVu Sans", Arial, sans-serif; color: #111; background: #fff;
  max-width: 190mm; margin: 8mm auto; padding: 0 4mm; unicode-bidi: plaintext; }
header { border-bottom: 2.5pt solid #111; margin-bottom: 4mm; }
h1 { font-size: 18pt; margin: 0 0 1mm; overflow-wrap: anywhere; }
header p { margin: 0 0 2mm; font-weight: bold; }
h2 { font-size: 12.5pt; margin: 6mm 0 2mm; border-bottom: .75pt solid #777; break-after: avoid; }
p, li, td, h1 { unicode-bidi: plaintext; }
p, li { margin: 1mm 0; overflow-wrap: anywhere; orphans: 2; widows: 2; }
.strong { font-weight: bold; break-after: avoid; }
ul, ol { margin: 1mm 0 2mm; padding-left: 6mm; }
ul.boxes { list-style: none; padding-left: 0; }
ul.boxes li::before { content: "\\2610"; padding-right: 2mm; }
ul.small { columns: 2; column-gap: 7mm; font-size: 8.5pt; line-height: 1.3; padding-left: 4mm; }
li { break-inside: avoid; }
table { border-collapse: collapse; width: 100%; margin: 2mm 0 3mm; font-size: 9pt; line-height: 1.3; }
th, td { border: .5pt solid #777; padding: .6mm 1.4mm; text-align: left; vertical-align: top; }
.broken { overflow-wrap: anywhere; }
.whole { white-space: nowrap; }
th { background: #eee; }
thead { display: table-header-group; }
tr, figure, .card { break-inside: avoid; }
td.number, th.number { text-align: right; font-variant-numeric: tabular-nums; }
caption { text-align: left; font-weight: bold; padding: 0 0 .8mm; break-after: avoid; }
.columns { columns: 2; column-gap: 6mm; }
.few { break-inside: avoid; }
table.small { font-size: 8pt; line-height: 1.25; margin: 0 0 3mm; }
table.small th, table.small td { padding: .4mm 1mm; }
table.small th { font-weight: normal; color: #333; }
figure { margin: 3mm 0 4mm; }
figure svg { display: block; width: 100%; height: auto; }
figcaption { font-size: 8.5pt; color: #333; margin-top: 1mm; overflow-wrap: anywhere; }
.card { border: 1.2pt dashed #111; padding: 3mm; margin: 3mm 0; max-width: 130mm; }
.card h3 { margin: 0 0 1mm; font-size: 10.5pt; overflow-wrap: anywhere; }
.card .large { font-size: 13pt; font-weight: bold; line-height: 1.25; margin: 1.5mm 0; }
footer { margin-top: 6mm; border-top: .75pt solid #777; font-size: 8.5pt; color: #333; break-inside: avoid; }
@media print { body { margin: 0; padding: 0; max-width: none; } .page { break-before: page; } }
@media screen and (max-width: 170mm) { .columns, ul.small { columns: 1; } section { overflow-x: auto; } }
"""
