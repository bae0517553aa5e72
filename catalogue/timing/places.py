"""Places in a work: a bar and beat, or a time on the clock, as a cue names them.

    place = [ movement , ":" ] , bar , [ "." , beat , [ "." , part ] ] , [ "@" , time ] ;
    clock = minutes , ":" , two figures  |  hours , ":" , two figures , ":" , two figures  |  seconds , "s"  |  12′30″ ;

``37.3.5`` is half-way through the third beat of bar 37, ``7.1@2`` the second time that bar 7 is played, ``2:7.1`` bar 7
of the second movement. ``1:30`` is a time; in a work of several movements it is asked about where it may be a bar.
"""

from __future__ import annotations

import re
from dataclasses import dataclass
from fractions import Fraction

from catalogue.timing.mistakes import Mistake
from catalogue.timing.tempo_maps import TempoMap
from catalogue.timing.timeline import Bar, Timeline


class PlaceError(Mistake):
    """A place that cannot be read, or is not in the map."""


@dataclass(frozen=True, slots=True)
class Place:
    """A bar and beat, all counted from 1; ``part`` of the beat has passed, for the ``time``-th time."""

    bar: int
    beat: int = 1
    part: Fraction = Fraction(0)
    movement: int = 1
    time: int = 1

    def written(self, *, several_movements: bool) -> str:
        """Return the place as a cue names it, a part of a beat to three decimals.

        >>> Place(37, 3, Fraction(1, 2)).written(several_movements=False)
        '37.3.5'
        """
        thousandths = min(999, round(self.part * 1000))
        part = f".{thousandths:03}".rstrip("0") if thousandths else ""
        movement = f"{self.movement}:" if several_movements else ""
        return f"{movement}{self.bar}.{self.beat}{part}{f'@{self.time}' if self.time != 1 else ''}"


PLACE = re.compile(
    r"(?:(?P<movement>[0-9]{1,3}):)?(?P<bar>[0-9]{1,6})(?:\.(?P<beat>[0-9]{1,3})(?:\.(?P<part>[0-9]{1,9}))?)?"
    r"(?:@(?P<time>[0-9]{1,3}))?"
)
CLOCK = re.compile(r"(?:(?P<hours>[0-9]{1,2}):)?(?P<minutes>[0-9]{1,3}):(?P<seconds>[0-5][0-9](?:[.,][0-9]{1,6})?)")
PRIMES = re.compile(
    r"(?:(?P<minutes>[0-9]{1,4})\s?['’′]\s?)?(?:(?P<seconds>[0-9]{1,6}(?:[.,][0-9]{1,6})?)\s?(?:[\"”″]|''|s))?"
)


def seconds_of(text: str, tempo_map: TempoMap, line: Timeline) -> Fraction:
    """Return the time of a place, or of a time on the clock, on a timeline of the map. Raises PlaceError.

    A fraction of a second is exact where the tempo is steady.
    """
    stripped = text.strip()
    clock = clock_of(stripped, tempo_map)
    if clock is None:
        return _seconds_of_place(text, read_place(text), line)
    if clock > line.end:
        raise PlaceError(f"The map ends before {stripped}.", text, 0, len(text))
    return clock


def clock_of(text: str, tempo_map: TempoMap) -> Fraction | None:
    """Return the seconds of a text that is a time on the clock, None where it is a bar.

    Raises PlaceError where it may be both.
    """
    match = CLOCK.fullmatch(text) or (PRIMES.fullmatch(text) if not text.isdigit() else None)
    if match is None or not text:
        return None
    groups = match.groupdict()
    if groups.get("hours") is None and ":" in text:
        if "." in text:
            return None
        if len(tempo_map.movements) > 1 and _is_bar(text, tempo_map):
            movement, bar = text.split(":")
            either = f"“{text}” may be bar {bar} of movement {movement}, or a time"
            raise PlaceError(f"{either}; write {text}.1 or 0:0{text}.", text, 0, len(text))
    seconds = Fraction((groups["seconds"] or "0").replace(",", "."))
    return int(groups.get("hours") or 0) * 3600 + int(groups["minutes"] or 0) * 60 + seconds


def _is_bar(text: str, tempo_map: TempoMap) -> bool:
    movement, _, bar = text.partition(":")
    if movement.startswith("0") or bar.startswith("0") or not bar.isdigit():
        return False
    return int(movement) <= len(tempo_map.movements) and int(bar) <= tempo_map.movements[int(movement) - 1].last


def read_place(text: str) -> Place:
    """Return the bar and beat that a text names. Raises PlaceError.

    >>> read_place("2:7.1@2")
    Place(bar=7, beat=1, part=Fraction(0, 1), movement=2, time=2)
    """
    match = PLACE.fullmatch(text.strip())
    if match is None:
        reason = f"“{text.strip()}” is no place; write 37, 37.3, 37.3.5, 7.1@2, 2:7.1 or a time such as 12:30."
        raise PlaceError(reason, text, 0, len(text))
    figures = {name: int(match[name] or 1) for name in ("bar", "beat", "movement", "time")}
    for name in ("beat", "movement", "time"):
        if figures[name] == 0:
            raise PlaceError(f"The {name} is counted from 1.", text, 0, len(text))
    part = Fraction(int(match["part"]), 10 ** len(match["part"])) if match["part"] else Fraction(0)
    return Place(part=part, **figures)


def _seconds_of_place(text: str, place: Place, line: Timeline) -> Fraction:
    if place.movement > len(line.movements):
        raise PlaceError(f"There is no movement {place.movement}; there are {len(line.movements)}.", text, 0, len(text))
    played = line.playings(place.movement, place.bar)
    if not played:
        raise PlaceError(f"Bar {place.bar} is not in the map, or is cut.", text, 0, len(text))
    if place.time > len(played):
        often = "once" if len(played) == 1 else f"{len(played)} times"
        raise PlaceError(f"Bar {place.bar} is played {often}, so there is no “@{place.time}”.", text, 0, len(text))
    found = played[place.time - 1]
    return found.start + found.bar.moment(_position(text, place, found.bar))


def _position(text: str, place: Place, bar: Bar) -> Fraction:
    """Return where in the bar, in whole notes, the place lies."""
    if bar.metre is None:
        if place.beat != 1 or place.part:
            raise PlaceError(f"Bar {bar.number} is free and has no beats.", text, 0, len(text))
        return Fraction(0)
    if place.beat > bar.beats:
        beats = "one beat" if bar.beats == 1 else f"{bar.beats} beats"
        raise PlaceError(f"Bar {bar.number} has {beats}, so there is no beat {place.beat}.", text, 0, len(text))
    begins = bar.beat * (place.beat - 1)
    return begins + min(bar.beat, bar.length - begins) * place.part if place.part else begins


def place_at(seconds: Fraction, line: Timeline) -> Place | None:
    """Return the bar and beat at which a time falls; none in a gap or outside. A free bar is all of its beat 1."""
    played = line.at(seconds)
    if played is None:
        return None
    bar = played.bar
    if not bar.beat:
        return Place(bar.number, movement=played.movement, time=played.time)
    beat, part = _beat_and_part(bar, bar.position(seconds - played.start))
    return Place(bar.number, beat, part, played.movement, played.time)


def _beat_and_part(bar: Bar, position: Fraction) -> tuple[int, Fraction]:
    beat = min(int(position / bar.beat), bar.beats - 1)
    begins = bar.beat * beat
    return beat + 1, (position - begins) / min(bar.beat, bar.length - begins)
