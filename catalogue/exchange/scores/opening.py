"""The XML of a score file: plain (``.musicxml``, ``.xml``) or in a compressed container (``.mxl``), within limits.

A container names its score in ``META-INF/container.xml`` (MusicXML 4.0, "Compressed MusicXML files"); where that is
missing, the first score in the archive is taken.
"""

from __future__ import annotations

import re
from collections import defaultdict
from io import BytesIO

from lxml import etree

from catalogue.exchange.archives import MEGABYTE, ArchiveError, Limits, in_megabytes, pieces
from catalogue.exchange.file_formats import HEAD, format_of
from catalogue.exchange.scores.model import ScoreError

ZIP = b"PK\x03\x04"
LARGEST = 100 * MEGABYTE
BEGINS_XML = re.compile(rb"(?:\xef\xbb\xbf)?\s*<|\xff\xfe|\xfe\xff|\0\0\xfe\xff|\0*<\0*")
CONTAINER = "META-INF/container.xml"
SCORE_ENDINGS = (".musicxml", ".xml")
LIMITS = Limits(members=1000, each=LARGEST, together=LARGEST + 20 * MEGABYTE, ratio=2000)
HARDENED = {
    "resolve_entities": False,
    "no_network": True,
    "load_dtd": False,
    "huge_tree": False,
    "remove_comments": True,
    "remove_pis": True,
}


def score_xml(content: bytes) -> bytes:
    """Return the XML of a score file. Raises ScoreError for a container that is damaged, too large or without score."""
    if not content.startswith(ZIP):
        refuse_other(content)
        return within_limit(content)
    try:
        members = members_of(content)
    except ArchiveError as fault:
        raise ScoreError(fault.reason) from fault
    name = named_in_container(members.get(CONTAINER, b""))
    if name not in members:
        name = next((one for one in members if is_score(one)), "")
    if not name:
        raise ScoreError("There is no score in this compressed file.")
    return within_limit(members[name])


def refuse_other(content: bytes) -> None:
    """Say of a file that is plainly no XML what it is by its first bytes."""
    if not content.strip():
        raise ScoreError("This file is empty.")
    if BEGINS_XML.match(content):
        return
    found = format_of(content[:HEAD])
    told = f"By its content this file is {found.name}" if found else "This file is no XML"
    raise ScoreError(f"{told}, and no score; let the notation program export the score as MusicXML.")


def within_limit(content: bytes) -> bytes:
    if len(content) > LARGEST:
        raise ScoreError(f"This score is larger than {in_megabytes(LARGEST)} and is not read.")
    return content


def members_of(content: bytes) -> dict[str, bytes]:
    """Return the XML members of a container, others (pictures, sounds) left out."""
    found: defaultdict[str, BytesIO] = defaultdict(BytesIO)
    for name, piece in pieces(content, LIMITS):
        if name == CONTAINER or name.lower().endswith(SCORE_ENDINGS):
            found[name].write(piece)
    return {name: written.getvalue() for name, written in found.items()}  # which copies nothing


def is_score(name: str) -> bool:
    return not name.startswith(("META-INF/", "__MACOSX/")) and name.lower().endswith(SCORE_ENDINGS)


def named_in_container(container: bytes) -> str:
    """Return the path of the first root file that a container names, "" where it names none."""
    if not container:
        return ""
    try:
        root = etree.fromstring(container, etree.XMLParser(**HARDENED))
    except etree.XMLSyntaxError:
        return ""
    paths = (one.get("full-path") for one in root.iter("{*}rootfile"))
    return next((path for path in paths if path), "")
