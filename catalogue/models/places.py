"""Where concerts take place."""

from __future__ import annotations

from typing import Self

from django.core.validators import MaxValueValidator, MinValueValidator
from django.db import models
from django.db.models import Q

from catalogue.models.conditions import country_code, refuse_unknown_country, refuse_unknown_zone
from catalogue.models.fields import SearchTextField, line, text
from catalogue.models.ordering import Folded
from catalogue.models.people import Composer
from catalogue.models.records import Deletable, Guarded, LivingManager, Record, SearchableQuerySet
from catalogue.models.typed_lists import refuse_unreadable


class VenueQuerySet(SearchableQuerySet["Venue"]):
    def in_place_order(self) -> Self:
        return self.order_by("country", Folded("city"), Folded("name"), "pk")


class Venue(Record, Deletable, Guarded):
    """A hall, church, gallery or square. ``zone`` is the IANA name of its clocks, ``country`` ISO 3166-1 alpha-2.

    ``region`` is a part of the country that speaks of firsts of its own, by its name: Scotland, Bavaria.
    ``equipment`` is what the house has, typed as a list of needs is.
    """

    composer = models.ForeignKey(Composer, on_delete=models.CASCADE, related_name="venues")
    name = line(blank=False)
    city = line()
    country = line(2, validators=[refuse_unknown_country])
    region = line()
    zone = line(64, validators=[refuse_unknown_zone])
    latitude = models.FloatField(null=True, blank=True, validators=[MinValueValidator(-90), MaxValueValidator(90)])
    longitude = models.FloatField(null=True, blank=True, validators=[MinValueValidator(-180), MaxValueValidator(180)])
    equipment = text()
    notes = text()
    search_text = SearchTextField(of=("name", "city", "region"))

    objects = LivingManager.from_queryset(VenueQuerySet)()
    with_deleted = VenueQuerySet.as_manager()

    class Meta:
        constraints = [
            country_code("venue"),
            models.CheckConstraint(
                condition=Q(latitude__isnull=True) | Q(latitude__range=(-90, 90)), name="venue_latitude_on_earth"
            ),
            models.CheckConstraint(
                condition=Q(longitude__isnull=True) | Q(longitude__range=(-180, 180)), name="venue_longitude_on_earth"
            ),
        ]

    def __str__(self) -> str:
        return ", ".join(part for part in (self.name, self.city) if part)

    def clean(self) -> None:
        super().clean()
        refuse_unreadable(self, ("equipment",))
