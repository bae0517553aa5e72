"""What is here already and looks like what is being typed: works, people, bodies and halls of nearly the same name,
performances of one day.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from typing import Any

from django.db.models import Q

from catalogue.models import Composer, Organisation, Performance, Person, Venue, Work
from catalogue.rules.likeness import likeness_of
from catalogue.rules.search import fold
from catalogue.timing import DateError, PartialDate, read_date
from catalogue.web.known import Known

MOST = 3
SHORTEST = 3  # letters of a title that is compared


def works_alike(composer: Composer, title: str, *, besides: int | None = None) -> list[Work]:
    """Return the works whose title or original title looks like this one; one query, none for a title too short."""
    if len(title.strip()) < SHORTEST:
        return []
    ours = Work.objects.filter(composer=composer).exclude(pk=besides or 0).in_title_order()
    found = ours.only("pk", "title", "title_language", "original_title", "completed", "composer")
    return [one for one in found if likeness_of(title, one.title) or likeness_of(title, one.original_title)][:MOST]


def records_alike(model: Any, composer: Composer, name: str, *, besides: int | None = None) -> list[Any]:
    """Return the people, bodies or halls whose name looks like this one; one query, none for a name too short."""
    if len(name.strip()) < SHORTEST:
        return []
    ours = model.objects.filter(composer=composer).exclude(pk=besides or 0).order_by("name", "pk")
    return [one for one in ours.defer("notes", "search_text") if likeness_of(name, one.name)][:MOST]


def somebody_alike(composer: Composer, name: str) -> list[Any]:
    """Return the people and bodies whose name looks like this one, none where one is called exactly so; two queries."""
    found = [*records_alike(Person, composer, name), *records_alike(Organisation, composer, name)]
    return [] if any(fold(one.name) == fold(name) for one in found) else found[:MOST]


@dataclass(frozen=True, slots=True)
class NewNames:
    """Names that are not in the catalogue, and the people and bodies whose names look like one of them."""

    unknown: tuple[str, ...] = ()
    alike: tuple[Person | Organisation, ...] = ()


def new_names_among(names: Iterable[str], known: Known, composer: Composer) -> NewNames:
    """Return which of the names are new to the catalogue, and what they look like; one query."""
    asked = [name for name in dict.fromkeys(names) if fold(name) not in known.body_names]
    people: list[Person] = list(Person.objects.filter(composer=composer).only("name", "composer")) if asked else []
    here = {fold(person.name) for person in people}
    unknown = tuple(name for name in asked if fold(name) not in here)
    named: tuple[Person | Organisation, ...] = (*people, *known.bodies)
    alike = [one for one in named if looks_like_one_of(one.name, unknown)] if unknown else []
    return NewNames(unknown, tuple(alike[:MOST]))


def looks_like_one_of(name: str, others: Iterable[str]) -> bool:
    return any(likeness_of(name, other) for other in others if len(other.strip()) >= SHORTEST)


def performances_of_day(
    composer: Composer, day: str, *, language: str, besides: int | None = None
) -> list[Performance]:
    """Return the performances that are noted for a day that is typed; four queries, none where it is no day."""
    try:
        when = read_date(day, language=language) if day.strip() else None
    except DateError:
        return []
    if not isinstance(when, PartialDate) or when.exact is None:
        return []
    on_the_day = Q(first_day=when.exact, last_day=when.exact)
    ours = Performance.objects.filter(on_the_day, composer=composer).exclude(pk=besides or 0)
    return list(ours.with_everything_printed().in_date_order()[:MOST])


def halls_alike(hall: str, known: Known) -> list[Venue]:
    """Return the known halls that a name looks like without being one of them."""
    return [venue for venue in known.venues if likeness_of(hall, venue.name)][:MOST]
