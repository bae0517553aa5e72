"""What is here already and looks like what is being typed: works of nearly the same title, performances of one day."""

from __future__ import annotations

from django.db.models import Q

from catalogue.models import Composer, Performance, Venue, Work
from catalogue.rules.likeness import likeness_of
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
