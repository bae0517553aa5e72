"""When the cues of a work come: each cue with its time, its bar and what stands in the way of knowing them.

A cue stands at a bar and beat or at a time on the clock; its time follows from the tempo map, and moves when the map
does. A cue without a place is done before the beginning.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass, replace
from fractions import Fraction
from typing import TypeVar

from catalogue.facts import CueFacts
from catalogue.timing import Place, PlaceError, Reckoned, TempoMap, place_at, read_place, seconds_of
from catalogue.timing.places import clock_of
from catalogue.timing.tempo_maps import Free

C = TypeVar("C")
NO_MAP = TempoMap((), ())


@dataclass(frozen=True, slots=True)
class PlacedCue:
    """A cue and what the map makes of its place.

    ``movement`` counts from 1 and is 0 where the place is not known; ``bar`` is the bar and beat as a sheet prints
    them. ``free`` is how long the passage by the clock lasts in which the cue stands. ``mistake`` says why there is no
    time.
    """

    cue: CueFacts
    seconds: Fraction | None = None
    movement: int = 0
    bar: str = ""
    free: Fraction | None = None
    mistake: PlaceError | None = None


def placed_cues(cues: Sequence[CueFacts], reckoned: Reckoned | None) -> tuple[PlacedCue, ...]:
    """Return the cues in the order in which they come, each where the map puts it.

    Without a map every cue keeps its place as typed and nothing has a time.
    """
    if reckoned is None:
        return tuple(PlacedCue(cue, bar=cue.place) for cue in cues)
    placed = [placed_cue(cue, reckoned) for cue in cues]
    return tuple(in_playing_order(placed, lambda one: one.seconds))


def placed_cue(cue: CueFacts, reckoned: Reckoned) -> PlacedCue:
    """Return a cue with its second by the tempo map; one whose place is not in the map bears the mistake."""
    if not cue.place.strip():
        return PlacedCue(cue)
    try:
        seconds = seconds_of(cue.place, reckoned.tempo_map, reckoned.line)
    except PlaceError as mistake:
        return PlacedCue(cue, bar=cue.place, mistake=mistake)
    place = place_of(cue.place, seconds, reckoned)
    if place is None:
        return PlacedCue(cue, seconds)
    return PlacedCue(cue, seconds, place.movement, in_short(place), free_at(place, reckoned))


def mistake_in(place: str) -> PlaceError | None:
    """Return why a text can be no place at all, in whatever map; none where it can, or where there is none."""
    try:
        if place.strip() and clock_of(place.strip(), NO_MAP) is None:
            read_place(place)
    except PlaceError as mistake:
        return mistake
    return None


def place_of(text: str, seconds: Fraction, reckoned: Reckoned) -> Place | None:
    """Return the bar and beat that were typed, or those that sound at the time that was typed; none in a gap."""
    if clock_of(text.strip(), reckoned.tempo_map) is None:
        return read_place(text)
    sounding = place_at(seconds, reckoned.line)
    return replace(sounding, part=Fraction(0)) if sounding else None


def in_short(place: Place) -> str:
    """Return bar and beat without the movement: 37 on its first beat, 37.3, and @2 the second time.

    >>> in_short(Place(37)), in_short(Place(37, 3, Fraction(1, 2))), in_short(Place(7, time=2))
    ('37', '37.3.5', '7@2')
    """
    if place.beat == 1 and not place.part:
        return f"{place.bar}{f'@{place.time}' if place.time != 1 else ''}"
    return place.written(several_movements=False)


def free_at(place: Place, reckoned: Reckoned) -> Fraction | None:
    """Return how long the passage by the clock lasts that holds the place, if one does."""
    passages = reckoned.tempo_map.movements[place.movement - 1].passages
    return next((one.seconds for one in passages if isinstance(one, Free) and one.first <= place.bar <= one.last), None)


def in_playing_order(items: Sequence[C], seconds: Callable[[C], Fraction | None]) -> list[C]:
    """Return things in the order of their times; what has none stays behind what it stood behind.

    >>> in_playing_order(["T", "9", "4", "4b"], {"9": Fraction(9), "4": Fraction(4)}.get)
    ['T', '4', '4b', '9']
    """
    keyed: list[tuple[Fraction, C]] = []
    last = Fraction(-1)
    for item in items:
        known = seconds(item)
        last = last if known is None else known
        keyed.append((last, item))
    return [item for _seconds, item in sorted(keyed, key=lambda pair: pair[0])]
