"""What the program has understood of the form of a performance: shown under the fields, live and when it comes back."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date

from django.utils.translation import gettext as _

from catalogue.exchange.performer_lists import Performer, PerformersError, check_performers, read_performers
from catalogue.facts import PerformerFacts
from catalogue.models import Composer, Venue
from catalogue.timing import DateError, MomentError, read_clock_time, read_date, write_clock_time
from catalogue.web.days import how_far, long_day
from catalogue.web.known import Known
from catalogue.web.lookalikes import NewNames, halls_alike, new_names_among
from catalogue.web.places import PlaceError, TypedPlace, place_of, read_country
from catalogue.web.readings import Marked, Reading


def when_reading(day: str, clock: str, *, language: str, today: date) -> Reading | None:
    """Return the day with its weekday, the time and how far off; None where nothing is typed."""
    if not day.strip() and not clock.strip():
        return None
    try:
        when = read_date(day, language=language) if day.strip() else None
        at = read_clock_time(clock) if clock.strip() else None
    except (DateError, MomentError) as mistake:
        return Reading(reason=mistake.reason, marked=Marked.at(mistake.text, mistake.start, mistake.end))
    said = (
        long_day(when, language) if when else "",
        write_clock_time(at, language) if at else "",
        how_far(when, today) if when else "",
    )
    return Reading(words=", ".join(part for part in said if part))


@dataclass(frozen=True, slots=True)
class PlaceReading:
    """Where it is, by which clocks, whether the hall is added and which known ones it looks like; or what is wrong."""

    words: str = ""
    zone: str = ""
    is_new: bool = False
    alike: str = ""
    reason: str = ""


def where_reading(
    hall: str, city: str, country: str, zone: str, *, known: Known, current: Venue | None, year: int
) -> PlaceReading | None:
    try:
        code = read_country(country) if country.strip() else ""
        typed = TypedPlace(hall.strip(), city.strip(), code, zone.strip())
        place = place_of(typed, known.venues, current=current, year=year, asks_zone=False)
    except PlaceError as mistake:
        return PlaceReading(reason=mistake.reason)
    words = place.in_words()
    alike = f" {_('or')} ".join(f"“{one}”" for one in halls_alike(hall, known)) if place.is_new else ""
    return PlaceReading(words, place.zone, place.is_new, alike) if words else None


@dataclass(frozen=True, slots=True)
class PerformersReading:
    """Each performer with the part, and who of them is new; or what is wrong and where."""

    performers: tuple[tuple[str, str], ...] = ()
    news: NewNames | None = None
    reason: str = ""
    marked: Marked | None = None


def performers_reading(text: str, known: Known, composer: Composer | None = None) -> PerformersReading | None:
    """Return what a list of performers reads as; in the catalogue of a composer, who of them is new to it."""
    try:
        check_performers(text)
    except PerformersError as mistake:
        return PerformersReading(reason=mistake.reason, marked=Marked.at(mistake.text, mistake.start, mistake.end))
    found = read_performers(text, bodies=known.body_names)
    if not found:
        return None
    news = new_names_among((one.name for one in found), known, composer) if composer else None
    return PerformersReading(tuple((one.name, part_in_words(one)) for one in found), news)


def part_in_words(performer: Performer | PerformerFacts) -> str:
    """Return what somebody did, as one says it: conductor, clarinet, solo clarinet."""
    if not performer.plays:
        return performer.role
    if performer.role == "soloist":
        return _("solo %(instrument)s") % {"instrument": performer.plays}
    return performer.plays
