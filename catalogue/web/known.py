"""What a catalogue knows by name, for forms to offer and to recognise: fetched once for each form, in three queries."""

from __future__ import annotations

from dataclasses import dataclass

from catalogue.models import Composer, Organisation, Venue
from catalogue.rules.search import fold
from catalogue.web.places import write_country
from catalogue.web.work_names import WorkNames, work_names


@dataclass(frozen=True, slots=True)
class Known:
    """The works, halls and bodies of a composer's catalogue."""

    works: WorkNames
    venues: tuple[Venue, ...]
    bodies: tuple[Organisation, ...]

    @classmethod
    def of(cls, composer: Composer) -> Known:
        venues = Venue.objects.filter(composer=composer).in_place_order().defer("notes", "search_text")
        bodies = Organisation.objects.filter(composer=composer).in_name_order().only("name", "composer")
        return cls(work_names(composer), tuple(venues), tuple(bodies))

    @property
    def body_names(self) -> frozenset[str]:
        """The names of bodies, folded as a search does."""
        return frozenset(fold(body.name) for body in self.bodies)

    def body_named(self, name: str) -> Organisation | None:
        return next((body for body in self.bodies if fold(body.name) == fold(name)), None)

    @property
    def hall_names(self) -> frozenset[str]:
        """The names of halls, folded as a search does."""
        return frozenset(fold(venue.name) for venue in self.venues)

    @property
    def halls(self) -> list[str]:
        return sorted({str(venue) for venue in self.venues})

    @property
    def cities(self) -> list[str]:
        return sorted({venue.city for venue in self.venues if venue.city})

    @property
    def countries(self) -> list[str]:
        return sorted({write_country(venue.country) for venue in self.venues if venue.country})
