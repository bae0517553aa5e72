"""The house style as a style sheet that an exported page carries in itself; nothing is fetched from anywhere.

Faces are named with what stands for them where they are not installed. On paper a page keeps heads with what follows
and tells the heads of tables again.
"""

from __future__ import annotations

from catalogue.documents.model import Document
from catalogue.documents.sheets.chosen import size_of
from catalogue.documents.sheets.houses import house_of, sides_of
from catalogue.documents.sheets.paper import MM
from catalogue.rules.inks import hexadecimal

FACES = {
    "serif": '"Noto Serif", Georgia, "Times New Roman", serif',
    "sans": '"Noto Sans", "Helvetica Neue", Arial, sans-serif',
}
STYLE = """
:root { color-scheme: light; }
body { margin: 0; background: #fff; color: #000; }
.document { max-width: MEASURE; margin: 3em auto; padding: 0 1.5em; font: 100%/1.5 FACE; overflow-wrap: break-word; }
.document { overflow-x: auto; }
.document .logo { display: block; width: auto; height: auto; max-height: 4em; max-width: 50%; margin: 0 0 1.5em auto; }
h1, h2, h3, h4 { font-weight: HEAVY; line-height: 1.25; margin: 0; break-after: avoid; }
h1 { font-size: 1.9em; }
section { margin-top: 2em; }
section > h2, section > h3 { color: INK; font-size: 1.25em; margin-bottom: .6em; }
.entry h3, .entry h4, td.title { font-size: 1.05em; font-weight: normal; }
p, ul, dl, table, figure { margin: 0 0 .4em; }
header { margin-bottom: 1.5em; }
.letterhead { font-size: .9em; margin-bottom: 1.5em; }
.subtitle, .aside, .signed { font-style: italic; }
.aside, .margin, .detail, .note, .closing, .legend, .imprint, .folio, figcaption, td, th, dd, dt { font-size: .9em; }
.entry { display: grid; grid-template-columns: 5em 1fr auto; column-gap: 1em; }
.entry { margin-bottom: 1.1em; break-inside: avoid; }
.entry > * { grid-column: 2; min-width: 0; }
.entry > .margin { grid-column: 1; grid-row: 1 / span 9; }
.entry > .figure { grid-column: 3; grid-row: 1; text-align: right; }
.entry > .strip { grid-column: 3; grid-row: 2 / span 8; justify-self: end; max-width: 16em; height: auto; }
.entry p { margin-bottom: 0; }
.prose + .prose, .life + .life { text-indent: 1.35em; }
.folio { margin-top: 3em; }
ul { list-style: none; padding: 0; }
.years > li { display: grid; grid-template-columns: 5em 1fr; column-gap: 1em; }
.years li li { padding-left: 1em; text-indent: -1em; }
.pairs { display: grid; grid-template-columns: max-content 1fr; column-gap: 1.2em; }
.pairs dt { font-style: italic; } .pairs dd { margin: 0; }
table { border-collapse: collapse; width: 100%; }
th, td { text-align: left; vertical-align: top; padding: .25em .8em .25em 0; font-weight: normal; }
thead th { border-bottom: 1px solid; } tbody th { font-style: italic; }
tr, dd, figure, .signatures { break-inside: avoid; }
dt, tr:has(> [scope="rowgroup"]) { break-after: avoid; } figcaption { break-before: avoid; }
tbody:not(:has(tr:nth-child(9))) { break-inside: avoid; }
tbody tr:is(:first-child, :nth-last-child(2)) { break-after: avoid; }
.legend li { display: inline-block; margin-right: 1.4em; } .legend.key li { display: block; break-inside: avoid; }
svg { max-width: 100%; vertical-align: middle; fill: none; stroke: currentColor; }
.strip .line { stroke-width: .75; } .strip .disc, .strip .maybe { stroke-linecap: round; stroke-width: 3.8; }
.strip .maybe { stroke-width: 2; } .strip .ring { stroke-width: .9; } .strip .open { stroke-width: 2.4; }
.strip .media { fill: currentColor; stroke: none; }
.picture svg { overflow: visible; } .picture text { fill: currentColor; }
.plan svg { display: block; max-width: 32em; overflow: visible; }
.plan text { font-family: PLAIN; fill: currentColor; paint-order: stroke; stroke: #fff; stroke-width: 3px; }
.plan .clear { fill: #fff; } .plan .slant { font-style: italic; } .plan .strong { font-weight: 600; }
.box { display: inline-block; min-width: 1.1em; border: 1px solid; margin-right: .2em; }
.box { min-height: 1.1em; text-align: center; font-size: .7em; vertical-align: middle; }
.blank { display: inline-block; min-width: 5em; border-bottom: 1px solid; }
.signatures li { border-top: 1px solid; margin-top: 3em; display: flex; justify-content: space-between; }
.cover, .title-page { break-after: page; min-height: 60vh; }
@media (max-width: 36em) {
  .entry { grid-template-columns: 1fr auto; } .entry > * { grid-column: 1 / -1; grid-row: auto; }
  .entry > .margin, .entry > .strip { grid-column: 1 / -1; grid-row: auto; justify-self: start; }
}
@page { size: WIDE HIGH; margin: 22mm RIGHT 20mm LEFT; }
@media print {
  .document { max-width: none; overflow: visible; margin: 0; padding: 0; font-size: SIZE; }
  thead { display: table-header-group; }
  p { orphans: 2; widows: 2; }
}
"""


def house_css(document: Document) -> str:
    """The style sheet of a document in its house style."""
    house = house_of(document.house, document.adjusted)
    left, right = sides_of(document.adjusted.margins)
    size = size_of(document.kind, document.paper)
    told = {
        "FACE": FACES[house.text],
        "PLAIN": FACES["sans"],
        "MEASURE": "68em" if size.width > size.height else "42em",
        "HEAVY": "600" if house.strong_heads else "normal",
        "INK": hexadecimal(house.ink),
        "WIDE": f"{size.width / MM:.0f}mm",
        "HIGH": f"{size.height / MM:.0f}mm",
        "LEFT": f"{left / MM:.0f}mm",
        "RIGHT": f"{right / MM:.0f}mm",
        "SIZE": f"{9.5 * house.scale:.2g}pt",
    }
    style = STYLE
    for name, value in told.items():
        style = style.replace(name, value)
    return style
