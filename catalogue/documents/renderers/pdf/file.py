"""What has been drawn as the file that leaves the house: small, the same each time, with what is said beside the pages.

reportlab writes every object by itself and in full (ISO 32000-1, section 7.5.4). Here streams are compressed and all
else is gathered in object streams (section 7.5.7), found by a table that is a stream itself (section 7.5.8): a list of
a thousand works has ten thousand objects, most of them nodes of the structure tree.
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Mapping
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
REFERENCE = re.compile(rb"(\d+) 0 R")
KIDS = re.compile(rb"/Kids \[([^\]]+)\]")
STREAM = re.compile(rb"(?P<said><<.*?)/Length \d+(?P<more>[^>]*>>)\s*stream\n(?P<content>.*)endstream\s*", re.DOTALL)
FACE = b"/Length1"
"""Says of a stream that it is a TrueType font (section 9.9)."""
HEAD = b"%PDF-1.7\n%\xe2\xe3\xcf\xd3\n"
TOGETHER = 200
"""How many objects share a stream: enough to be small, few enough to be found quickly."""
ROW = Struct(">BIH")
"""A row of the table: kind, place or stream, position in the stream."""


def file_of(drawn: bytes, tree: Element, title: str, author: str, language: str) -> bytes:
    """The drawn pages with their structure tree and metadata; the same pages and tree give the same bytes."""
    objects, named, pages = drawn_objects(drawn)
    root, said = named[b"Root"], named[b"Info"]
    told = Tree(pages, len(objects) + 1)
    top = told.add_root(tree)
    objects |= told.objects()
    for number, page in enumerate(pages):
        objects[page] = with_entries(objects[page], f"/StructParents {number}/Tabs/S")
    metadata = len(objects) + 1
    objects[said] = info(title, author).encode("ascii")
    objects[metadata] = stream("/Type/Metadata/Subtype/XML", packet(title, author, language).encode())
    entries = f"/StructTreeRoot {top} 0 R/MarkInfo<</Marked true>>/Metadata {metadata} 0 R"
    objects[root] = with_entries(objects[root], entries)
    return written(objects, f"/Root {root} 0 R/Info {said} 0 R")


def drawn_objects(drawn: bytes) -> tuple[dict[int, bytes], dict[bytes, int], list[int]]:
    """The objects of a drawn file by their numbers, the numbers that its trailer names, those of its pages in order."""
    table = TABLE.search(drawn)
    if table is None:
        raise ValueError("The drawn file has no table of its objects.")
    starts = [*(int(place) for place in PLACE.findall(table["places"])), table.start()]
    objects = {number: body(drawn[start:end]) for number, (start, end) in enumerate(pairwise(starts), 1)}
    kids = next(found for one in objects.values() if (found := KIDS.search(one)))
    named = {key: int(number) for key, number in NAMED.findall(table["said"])}
    return objects, named, [int(number) for number in REFERENCE.findall(kids[1])]


def body(told: bytes) -> bytes:
    """What an object says, without its number; a stream compressed."""
    inner = told[told.index(b"obj\n") + 4 : told.rindex(b"endobj")]
    found = STREAM.fullmatch(inner)
    if found is None or b"/Filter" in found["said"] + found["more"]:
        return inner.strip()
    said = (found["said"] + found["more"]).strip()[2:-2].decode("latin-1")
    packed = packed_face(found["content"]) if FACE in found["said"] + found["more"] else None
    return stream(" ".join(said.split()), found["content"], packed)


@lru_cache(200)
def packed_face(program: bytes) -> bytes:
    """Part of a face, compressed: papers of the same words have the same ones."""
    return compress(program)


def stream(said: str, content: bytes, packed: bytes | None = None) -> bytes:
    packed = compress(content) if packed is None else packed
    head = f"<<{said}/Filter/FlateDecode/Length {len(packed)}>>\nstream\n"
    return b"".join((head.encode("latin-1"), packed, b"\nendstream"))


def with_entries(dictionary: bytes, entries: str) -> bytes:
    return dictionary.rstrip()[:-2] + entries.encode("ascii") + b">>"


def written(objects: Mapping[int, bytes], kept: str) -> bytes:
    """A file of numbered objects, which its trailer ``kept`` names; streams stand by themselves."""
    apart = {number for number, one in objects.items() if one.endswith(b"endstream")}
    rest = [number for number in objects if number not in apart]
    groups = [rest[start : start + TOGETHER] for start in range(0, len(rest), TOGETHER)]
    first = len(objects) + 1
    streams = {number: objects[number] for number in sorted(apart)}
    streams |= {first + place: object_stream(group, objects) for place, group in enumerate(groups)}
    parts = [HEAD, *(b"%d 0 obj\n%b\nendobj\n" % one for one in streams.items())]
    *places, end = accumulate(map(len, parts))
    own = first + len(groups)
    rows = bytearray(ROW.size * (own + 1))
    ROW.pack_into(rows, 0, 0, 0, 65535)
    ROW.pack_into(rows, ROW.size * own, 1, end, 0)
    for number, place in zip(streams, places, strict=True):
        ROW.pack_into(rows, ROW.size * number, 1, place, 0)
    for place, group in enumerate(groups, first):
        for position, number in enumerate(group):
            ROW.pack_into(rows, ROW.size * number, 2, place, position)
    mark = md5(b"".join(parts), usedforsecurity=False).hexdigest()
    said = f"/Type/XRef/Size {own + 1}/W[1 4 2]{kept}/ID[<{mark}><{mark}>]"
    parts.append(b"%d 0 obj\n%b\nendobj\nstartxref\n%d\n%%%%EOF\n" % (own, table_stream(said, bytes(rows)), end))
    return b"".join(parts)


def object_stream(numbers: Iterable[int], objects: Mapping[int, bytes]) -> bytes:
    """Objects in one stream, first the number and the place of each."""
    told = [(number, objects[number]) for number in numbers]
    places = accumulate([len(one) + 1 for _number, one in told], initial=0)
    head = " ".join([f"{number} {place}" for (number, _one), place in zip(told, places, strict=False)]) + "\n"
    content = head.encode("ascii") + b"\n".join([one for _number, one in told])
    return stream(f"/Type/ObjStm/N {len(told)}/First {len(head)}", content)


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
