"""Whether a body of players can play a work, and why not, chair by chair.

A player holds one chair, so this is a matching of seats and players and not a subtraction: the one flautist who
has a piccolo may be needed twice. It is solved exactly as a transportation problem, once with what the texts leave
open taken at its best and once at its worst: where even the best fails the answer is no, where the worst succeeds it
is yes, and between them it cannot be told.

What is missing is a smallest set: fewest seats that nobody can fully hold, among these fewest for which no player is
there at all, then fewest doublings.
"""

from __future__ import annotations

from dataclasses import dataclass, replace

from catalogue.instrumentation.bodies import is_section
from catalogue.instrumentation.electronics import electronics_missing, electronics_remarks
from catalogue.instrumentation.fit_words import doubling_missing, nobody_there, open_line, perhaps, short_strength
from catalogue.instrumentation.matching import cheapest_assignment
from catalogue.instrumentation.model import Instrumentation
from catalogue.instrumentation.playing import Can, Rules, can_hold
from catalogue.instrumentation.seats import Players, Seats, can_take, is_person, players_of, seats_of

ORDER = (True, None, False)

# The cost of one seat, each so large that no sum of the ones before comes near it.
STRANGE = 1
WISH = 10**9
DOUBLING = 10**18
PLAYER = 10**27
SEAT = 10**36


@dataclass(frozen=True, slots=True)
class Missing:
    """What nobody is there for: an instrument, how many players (``None`` for an open section), and a sentence.

    ``plays`` are all instruments of the chair; where a player is there who only lacks a doubling, ``instrument`` is
    that doubling.
    """

    instrument: str
    players: int | None
    why: str
    plays: tuple[str, ...] = ()
    role: str = "ensemble"

    def to_json(self) -> dict[str, object]:
        """Return the shape that the ``fit`` command prints."""
        return {
            "instrument": self.instrument,
            "players": self.players,
            "why": self.why,
            "plays": list(self.plays),
            "role": self.role,
        }


@dataclass(frozen=True, slots=True)
class Held:
    """Who takes which chair: alike chairs of a line that are held by alike players are one row."""

    instrument: str
    chair: int
    count: int
    plays: tuple[str, ...]
    player: str
    player_chair: int

    def to_json(self) -> dict[str, object]:
        """Return the shape that the ``fit`` command prints."""
        return {
            "instrument": self.instrument,
            "chair": self.chair,
            "count": self.count,
            "plays": list(self.plays),
            "player": self.player,
            "player_chair": self.player_chair,
        }


@dataclass(frozen=True, slots=True)
class Fit:
    """The answer: ``fits`` is ``None`` where it cannot be told, and ``open`` says then what the texts leave open.

    ``line_up`` counts from 0 the line-up of the work that was answered for, where it may be played by several.
    ``unused`` names the players who are sure to be there and have nothing to do, as (instrument, how many).
    """

    fits: bool | None
    missing: tuple[Missing, ...] = ()
    assignment: tuple[Held, ...] = ()
    open: tuple[str, ...] = ()
    remarks: tuple[str, ...] = ()
    unused: tuple[tuple[str, int], ...] = ()
    line_up: int = 0

    def to_json(self) -> dict[str, object]:
        """Return the shape that the ``fit`` command prints."""
        return {
            "fits": self.fits,
            "missing": [one.to_json() for one in self.missing],
            "assignment": [one.to_json() for one in self.assignment],
            "open": list(self.open),
            "remarks": list(self.remarks),
            "unused": [{"instrument": slug, "players": count} for slug, count in self.unused],
        }


@dataclass(frozen=True, slots=True)
class Match:
    """One solution: how many of each run of seats go to each run of players, the last column to nobody."""

    seats: tuple[Seats, ...]
    players: tuple[Players, ...]
    flow: list[list[int]]
    enough: Can
    rules: Rules

    def unheld(self, row: int) -> int:
        """How many of a run's seats nobody takes at all."""
        return self.flow[row][-1]

    def partly(self, row: int) -> list[tuple[int, int, tuple[str, ...]]]:
        """Return (players' run, how many, instruments they lack) for a run of seats."""
        found = []
        for column, count in enumerate(self.flow[row][:-1]):
            lacking = lacks(self.seats[row], self.players[column], self.enough, self.rules) if count else ()
            if lacking:
                found.append((column, count, lacking))
        return found


def fit(
    work: Instrumentation,
    available: Instrumentation,
    *,
    usual_doublings: bool = False,
    timpani_among_percussion: bool = False,
    as_limits: bool = False,
    strings_required: bool = False,
) -> Fit:
    """Return whether the available players can play the work, what is missing, and who takes which chair.

    The rules are explained at ``playing.Rules``. Optional lines of the work are left out; strings short of a wished
    strength are a remark. A work that may be played by one line-up or another fits if one of them does; where none
    does, the answer is that of the line-up which lacks least.
    """
    rules = Rules(usual_doublings, timpani_among_percussion, as_limits, strings_required)
    answers = [replace(fit_one(one, available, rules), line_up=at) for at, one in enumerate(work.line_ups)]
    return min(answers, key=lambda one: (ORDER.index(one.fits), len(one.missing)))


def fit_one(work: Instrumentation, available: Instrumentation, rules: Rules) -> Fit:
    """Return the answer for one line-up."""
    seats, players = seats_of(work, available, rules), players_of(available, rules)
    at_best = solve(seats, players, Can.PERHAPS, rules)
    at_worst = solve(seats, tuple(one for one in players if one.sure), Can.SURELY, rules)
    devices = (Missing(slug, None, why, (slug,)) for slug, why in electronics_missing(work, available))
    missing = (*missing_seats(at_best), *devices)
    undecided = () if missing else (*open_lines(work), *open_players(at_worst))
    settled = at_worst if not undecided else at_best
    return Fit(
        fits=False if missing else None if undecided else True,
        missing=missing,
        assignment=held(at_best if missing else settled),
        open=undecided,
        remarks=(*strength_remarks(at_best), *electronics_remarks(work, available)),
        unused=unused(at_best if missing else settled),
    )


# ---- the matching


def solve(seats: tuple[Seats, ...], players: tuple[Players, ...], enough: Can, rules: Rules) -> Match:
    """Match seats and players, where ``enough`` is how surely a player must be able to take a seat."""
    costs = [[*(cost_of(one, other, enough, rules) for other in players), cost_of_nobody(one)] for one in seats]
    capacities = [*(one.count for one in players), None]
    flow = cheapest_assignment([one.count for one in seats], capacities, costs)
    return Match(seats, players, flow, enough, rules)


def cost_of(seats: Seats, players: Players, enough: Can, rules: Rules) -> int | None:
    """Return the cost of giving a seat to a player, ``None`` where he can play nothing of it."""
    if can_take(seats, players, rules) >= enough:
        return strangeness(seats, players)
    lacking = lacks(seats, players, enough, rules)
    if seats.wished or not lacking or len(lacking) == len(seats.needs):
        return None
    return SEAT + DOUBLING * len(lacking)


def strangeness(seats: Seats, players: Players) -> int:
    """Return how odd it is to give the seat to this player: others' chairs, idle doublings, players in doubt."""
    idle = max(0, len(players.choices[0]) - len(seats.needs))
    return STRANGE * (idle + (players.line.instrument != seats.line.instrument) + 2 * (not players.sure))


def cost_of_nobody(seats: Seats) -> int:
    return WISH if seats.wished else SEAT + PLAYER + DOUBLING * len(seats.needs)


def lacks(seats: Seats, players: Players, enough: Can, rules: Rules) -> tuple[str, ...]:
    """Return the instruments of a seat that a player does not play, none where he can take it as it is."""
    if can_take(seats, players, rules) >= enough:
        return ()
    if can_take_main(seats, players, rules) < enough:
        return seats.needs
    return tuple(one for one in seats.needs if can_hold((one,), players.choices[0], rules) < enough)


def can_take_main(seats: Seats, players: Players, rules: Rules) -> Can:
    """Whether somebody could sit there who lacks some doubling: he must play the chair's first instrument."""
    return can_take(replace(seats, choices=(seats.needs[:1],)), players, rules)


# ---- what is told


def missing_seats(match: Match) -> tuple[Missing, ...]:
    found: list[Missing] = []
    for row, seats in enumerate(match.seats):
        if seats.wished:
            continue
        if match.unheld(row):
            found.append(missing_players(match, row))
        for _, count, lacking in match.partly(row):
            role = seats.line.role
            found += [Missing(one, count, doubling_missing(seats, one, count), seats.needs, role) for one in lacking]
    return tuple(found)


def missing_players(match: Match, row: int) -> Missing:
    seats, count = match.seats[row], match.unheld(row)
    near = any(can_take_main(replace(seats, section=False), one, match.rules) for one in match.players)
    is_part = row + 1 < len(match.seats) and match.seats[row + 1].wished and match.seats[row + 1].line is seats.line
    numbers = seats.line.players
    players = None if numbers is None and seats.section else numbers[0] if numbers and is_part else count
    why = nobody_there(seats, count, near)
    return Missing(seats.needs[0], players, why, seats.needs, seats.line.role)


def held(match: Match) -> tuple[Held, ...]:
    """Return who takes which chair, the chairs of a run shared out in order."""
    found: list[Held] = []
    taken = [0] * len(match.players)
    for row, seats in enumerate(match.seats):
        chair = seats.first
        for column, players in enumerate(match.players):
            count = match.flow[row][column]
            if count:
                slugs = seats.line.instrument, players.line.instrument
                plays = played(seats, players, match)
                add(found, Held(slugs[0], chair, count, plays, slugs[1], players.first + taken[column]))
                chair += count
                taken[column] += count
    return tuple(found)


def played(seats: Seats, players: Players, match: Match) -> tuple[str, ...]:
    """Return what a player plays in a seat: of “piano or harp” a harpist the harp."""
    alone = ((one, replace(seats, choices=(one,))) for one in seats.choices)
    return next((one for one, seat in alone if can_take(seat, players, match.rules) >= match.enough), seats.needs)


def add(found: list[Held], row: Held) -> None:
    """Put a row at the end, joined to the row before where it simply goes on."""
    last = found[-1] if found else None
    if last and replace(last, count=last.count + row.count) == replace(
        row, chair=row.chair - last.count, count=last.count + row.count, player_chair=row.player_chair - last.count
    ):
        found[-1] = replace(last, count=last.count + row.count)
    else:
        found.append(row)


def unused(match: Match) -> tuple[tuple[str, int], ...]:
    found: dict[str, int] = {}
    for column, players in enumerate(match.players):
        if players.count is not None and players.sure:
            left = players.count - sum(row[column] for row in match.flow)
            if left:
                found[players.line.instrument] = found.get(players.line.instrument, 0) + left
    return tuple(found.items())


def open_lines(work: Instrumentation) -> tuple[str, ...]:
    """Return a sentence for each line of which the work does not say how many players it needs."""
    return tuple(
        open_line(line)
        for line in work.lines
        if is_person(line) and line.players is None and not line.optional and not is_section(line, work.lines)
    )


def open_players(match: Match) -> tuple[str, ...]:
    """Return a sentence for each run of seats of which it cannot be told whether somebody is there for it."""
    found = []
    for row, seats in enumerate(match.seats):
        count = match.unheld(row) + sum(count for _, count, _ in match.partly(row))
        if count and not seats.wished:
            found.append(perhaps(seats, count))
    return tuple(found)


def strength_remarks(match: Match) -> tuple[str, ...]:
    """Return a sentence for each section that is smaller than the work wishes."""
    found = []
    for row, seats in enumerate(match.seats):
        before = row - 1
        is_there = before >= 0 and match.seats[before].line is seats.line and not match.unheld(before)
        if seats.wished and match.unheld(row) and is_there:
            found.append(short_strength(seats.line, match.seats[before].count + seats.count - match.unheld(row)))
    return tuple(found)
