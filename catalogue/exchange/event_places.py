"""Halls while a table is imported: found again by name and place, added where they are new."""

from __future__ import annotations

from collections import defaultdict
from datetime import datetime

from catalogue.actions.performances import save_venue
from catalogue.models import Composer, Performance, Venue
from catalogue.rules.search import fold


class VenueShelf:
    """One composer's halls; asks the database once."""

    def __init__(self, composer: Composer, now: datetime) -> None:
        self.composer = composer
        self.now = now
        self.by_name: dict[str, list[Venue]] = defaultdict(list)
        for venue in Venue.objects.filter(composer=composer).order_by("pk"):
            self.by_name[fold(venue.name)].append(venue)

    def venue(self, name: str, *, city: str, country: str, zone: str) -> Venue:
        """Return the hall of that name and place, made where there is none; what is not known of it is filled in."""
        known = [one for one in self.by_name.get(fold(name), []) if fits(one, city, country)]
        venue = known[0] if known else Venue(composer=self.composer, name=name)
        told = {"city": city, "country": country, "zone": zone}
        missing = {column: text for column, text in told.items() if text and not getattr(venue, column)}
        for column, text in missing.items():
            setattr(venue, column, text)
        if missing or not known:
            save_venue(venue=venue, now=self.now)
        if not known:
            self.by_name[fold(name)].append(venue)
        return venue


def fits(venue: Venue, city: str, country: str) -> bool:
    pairs = ((venue.city, city), (venue.country, country))
    return all(not mine or not told or fold(mine) == fold(told) for mine, told in pairs)


def city_of(performance: Performance) -> str:
    return (performance.venue.city if performance.venue else "") or performance.city


def country_of(performance: Performance) -> str:
    return (performance.venue.country if performance.venue else "") or performance.country
