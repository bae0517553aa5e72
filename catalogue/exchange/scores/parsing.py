"""Reads the XML of a score (MusicXML 1.0 to 4.0, partwise or timewise) into plain values, part by part, bar by bar.

The first part is walked note by note for the lengths of bars; of the others only what stands over and between the notes
is read, except in bars that the first part leaves short. A bar that holds nothing of that is left unread. A file of
ordinary size is parsed at once, which is quickest; a larger one as a stream, and each part is let go once it has been
read. Entities are neither resolved nor tolerated; nothing outside the file is read.
"""

from __future__ import annotations

from collections.abc import Iterator
from io import BytesIO
from typing import Any

from lxml import etree

from catalogue.exchange.archives import MEGABYTE
from catalogue.exchange.scores.bars import MARKS, BarWalk, Clock, nominal
from catalogue.exchange.scores.figures import figure, text_of
from catalogue.exchange.scores.model import Bar, Creator, Part, PlayedInstrument, Score, ScoreError
from catalogue.exchange.scores.opening import HARDENED

MARKED = ("attributes", "barline", *MARKS)
HEAD = ("score-part", "work-title", "movement-title", "creator", "credit")
BARS = ("part", "measure")
ROOTS = ("score-partwise", "score-timewise")
MOST_BARS = 100_000
AT_ONCE = 16 * MEGABYTE
"""What is larger is read as a stream: parsed at once, a score takes up to ten times as much memory as its XML."""
MOST_TAGS = 8_000_000

Element = Any  # lxml ships no types


def parsed(xml: bytes) -> Score:
    """Return what the XML of a score says. Raises ScoreError."""
    reading = Reading()
    try:
        for element in elements(xml):
            reading.take(element)
    except etree.XMLSyntaxError as fault:
        line = getattr(fault, "lineno", None) or 1
        raise ScoreError(f"This file is not well-formed XML (line {line}).") from fault
    if not reading.score.parts and not reading.score.bars:
        raise ScoreError("There is no part in this score.")
    for bar in reading.score.bars:
        bar.quarters = bar.quarters or nominal(bar)  # a bar with nothing written in it is a bar's rest
    return reading.score


def elements(xml: bytes) -> Iterator[Element]:
    """Give what matters in the head of a score and its parts. Raises ScoreError, and lxml's own syntax error."""
    return streamed(xml) if len(xml) > AT_ONCE else at_once(xml)


def at_once(xml: bytes) -> Iterator[Element]:
    """Give what matters in the head and the parts (timewise: the bars), once the root has been found sound."""
    root = etree.fromstring(xml, etree.XMLParser(**HARDENED))
    check_head(root.getroottree())
    for child in root:
        if child.tag in BARS:
            yield child
        else:
            yield from child.iter(*HEAD)


def streamed(xml: bytes) -> Iterator[Element]:
    """Give the same as it is parsed, and let go of each part or bar once it has been read."""
    if xml.count(b"<") > MOST_TAGS:
        raise ScoreError(f"This score has more than {MOST_TAGS // 2:,} elements and is not read.")
    stream = etree.iterparse(BytesIO(xml), events=("end",), tag=(*HEAD, *BARS), **HARDENED)
    root: Element = None
    for _event, element in stream:
        if root is None:
            root = element.getroottree().getroot()
            check_head(root.getroottree())
        if element.tag not in BARS:
            yield element
        elif element.getparent() is root:
            yield element
            element.clear()
            del root[: root.index(element)]
    if root is None:
        check_head(stream.root.getroottree())


def check_head(tree: Element) -> None:
    root = str(tree.getroot().tag).rpartition("}")[2]  # the parser lets names pass that lxml's own type refuses
    if root not in ROOTS:
        raise ScoreError(f"This XML is no MusicXML score: it begins with “{root[:40]}”, not with score-partwise.")
    declared = tree.docinfo.internalDTD
    if declared is not None and next(declared.iterentities(), None) is not None:
        raise ScoreError("This file declares entities of its own and is not read.")


class Reading:
    """What has been read so far, and where in the file the reader stands."""

    def __init__(self) -> None:
        self.score = Score()
        self.parts: dict[str, Part] = {}
        self.clocks: dict[str, Clock] = {}
        self.first: str | None = None
        self.measures = 0  # of a timewise score

    def take(self, element: Element) -> None:
        tag = element.tag
        if tag == "part":
            self.take_bars_of_part(element)
        elif tag == "measure":
            self.take_parts_of_bar(element)
        elif tag == "score-part":
            self.take_part(element)
        else:
            self.take_credit(tag, element)

    def take_bars_of_part(self, part: Element) -> None:
        name = part.get("id") or ""
        for index, (element, is_marked, fermatas) in enumerate(bars_in(part, "measure")):
            self.take_bar(self.bar_at(index, element), element, name, is_marked, fermatas)
        self.first = self.first if self.first is not None else name

    def take_parts_of_bar(self, measure: Element) -> None:
        for element, is_marked, fermatas in bars_in(measure, "part"):
            bar = self.bar_at(self.measures, measure)
            self.take_bar(bar, element, element.get("id") or "", is_marked, fermatas)
        self.measures += 1

    def take_bar(self, bar: Bar, element: Element, name: str, is_marked: bool, fermatas: int) -> None:
        """Read a bar of one part, as far as it says what is not known yet."""
        part = self.parts.get(name) or self.unlisted_part(name)
        if self.first is None:
            self.first = name
        if name == self.first:
            self.score.fermatas += fermatas
        elif not (bar.falls_short or is_marked or len(part.instruments) > 1):
            return
        clock = self.clocks.get(name)
        if clock is None:
            clock = self.clocks[name] = Clock()
        walk = BarWalk(self.score, part, clock, bar, is_marked=is_marked)
        if name == self.first or bar.falls_short:
            walk.whole(element)
        else:
            walk.over_the_notes(element)

    def bar_at(self, index: int, measure: Element) -> Bar:
        """Return the bar that all parts share; one with no part in it, or in another bar, is a bar too."""
        bars = self.score.bars
        while index >= len(bars):
            if len(bars) >= MOST_BARS:
                raise ScoreError(f"This score has more than {MOST_BARS:,} bars and is not read.")
            bars.append(Bar(measure.get("number") or str(index + 1)))
        return bars[index]

    def unlisted_part(self, name: str) -> Part:
        part = self.parts[name] = Part(name)
        self.score.parts.append(part)
        return part

    def take_part(self, element: Element) -> None:
        part = Part(
            element.get("id") or "",
            text_of(element.find("part-name")),
            text_of(element.find("part-abbreviation")),
            instruments_of(element),
        )
        self.parts[part.id] = part
        self.score.parts.append(part)

    def take_credit(self, tag: str, element: Element) -> None:
        score = self.score
        if tag == "work-title":
            score.title = score.title or text_of(element)
        elif tag == "movement-title":
            score.movement = score.movement or text_of(element)
        elif tag == "creator" and text_of(element):
            score.creators.append(Creator(text_of(element), (element.get("type") or "").strip()))
        elif tag == "credit" and element.findtext("credit-type") == "title":
            score.title = score.title or " ".join(text_of(one) for one in element.iter("credit-words"))


def bars_in(element: Element, tag: str) -> Iterator[tuple[Element, bool, int]]:
    """Give each bar with whether anything stands over or between its notes, and how many fermatas."""
    bar, is_marked, fermatas = None, False, 0
    for found in element.iter(tag, *MARKED, "fermata"):
        kind = found.tag
        if kind == tag:
            if bar is not None:
                yield bar, is_marked, fermatas
            bar, is_marked, fermatas = found, False, 0
        elif kind == "fermata":
            fermatas += 1
        else:
            is_marked = True
    if bar is not None:
        yield bar, is_marked, fermatas


def instruments_of(element: Element) -> list[PlayedInstrument]:
    midi = {one.get("id"): one for one in element.iterchildren("midi-instrument")}
    found = []
    for one in element.iterchildren("score-instrument"):
        sound = midi.get(one.get("id"))
        program = figure(sound.findtext("midi-program")) if sound is not None else None
        found.append(
            PlayedInstrument(
                one.get("id") or "",
                text_of(one.find("instrument-name")),
                text_of(one.find("instrument-sound")),
                int(program) if program else None,
                sound is not None
                and (sound.find("midi-unpitched") is not None or sound.findtext("midi-channel") == "10"),
            )
        )
    return found
