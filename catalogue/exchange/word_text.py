"""The text of a word processor's file (DOCX, ISO/IEC 29500): its paragraphs as lines, the cells of its tables by tabs.

The file comes from outside: it is unpacked within limits and read as a stream, with bounds on depth, elements and text;
nothing in it is followed or run. What has been deleted under change tracking, fields and comments are left out.
"""

from __future__ import annotations

from typing import Any
from xml.sax import SAXException
from xml.sax.handler import ContentHandler

from defusedxml.common import DefusedXmlException
from defusedxml.sax import make_parser

from catalogue.exchange.archives import MEGABYTE, ArchiveError, Limits, pieces
from catalogue.exchange.pasted import MOST_CHARACTERS
from catalogue.exchange.tables import TableError, decoded

MOST_BYTES = 10 * MEGABYTE
LIMITS = Limits(each=50 * MEGABYTE, together=100 * MEGABYTE)
DEEPEST, MOST_ELEMENTS = 256, 500_000
DOCUMENT = "word/document.xml"
ENDS = {"p": "\n", "br": "\n", "cr": "\n", "tab": "\t", "noBreakHyphen": "-"}
LEFT_OUT = {"del", "moveFrom", "txbxContent"}


def text_of_file(content: bytes) -> str:
    """Return the text of a DOCX or of plain text in a usual encoding. Raises TableError."""
    if len(content) > MOST_BYTES:
        raise TableError(f"This file is larger than {MOST_BYTES // MEGABYTE} MB.")
    if content.startswith(b"PK\x03\x04"):
        return text_of_docx(content)
    if content.startswith((b"\xd0\xcf\x11\xe0", b"{\\rtf", b"%PDF")):
        raise TableError("This file is of another kind; save it as DOCX or plain text, or paste its text.")
    text, _encoding = decoded(content)
    if "\0" in text:
        raise TableError("This is no text; DOCX and plain text are read.")
    return text


def text_of_docx(content: bytes) -> str:
    paragraphs = Paragraphs()
    parser = make_parser()
    parser.forbid_dtd = True
    parser.setContentHandler(paragraphs)
    try:
        for name, piece in pieces(content, LIMITS):
            if name == DOCUMENT:
                parser.feed(piece)
        if paragraphs.elements:
            parser.close()
    except ArchiveError as fault:
        raise TableError(fault.reason) from fault
    except (SAXException, DefusedXmlException) as fault:
        raise TableError("This file is damaged and cannot be read.") from fault
    if not paragraphs.elements:
        raise TableError("This is no text of a word processor; DOCX and plain text are read.")
    return "".join(paragraphs.text)


class Paragraphs(ContentHandler):
    """Collects what stands in ``w:t``; raises TableError beyond the bounds."""

    def __init__(self) -> None:
        super().__init__()
        self.text: list[str] = []
        self.open: list[str] = []
        self.elements = self.length = self.left_out = 0

    def startElement(self, name: str, attrs: Any) -> None:
        local = name.rpartition(":")[2]
        self.open.append(local)
        self.elements += 1
        self.left_out += local in LEFT_OUT
        if len(self.open) > DEEPEST or self.elements > MOST_ELEMENTS:
            raise TableError("This file is too large or too deep to be read; paste its text instead.")

    def endElement(self, name: str) -> None:
        local = self.open.pop()
        self.left_out -= local in LEFT_OUT
        if local == "p" and "tc" in self.open:
            self.add(" ")
        elif local in ENDS and not self.left_out:
            self.add(ENDS[local])
        elif local in {"tc", "tr"}:
            self.add("\t" if local == "tc" else "\n")

    def characters(self, content: str) -> None:
        if self.open and self.open[-1] == "t" and not self.left_out:
            self.add(content)

    def add(self, text: str) -> None:
        self.length += len(text)
        if self.length > MOST_CHARACTERS:
            raise TableError("This text is too long; paste it in parts.")
        self.text.append(text)
