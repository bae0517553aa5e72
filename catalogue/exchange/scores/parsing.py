"""Reads the XML of a score (MusicXML 1.0 to 4.0, partwise or timewise) into plain values, bar by bar.

The file is read as a stream and each bar is let go once it has been read. The first part is walked note by note for
the lengths of bars; of the others only what stands over and between the notes is read, except in bars that the first
part leaves short. The parser says on its way whether a bar holds anything of that; one that holds nothing is let go
unread. Entities are neither resolved nor tolerated; nothing outside the file is read.
"""

from __future__ import annotations

from collections.abc import Iterator
from io import BytesIO
from typing import Any

from lxml import etree

from catalogue.exchange.scores.bars import MARKS, BarWalk, Clock, nominal
from catalogue.exchange.scores.figures import figure, text_of
from catalogue.exchange.scores.model import Bar, Creator, Part, PlayedInstrument, Score, ScoreError
from catalogue.exchange.scores.opening import HARDENED

MARKED = frozenset(("attributes", "barline", *MARKS))
TAGS = ("part", "measure", "score-part", "work-title", "movement-title", "creator", "credit", "fermata", *MARKED)
ROOTS = ("score-partwise", "score-timewise")
MOST_BARS = 100_000

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
    """Give the elements that matter as each ends, once the head of the file has been found sound."""
    stream = etree.iterparse(BytesIO(xml), events=("end",), tag=TAGS, **HARDENED)
    checked = False
    for _event, element in stream:
        if not checked:
            check_head(element.getroottree())
            checked = True
        yield element
    if not checked:
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
        self.index = -1  # of the bar that was read last
        self.first: str | None = None
        self.is_marked = False  # whether anything stands over or between the notes since the last bar
        self.fermatas = 0  # since the last bar

    def take(self, element: Element) -> None:
        tag = element.tag
        if tag == "measure" or tag == "part":
            self.leave(tag, element)
        elif tag in MARKED:
            self.is_marked = True
        elif tag == "fermata":
            self.fermatas += 1
        elif tag == "score-part":
            self.take_part(element)
        else:
            self.take_credit(tag, element)

    def leave(self, tag: str, element: Element) -> None:
        """Read a bar, which is a measure in a part or a part in a measure, and let go of what has been read."""
        around = element.getparent()
        if around.tag == "part":
            self.index += 1
            self.take_bar(element, around.get("id") or "", element.get("number"))
            element.clear()
            return  # the bars of a part are few, and go with it
        if around.tag == "measure":
            self.index += 1
            self.take_bar(element, element.get("id") or "", around.get("number"))
            self.index -= 1
        elif tag == "part":
            self.index = -1
            self.first = self.first if self.first is not None else element.get("id") or ""
        else:
            self.index += 1
        element.clear()
        while element.getprevious() is not None:
            del element.getparent()[0]

    def take_bar(self, element: Element, name: str, number: str | None) -> None:
        bar = self.bar_at(number)
        part = self.parts.get(name) or self.unlisted_part(name)
        if self.first is None:
            self.first = name
        is_marked, self.is_marked = self.is_marked, False
        fermatas, self.fermatas = self.fermatas, 0
        if name == self.first:
            self.score.fermatas += fermatas
        elif not bar.falls_short and not is_marked and len(part.instruments) < 2:
            return
        clock = self.clocks.get(name)
        if clock is None:
            clock = self.clocks[name] = Clock()
        walk = BarWalk(self.score, part, clock, bar, is_marked=is_marked)
        if name == self.first or bar.falls_short:
            walk.whole(element)
        else:
            walk.over_the_notes(element)

    def bar_at(self, number: str | None) -> Bar:
        """Return the bar that all parts share; one with no part in it, or in another bar, is a bar too."""
        bars = self.score.bars
        while self.index >= len(bars):
            if len(bars) >= MOST_BARS:
                raise ScoreError(f"This score has more than {MOST_BARS:,} bars and is not read.")
            bars.append(Bar(number or str(self.index + 1)))
        return bars[self.index]

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
