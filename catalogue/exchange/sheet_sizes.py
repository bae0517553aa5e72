"""How far the filled cells of a spreadsheet reach, found before its cells are laid out in memory.

One cell in the last corner makes a file of a few kilobytes a table of 17,000 million cells. The sheets are read as a
stream: of XLSX the parts ``xl/worksheets/*.xml`` (ISO/IEC 29500), of ODS ``content.xml`` (OASIS OpenDocument), where
cells and rows are repeated by number.
"""

from __future__ import annotations

import re
from collections.abc import Callable
from typing import Any
from xml.sax.handler import ContentHandler

from defusedxml.sax import make_parser

Refuse = Callable[[int, int], None]

XLSX_SHEET = re.compile(r"xl/worksheets/[^/]+\.xml", re.IGNORECASE)
CELL = re.compile(r"([A-Z]{1,3})([0-9]{1,7})")
ODS_CONTENT = "content.xml"


class SizeScan:
    """Takes the pieces of an archive and calls ``refuse`` with row and column of each filled cell, counted from 1."""

    def __init__(self, refuse: Refuse) -> None:
        self.refuse = refuse
        self.parsers: dict[str, Any] = {}

    def feed(self, name: str, piece: bytes) -> None:
        """Raises DefusedXmlException or SAXException for XML that is hostile or broken."""
        if XLSX_SHEET.fullmatch(name):
            self.parser_of(name, XlsxCells).feed(piece)
        elif name == ODS_CONTENT:
            self.parser_of(name, OdsCells).feed(piece)

    def parser_of(self, name: str, handler: type[XlsxCells] | type[OdsCells]) -> Any:
        if name not in self.parsers:
            parser = make_parser()
            parser.forbid_dtd = True
            parser.setContentHandler(handler(self.refuse))
            self.parsers[name] = parser
        return self.parsers[name]


class XlsxCells(ContentHandler):
    """Cells say where they stand; those that do not follow the one before."""

    def __init__(self, refuse: Refuse) -> None:
        super().__init__()
        self.refuse = refuse
        self.row = self.column = 0

    def startElement(self, name: str, attrs: Any) -> None:
        local = name.rpartition(":")[2]
        if local == "row":
            self.row = int(attrs["r"]) if attrs.get("r", "").isdigit() else self.row + 1
            self.column = 0
        elif local == "c":
            place = CELL.fullmatch(attrs.get("r", ""))
            self.column = column_number(place[1]) if place else self.column + 1
            self.row = int(place[2]) if place else self.row
        elif local in ("v", "is", "f"):
            self.refuse(self.row, self.column)


class OdsCells(ContentHandler):
    """Cells and rows are counted, each as often as it is repeated; an empty one only moves the place along."""

    def __init__(self, refuse: Refuse) -> None:
        super().__init__()
        self.refuse = refuse
        self.row = self.column = 0

    def startElement(self, name: str, attrs: Any) -> None:
        local = name.rpartition(":")[2]
        if local == "table":
            self.row = 0
        elif local == "table-row":
            self.row += repeated(attrs, "table:number-rows-repeated")
            self.column = 0
        elif local in ("table-cell", "covered-table-cell"):
            self.column += repeated(attrs, "table:number-columns-repeated")
            if "office:value-type" in attrs or "calcext:value-type" in attrs:
                self.refuse(self.row, self.column)
        elif local == "p":
            self.refuse(self.row, self.column)


def repeated(attrs: Any, name: str) -> int:
    written = attrs.get(name, "1")
    return int(written) if written.isdigit() and len(written) < 9 else 1


def column_number(letters: str) -> int:
    """
    >>> column_number("A"), column_number("XFD")
    (1, 16384)
    """
    number = 0
    for letter in letters:
        number = number * 26 + ord(letter) - ord("A") + 1
    return number
