"""Random tempo maps for the laws: lines that fit together."""

from __future__ import annotations

from fractions import Fraction

from hypothesis import strategies as st

from catalogue.timing.tempo_maps import (
    Attacca,
    Change,
    Cut,
    Free,
    Gap,
    Line,
    Measured,
    Metre,
    MovementMark,
    Repeat,
    Statement,
    Tempo,
    TempoMap,
    Upbeat,
)
from catalogue.timing.tempo_reading import read_tempo_map
from catalogue.timing.tempo_writing import write_tempo_map

metres = st.builds(
    Metre, st.lists(st.integers(1, 5), min_size=1, max_size=3).map(tuple), st.sampled_from([2, 4, 8, 16])
)
counts = st.integers(2000, 24000).map(lambda hundredths: Fraction(hundredths, 100))
tempos = st.builds(Tempo, st.sampled_from(["h", "q", "e", "q.", "e.", "s"]), counts)
holds = st.sampled_from([Fraction(0), Fraction(0), Fraction(3, 2), Fraction(4)])
some_seconds = st.integers(1, 900).map(lambda tenths: Fraction(tenths, 10))
comments = st.text(st.characters(codec="utf-8", exclude_characters="\n\r"), max_size=12).map(str.strip)
names = st.text("abc #-é", max_size=6).map(str.strip)


@st.composite
def measured(draw: st.DrawFn, first: int, last: int, *, with_holds: bool) -> Measured:
    change = draw(st.sampled_from([None, None, Change.OVER_BEATS, Change.IN_TIME]))
    towards = draw(tempos) if change else None
    hold = draw(holds) if with_holds else Fraction(0)
    return Measured(first, last, draw(metres), draw(tempos), change, towards, hold)


@st.composite
def movement_statements(draw: st.DrawFn, *, measured_only: bool = False, plain: bool = False) -> list[Statement]:
    statements: list[Statement] = []
    bar = 1
    if not plain and draw(st.booleans()):
        statements.append(Upbeat(draw(measured(0, 0, with_holds=False))))
    for _ in range(draw(st.integers(1, 4))):
        last = bar + draw(st.integers(0, 3))
        free = not measured_only and draw(st.integers(0, 4)) == 0
        statements.append(
            Free(bar, last, draw(some_seconds)) if free else draw(measured(bar, last, with_holds=not measured_only))
        )
        bar = last + 1
    return statements if plain else statements + draw(orders(bar - 1))


@st.composite
def orders(draw: st.DrawFn, last: int) -> list[Statement]:
    """Return a repeat and a cut, or one of them, or none."""
    found: list[Statement] = []
    if draw(st.booleans()):
        first, until = sorted((draw(st.integers(1, last)), draw(st.integers(1, last))))
        ending = draw(st.integers(first, until))
        found.append(Repeat(first, until, draw(st.integers(2, 4)), (ending, until) if ending > first else None))
    if draw(st.booleans()):
        found.append(Cut(*sorted((draw(st.integers(1, last)), draw(st.integers(1, last))))))
    return found


@st.composite
def texts(draw: st.DrawFn, *, measured_only: bool = False, plain: bool = False) -> str:
    """Return the text of a map; ``plain`` is one movement without repeats, cuts or upbeat."""
    statements = draw(movement_statements(measured_only=measured_only, plain=plain))
    if not plain and draw(st.booleans()):
        statements += draw(st.sampled_from([[], [Attacca()], [Gap(Fraction(21, 2))]]))
        statements.append(MovementMark(draw(names)))
        statements += draw(movement_statements(measured_only=measured_only))
    lines = tuple(Line(statement, draw(comments)) for statement in statements)
    return write_tempo_map(TempoMap(lines, ()))


def maps(**kinds: bool) -> st.SearchStrategy[TempoMap]:
    return texts(**kinds).map(read_tempo_map)
