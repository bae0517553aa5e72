"""What has been drawn as the file that leaves the house: small, the same each time, with what is said beside the pages.

reportlab writes every object by itself and in full (ISO 32000-1, section 7.5.4). Here streams are compressed and all
else is gathered in object streams (section 7.5.7), found by a table that is a stream itself (section 7.5.8): a list of
a thousand works has ten thousand objects, most of them nodes of the structure tree.
"""

from __future__ import annotations

import re
from collections.abc import Mapping, Sequence
from functools import lru_cache
from hashlib import md5
from itertools import accumulate, pairwise
from struct import Struct
from zlib import compress

from catalogue.documents.renderers.pdf.metadata import info, packet
from catalogue.documents.renderers.pdf.tags import Element, Tree

TABLE = re.compile(rb"xref\n0 \d+ *\n(?P<places>[\d nf\n]+)trailer\s+<<(?P<said>.*)>>", re.DOTALL)
NAMED = re.compile(rb"/(Root|Info) (\d+) 0 R")
PLACE = re.compile(rb"(\d{10}) \d{5} n")
REFERENCE = re.compile(r"(\d+) 0 R")
CONTENTS = re.compile(r"/Contents (\d+) 0 R")
KIDS = re.compile(r"/Kids \[([^\]]+)\]")
STREAM = re.compile(rb"(?P<said><<.*?)/Length \d+(?P<more>[^>]*>>)\s*stream\n(?P<content>.*)endstream\s*", re.DOTALL)
FACE = b"/Length1"
"""Says of a stream that it is a TrueType font (section 9.9)."""
HEAD = b"%PDF-1.7\n%\xe2\xe3\xcf\xd3\n"
TOGETHER = 200
"""How many objects share a stream: enough to be small, few enough to be found quickly."""
QUICK = 3
"""How hard streams are compressed: twice as quick as usual, an eighth larger."""
ROW = Struct(">BIH")
"""A row of the table: kind, place or stream, position in the stream."""


Told = str | bytes
"""What an object says, a stream as bytes."""


def file_of(drawn: bytes, contents: Sequence[bytes], tree: Element, title: str, author: str, language: str) -> bytes:
    """The drawn pages with their contents, structure tree and metadata; the same ones give the same bytes."""
    objects, named, pages = drawn_objects(drawn)
    for page, content in zip(pages, contents, strict=True):
        objects[contents_of(objects[page])] = stream("", content)
    root, said = named[b"Root"], named[b"Info"]
    metadata = len(objects) + 1
    top = metadata + 1
    told = Tree(pages, top).objects(tree)
    for number, page in enumerate(pages):
        objects[page] = with_entries(objects[page], f"/StructParents {number}/Tabs/S")
    objects[said] = info(title, author)
    objects[metadata] = stream("/Type/Metadata/Subtype/XML", packet(title, author, language).encode())
    entries = f"/StructTreeRoot {top} 0 R/MarkInfo<</Marked true>>/Metadata {metadata} 0 R"
    objects[root] = with_entries(objects[root], entries)
    return written({**objects, **told}, f"/Root {root} 0 R/Info {said} 0 R")


def drawn_objects(drawn: bytes) -> tuple[dict[int, Told], dict[bytes, int], list[int]]:
    """The objects of a drawn file by their numbers, the numbers that its trailer names, those of its pages in order."""
    table = TABLE.search(drawn)
    if table is None:
        raise ValueError("The drawn file has no table of its objects.")
    starts = [*(int(place) for place in PLACE.findall(table["places"])), table.start()]
    objects = {number: body(drawn[start:end]) for number, (start, end) in enumerate(pairwise(starts), 1)}
    kids = next(found for one in objects.values() if isinstance(one, str) and (found := KIDS.search(one)))
    named = {key: int(number) for key, number in NAMED.findall(table["said"])}
    return objects, named, [int(number) for number in REFERENCE.findall(kids[1])]


def contents_of(page: Told) -> int:
    """The number of the stream that a page is drawn with."""
    found = CONTENTS.search(page) if isinstance(page, str) else None
    if found is None:
        raise ValueError("A page of the drawn file has no contents.")
    return int(found[1])


def body(told: bytes) -> Told:
    """What an object says, without its number; a stream compressed."""
    inner = told[told.index(b"obj\n") + 4 : told.rindex(b"endobj")]
    found = STREAM.fullmatch(inner)
    if found is None:
        return inner.strip().decode("latin-1")
    if b"/Filter" in found["said"] + found["more"]:
        return inner.strip()
    said = (found["said"] + found["more"]).strip()[2:-2].decode("latin-1")
    packed = packed_face(found["content"]) if FACE in found["said"] + found["more"] else None
    return stream(" ".join(said.split()), found["content"], packed)


@lru_cache(200)
def packed_face(program: bytes) -> bytes:
    """Part of a face, compressed: papers of the same words have the same ones."""
    return compress(program, 9)


def stream(said: str, content: bytes, packed: bytes | None = None) -> bytes:
    packed = compress(content, QUICK) if packed is None else packed
    head = f"<<{said}/Filter/FlateDecode/Length {len(packed)}>>\nstream\n"
    return b"".join((head.encode("latin-1"), packed, b"\nendstream"))


def with_entries(dictionary: Told, entries: str) -> str:
    """A dictionary with more in it."""
    if isinstance(dictionary, bytes):
        raise TypeError("A stream takes no further entries.")
    return f"{dictionary.rstrip()[:-2]}{entries}>>"


def written(objects: Mapping[int, Told], kept: str) -> bytes:
    """A file of numbered objects, which its trailer ``kept`` names; streams stand by themselves."""
    streams = {number: one for number, one in objects.items() if isinstance(one, bytes)}
    rest = [(number, one) for number, one in objects.items() if isinstance(one, str)]
    groups = [rest[start : start + TOGETHER] for start in range(0, len(rest), TOGETHER)]
    first = len(objects) + 1
    streams |= {first + place: object_stream(group) for place, group in enumerate(groups)}
    parts = [HEAD, *(b"%d 0 obj\n%b\nendobj\n" % one for one in streams.items())]
    *places, end = accumulate(map(len, parts))
    own = first + len(groups)
    rows = [ROW.pack(0, 0, 65535)] * own
    for number, place in zip(streams, places, strict=True):
        rows[number] = ROW.pack(1, place, 0)
    for place, group in enumerate(groups, first):
        for position, (number, _one) in enumerate(group):
            rows[number] = ROW.pack(2, place, position)
    rows.append(ROW.pack(1, end, 0))
    mark = md5(b"".join(parts), usedforsecurity=False).hexdigest()
    said = f"/Type/XRef/Size {own + 1}/W[1 4 2]{kept}/ID[<{mark}><{mark}>]"
    table = table_stream(said, b"".join(rows))
    parts.append(b"%d 0 obj\n%b\nendobj\nstartxref\n%d\n%%%%EOF\n" % (own, table, end))
    return b"".join(parts)


def object_stream(told: Sequence[tuple[int, str]]) -> bytes:
    """Objects in one stream, first the number and the place of each."""
    places = accumulate([len(one) + 1 for _number, one in told], initial=0)
    head = " ".join([f"{number} {place}" for (number, _one), place in zip(told, places, strict=False)])
    content = "\n".join([head, *[one for _number, one in told]])
    return stream(f"/Type/ObjStm/N {len(told)}/First {len(head) + 1}", content.encode("latin-1"))


def table_stream(said: str, rows: bytes) -> bytes:
    """The table of objects, each row as its difference from the one above (PNG's filter 2, section 7.4.4.4)."""
    differences = less(rows, bytes(ROW.size) + rows[: -ROW.size])
    content = b"".join([b"\x02" + differences[start : start + ROW.size] for start in range(0, len(rows), ROW.size)])
    return stream(f"{said}/DecodeParms<</Predictor 12/Columns {ROW.size}>>", content)


def less(bytes_: bytes, others: bytes) -> bytes:
    """Each byte less another, modulo 256, all at once: as two numbers whose highest bits stop every borrow.

    >>> less(bytes([5, 0, 255]), bytes([3, 1, 128]))
    b'\\x02\\xff\\x7f'
    """
    size = len(bytes_)
    one, other = int.from_bytes(bytes_, "big"), int.from_bytes(others, "big")
    high = int.from_bytes(b"\x80" * size, "big")
    low = int.from_bytes(b"\x7f" * size, "big")
    return (((one | high) - (other & low)) ^ ((one ^ ~other) & high)).to_bytes(size, "big")
