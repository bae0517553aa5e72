"""Records of a catalogue that may be two spellings of one, as names to be compared and pairs that are left."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable
from dataclasses import dataclass
from enum import StrEnum
from typing import Any

from django.db.models import Count, Q

from catalogue.models import Composer, Organisation, Performance, PerformanceCredit, Person, SetApart, Venue, Work
from catalogue.rules.likeness import Likeness, Named, pairs_alike


class Alike(StrEnum):
    """The kinds of records that are compared; ``NAME`` is who plays or presents and is named, but is no record."""

    WORK = "work"
    VENUE = "venue"
    NAME = "name"
    PERSON = "person"
    ORGANISATION = "organisation"


@dataclass(frozen=True, slots=True)
class Candidate:
    """One of two: its key, what it is called, what stands beside the name, and how often it is used."""

    key: str
    name: str
    beside: str
    times: int


@dataclass(frozen=True, slots=True)
class Lookalikes:
    """Two records or names of one sort that may be one, and why."""

    sort: Alike
    one: Candidate
    other: Candidate
    because: Likeness

    @property
    def both(self) -> tuple[tuple[Candidate, Candidate], tuple[Candidate, Candidate]]:
        """Either may be kept: it and the other."""
        return (self.one, self.other), (self.other, self.one)


Known = list[tuple[Named, Candidate]]


def gather_likenesses(composer: Composer) -> tuple[Lookalikes, ...]:
    """Return every two records that look alike and were not set apart; seven queries."""
    apart = set(SetApart.objects.filter(composer=composer).values_list("sort", "one", "other"))
    return tuple(
        pair
        for sort, named in everything_named(composer)
        for pair in lookalikes_in(sort, named)
        if (sort.value, pair.one.key, pair.other.key) not in apart
    )


def lookalikes_in(sort: Alike, names: Known) -> Iterable[Lookalikes]:
    candidates = {named.key: candidate for named, candidate in names}
    for pair in pairs_alike(named for named, _candidate in names):
        yield Lookalikes(sort, candidates[pair.one.key], candidates[pair.other.key], pair.because)


def everything_named(composer: Composer) -> tuple[tuple[Alike, Known], ...]:
    return (
        (Alike.WORK, works_of(composer)),
        (Alike.VENUE, venues_of(composer)),
        (Alike.NAME, names_of(composer)),
        (Alike.PERSON, people_of(composer)),
        (Alike.ORGANISATION, organisations_of(composer)),
    )


def works_of(composer: Composer) -> Known:
    """Return the works without their versions, which are no duplicates; works of different years are two."""
    works = Work.objects.filter(composer=composer, version_of__isnull=True)
    told = counted(works, "programmed").values_list("pk", "title", "catalogue_number", "completed", "times")
    return [
        known(key, title, times, group=year, number=number, beside=", ".join(filter(None, (number, year))))
        for key, title, number, year, times in ((*one[:3], str(one[3] or ""), one[4]) for one in told)
    ]


def venues_of(composer: Composer) -> Known:
    venues = counted(Venue.objects.filter(composer=composer), "performances", deleted="deleted_at")
    told = venues.values_list("pk", "name", "city", "times")
    return [known(key, name, times, group=city, beside=city) for key, name, city, times in told]


def names_of(composer: Composer) -> Known:
    """Return the names of performers and presenters who are no record; the spelling is the key."""
    credits = PerformanceCredit.objects.filter(performance__composer=composer, performance__deleted_at__isnull=True)
    nobody = credits.filter(person__isnull=True, organisation__isnull=True)
    times = Counter(nobody.order_by("pk").values_list("name", flat=True))
    presented = Performance.objects.filter(composer=composer, presenter__isnull=True).exclude(presenter_name="")
    times.update(presented.order_by("pk").values_list("presenter_name", flat=True))
    return [known(name, name, number) for name, number in times.items()]


def people_of(composer: Composer) -> Known:
    people = counted(Person.objects.filter(composer=composer), "credits")
    told = people.values_list("pk", "name", "plays", "times")
    return [known(key, name, times, beside=plays) for key, name, plays, times in told]


def organisations_of(composer: Composer) -> Known:
    bodies = counted(Organisation.objects.filter(composer=composer), "credits")
    told = bodies.values_list("pk", "name", "city", "times")
    return [known(key, name, times, group=city, beside=city) for key, name, city, times in told]


def counted(records: Any, naming: str, *, deleted: str = "performance__deleted_at") -> Any:
    """Count the performances that name each record, deleted ones left out."""
    living = Q(**{f"{naming}__{deleted}__isnull": True})
    return records.annotate(times=Count(naming, filter=living)).order_by("pk")


def known(
    key: object, name: str, times: int, *, group: str = "", number: str = "", beside: str = ""
) -> tuple[Named, Candidate]:
    return Named(str(key), name, group, number), Candidate(str(key), name, beside, times)
