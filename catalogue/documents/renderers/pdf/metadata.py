"""What a PDF says of itself: its information dictionary (ISO 32000-1, section 14.3.3) and the same as XMP (14.3.2)."""

from __future__ import annotations

from xml.sax.saxutils import escape

from catalogue.documents.renderers.characters import printable
from catalogue.documents.renderers.pdf.tags import text_string

PRODUCER = "ReportLab PDF Library"
FIXED = "2000-01-01T00:00:00Z"
"""The date that the file bears: what dates a document is printed on it."""
PACKET = """<?xpacket begin="\ufeff" id="W5M0MpCehiHzreSzNTczkc9d"?>
<x:xmpmeta xmlns:x="adobe:ns:meta/"><rdf:RDF xmlns:rdf="http://www.w3.org/1999/02/22-rdf-syntax-ns#">
<rdf:Description rdf:about="" xmlns:dc="http://purl.org/dc/elements/1.1/" xmlns:pdf="http://ns.adobe.com/pdf/1.3/"
 xmlns:xmp="http://ns.adobe.com/xap/1.0/">
<dc:title><rdf:Alt><rdf:li xml:lang="x-default">{title}</rdf:li></rdf:Alt></dc:title>
<dc:creator><rdf:Seq><rdf:li>{author}</rdf:li></rdf:Seq></dc:creator>
<dc:language><rdf:Bag><rdf:li>{language}</rdf:li></rdf:Bag></dc:language>
<pdf:Producer>{producer}</pdf:Producer>
<xmp:CreateDate>{date}</xmp:CreateDate>
</rdf:Description></rdf:RDF></x:xmpmeta>
<?xpacket end="w"?>"""
"""The metadata as XMP, Part 1 (ISO 16684-1) has them, with the properties that PDF readers look for."""


def info(title: str, author: str) -> str:
    said = (("Title", title), ("Author", author), ("Producer", PRODUCER))
    return f"<<{''.join(f'/{key}{text_string(text)}' for key, text in said)}>>"


def packet(title: str, author: str, language: str) -> str:
    told = {"title": printable(title), "author": printable(author), "language": language, "producer": PRODUCER}
    return PACKET.format(date=FIXED, **{key: escape(text) for key, text in told.items()})
