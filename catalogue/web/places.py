"""Where something takes place, as it is typed: a hall of the catalogue or a new one, a city, a country, its clocks.

Clocks are guessed from the halls that are known in the city, then from the time zones of the country (Unicode CLDR):
one that is named after the city, or any where all of them show the same time through the year. What is left is asked,
with the zones by which CLDR names the usual ones first.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from datetime import UTC, datetime

from babel.core import get_global
from django.utils.translation import gettext as _

from catalogue.models import Venue
from catalogue.rules.countries import is_country
from catalogue.rules.phrases import listed
from catalogue.rules.search import fold
from catalogue.rules.states import country_told, state_name
from catalogue.timing import zone_named

OUTLYING = ("Africa", "Antarctica", "Arctic", "Atlantic", "Indian", "Pacific")
USUAL_ZONES = frozenset(get_global("windows_zone_mapping").values())
SOLSTICES = ((1, 1), (7, 1))  # month and day: half a year apart, so that summer time shows


class PlaceError(ValueError):
    """A place that cannot be told; ``field`` is what to look at again."""

    def __init__(self, field: str, reason: str) -> None:
        super().__init__(reason)
        self.field, self.reason = field, reason


def read_country(text: str) -> str:
    """Return the ISO 3166-1 code of a country given by its code or name. Raises PlaceError.

    >>> read_country("Schweiz"), read_country("ch"), read_country("UK")
    ('CH', 'CH', 'GB')
    """
    code = country_told(text) or text.strip().upper()
    if is_country(code):
        return code
    if code in {"SU", "DD", "YU", "CS"}:
        reason = _("%(name)s is a state of the past; write today’s country here, and the state of the time below.")
        raise PlaceError("country", reason % {"name": state_name(code)})
    reason = _("“%(text)s” is no country; write its English name or the two letters of ISO 3166, such as CH.")
    raise PlaceError("country", reason % {"text": text.strip()})


def write_country(code: str) -> str:
    """Return the English name of a country by its code; nothing where there is none."""
    return state_name(code) if code else ""


@dataclass(frozen=True, slots=True)
class TypedPlace:
    """What was typed; ``country`` is a code, ``zone`` an IANA name."""

    hall: str = ""
    city: str = ""
    country: str = ""
    zone: str = ""


@dataclass(frozen=True, slots=True)
class Place:
    """A hall of the catalogue, or a new one that is not stored yet, or a place without a hall."""

    venue: Venue | None
    city: str
    country: str
    zone: str

    @property
    def is_new(self) -> bool:
        return self.venue is not None and self.venue.pk is None

    def in_words(self) -> str:
        """Return hall, city and country, as far as they are known."""
        hall = self.venue.name if self.venue else ""
        return ", ".join(part for part in (hall, self.city, write_country(self.country)) if part)


def place_of(typed: TypedPlace, known: Sequence[Venue], *, current: Venue | None, year: int, asks_zone: bool) -> Place:
    """Return the place that was typed, among the halls that are known. Raises PlaceError.

    ``current`` is preferred where several halls answer; ``year`` is when, since clocks change; ``asks_zone`` where the
    clocks are needed, so that it is an error not to know them where the country has several.
    """
    venue = venue_named(typed, known, current) if typed.hall else None
    city = (venue and venue.city) or typed.city
    country = (venue and venue.country) or typed.country
    zone = typed.zone or (venue and venue.zone) or zone_of(city, country, known, year)
    if asks_zone and not zone and country:
        raise PlaceError("zone", which_clocks(country, year))
    if venue is None and typed.hall:
        venue = Venue(name=typed.hall, city=city, country=country, zone=zone)
    return Place(venue, city, country, zone)


def venue_named(typed: TypedPlace, known: Sequence[Venue], current: Venue | None) -> Venue | None:
    """Return the hall that is called so, alone or with its city, and stands where it was typed to stand."""
    wanted = fold(typed.hall)
    found = [venue for venue in known if wanted in {fold(venue.name), fold(str(venue))} and stands_there(venue, typed)]
    if current is not None and current in found:
        return current
    cities = sorted({venue.city or _("a city that is not known") for venue in found}, key=fold)
    if not typed.city and len(cities) > 1:
        places = listed(cities)
        raise PlaceError("city", _("There are halls of this name in %(places)s; say which city.") % {"places": places})
    return found[0] if found else None


def stands_there(venue: Venue, typed: TypedPlace) -> bool:
    same_city = not typed.city or not venue.city or fold(venue.city) == fold(typed.city)
    return same_city and (not typed.country or not venue.country or venue.country == typed.country)


# ---- clocks


def zone_of(city: str, country: str, known: Iterable[Venue], year: int) -> str:
    """Return the clocks of a place, or nothing where they cannot be told."""
    there = Counter(venue.zone for venue in known if venue.zone and city and is_in(venue, city, country))
    if there:
        return there.most_common(1)[0][0]
    zones = zones_of(country)
    named = [zone for zone in zones if fold(zone.rpartition("/")[2].replace("_", " ")) == fold(city)]
    if named:
        return named[0]
    return zones[0] if zones and len({shown_by(zone, year) for zone in zones}) == 1 else ""


def is_in(venue: Venue, city: str, country: str) -> bool:
    return fold(venue.city) == fold(city) and country in {"", venue.country}


def zones_of(country: str) -> list[str]:
    """Return the time zones of a country that this machine knows, the usual ones first."""
    listed: list[str] = get_global("territory_zones").get(country, [])
    return sorted(filter(is_zone, listed), key=in_usual_order)


def in_usual_order(zone: str) -> tuple[bool, bool, int, str]:
    return (zone not in USUAL_ZONES, zone.partition("/")[0] in OUTLYING, zone.count("/"), zone)


def is_zone(name: str) -> bool:
    try:
        zone_named(name)
    except ValueError:
        return False
    return True


def shown_by(zone: str, year: int) -> tuple[object, ...]:
    """Return how far the clocks of a zone are from universal time in winter and in summer."""
    return tuple(datetime(year, *day, tzinfo=UTC).astimezone(zone_named(zone)).utcoffset() for day in SOLSTICES)


def which_clocks(country: str, year: int) -> str:
    """Return the question that only a person can answer, with a few zones that differ."""
    different = {shown_by(zone, year): zone for zone in reversed(zones_of(country))}
    some = listed(sorted(different.values(), key=zones_of(country).index)[:6], "or")
    question = _("Clocks differ in %(country)s; say which, such as %(zones)s.")
    return question % {"country": write_country(country), "zones": some}
