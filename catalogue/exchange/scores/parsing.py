"""Reads the XML of a score (MusicXML 1.0 to 4.0, partwise or timewise) into plain values, part by part, bar by bar.

The first part is walked note by note for the lengths of bars; of the others only what stands over and between the notes
is read, except in bars that the first part leaves short. A bar that holds nothing of that is left unread. A file of
ordinary size is parsed at once, which is quickest; a larger one as a stream, and each bar is let go once it has been
read. Entities are neither resolved nor tolerated; nothing outside the file is read.
"""

from __future__ import annotations

from collections.abc import Callable, Generator, Iterator
from io import BytesIO
from itertools import chain
from typing import Any, TypeVar

from lxml import etree

from catalogue.exchange.archives import MEGABYTE, in_megabytes
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
PORTION = MEGABYTE
LONGEST_BAR = 16 * MEGABYTE
"""How much of a stream may go by without a bar that ends: so much is held in memory."""

Element = Any  # lxml ships no types
Result = TypeVar("Result")


def parsed(xml: bytes) -> Score:
    """Return what the XML of a score says. Raises ScoreError."""
    return result_of(parsed_in_steps(xml))


def result_of(steps: Generator[int, None, Result], told: Callable[[int], object] = bool) -> Result:
    """Take all steps, tell each, and return what they come to."""
    while True:
        try:
            told(next(steps))
        except StopIteration as done:
            found: Result = done.value
            return found


def parsed_in_steps(xml: bytes) -> Generator[int, None, Score]:
    """Read a score portion by portion, giving how many bytes have been read; return what it says. Raises ScoreError."""
    reading, done = Reading(), 0
    try:
        for portion in portions(xml):
            for element in portion:
                reading.take(element)
            done += PORTION
            yield min(done, len(xml))
    except etree.XMLSyntaxError as fault:
        raise ScoreError(sentence_of(fault, xml)) from fault
    if not reading.score.parts and not reading.score.bars:
        raise ScoreError("There is no part in this score.")
    for bar in reading.score.bars:
        bar.quarters = bar.quarters or nominal(bar)  # a bar with nothing written in it is a bar's rest
    return reading.score


def sentence_of(fault: etree.XMLSyntaxError, xml: bytes) -> str:
    """Say that a score breaks off before its end, or what line of it is no XML."""
    line = getattr(fault, "lineno", None) or 1
    begins, ends = (part.replace(b"\0", b"") for part in (xml[:10_000], xml[-1_000:]))
    if b"<score-" in begins and b"</score-" not in ends:
        return f"This file was cut off: it ends in line {line}, before the score does."
    return f"This file is not well-formed XML (line {line})."


def elements(xml: bytes) -> Iterator[Element]:
    """Give what matters in the head of a score and its parts. Raises ScoreError, and lxml's own syntax error."""
    return chain.from_iterable(portions(xml))


def portions(xml: bytes) -> Iterator[Iterator[Element]]:
    """Give the elements of a large score megabyte by megabyte, those of another all at once."""
    if len(xml) > AT_ONCE:
        yield from streamed(xml)
    else:
        yield at_once(xml)


def at_once(xml: bytes) -> Iterator[Element]:
    """Give what matters in the head and the parts (timewise: the bars), once the root has been found sound."""
    root = etree.fromstring(xml, etree.XMLParser(**HARDENED, remove_blank_text=True))  # a third fewer nodes
    check_head(root.getroottree())
    for child in root:
        if child.tag in BARS:
            yield child
        else:
            yield from child.iter(*HEAD)


def streamed(xml: bytes) -> Iterator[Iterator[Element]]:
    """Give the same as it is parsed, but bar by bar, each part without its bars after them."""
    for _event, root in etree.iterparse(BytesIO(xml), events=("start",), **HARDENED):
        check_head(root.getroottree())
        break
    parser = etree.XMLPullParser(events=("end",), tag=(*HEAD, *BARS), **HARDENED)
    ended = 0
    for begins in range(0, len(xml), PORTION):
        parser.feed(xml[begins : begins + PORTION])
        found = [element for _event, element in parser.read_events()]
        yield let_go(found)
        ended = begins if found else ended
        if begins - ended > LONGEST_BAR:
            raise ScoreError(f"A bar of this score is longer than {in_megabytes(LONGEST_BAR)}; it is not read.")
    parser.close()


def let_go(ended: list[Element]) -> Iterator[Element]:
    """Give what has been parsed to its end, and empty each bar and part once it has been read."""
    for element in ended:
        if element.tag in HEAD:
            yield element
            continue
        parent = element.getparent()
        above = parent.getparent()
        if element.tag == "part" and above is None:
            del element[:]  # its bars were given
        elif above is not None and (element.tag, parent.tag, above.getparent()) != ("measure", "part", None):
            continue  # a part of a bar, or what no score has there
        yield element
        element.clear()
        while element.getprevious() is not None:
            del parent[0]


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
        self.place = 0  # how many bars have been read: of the part, of a timewise score

    def take(self, element: Element) -> None:
        tag = element.tag
        if tag == "part":
            self.take_bars_of_part(element)
        elif tag == "measure":
            self.take_measure(element)
        elif tag == "score-part":
            self.take_part(element)
        else:
            self.take_credit(tag, element)

    def take_bars_of_part(self, part: Element) -> None:
        """Read the bars of a part, those that are left in it, and end it."""
        self.take_bars(part, part.get("id") or "")
        self.first = self.first if self.first is not None else part.get("id") or ""
        self.place = 0

    def take_bars(self, element: Element, name: str) -> None:
        for bar, is_marked, fermatas in bars_in(element, "measure"):
            self.take_bar(self.bar_at(self.place, bar), bar, name, is_marked, fermatas)
            self.place += 1

    def take_measure(self, measure: Element) -> None:
        """Read a bar of a part, or a bar of a timewise score with all its parts."""
        parent = measure.getparent()
        if parent.tag == "part":
            self.take_bars(measure, parent.get("id") or "")
            return
        for element, is_marked, fermatas in bars_in(measure, "part"):
            bar = self.bar_at(self.place, measure)
            self.take_bar(bar, element, element.get("id") or "", is_marked, fermatas)
        self.place += 1

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
