"""The seats that a work asks for and the players that a body offers, in runs of alike ones.

A run is a stretch of chairs of one line that are alike; sections of strings and choirs are runs too, so that a
large orchestra is some forty runs. A seat lists what its player must be able to play, once for each alternative that
the text allows; a player lists what he plays, once for each instrument that he may turn out to be.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import dataclass, replace

from catalogue.instrumentation.bodies import is_section
from catalogue.instrumentation.model import Chair, Instrumentation, Line, is_instrumentalist
from catalogue.instrumentation.playing import Can, Rules, can_hold
from catalogue.instrumentation.vocabulary import family_of

Choices = tuple[tuple[str, ...], ...]
TIMPANI = re.compile(r"\b(timp|pauke|timbal|pk\b)", re.IGNORECASE)
DENIED = re.compile(r"\b(not|no|without|exc\w*|ohne|nicht|sans|senza|sin)\b", re.IGNORECASE)


@dataclass(frozen=True, slots=True)
class Seats:
    """Alike seats of one line. ``wished`` seats are a strength that is preferred, not needed."""

    line: Line
    first: int
    count: int
    choices: Choices
    section: bool = False
    wished: bool = False

    @property
    def needs(self) -> tuple[str, ...]:
        """What the player needs to play as the text has it first."""
        return self.choices[0]


@dataclass(frozen=True, slots=True)
class Players:
    """Alike players of one line; ``count`` is ``None`` for an open number, ``sure`` false for who may be missing."""

    line: Line
    first: int
    count: int | None
    choices: Choices
    section: bool = False
    sure: bool = True


def is_person(line: Line) -> bool:
    """Whether somebody has to sit or stand there whom the forces must provide; the conductor comes beside them."""
    return (is_instrumentalist(line) or line.family == "voice") and line.role != "conductor"


def runs(line: Line, count: int) -> Iterator[tuple[int, int, tuple[str, ...]]]:
    """Yield (first chair, how many, instruments) for the first ``count`` chairs of a line."""
    named = chairs_by_number(line, count)
    first = 1
    while first <= count:
        plays = named.get(first, (line.instrument,))
        following = [number for number in named if number > first] if plays == (line.instrument,) else []
        after = first + 1 if first in named else min([*following, count + 1])
        yield first, after - first, plays
        first = after


def chairs_by_number(line: Line, count: int) -> dict[int, tuple[str, ...]]:
    """Return what each chair plays that is named; somebody who doubles without a number is the last free chair."""
    plain = (line.instrument,)
    found = {one.chair: one.plays for one in line.chairs if one.chair and one.chair <= count and one.plays != plain}
    for one in reversed([one for one in line.chairs if one.chair is None]):
        place_unnumbered(one, found, count)
    return found


def place_unnumbered(chair: Chair, found: dict[int, tuple[str, ...]], count: int) -> None:
    free = [number for number in range(max(1, count - len(found)), count + 1) if number not in found]
    if free:
        found[free[-1]] = chair.plays
    elif count:
        found[count] = tuple(dict.fromkeys((*found[count], *chair.plays)))


def desks_to_players(line: Line) -> tuple[int, int]:
    """Return how many players the line's desks hold: the last desk may be one player's."""
    least, most = line.players or (0, 0)
    return max(0, 2 * least - 1), 2 * most


def least_and_most(line: Line) -> tuple[int, int] | None:
    return desks_to_players(line) if line.unit == "desks" and line.players else line.players


def with_alternatives(line: Line, plays: tuple[str, ...]) -> Choices:
    return (plays, *((other,) for other in line.alternatives))


# ---- what the work asks for


def seats_of(work: Instrumentation, available: Instrumentation, rules: Rules) -> tuple[Seats, ...]:
    """Return the seats of a work; optional lines ask for nobody, a range asks for its least.

    Soloists with nobody beside them are simply the players of the work.
    """
    wanted = [line for line in work.lines if is_person(line) and not line.optional]
    if all(line.role == "soloist" for line in wanted):
        wanted = [replace(line, role="ensemble") for line in wanted]
    seats = (one for line in wanted for one in seats_of_line(line, work, available, rules))
    return tuple(one for one in seats if one.count)


def seats_of_line(line: Line, work: Instrumentation, available: Instrumentation, rules: Rules) -> Iterator[Seats]:
    section = is_section(line, work.lines)
    numbers = least_and_most(line)
    if numbers is None:
        yield Seats(line, 1, 1, needs(line, (line.instrument,)), section)
    elif section and strength_is_wished(line, available, rules):
        count = min(1, numbers[0])
        yield Seats(line, 1, count, needs(line, (line.instrument,)), section and line.strength != "preferred")
        yield Seats(line, 1 + count, numbers[0] - count, needs(line, (line.instrument,)), wished=True)
    else:
        for first, count, plays in runs(line, numbers[0]):
            yield Seats(line, first, count, needs(line, plays), section and not has_single_players(line, available))


def strength_is_wished(line: Line, available: Instrumentation, rules: Rules) -> bool:
    """Whether a section may be smaller than the work says: figures after strings are often a wish.

    A preferred strength is a wish always, a stated one where a section stands against it and it is not required.
    """
    if line.strength == "preferred":
        return True
    return line.strength != "least" and not rules.strings_required and not has_single_players(line, available)


def has_single_players(line: Line, available: Instrumentation) -> bool:
    """Whether the body offers this part as single players only."""
    same = [one for one in available.lines if can_hold((line.instrument,), (one.instrument,), Rules()) > Can.NO]
    return bool(same) and not any(is_section(one, available.lines) for one in same)


def needs(line: Line, plays: tuple[str, ...]) -> Choices:
    """Return the choices of a seat; timpani in a percussionist's kit are his, not a timpanist's."""
    kit = tuple(one for one in plays if one != "timpani")
    has_kit = any(family_of(one) == "percussion" for one in kit)
    return with_alternatives(line, kit if has_kit and line.instrument != "timpani" else plays)


# ---- what the body offers


def players_of(available: Instrumentation, rules: Rules) -> tuple[Players, ...]:
    """Return the players of a body, those that are sure to be there before those that may be."""
    people = [line for line in available.lines if is_person(line)]
    return tuple(one for line in people for one in players_of_line(line, available, rules))


def offered(line: Line, plays: tuple[str, ...]) -> Choices:
    """Return what a player plays; percussionists also the timpani where the text counts the timpanist among them."""
    included = line.instrument == "percussion" and TIMPANI.search(line.note) and not DENIED.search(line.note)
    return with_alternatives(line, (*plays, "timpani") if included else plays)


def players_of_line(line: Line, available: Instrumentation, rules: Rules) -> Iterator[Players]:
    section = is_section(line, available.lines)
    numbers = least_and_most(line)
    if numbers is None:
        choices = offered(line, (line.instrument,))
        sure = 2 if section and line.instrument != "double-bass" else 1
        yield Players(line, 1, sure, choices, section)
        yield Players(line, 1 + sure, None, choices, section, sure=False)
        return
    least = numbers[1] if rules.as_limits else numbers[0]
    for first, count, plays in runs(line, numbers[1]):
        sure = max(0, min(count, least + 1 - first))
        choices = offered(line, plays)
        if sure:
            yield Players(line, first, sure, choices, section)
        if count > sure:
            yield Players(line, first + sure, count - sure, choices, section, sure=False)


# ---- who can take which seat


def can_take(seats: Seats, players: Players, rules: Rules) -> Can:
    """Return how surely one of the players can take one of the seats."""
    if not may_meet(seats, players):
        return Can.NO
    answers = [best_choice(seats, plays, rules) for plays in players.choices]
    if rules.as_limits or len(answers) == 1:
        return max(answers)
    return min(answers) if min(answers) > Can.NO or max(answers) == Can.NO else Can.PERHAPS


def best_choice(seats: Seats, plays: tuple[str, ...], rules: Rules) -> Can:
    return max(can_hold(needed, plays, rules) for needed in seats.choices)


def may_meet(seats: Seats, players: Players) -> bool:
    """Whether roles allow it: a soloist is not taken from the ranks, a section not made of single players."""
    solo = [side.line.role == "soloist" and side.line.family != "voice" for side in (seats, players)]
    if solo[0] != solo[1]:
        return False
    return players.section or not seats.section
