"""A table as a sheet of the OpenDocument format (ISO/IEC 26300-1, its package ISO/IEC 26300-3).

All cells are text. A line of a cell is a paragraph; spaces that a reader would run together are elements. A tab stays a
tab: spreadsheet programs show it as a space, while the element for it is lost to readers that take text alone.
Characters that XML 1.0 (section 2.2) forbids are left out. Same rows, same bytes.
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator, Sequence
from io import BytesIO
from xml.sax.saxutils import escape, quoteattr
from zipfile import ZIP_DEFLATED, ZIP_STORED, ZipFile, ZipInfo

KIND = "application/vnd.oasis.opendocument.spreadsheet"
PARTS = {"office": "office", "table": "table", "text": "text"}
NAMES = " ".join(f'xmlns:{short}="urn:oasis:names:tc:opendocument:xmlns:{name}:1.0"' for short, name in PARTS.items())
HEAD = '<?xml version="1.0" encoding="UTF-8"?>\n'
MANIFEST = (
    f'{HEAD}<manifest:manifest xmlns:manifest="urn:oasis:names:tc:opendocument:xmlns:manifest:1.0" '
    'manifest:version="1.2">'
    f'<manifest:file-entry manifest:full-path="/" manifest:version="1.2" manifest:media-type="{KIND}"/>'
    '<manifest:file-entry manifest:full-path="content.xml" manifest:media-type="text/xml"/></manifest:manifest>'
)
FORBIDDEN = re.compile("[^\t\n\x20-\ud7ff\ue000-\ufffd\U00010000-\U0010ffff]")
RUN_OF_SPACES = re.compile(r"^ +|  +| +$")
MADE = (2000, 1, 1, 0, 0, 0)


def ods_of(rows: Iterable[Sequence[str]], name: str) -> bytes:
    """Return a sheet of text cells of that name."""
    target = BytesIO()
    with ZipFile(target, "w") as package:
        # First and not packed, so that the kind of the file can be told from its first bytes (26300-3, section 3.3).
        package.writestr(ZipInfo("mimetype", MADE), KIND, ZIP_STORED)
        package.writestr(ZipInfo("content.xml", MADE), "".join(content(rows, name)), ZIP_DEFLATED)
        package.writestr(ZipInfo("META-INF/manifest.xml", MADE), MANIFEST, ZIP_DEFLATED)
    return target.getvalue()


def content(rows: Iterable[Sequence[str]], name: str) -> Iterator[str]:
    yield f'{HEAD}<office:document-content {NAMES} office:version="1.2"><office:body><office:spreadsheet>'
    yield f"<table:table table:name={quoteattr(name)}>"
    for row in rows:
        yield f"<table:table-row>{''.join(map(cell_element, row))}</table:table-row>"
    yield "</table:table></office:spreadsheet></office:body></office:document-content>"


def cell_element(text: str) -> str:
    lines = FORBIDDEN.sub("", text.replace("\r\n", "\n").replace("\r", "\n")).split("\n")
    if lines == [""]:
        return "<table:table-cell/>"
    paragraphs = "".join(f"<text:p>{RUN_OF_SPACES.sub(spaces, escape(line))}</text:p>" for line in lines)
    return f'<table:table-cell office:value-type="string">{paragraphs}</table:table-cell>'


def spaces(found: re.Match[str]) -> str:
    return f'<text:s text:c="{len(found[0])}"/>'
