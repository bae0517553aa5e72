"""Who came first among dated playings, where some dates are only a month or a year.

Intervals that overlap leave the order unknown, and then nobody holds the title. Events on one day share it, unless
they are in one city with both times known; in one programme the earlier place in the order comes first.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Callable, Hashable, Iterable, Mapping, Sequence
from dataclasses import dataclass
from datetime import date, time

from catalogue.rules.playings import Playing
from catalogue.timing import Order, PartialDate

ABOUT = "~"
DAY = len("1913-05-29")
"""How a date's key tells that it is about, and how long each of its two days is."""


@dataclass(frozen=True, slots=True)
class Contest:
    """The ids of the programmed works that hold a title, and of those that may hold it."""

    holders: frozenset[int] = frozenset()
    undecided: frozenset[int] = frozenset()

    def limited_to(self, ids: Iterable[int]) -> Contest:
        wanted = frozenset(ids)
        return Contest(self.holders & wanted, self.undecided & wanted)


def merged(results: Iterable[Contest]) -> Contest:
    """Return every holder of several contests; one who holds anything is not undecided."""
    kept = list(results)
    holders = frozenset[int]().union(*(one.holders for one in kept))
    return Contest(holders, frozenset[int]().union(*(one.undecided for one in kept)) - holders)


def contest(playings: Iterable[Playing]) -> Contest:
    """Return who is first among dated playings of any order."""
    by_key: dict[str, list[Playing]] = defaultdict(list)
    for playing in playings:
        if playing.when:
            by_key[playing.when].append(playing)
    front = not_surely_later(by_key)
    holders: set[int] = set()
    undecided: set[int] = set()
    for when, together in front.items():
        firsts = first_of_one_date(together)
        alone = len(front) == 1 or all(
            when.compared_with(other) is not Order.UNKNOWN for other in front if other != when
        )
        settled = alone and (when.exact is not None or len({one.event.id for one in firsts}) == 1)
        (holders if settled else undecided).update([one.item.id for one in firsts])
    return Contest(frozenset(holders), frozenset(undecided))


def not_surely_later(by_key: Mapping[str, list[Playing]]) -> dict[PartialDate, list[Playing]]:
    """Return the playings of the dates before which no other date lies for certain, by their dates.

    Where none of the dates is about, the keys tell their first and last days.
    """
    if len(by_key) == 1:
        (group,) = by_key.values()
        return {when: group} if (when := group[0].event.date) is not None else {}
    if any(key.endswith(ABOUT) for key in by_key):
        dated = {group[0].event.date: group for group in by_key.values()}
        front = dates_not_surely_later(when for when in dated if when is not None)
        return {when: dated[when] for when in front}
    end = min((key[DAY + 1 :] for key in by_key), default="")
    groups = [group for key, group in by_key.items() if key[:DAY] <= end]
    return {when: group for group in groups if (when := group[0].event.date) is not None}


def first_of_one_date(playings: Sequence[Playing]) -> list[Playing]:
    """Return those of one date that none of the others comes before, by place in a programme and time in a city.

    What :func:`surely_before` says of any two of them, asked once of each.
    """
    if len(playings) == 1:
        return list(playings)
    on_one_day = playings[0].event.date is not None and playings[0].event.date.exact is not None
    positions: dict[int, int] = {}
    times: dict[Hashable, time] = {}
    apart = False
    for one in playings:
        event = one.event
        place = positions.setdefault(event.id, one.position)
        if one.position < place:
            positions[event.id] = one.position
        if on_one_day and event.time and one.city:
            hour = times.setdefault(one.city, event.time)
            if hour != event.time:
                apart, times[one.city] = True, min(hour, event.time)
    if not apart and len(positions) == len(playings):
        return list(playings)
    return [
        one
        for one in playings
        if one.position == positions[one.event.id]
        and not (one.event.time and one.city in times and times[one.city] < one.event.time)
    ]


def dates_not_surely_later(dates: Iterable[PartialDate]) -> list[PartialDate]:
    """Return the dates before which no other date lies for certain.

    That is certain where another ends before it begins, so the one that ends first tells of all of them.
    """
    intervals = {when: when.interval() for when in dates}
    end = min((last for _first, last in intervals.values()), default=date.max)
    return [when for when, (first, _last) in intervals.items() if first <= end]


def surely_before(one: Playing, other: Playing) -> bool:
    """Say whether the records make ``one`` certainly earlier than ``other``."""
    if one.event.id == other.event.id:
        return one.position < other.position
    mine, theirs = one.event.date, other.event.date
    if mine is None or theirs is None:
        return False
    order = mine.compared_with(theirs)
    if order is Order.SAME and one.city and one.city == other.city and one.event.time and other.event.time:
        return one.event.time < other.event.time
    return order is Order.BEFORE


def contest_by(playings: Iterable[Playing], key: Callable[[Playing], Hashable]) -> Contest:
    """Return who is first within each group of equal keys; playings whose key is empty hold nothing."""
    groups: dict[Hashable, list[Playing]] = defaultdict(list)
    for playing in playings:
        if place := key(playing):
            groups[place].append(playing)
    return merged(contest(group) for group in groups.values())
