"""Reads the XML of a score (MusicXML 1.0 to 4.0, partwise or timewise) into plain values, bar by bar.

The file is read as a stream and each bar is let go once it has been read. The first part is walked note by note for
the lengths of bars; of the others only what stands over and between the notes is read, except in bars that the first
part leaves short. Entities are neither resolved nor tolerated; nothing outside the file is read.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from fractions import Fraction
from io import BytesIO
from typing import Any

from lxml import etree

from catalogue.exchange.scores import words as said
from catalogue.exchange.scores.model import Bar, Creator, Part, PlayedInstrument, Score, ScoreError, TempoMark
from catalogue.exchange.scores.opening import HARDENED

TAGS = ("part", "measure", "score-part", "work-title", "movement-title", "creator", "credit", "fermata")
ROOTS = ("score-partwise", "score-timewise")
OVER_NOTES = ("attributes", "direction", "sound", "barline")
MARKS = ("sound", "metronome", "words", "segno", "coda")
MOST_BARS = 100_000
MOST_DIGITS = 12
ROUNDING = Fraction(1, 8)  # of a quarter note, by which tuplets in whole divisions may miss the bar
UNITS = {
    "1024th": Fraction(1, 256),
    "512th": Fraction(1, 128),
    "256th": Fraction(1, 64),
    "128th": Fraction(1, 32),
    "64th": Fraction(1, 16),
    "32nd": Fraction(1, 8),
    "16th": Fraction(1, 4),
    "eighth": Fraction(1, 2),
    "quarter": Fraction(1),
    "half": Fraction(2),
    "whole": Fraction(4),
    "breve": Fraction(8),
    "long": Fraction(16),
}
FIGURE = re.compile(r"\d{1,4}(?:\.\d{1,6})?")
ENDING = re.compile(r"(\d{1,3})(?:\s*-\s*(\d{1,3}))?")

Element = Any  # lxml ships no types


def parsed(xml: bytes) -> Score:
    """Return what the XML of a score says. Raises ScoreError."""
    reading = Reading()
    try:
        for event, element in events(xml):
            reading.take(event, element)
    except etree.XMLSyntaxError as fault:
        line = getattr(fault, "lineno", None) or 1
        raise ScoreError(f"This file is not well-formed XML (line {line}).") from fault
    if not reading.score.parts and not reading.score.bars:
        raise ScoreError("There is no part in this score.")
    for bar in reading.score.bars:
        bar.quarters = bar.quarters or nominal(bar)  # a bar with nothing written in it is a bar's rest
    return reading.score


def events(xml: bytes) -> Iterator[tuple[str, Element]]:
    """Give start and end of the elements that matter, once the head of the file has been found sound."""
    stream = etree.iterparse(BytesIO(xml), events=("start", "end"), tag=TAGS, **HARDENED)
    checked = False
    for event, element in stream:
        if not checked:
            check_head(element.getroottree())
            checked = True
        yield event, element
    if not checked:
        check_head(stream.root.getroottree())


def check_head(tree: Element) -> None:
    root = etree.QName(tree.getroot()).localname
    if root not in ROOTS:
        raise ScoreError(f"This XML is no MusicXML score: it begins with “{root[:40]}”, not with score-partwise.")
    declared = tree.docinfo.internalDTD
    if declared is not None and next(declared.iterentities(), None) is not None:
        raise ScoreError("This file declares entities of its own and is not read.")


class Clock:
    """How a part counts: divisions of the quarter note and the metre in force."""

    def __init__(self) -> None:
        self.divisions = Fraction(1)
        self.metre: tuple[int, int] | None = None


class Reading:
    """What has been read so far, and where in the file the reader stands."""

    def __init__(self) -> None:
        self.score = Score()
        self.parts: dict[str, Part] = {}
        self.clocks: dict[str, Clock] = {}
        self.part = self.measure = ""  # of the element that is open around the one read
        self.index = -1
        self.first = ""

    def take(self, event: str, element: Element) -> None:
        tag = element.tag
        if event == "start":
            self.enter(tag, element)
        elif tag in ("part", "measure"):
            self.leave(tag, element)
        elif tag == "fermata":
            self.score.fermatas += self.part == self.first
        elif tag == "score-part":
            self.take_part(element)
        else:
            self.take_credit(tag, element)

    def enter(self, tag: str, element: Element) -> None:
        if tag == "part":
            self.part = element.get("id") or ""
            self.first = self.first or self.part
            self.index = self.index if self.measure else -1
        elif tag == "measure":
            self.measure = element.get("number") or ""
            self.index += 1
            self.measure = self.measure or str(self.index + 1)

    def leave(self, tag: str, element: Element) -> None:
        inner = element.getparent().tag in ("part", "measure")
        if inner:
            self.take_bar(element)
        if tag == "part":
            self.part = ""
        else:
            self.measure = ""
        element.clear()
        while element.getprevious() is not None:
            del element.getparent()[0]

    def take_bar(self, element: Element) -> None:
        bars = self.score.bars
        if self.index >= len(bars):
            if len(bars) >= MOST_BARS:
                raise ScoreError(f"This score has more than {MOST_BARS:,} bars and is not read.")
            bars.append(Bar(self.measure))
        part = self.parts.get(self.part) or self.unlisted_part()
        bar = bars[self.index]
        walk = BarWalk(self.score, part, self.clocks.setdefault(self.part, Clock()), bar)
        if self.part == self.first or bar.falls_short:
            walk.note_by_note(element)
        else:
            walk.over_the_notes(element)

    def unlisted_part(self) -> Part:
        part = Part(self.part)
        self.parts[self.part] = part
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


def text_of(element: Element) -> str:
    """Return an element's text on one line, "" for none."""
    return "" if element is None else " ".join("".join(element.itertext()).split())[:500]


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


def figure(text: str | None) -> Fraction | None:
    """Return the first figure in a text (``"c. 60-66"`` is 60), ``None`` where there is none or it is nought."""
    found = FIGURE.search(text or "")
    return (Fraction(found[0]) or None) if found else None


def ticks(text: str | None) -> Fraction | int:
    """Return a number of divisions; what is no length counts as none."""
    if not text or len(text) > MOST_DIGITS:
        return 0
    try:
        return max(int(text), 0)
    except ValueError:
        return figure(text) or 0


def nominal(bar: Bar) -> Fraction:
    """Return the quarter notes that a bar's time signature asks for, 0 where there is none."""
    return Fraction(4 * bar.metre[0], bar.metre[1]) if bar.metre else Fraction(0)


class BarWalk:
    """One bar of one part, read into the bar that all parts share."""

    def __init__(self, score: Score, part: Part, clock: Clock, bar: Bar) -> None:
        self.score, self.part, self.clock, self.bar = score, part, clock, bar
        self.at = Fraction(0)  # quarter notes that had passed when the divisions last changed
        self.since: Fraction | int = 0  # divisions that have passed since
        self.several = len(part.instruments) > 1

    @property
    def place(self) -> Fraction:
        return self.at + self.since / self.clock.divisions

    def note_by_note(self, element: Element) -> None:
        """Read everything in the bar, its length among it: to the end of its last note or rest.

        What is only skipped at the end of a bar (``forward``) lengthens it where it holds nothing else.
        """
        furthest: Fraction | int = 0
        since: Fraction | int = 0
        before = Fraction(0)
        for child in element:
            tag = child.tag
            if tag == "note":
                if child.find("chord") is None:
                    since += ticks(child.findtext("duration"))
                    if since > furthest:
                        furthest = since
                if self.several:
                    self.take_instrument(child)
            elif tag == "forward":
                since += ticks(child.findtext("duration"))
            elif tag == "backup":
                since = max(since - ticks(child.findtext("duration")), 0)
            elif tag in OVER_NOTES:
                self.since = since
                divisions = self.clock.divisions
                self.take_mark(tag, child)
                if self.clock.divisions != divisions:
                    before = max(before, self.at + furthest / divisions)
                    self.at += since / divisions
                    furthest = since = self.since = 0
        self.since = furthest or (0 if before else since)
        self.bar.metre = self.bar.metre or self.clock.metre
        asked = nominal(self.bar)
        length = max(self.bar.quarters, before, self.place)
        self.bar.quarters = asked if abs(length - asked) < ROUNDING else length
        self.bar.falls_short = not length or self.bar.quarters < asked

    def over_the_notes(self, element: Element) -> None:
        """Read what stands over and between the notes; the place of a tempo is reckoned only where one stands."""
        for child in element.iterchildren(*OVER_NOTES):
            if child.tag in ("direction", "sound") and sets_tempo(child):
                self.since = since_bar_line(child)
            self.take_mark(child.tag, child)
        if self.several:
            for note in element.iterchildren("note"):
                self.take_instrument(note)

    def take_instrument(self, note: Element) -> None:
        played = note.find("instrument")
        used = played.get("id") if played is not None else None
        if used and used not in self.part.used:
            self.part.used.append(used)

    def take_mark(self, tag: str, element: Element) -> None:
        if tag == "attributes":
            self.take_attributes(element)
        elif tag == "barline":
            take_barline(element, self.bar)
        else:
            self.take_direction(element)

    def take_attributes(self, element: Element) -> None:
        self.clock.divisions = Fraction(ticks(element.findtext("divisions"))) or self.clock.divisions
        time = element.find("time")
        if time is not None:
            self.clock.metre = metre_of(time)
            self.bar.metre = self.clock.metre

    def take_direction(self, element: Element) -> None:
        marks = list(element.iter(*MARKS))
        if not marks:
            return
        sounds = [mark for mark in marks if mark.tag == "sound"]
        tempo = self.take_tempi(element, sounds, [mark for mark in marks if mark.tag == "metronome"])
        jumps = [take_jumps(mark, self.bar) for mark in sounds]
        for mark in sounds:
            self.part.changes += [text_of(one) for one in mark.iterfind("instrument-change/instrument-sound")]
        text = " ".join(text_of(mark) for mark in marks if mark.tag == "words")
        if not any(jumps):
            take_signs(marks, text, self.bar)
        if text:
            self.take_words(text, element, tempo)

    def take_tempi(self, direction: Element, sounds: list[Element], metronomes: list[Element]) -> bool:
        """Read tempi, what a player is to do before what is printed; say whether there was one."""
        told = [figure(mark.get("tempo")) for mark in sounds if mark.get("tempo")]
        if told:
            return self.take_tempo(self.place_of(direction), told[0])
        return any(self.take_metronome(self.place_of(direction), mark) for mark in metronomes)

    def place_of(self, direction: Element) -> Fraction:
        return self.place + offset_of(direction) / self.clock.divisions

    def take_tempo(self, place: Fraction, tempo: Fraction | None, ratio: Fraction | None = None) -> bool:
        if tempo is None and ratio is None:
            return False
        place = max(place, Fraction(0))
        if all(mark.at != place for mark in self.bar.tempi):
            self.bar.tempi.append(TempoMark(place, tempo, ratio))
        return True

    def take_metronome(self, place: Fraction, mark: Element) -> bool:
        units = beat_units(mark)
        minute = figure(mark.findtext("per-minute"))
        if len(units) == 2 and minute is None:
            return self.take_tempo(place, None, units[1] / units[0])
        if units and minute:
            return self.take_tempo(place, minute * units[0])
        return False

    def take_words(self, text: str, direction: Element, has_tempo: bool) -> None:
        tempo = None if has_tempo else said.tempo_in(text)
        if tempo:
            self.take_tempo(self.place_of(direction), tempo)
            return
        taken = said.new_instrument(text)
        if taken:
            self.part.changes.append(taken)
        elif said.GRADUAL.search(text):
            add_new(self.score.gradual_words, text)
        elif not has_tempo and said.TEMPO_WORD.search(text):
            add_new(self.score.tempo_words, text)


def add_new(listed: list[str], text: str) -> None:
    if text not in listed and len(listed) < 50:
        listed.append(text)


def sets_tempo(element: Element) -> bool:
    return any(mark.tag == "metronome" or mark.get("tempo") for mark in element.iter("sound", "metronome"))


def since_bar_line(element: Element) -> Fraction | int:
    """Return the divisions that pass in the bar before an element of it."""
    since: Fraction | int = 0
    for child in element.itersiblings("note", "forward", "backup", preceding=True):
        length = ticks(child.findtext("duration"))
        if child.tag == "backup":
            since -= length
        elif child.tag == "forward" or child.find("chord") is None:
            since += length
    return max(since, 0)


def offset_of(direction: Element) -> Fraction:
    text = (direction.findtext("offset") or "").strip()
    found = figure(text) or Fraction(0)
    return -found if text.startswith("-") else found


def metre_of(time: Element) -> tuple[int, int] | None:
    """Return beats and beat type, composite ones (3+2 over 8, 2/4 and 3/8) summed; ``None`` for senza misura."""
    total = Fraction(0)
    unit = 1
    for beats, kind in zip(time.iterchildren("beats"), time.iterchildren("beat-type"), strict=False):
        counted = sum(int(one) for one in re.findall(r"\d{1,3}", beats.text or ""))
        below = figure(kind.text)
        if counted and below and below.denominator == 1:
            total += Fraction(counted, int(below))
            unit = max(unit, int(below))
    return (int(total * unit), unit) if total and (total * unit).denominator == 1 else None


def beat_units(metronome: Element) -> list[Fraction]:
    """Return the note values of a metronome mark, in quarter notes."""
    found: list[Fraction] = []
    dots = 0
    for child in metronome:
        if child.tag == "beat-unit":
            found.append(UNITS.get(text_of(child), Fraction(1)))
            dots = 0
        elif child.tag == "beat-unit-dot" and found:
            dots += 1
            found[-1] += found[-1] / (2 ** (dots + 1) - 2)
    return found


def take_barline(element: Element, bar: Bar) -> None:
    right = element.get("location", "right") != "left"
    bar.final |= right and element.findtext("bar-style") == "light-heavy" and element.find("repeat") is None
    repeat, ending = element.find("repeat"), element.find("ending")
    if repeat is not None:
        if repeat.get("direction") == "forward":
            bar.opens_repeat = True
        else:
            times = figure(repeat.get("times"))
            bar.repeats = max(bar.repeats, min(int(times), 100) if times else 2, 2)
            bar.repeats_after_jump |= repeat.get("after-jump") == "yes"
    if ending is not None:
        if ending.get("type") == "start":
            bar.ending = bar.ending or times_of(ending.get("number") or text_of(ending))
        else:
            bar.ending_closes = True
    for sign in element.iterchildren("segno", "coda"):
        setattr(bar, sign.tag, getattr(bar, sign.tag) or "")


def times_of(text: str) -> tuple[int, ...]:
    """Return the times for which an ending is played: ``"1, 2"`` and ``"1-2"`` are 1 and 2; no figure is the first.

    >>> times_of("1-3, 5"), times_of("")
    ((1, 2, 3, 5), (1,))
    """
    found: set[int] = set()
    for first, last in ENDING.findall(text):
        found |= set(range(int(first), min(int(last or first), 100) + 1))
    return tuple(sorted(found)) or (1,)


def take_jumps(sound: Element, bar: Bar) -> bool:
    """Read the jumps of a ``sound`` element; say whether there was one."""
    given = {key: sound.get(key) for key in ("dacapo", "dalsegno", "fine", "tocoda", "segno", "coda") if sound.get(key)}
    bar.da_capo |= given.get("dacapo") == "yes"
    bar.dal_segno = given.get("dalsegno", bar.dal_segno)
    bar.fine |= "fine" in given
    bar.to_coda = given.get("tocoda", bar.to_coda)
    bar.segno = given.get("segno", bar.segno)
    bar.coda = given.get("coda", bar.coda)
    bar.opens_repeat |= sound.get("forward-repeat") == "yes"
    return bool(given)


def take_signs(marks: list[Element], text: str, bar: Bar) -> None:
    """Read jumps from signs and words where no ``sound`` element states them."""
    to_coda = bool(said.TO_CODA.match(text))
    if to_coda:
        bar.to_coda = bar.to_coda or ""
    if said.DA_CAPO.match(text):
        bar.da_capo = True
    elif said.DAL_SEGNO.match(text):
        bar.dal_segno = bar.dal_segno or ""
    elif said.FINE.fullmatch(text):
        bar.fine = True
    for mark in marks:
        if mark.tag == "segno":
            bar.segno = bar.segno or ""
        elif mark.tag == "coda" and not to_coda:
            bar.coda = bar.coda or ""
