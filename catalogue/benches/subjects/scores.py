"""Reading a score file, beside the parser's own walk over the same file.

Whoever reads a score must have its XML parsed and be given each bar of each part: the parser does that with the same
guards, and lets each bar go unread. That is the least that reading can cost; what is measured beside it finds parts,
forces, the length of every bar, tempi, repeats and a tempo map as well, hence an aim of half as much again.
"""

from __future__ import annotations

from collections.abc import Iterator
from contextlib import contextmanager
from io import BytesIO

from lxml import etree

from catalogue.benches.measuring import Bench, Heading, Pair
from catalogue.exchange.scores import read_score
from catalogue.exchange.scores.opening import HARDENED

PARTS = (
    "Flute",
    "Oboe",
    "Clarinet in B♭",
    "Bassoon",
    "Horn in F",
    "Trumpet",
    "Violin I",
    "Violin II",
    "Viola",
    "Cello",
)
TEMPO = '<direction><direction-type><words>Lento</words></direction-type><sound tempo="{}"/></direction>'
DYNAMIC = "<direction><direction-type><dynamics><p/></dynamics></direction-type></direction>"
FIRST = "<attributes><divisions>4</divisions><time><beats>4</beats><beat-type>4</beat-type></time></attributes>"
NOTE = (
    "<note><pitch><step>{}</step><octave>4</octave></pitch><duration>2</duration><voice>1</voice><type>eighth</type>"
    "<stem>up</stem></note>"
)
NOTES = "".join(NOTE.format(step) for step in "CDEFGABC")


def score(bars: int) -> bytes:
    """Return an invented score of ten parts: eight notes a bar, a dynamic in every other, a new tempo every 16 bars."""
    listed = "".join(
        f'<score-part id="P{at}"><part-name>{name}</part-name></score-part>' for at, name in enumerate(PARTS)
    )
    parts = "".join(f'<part id="P{at}">{"".join(part(at, bars))}</part>' for at in range(len(PARTS)))
    return (
        f'<?xml version="1.0" encoding="UTF-8"?><score-partwise version="4.0"><part-list>{listed}</part-list>{parts}'
        "</score-partwise>"
    ).encode()


def part(at: int, bars: int) -> Iterator[str]:
    for bar in range(bars):
        head = FIRST if not bar else ""
        head += TEMPO.format(60 + bar % 40) if not at and bar % 16 == 0 else DYNAMIC if bar % 2 else ""
        yield f'<measure number="{bar + 1}">{head}{NOTES}</measure>'


def walked(xml: bytes) -> int:
    """Return how many bars of parts the parser gives."""
    found = 0
    for _event, element in etree.iterparse(BytesIO(xml), tag="measure", **HARDENED):
        found += 1
        element.clear()
    return found


@contextmanager
def of_bars(bars: int) -> Iterator[Pair]:
    given = score(bars)
    yield Pair(ours=lambda: read_score(given), bare=lambda: walked(given))


HEADING = Heading.RECKONING
BENCHES = (
    Bench(
        "read a score of ten parts, bars",
        "the parser gives each bar of each part of the same file once and lets it go unread",
        (10, 100, 1_000),
        of_bars,
        aim=1.5,
    ),
)
