"""Reads one bar of one part of a MusicXML score into the bar that all parts share.

What stands over and between the notes is read in every part; note by note only what tells the length of the bar.
"""

from __future__ import annotations

import functools
import re
from fractions import Fraction
from typing import Any, TypeVar

from lxml import etree

from catalogue.exchange.scores import words as said
from catalogue.exchange.scores.figures import MOST_DIGITS, figure, text_of, ticks
from catalogue.exchange.scores.jumps import take_barline, take_jumps, take_signs
from catalogue.exchange.scores.model import Bar, Change, Part, Score, TempoMark

OVER_NOTES = ("attributes", "direction", "sound", "barline")
MARKS = ("sound", "metronome", "words", "segno", "coda")
NOUGHT = Fraction(0)
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


Element = Any  # lxml ships no types
Kept = TypeVar("Kept")
MOST_KEPT = 50
LENGTHS = etree.XPath("*[not(chord)]/duration[1]")
LENGTHS_BEFORE = etree.XPath("preceding-sibling::*[not(chord)]/duration[1]")
TOGETHER = etree.XPath("sum(note[not(chord)]/duration)")
PLAYED = etree.XPath("note/instrument[1]/@id", smart_strings=False)
MOST_TICKS = 10**MOST_DIGITS
CROWDED = 1_000
"""A bar of more than this is read in one go: looking back to the bar line from each mark would take too long."""


class Clock:
    """How a part counts: divisions of the quarter note and the metre in force."""

    def __init__(self) -> None:
        self.divisions: Fraction | int = 1
        self.metre: tuple[int, int] | None = None


def nominal(bar: Bar) -> Fraction:
    """Return the quarter notes that a bar's time signature asks for, 0 where there is none."""
    return quarters_of(4 * bar.metre[0], bar.metre[1]) if bar.metre else NOUGHT


@functools.lru_cache(maxsize=4096)
def quarters_of(ticks: Fraction | int, divisions: Fraction | int) -> Fraction:
    return Fraction(ticks) / divisions


@functools.lru_cache(maxsize=4096)
def measured(ticks: Fraction | int, divisions: Fraction | int, metre: tuple[int, int] | None) -> tuple[Fraction, bool]:
    """Return how many quarter notes a bar has that lasts so many divisions, and whether it falls short of its metre."""
    return against(quarters_of(ticks, divisions), quarters_of(4 * metre[0], metre[1]) if metre else NOUGHT)


def against(length: Fraction, asked: Fraction) -> tuple[Fraction, bool]:
    """Return the length of a bar, that which is asked where it is only just missed, and whether it falls short."""
    quarters = asked if length != asked and abs(length - asked) < ROUNDING else length
    return quarters, not length or quarters < asked


class BarWalk:
    """One bar of one part, read into the bar that all parts share."""

    __slots__ = ("at", "bar", "clock", "is_marked", "part", "score", "since")

    def __init__(self, score: Score, part: Part, clock: Clock, bar: Bar, *, is_marked: bool = True) -> None:
        self.score, self.part, self.clock, self.bar = score, part, clock, bar
        self.is_marked = is_marked  # whether anything stands over or between the notes
        self.at = NOUGHT  # quarter notes that had passed when the divisions last changed
        self.since: Fraction | int = 0  # divisions that have passed since

    @property
    def place(self) -> Fraction:
        since = quarters_of(self.since, self.clock.divisions)
        return self.at + since if self.at else since

    def whole(self, element: Element) -> None:
        """Read everything in the bar, its length among it: to the end of its last note or rest.

        What is only skipped at the end of a bar (``forward``) lengthens it where it holds nothing else.
        """
        before = NOUGHT
        if self.is_marked and (len(element) > CROWDED or counts_anew(element)):
            before = self.note_by_note(element)
        else:
            self.over_the_notes(element, exactly=True)
            self.since = lasting(element)
        self.take_length(before)

    def take_length(self, before: Fraction) -> None:
        """Give the bar its length; ``before`` had passed when the divisions last changed."""
        bar, clock = self.bar, self.clock
        bar.metre = bar.metre or clock.metre
        if not (before or self.at or bar.quarters):
            bar.quarters, bar.falls_short = measured(self.since, clock.divisions, bar.metre)
            return
        asked, length = nominal(bar), self.place
        if bar.quarters or before:
            length = max(bar.quarters, before, length)
        bar.quarters, bar.falls_short = against(length, asked)

    def note_by_note(self, element: Element) -> Fraction:
        """Read a bar from one end to the other, with divisions that change; return what ``take_length`` asks for."""
        furthest: Fraction | int = 0
        since: Fraction | int = 0
        before = NOUGHT
        for child in element:
            tag = child.tag
            if tag == "note":
                chord, length = timing_of(child)
                if not chord:
                    since += ticks(length)
                    if since > furthest:
                        furthest = since
            elif tag == "forward":
                since += ticks(timing_of(child)[1])
            elif tag == "backup":
                since = max(since - ticks(timing_of(child)[1]), 0)
            elif tag in OVER_NOTES:
                self.since = since
                divisions = self.clock.divisions
                self.take_mark(tag, child)
                if self.clock.divisions != divisions:
                    before = max(before, self.at + quarters_of(furthest, divisions))
                    self.at += quarters_of(since, divisions)
                    furthest = since = self.since = 0
        self.since = furthest or (0 if before else since)
        self.take_instruments(element)
        return before

    def over_the_notes(self, element: Element, *, exactly: bool = False) -> None:
        """Read what stands over and between the notes.

        The place in the bar is reckoned where a tempo stands; ``exactly`` reckons it wherever one may be told in words.
        """
        if self.is_marked and len(element) > CROWDED:
            self.note_by_note(element)
            return
        for child in element.iterchildren(*OVER_NOTES) if self.is_marked else ():
            tag = child.tag
            if tag not in ("direction", "sound"):
                self.take_mark(tag, child)
            elif marks := list(child.iter(*MARKS)):
                if exactly or any(map(sets_tempo, marks)):
                    self.since = since_bar_line(child)
                self.take_direction(child, marks)
        self.take_instruments(element)

    def take_instruments(self, element: Element) -> None:
        """Note which of several instruments are played."""
        if len(self.part.instruments) > 1:
            self.part.used += [one for one in dict.fromkeys(PLAYED(element)) if one and one not in self.part.used]

    def take_mark(self, tag: str, element: Element) -> None:
        if tag == "attributes":
            self.take_attributes(element)
        elif tag == "barline":
            take_barline(element, self.bar)
        else:
            self.take_direction(element, list(element.iter(*MARKS)))

    def take_attributes(self, element: Element) -> None:
        self.clock.divisions = ticks(element.findtext("divisions")) or self.clock.divisions
        time = element.find("time")
        if time is not None:
            self.clock.metre = metre_of(time)
            self.bar.metre = self.clock.metre

    def take_direction(self, element: Element, marks: list[Element]) -> None:
        if not marks:
            return
        sounds = [mark for mark in marks if mark.tag == "sound"]
        tempo = self.take_tempi(element, sounds, [mark for mark in marks if mark.tag == "metronome"])
        jumps = [take_jumps(mark, self.bar) for mark in sounds]
        for mark in sounds:
            self.part.changes += [Change(text_of(one)) for one in mark.iterfind("instrument-change/instrument-sound")]
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
        place = max(place, NOUGHT)
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
        found = said.meaning(text)
        if found.tempo and not has_tempo:
            self.take_tempo(self.place_of(direction), found.tempo)
        elif found.change:
            add_new(self.part.changes, found.change)
        elif found.is_gradual:
            add_new(self.score.gradual_words, text)
        elif found.names_tempo and not has_tempo:
            add_new(self.score.tempo_words, text)


def add_new(listed: list[Kept], one: Kept) -> None:
    if one not in listed and len(listed) < MOST_KEPT:
        listed.append(one)


def sets_tempo(mark: Element) -> bool:
    return mark.tag == "metronome" or (mark.tag == "sound" and bool(mark.get("tempo")))


def lasting(element: Element) -> Fraction | int:
    """Return the divisions that pass in a bar until the end of its last note, all of them one unit."""
    if next(element.iterchildren("backup", "forward"), None) is None:
        together = TOGETHER(element)
        if 0 <= together < MOST_TICKS and together == int(together):
            return int(together)
    since, furthest = passed(LENGTHS(element))
    return furthest or since


def since_bar_line(element: Element) -> Fraction | int:
    """Return the divisions that pass in the bar before an element of it."""
    return passed(LENGTHS_BEFORE(element))[0]


def passed(lengths: list[Element]) -> tuple[Fraction | int, Fraction | int]:
    """Return where these durations lead one after another, and the end of the last note: both in divisions.

    What is skipped (``forward``) is a place to go on from, and no end of a note.
    """
    since: Fraction | int = 0
    furthest: Fraction | int = 0
    for length in lengths:
        tag = length.getparent().tag
        if tag == "note":
            since += ticks(length.text)
            furthest = max(furthest, since)
        elif tag == "forward":
            since += ticks(length.text)
        elif tag == "backup":
            since = max(since - ticks(length.text), 0)
    return since, furthest


def counts_anew(element: Element) -> bool:
    """Whether the quarter note is divided anew among the notes of a bar."""
    among = (one for one in element.iterchildren("attributes") if one.find("divisions") is not None)
    return any(next(one.itersiblings("note", preceding=True), None) is not None for one in among)


def timing_of(note: Element) -> tuple[bool, str | None]:
    """Return whether a note sounds together with the one before it, and the text of its duration."""
    chord, length = False, None
    for child in note.iterchildren("chord", "duration"):
        if child.tag == "chord":
            chord = True
        elif length is None:
            length = child.text or ""
    return chord, length


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
