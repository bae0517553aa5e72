"""Writes a map as a Standard MIDI File: tempo and metre events and one marker a cue, for a sequencer to follow.

Format 0, 960 ticks a quarter (RP-001, Standard MIDI Files 1.0): FF 51 sets the microseconds of a quarter, FF 58 the
metre, FF 06 a marker. A file knows steady tempos in whole microseconds only, so a changing tempo becomes steps small
enough, and the rounding is made good bar by bar, that every tick sounds within one tick of the map.

A free bar and the silence of a gap become one bar of quarters. What is slower than a file can say (about 3½ quarters a
minute), a long hold above all, takes more ticks than its notes have, and its bar a longer metre.
"""

from __future__ import annotations

import struct
from bisect import bisect_right
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from fractions import Fraction
from math import ceil

from catalogue.timing.timeline import Bar, PlayedBar, Timeline

TICKS_A_QUARTER = 960
TICKS_A_WHOLE = 4 * TICKS_A_QUARTER
SLOWEST = 16  # seconds a quarter; three bytes of microseconds hold 16.7
DRIFT = Fraction(50, 1_000_000)  # seconds by which rounded tempos may part from the map before it is made good
LONGEST_FILLER = 255  # quarters: a metre's upper figure is one byte


@dataclass(frozen=True, slots=True)
class Step:
    """Ticks at one steady tempo, and how long they last in the map."""

    ticks: int
    seconds: Fraction


@dataclass(frozen=True, slots=True)
class Cell:
    """One bar of the file: its metre, if a file can say it, and its steps."""

    metre: tuple[int, int] | None
    clocks: int
    steps: tuple[Step, ...]


@dataclass(frozen=True, slots=True)
class Marker:
    """What is to stand in the file at a time of the timeline."""

    seconds: Fraction
    text: str


def midi_file(line: Timeline, markers: Iterable[Marker] = (), *, title: str = "") -> bytes:
    """Return a Standard MIDI File of a timeline; its quarters, bars and markers sound within a tick of the map."""
    cells = _cells(line)
    events = [(0, 0, _text(0x03, title))] if title else []
    events += _metre_events(cells)
    tempos, clock = _tempo_events(cells)
    events += tempos
    events += [(clock.tick_at(marker.seconds), 3, _text(0x06, marker.text)) for marker in markers]
    events.sort(key=lambda event: event[:2])
    track = _track(events, clock.ticks[-1])
    header = struct.pack(">4sIHHH", b"MThd", 6, 0, 1, TICKS_A_QUARTER)
    return header + struct.pack(">4sI", b"MTrk", len(track)) + track


Event = tuple[int, int, bytes]  # tick, order among events of one tick, bytes


@dataclass(frozen=True, slots=True)
class FileClock:
    """When the ticks of the file sound: tempo changes as ticks and, beside them, seconds."""

    ticks: Sequence[int]
    seconds: Sequence[Fraction]

    def tick_at(self, seconds: Fraction) -> int:
        """Return the tick that sounds nearest to a time."""
        index = min(max(0, bisect_right(self.seconds, seconds) - 1), len(self.ticks) - 2)
        if index < 0:
            return 0
        span = self.seconds[index + 1] - self.seconds[index]
        share = (seconds - self.seconds[index]) / span if span else Fraction(0)
        return self.ticks[index] + round(min(Fraction(1), share) * (self.ticks[index + 1] - self.ticks[index]))


# ---- bars of the file


def _cells(line: Timeline) -> list[Cell]:
    cells: list[Cell] = []
    now = Fraction(0)
    for played in line.bars:
        if played.start > now:
            cells += _fillers(played.start - now)
        cells += _played(played)
        now = played.end
    return cells


def _played(played: PlayedBar) -> list[Cell]:
    return [_measured(played.bar)] if played.bar.metre else _fillers(played.bar.seconds)


def _fillers(seconds: Fraction) -> list[Cell]:
    """Return bars of quarters that last so long together: one, unless it is more than an hour."""
    bars = ceil(seconds / (LONGEST_FILLER * SLOWEST))
    share = seconds / bars
    quarters = min(LONGEST_FILLER, max(ceil(share / 3), min(32, ceil(share))))
    return [Cell((quarters, 4), 24, (Step(quarters * TICKS_A_QUARTER, share),))] * bars


def _measured(bar: Bar) -> Cell:
    played = bar.length - (bar.length - bar.last_beat if bar.hold else 0)
    steps = _steps(bar, Fraction(0), played)
    if bar.hold:
        steps += _stretched([Step(_ticks(bar.length - played), bar.moment(bar.length) - bar.moment(played))])
    return Cell(_metre_of(bar, sum(step.ticks for step in steps)), _clocks(bar), tuple(steps))


def _ticks(length: Fraction) -> int:
    return int(length * TICKS_A_WHOLE)


def _metre_of(bar: Bar, ticks: int) -> tuple[int, int] | None:
    """Return the metre of the bar, longer where its ticks are; none where a file cannot say it."""
    unit = bar.metre.unit if bar.metre else 4
    count, rest = divmod(ticks * unit, TICKS_A_WHOLE)
    return (count, unit) if rest == 0 and count <= 255 else None


def _clocks(bar: Bar) -> int:
    """Return MIDI clocks a beat, 24 to the quarter."""
    return max(1, min(255, round(bar.beat * 96)))


def _steps(bar: Bar, begins: Fraction, ends: Fraction) -> list[Step]:
    """Return steady steps that keep within a quarter of a tick of the bar's own motion."""
    if begins == ends:
        return []
    ticks = _ticks(ends - begins)
    if bar.motion is None or bar.motion.steady:
        return _stretched([Step(ticks, bar.moment(ends) - bar.moment(begins))])
    size = min(ticks, TICKS_A_QUARTER)
    while size > 1 and not _near(bar, begins, ticks, size):
        size //= 2
    return _stretched(_cut(bar, begins, ticks, size))


def _cut(bar: Bar, begins: Fraction, ticks: int, size: int) -> list[Step]:
    edges = [*range(0, ticks, size), ticks]
    moments = [bar.moment(begins + Fraction(edge, TICKS_A_WHOLE)) for edge in edges]
    return [Step(edges[i + 1] - edges[i], moments[i + 1] - moments[i]) for i in range(len(edges) - 1)]


def _near(bar: Bar, begins: Fraction, ticks: int, size: int) -> bool:
    """Return whether, half-way through each step, a steady tempo is within a quarter of a tick of the motion."""
    now = bar.moment(begins)
    for first, step in zip(range(0, ticks, size), _cut(bar, begins, ticks, size), strict=True):
        middle = bar.moment(begins + Fraction(2 * first + step.ticks, 2 * TICKS_A_WHOLE))
        if abs(middle - now - step.seconds / 2) > step.seconds / step.ticks / 4:
            return False
        now += step.seconds
    return True


def _stretched(steps: list[Step]) -> list[Step]:
    """Give steps that are slower than a file can say so many times more ticks that they are not."""
    slowest = max(step.seconds * TICKS_A_QUARTER / step.ticks for step in steps)
    times = max(1, ceil(slowest / SLOWEST))
    return [Step(step.ticks * times, step.seconds) for step in steps]


# ---- events


def _metre_events(cells: list[Cell]) -> list[Event]:
    events: list[Event] = []
    tick, last = 0, None
    for cell in cells:
        said = (cell.metre, cell.clocks)
        if cell.metre and said != last:
            count, unit = cell.metre
            events.append((tick, 1, bytes((0xFF, 0x58, 4, count, unit.bit_length() - 1, cell.clocks, 8))))
            last = said
        tick += sum(step.ticks for step in cell.steps)
    return events


def _tempo_events(cells: list[Cell]) -> tuple[list[Event], FileClock]:
    """Return the tempo events, and when the ticks sound by them."""
    events: list[Event] = []
    ticks, sounding = [0], [Fraction(0)]
    wanted, last = Fraction(0), 0
    for step in (step for cell in cells for step in cell.steps):
        wanted += step.seconds
        tempo = _tempo(step, wanted - sounding[-1])
        if tempo != last:
            events.append((ticks[-1], 2, b"\xff\x51\x03" + tempo.to_bytes(3, "big")))
            last = tempo
        ticks.append(ticks[-1] + step.ticks)
        sounding.append(sounding[-1] + Fraction(tempo * step.ticks, TICKS_A_QUARTER * 1_000_000))
    return events, FileClock(ticks, sounding)


def _tempo(step: Step, remaining: Fraction) -> int:
    """Return microseconds a quarter: the step's own, or what makes good the drift where that would grow too large."""
    scale = Fraction(TICKS_A_QUARTER * 1_000_000, step.ticks)
    own = max(1, round(step.seconds * scale))
    return own if abs(own / scale - remaining) <= DRIFT else max(1, round(remaining * scale))


def _text(kind: int, text: str) -> bytes:
    encoded = text.encode("utf-8")
    return bytes((0xFF, kind)) + _variable(len(encoded)) + encoded


def _track(events: list[Event], end: int) -> bytes:
    parts: list[bytes] = []
    now = 0
    for tick, _order, event in [*events, (max(end, now), 4, b"\xff\x2f\x00")]:
        parts += (_variable(tick - now), event)
        now = tick
    return b"".join(parts)


def _variable(number: int) -> bytes:
    """Return a number in groups of seven bits, the highest first (variable-length quantity)."""
    groups = [number & 0x7F]
    while number := number >> 7:
        groups.append(number & 0x7F | 0x80)
    return bytes(reversed(groups))
