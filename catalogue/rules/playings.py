"""One work at one event: whether it counts towards a premiere, and where it was.

The state is the one of the time where the record names it, else the country of the place today.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass, field
from datetime import date, time
from enum import Enum, auto
from functools import lru_cache
from typing import TYPE_CHECKING

from catalogue.rules.cities import city_key
from catalogue.rules.search import fold
from catalogue.rules.states import state_named
from catalogue.terms import Audience, Extent, PerformanceKind, PerformanceStatus

if TYPE_CHECKING:  # these need the reader of instrumentations, which the records have no use for
    from catalogue.facts import CatalogueFacts, PerformanceFacts, ProgrammedFacts, WorkFacts

OPEN_TO_ALL = frozenset({Audience.PUBLIC, Audience.PUBLIC_REHEARSAL})
put = object.__setattr__
"""Sets what a value finds out of itself once, while it is made."""
ANNOUNCED = frozenset(
    {
        PerformanceStatus.CONFIRMED,
        PerformanceStatus.GIVEN,
        PerformanceStatus.POSTPONED,
        PerformanceStatus.CANCELLED,
    }
)
"""What has become of an event that everybody may be told of; a planned one is not announced yet."""


class Standing(Enum):
    """Whether a playing took place and was public, is still to come and will be, or counts for nothing."""

    HAPPENED = auto()
    UPCOMING = auto()
    NOT_COUNTED = auto()


@dataclass(frozen=True, slots=True)
class Playing:
    """A work at its place in an event's programme. ``family`` is the id of the first version of the work.

    ``region`` is the part of the country, as its hall or another hall of the same city has it, empty where none has.
    ``why_not`` says in a sentence why the playing counts for nothing, else it is empty. ``state``, ``city`` and
    ``region_key`` are equal for playings in one state, city or region, and empty or None where it is unknown; ``when``
    is equal for those of one date, sorts as the dates do and is empty where there is none.
    """

    event: PerformanceFacts
    item: ProgrammedFacts
    work: WorkFacts
    family: int
    position: int
    standing: Standing
    why_not: str = ""
    region: str = ""
    complete: bool = field(init=False, repr=False, compare=False)
    when: str = field(init=False, repr=False, compare=False)
    state: str = field(init=False, repr=False, compare=False)
    city: tuple[str, str] | None = field(init=False, repr=False, compare=False)
    region_key: tuple[str, str] | None = field(init=False, repr=False, compare=False)

    def __post_init__(self) -> None:
        """Find the keys once: every reckoning asks for them again and again."""
        event = self.event
        then, country = event.country_then, event.country
        state = (state_named(then) or fold(then)) if then and then.strip() else country
        put(self, "complete", self.item.extent is Extent.COMPLETE)
        put(self, "when", event.date.sort_key if event.date else "")
        put(self, "state", state)
        put(self, "city", place_key(event.city, country))
        put(self, "region_key", place_key(self.region, country) if self.region else None)


@lru_cache(maxsize=8192)
def place_key(name: str, country: str) -> tuple[str, str] | None:
    key = city_key(name, country) if name else ""
    return (key, country) if key else None


NOT_PUBLIC = {
    Audience.PRIVATE: "It was private.",
    Audience.INVITED: "The audience was invited.",
    Audience.PUBLIC_REHEARSAL: "It was a public rehearsal.",
}
DID_NOT_HAPPEN = {
    PerformanceStatus.POSTPONED: "It was postponed and did not take place on this date.",
    PerformanceStatus.CANCELLED: "It was cancelled and did not take place.",
    PerformanceStatus.WITHDRAWN: "The record is withdrawn.",
    PerformanceStatus.OLD_STYLE_DATE: "It is the same event under an old-style date.",
    PerformanceStatus.DUPLICATE: "It is the same event recorded twice.",
}
NO_DATE = "It has no date, so its place in the order is unknown."
NO_PREMIERE_KIND = {
    PerformanceKind.PREVIEW: "A preview takes no title.",
    PerformanceKind.READING: "A reading takes no title.",
    PerformanceKind.WORKSHOP: "A workshop takes no title.",
    PerformanceKind.RECORDING_SESSION: "A recording session takes no title.",
}


def playings_of(catalogue: CatalogueFacts, *, today: date) -> tuple[Playing, ...]:
    """Return every work of every programme, in date order; undated events stand last."""
    works, regions = catalogue.works_by_id(), regions_by_city(catalogue.performances)
    playings = [
        playing
        for event in catalogue.performances
        for playing in playings_at(event, works, today=today, region=region_of(event, regions))
    ]
    return tuple(sorted(playings, key=in_date_order))


def regions_by_city(performances: Iterable[PerformanceFacts]) -> dict[tuple[str, str], str]:
    """Return the region of each city and country, as far as a hall there has one."""
    told = (event for event in performances if event.region and event.city)
    return {(fold(event.city), event.country): event.region for event in told}


def region_of(event: PerformanceFacts, regions: Mapping[tuple[str, str], str]) -> str:
    return event.region or (regions.get((fold(event.city), event.country), "") if event.city and regions else "")


def playings_at(
    event: PerformanceFacts, works: dict[int, WorkFacts], *, today: date, region: str = ""
) -> Iterator[Playing]:
    standing, why_not = standing_of(event, today=today)
    for position, item in enumerate(event.programme):
        work = works.get(item.work_id)
        if work is not None:
            yield Playing(event, item, work, first_version(work, works), position, standing, why_not, region)


def in_date_order(playing: Playing) -> tuple[bool, str, str, int, int]:
    """Return the key that sorts playings by day, hour and place in the programme, those without a day last."""
    event, when = playing.event, playing.when
    return (not when, when, hour_key(event.time) if event.time else "", event.id, playing.position)


hour_key = lru_cache(maxsize=4096)(time.isoformat)
"""The text of an hour, which sorts as the hours do."""


def first_version(work: WorkFacts, works: dict[int, WorkFacts]) -> int:
    """Return the id at the end of the chain of ``version_of``; a chain in a circle ends at its smallest id."""
    if work.version_of is None:
        return work.id
    seen = [work.id]
    parent: int | None = work.version_of
    while parent is not None:
        if parent in seen:
            return min(seen[seen.index(parent) :])
        seen.append(parent)
        parent = works[parent].version_of if parent in works else None
    return seen[-1]


def standing_of(event: PerformanceFacts, *, today: date) -> tuple[Standing, str]:
    """Return how the event counts on that day, and in a sentence why it does not."""
    why_not = why_not_counted(event, today=today)
    if why_not:
        return Standing.NOT_COUNTED, why_not
    return (Standing.UPCOMING if is_to_come(event, today=today) else Standing.HAPPENED), ""


def is_to_come(event: PerformanceFacts, *, today: date) -> bool:
    """A given event lies ahead only when its first possible day does; another one until its last day is over."""
    if event.date is None:
        return False
    if event.status is PerformanceStatus.GIVEN:
        return event.date.first > today
    return event.date.last >= today


def why_not_counted(event: PerformanceFacts, *, today: date) -> str:
    known = (
        DID_NOT_HAPPEN.get(event.status)
        or NOT_PUBLIC.get(event.audience)
        or NO_PREMIERE_KIND.get(event.kind)
        or ("" if event.date else NO_DATE)
    )
    if not known and event.status is PerformanceStatus.PLANNED and not is_to_come(event, today=today):
        return "It was planned, and nothing says that it took place."
    return known
