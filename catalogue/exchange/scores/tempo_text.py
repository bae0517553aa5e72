"""A tempo map, as text, that says what a score file says: to be looked over, completed and kept by the composer.

Bars are counted from 1 in each movement (a bar that the file does not number, or numbers twice, is a bar all the same),
a first bar shorter than its metre is an upbeat. Jumps (da capo, dal segno) become a comment: a map has repeats and cuts
only.
"""

from __future__ import annotations

import functools
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from fractions import Fraction
from itertools import pairwise

from catalogue.exchange.scores.lasting import tempi_of
from catalogue.exchange.scores.model import Bar
from catalogue.exchange.scores.playing import endings_of, movement_starts

COMMON = (4, 4)
Timed = tuple[Bar, list[tuple[Fraction, Fraction]]]
"""A bar with its stretches: quarter notes and quarter notes a minute."""


@dataclass(frozen=True, slots=True)
class Passage:
    """Bars of one metre and one tempo, first and last counted from 1; ``tempo`` is in quarter notes a minute."""

    first: int
    last: int
    metre: str
    tempo: Fraction


def tempo_map_of(bars: Sequence[Bar]) -> str:
    """Return the map's text, "" where the score has no tempo mark with a figure or no bar that sounds."""
    timed = list(tempi_of(bars))
    starts = movement_starts(bars)
    found = [list(lines_of(timed[first:last])) for first, last in pairwise((*starts, len(bars)))]
    if not all(found):
        return ""
    lines = [line for of_one in found for line in (["movement", *of_one] if len(found) > 1 else of_one)]
    return "\n".join(lines) + "\n"


def lines_of(timed: Sequence[Timed]) -> Iterator[str]:
    """Write one movement, nothing where no bar of it sounds."""
    bars = [bar for bar, _stretches in timed]
    upbeat = int(bool(bars) and is_upbeat(bars[0]))
    passages = list(joined(one_a_bar(timed, upbeat)))
    if passages:
        yield from map(passage_line, passages)
        yield from repeat_lines(bars, upbeat)
        yield from (f"# bar {number - upbeat + 1}: {what}" for number, what in jumps_of(bars))


def is_upbeat(bar: Bar) -> bool:
    return bar.metre is not None and Fraction(0) < bar.quarters < Fraction(4 * bar.metre[0], bar.metre[1])


def one_a_bar(timed: Sequence[Timed], upbeat: int) -> Iterator[Passage]:
    """Give each bar as a passage; where the tempo changes within a bar, its mean holds for the bar."""
    for index, (bar, stretches) in enumerate(timed):
        if stretches:
            number = index + 1 - upbeat
            yield Passage(number, number, filled_metre(bar.metre or COMMON, bar.quarters), mean_tempo(stretches))


def mean_tempo(stretches: Sequence[tuple[Fraction, Fraction]]) -> Fraction:
    if len(stretches) == 1:
        return stretches[0][1]
    return sum(quarters for quarters, _ in stretches) / sum(
        (quarters / tempo for quarters, tempo in stretches), Fraction(0)
    )


@functools.lru_cache(maxsize=1024)
def filled_metre(metre: tuple[int, int], quarters: Fraction) -> str:
    """Return the metre that a bar fills, its own length where that is not what the time signature asks for."""
    beats, unit = metre
    if quarters == Fraction(4 * beats, unit):
        return f"{beats}/{unit}"
    for unit in (4, 8, 16, 32, 64):
        count = quarters * unit / 4
        if count.denominator == 1:
            return f"{count}/{unit}"
    return f"{round(quarters * 16) or 1}/64"


def joined(passages: Iterator[Passage]) -> Iterator[Passage]:
    """Put together bars that follow one another in one metre and one tempo; an upbeat stands alone."""
    held: Passage | None = None
    for one in passages:
        if held and held.first > 0 and (held.metre, held.tempo, held.last + 1) == (one.metre, one.tempo, one.first):
            held = Passage(held.first, one.last, held.metre, held.tempo)
            continue
        if held:
            yield held
        held = one
    if held:
        yield held


def passage_line(one: Passage) -> str:
    bars = "upbeat" if one.first < 1 else str(one.first) if one.first == one.last else f"{one.first}-{one.last}"
    return f"{bars:<7} {one.metre:<5} q={figure(one.tempo)}"


def figure(tempo: Fraction) -> str:
    return f"{float(tempo):.2f}".rstrip("0").rstrip(".")


def repeat_lines(bars: Sequence[Bar], upbeat: int) -> Iterator[str]:
    """Write repeats; a first ending is what is left out the last time."""
    endings = endings_of(bars)
    start = 0
    for index, bar in enumerate(bars):
        start = index if bar.opens_repeat else start
        ending = endings.get(index)
        if bar.repeats and not (ending and ending.is_last and bar.repeats <= 2):
            times = max(bar.repeats, ending.group_times) if ending else bar.repeats
            line = f"repeat {max(start + 1 - upbeat, 1)}-{index + 1 - upbeat}"
            line += f" x{times}" if times > 2 else ""
            yield line + (f" last {ending.first + 1 - upbeat}-{ending.last + 1 - upbeat}" if ending else "")
            if upbeat and start == 0:
                yield "# the upbeat, which is played again with the first repeat, is not in it"
        if bar.repeats or bar.final or (ending and index == ending.last and not bar.opens_repeat):
            start = index + 1


def jumps_of(bars: Sequence[Bar]) -> Iterator[tuple[int, str]]:
    for index, bar in enumerate(bars):
        if bar.da_capo or bar.dal_segno is not None:
            yield index, "da capo" if bar.da_capo else "dal segno"
