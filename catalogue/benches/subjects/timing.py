"""Tempo maps: the times of cues, and the click of a whole work."""

from __future__ import annotations

import os
import re
from bisect import bisect_right
from collections.abc import Iterable, Iterator
from contextlib import contextmanager
from pathlib import Path
from tempfile import TemporaryDirectory

from catalogue.benches.measuring import Bench, Heading, Pair
from catalogue.timing import click_chunks, read_tempo_map, seconds_of, timeline

MAP = """\
1-200    4/4    q=120
201-400  7/8    e=200 > e=260
401-500  6/8    q.=64
501      free   45
502-900  3/4    q=96
repeat 1-100
"""
PLACE = re.compile(r"([0-9]+)\.([0-9]+)")
MINUTE = 30  # bars of 4/4 at q=120
PART = 1_048_576


@contextmanager
def cues(size: int) -> Iterator[Pair]:
    """Beats of bars all over the map, a free bar left out."""
    bars = [bar for bar in range(1, 901) if bar != 501]
    places = [f"{bars[number * 7 % len(bars)]}.{number % 2 + 1}" for number in range(size)]
    begins = [(played.bar.number, float(played.start)) for played in timeline(read_tempo_map(MAP)).bars]
    begins.sort()
    yield Pair(ours=lambda: times(places), bare=lambda: plain_times(places, begins))


def times(places: Iterable[str]) -> list[float]:
    """Read the map, reckon its bars and the time of every place."""
    tempo_map = read_tempo_map(MAP)
    line = timeline(tempo_map)
    return [float(seconds_of(place, tempo_map, line)) for place in places]


def plain_times(places: Iterable[str], begins: list[tuple[int, float]]) -> list[float]:
    found = []
    for place in places:
        match = PLACE.fullmatch(place)
        if match:
            bar, beat = int(match[1]), int(match[2])
            _number, seconds = begins[bisect_right(begins, (bar, -1.0))]
            found.append(seconds + (beat - 1) * 0.5)
    return found


@contextmanager
def click(minutes: int) -> Iterator[Pair]:
    text = f"1-{minutes * MINUTE} 4/4 q=120"
    content = memoryview(b"".join(click_of(text)))
    parts = [content[begin : begin + PART] for begin in range(0, len(content), PART)]
    with TemporaryDirectory() as folder:
        file = Path(folder) / "click.wav"
        yield Pair(
            ours=lambda: write(file, click_of(text)),
            bare=lambda: write(file, parts),
            before=lambda: file.unlink(missing_ok=True),
        )


def click_of(text: str) -> Iterator[bytes]:
    return click_chunks(timeline(read_tempo_map(text)), count_in=0)


def write(file: Path, parts: Iterable[bytes | memoryview]) -> int:
    """Write a file in parts, without a buffer between; return how many bytes there are."""
    with file.open("wb", buffering=0) as out:
        return sum(os.write(out.fileno(), part) for part in parts)


HEADING = Heading.RECKONING
BENCHES = (
    Bench(
        "reckon the times of cues from a tempo map",
        "one regular expression reads the same places, a bisection finds their bars in a list of known times",
        (1_000, 10_000),
        cues,
    ),
    Bench(
        "write a click, by minutes",
        "the same bytes, known beforehand, are written to a file",
        (3, 30),
        click,
        aim=1.5,
    ),
)
