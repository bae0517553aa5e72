"""Forces put together step by step, for whoever does not write the shorthand: a section, a player, a doubling.

Each step takes an instrumentation and gives another; written as shorthand it reads back the same. Sections stand in
score order, soloists first.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace

from catalogue.instrumentation.model import Chair, Instrumentation, Line
from catalogue.instrumentation.reading import read
from catalogue.instrumentation.vocabulary import family_of, instrument, score_order
from catalogue.instrumentation.writing import shorthand

WHOLE = {"strings": "str", "string quartet": "2vn, va, vc", "SATB choir": "SATB choir"}
"""What is added as one, as it is written."""
MOST = 99  # players of a section


@dataclass(frozen=True, slots=True)
class Seat:
    """A player who may take up a second instrument: the line's place, the chair in it, and what is played there."""

    line: int
    chair: int
    plays: tuple[str, ...]


def with_players(forces: Instrumentation, slug: str, number: int, role: str = "ensemble") -> Instrumentation:
    """Add so many players of an instrument; they join its section where that is there already.

    >>> shorthand(with_players(read("2.2.2.2 – str"), "horn", 4))
    '2.2.2.2 – 4.0.0.0 – str'
    >>> shorthand(with_players(read("2.2.2.2 – str"), "piccolo", 1))
    '3(III=picc only).2.2.2 – str'
    """
    for place, line in enumerate(forces.lines):
        if (
            line.instrument in {slug, instrument(slug).section}
            and line.role == role
            and line.players
            and not line.group
        ):
            return replaced(forces, place, more(line, number, slug))
    line = Line(slug, family_of(slug), (number, number), role)
    return joined(forces, (line,) if role == "soloist" else read(shorthand(Instrumentation((line,)))).lines)


def with_whole(forces: Instrumentation, what: str) -> Instrumentation:
    """Add one of ``WHOLE``; a body that is there already is not added twice.

    >>> shorthand(with_whole(read("hp"), "strings"))
    'hp – str'
    """
    lines = read(WHOLE[what]).lines
    present = {line.instrument for line in forces.lines}
    return joined(forces, tuple(line for line in lines if line.instrument not in present))


def with_one_more(forces: Instrumentation, place: int) -> Instrumentation:
    """Add a player to a line."""
    return replaced(forces, place, more(forces.lines[place], 1))


def with_one_fewer(forces: Instrumentation, place: int) -> Instrumentation:
    """Take the last player off a line, with what that chair plays; the line goes with its last player.

    >>> shorthand(with_one_fewer(read("3(III=picc).2.2.2"), 0))
    '2.2.2.2'
    """
    line = forces.lines[place]
    if line.players is None:
        return forces
    least, most = line.players
    if most <= 1:
        return without(forces, place)
    chairs = tuple(chair for chair in line.chairs if chair.chair is None or chair.chair < most)
    return replaced(
        forces, place, replace(line, players=(max(0, min(least, most - 1)), most - 1), chairs=plain(line, chairs))
    )


def without(forces: Instrumentation, place: int) -> Instrumentation:
    """Take a line away."""
    return replace(forces, lines=forces.lines[:place] + forces.lines[place + 1 :])


def with_doubling(forces: Instrumentation, place: int, chair: int, slug: str) -> Instrumentation:
    """Let the player of a chair take up another instrument too.

    >>> shorthand(with_doubling(read("2.2.2.2"), 0, 2, "piccolo"))
    '2(II=picc).2.2.2'
    """
    line = forces.lines[place]
    plays = {one.chair: one for one in line.chairs}
    found = [plays.get(number, Chair(number, (line.instrument,))) for number in range(1, seats_in(line) + 1)]
    unnamed = tuple(one for one in line.chairs if one.chair is None)
    chairs = tuple(replace(one, plays=(*one.plays, slug)) if one.chair == chair else one for one in found)
    return replaced(forces, place, replace(line, chairs=chairs + unnamed))


def seats(forces: Instrumentation) -> Iterator[Seat]:
    """Give the single players who may double: no sections of strings, no choirs, no open lines."""
    for place, line in enumerate(forces.lines):
        if line.family in {"voice", "electronics"} or line.unit:
            continue
        plays = {chair.chair: chair.plays for chair in line.chairs}
        for number in range(1, seats_in(line) + 1):
            yield Seat(place, number, plays.get(number, (line.instrument,)))


# ---- parts of these steps


def seats_in(line: Line) -> int:
    return line.players[1] if line.players else 0


def more(line: Line, number: int, slug: str = "") -> Line:
    """Add players to a line, who play its instrument or another of its section; an open line stays open."""
    if line.players is None:
        return line
    least, most = line.players
    grown = replace(line, players=(min(least + number, MOST), min(most + number, MOST)))
    before = line.chairs or tuple(Chair(chair, (line.instrument,)) for chair in range(1, most + 1))
    new = tuple(Chair(chair, (slug or line.instrument,)) for chair in range(most + 1, seats_in(grown) + 1))
    return replace(grown, chairs=plain(line, (*before, *new)))


def plain(line: Line, chairs: tuple[Chair, ...]) -> tuple[Chair, ...]:
    """Leave the chairs out where each simply plays the line's instrument."""
    return chairs if any(chair.plays != (line.instrument,) or chair.note for chair in chairs) else ()


def replaced(forces: Instrumentation, place: int, line: Line) -> Instrumentation:
    return replace(forces, lines=(*forces.lines[:place], line, *forces.lines[place + 1 :]))


def joined(forces: Instrumentation, lines: tuple[Line, ...]) -> Instrumentation:
    """Put lines where a score has them: before the first line that comes later."""
    found = list(forces.lines)
    for line in lines:
        after = (place for place, other in enumerate(found) if rank(other) > rank(line))
        found.insert(next(after, len(found)), line)
    return replace(forces, lines=tuple(found))


def rank(line: Line) -> tuple[int, bool, int]:
    """Return where a line stands in a score: the ensemble in score order, then other bodies; soloists go first."""
    return {"soloist": 0, "ensemble": 1}.get(line.role, 2), line.group is not None, score_order(line.instrument)
