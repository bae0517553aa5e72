"""How long the bars of a score last by its tempo marks: once through, and as they are played.

A bar lasts what the tempo in force at its place on paper makes of it, so that a repeated passage goes at its own tempo
again. Before the first mark the first mark holds. Held notes, gradual changes and tempi in words are not in it.
"""

from __future__ import annotations

import functools
from collections.abc import Iterator, Sequence
from fractions import Fraction
from itertools import starmap

from catalogue.exchange.scores.model import Bar

MINUTE = 60


def tempi_of(bars: Sequence[Bar]) -> Iterator[tuple[Bar, list[tuple[Fraction, Fraction]]]]:
    """Give each bar with the stretches it falls into: quarter notes and quarter notes a minute."""
    tempo = first_tempo(bars)
    for bar in bars:
        if not bar.tempi:
            yield bar, [(bar.quarters, tempo)] if tempo and bar.quarters else []
            continue
        stretches: list[tuple[Fraction, Fraction]] = []
        reached = Fraction(0)
        for mark in sorted(bar.tempi, key=lambda one: one.at):
            place = min(mark.at, bar.quarters)
            if place > reached and tempo:
                stretches.append((place - reached, tempo))
            reached = max(place, reached)
            tempo = mark.tempo or (tempo * mark.ratio if tempo and mark.ratio else tempo)
        if bar.quarters > reached and tempo:
            stretches.append((bar.quarters - reached, tempo))
        yield bar, stretches


def first_tempo(bars: Sequence[Bar]) -> Fraction | None:
    return next((mark.tempo for bar in bars for mark in bar.tempi if mark.tempo), None)


def seconds_of_bars(bars: Sequence[Bar]) -> list[Fraction] | None:
    """Return the seconds of each bar, ``None`` where the score has no tempo with a figure."""
    if first_tempo(bars) is None:
        return None
    return [
        seconds_of(*stretches[0]) if len(stretches) == 1 else sum(starmap(seconds_of, stretches), Fraction(0))
        for _bar, stretches in tempi_of(bars)
    ]


@functools.lru_cache(maxsize=1024)
def seconds_of(quarters: Fraction, tempo: Fraction) -> Fraction:
    return quarters * MINUTE / tempo
