"""Performances at some places, the latest first: an index has those of each place in that order, and they are merged.

A database merges them by itself as far as a page needs, where it is asked for all places in one question.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Any

from django.db import connection

from catalogue.models import Composer, Performance

Place = tuple[int | None, str, str]
"""A hall by its number, and the town and the country that are written with it."""
MOST_PLACES = 200
"""SQLite merges up to 500 at once; and the more there are, the longer a question takes to be understood."""

FEW = 500
"""PostgreSQL is asked for so many of each place at once."""

LATEST = "first_day DESC NULLS LAST, time DESC NULLS LAST, id DESC"
EARLIEST = "first_day ASC NULLS FIRST, time ASC NULLS FIRST, id ASC"


@dataclass(frozen=True, slots=True)
class PlacedGroup:
    """The performances of a composer at these places, so many of them; a group of a ``GroupedPaginator``."""

    number: int
    composer: Composer
    places: Sequence[Place]

    def keys(self, start: int, end: int) -> Sequence[int]:
        """Return the keys from ``start`` up to ``end``, found from the nearer end."""
        if start <= self.number - end:
            return self.asked(LATEST, start, end)
        return self.asked(EARLIEST, self.number - end, self.number - start)[::-1]

    def asked(self, order: str, start: int, end: int) -> list[int]:
        if connection.vendor == "postgresql" and end <= FEW and all(hall is not None for hall, *_town in self.places):
            return keys_from(*of_each(self.composer, self.places, order, start, end))
        parts = [part_of(place, order, end) for place in self.places]
        question = (
            f"{' UNION ALL '.join(told for told, _values in parts)} ORDER BY {order} LIMIT {end - start} OFFSET {start}"
        )
        values = [value for _told, given in parts for value in (self.composer.pk, *given)]
        return keys_from(question, values)


def keys_from(question: str, values: Sequence[Any]) -> list[int]:
    with connection.cursor() as cursor:
        cursor.execute(question, values)
        return [key for key, *_order in cursor.fetchall()]


def of_each(
    composer: Composer, places: Sequence[Place], order: str, start: int, end: int
) -> tuple[str, tuple[Any, ...]]:
    """Return the question for a page near an end, and its values, as PostgreSQL understands it soonest.

    It takes as many of each place as the page could need: few. To plan a merging of forty places takes it longer than
    the merging.
    """
    table = connection.ops.quote_name(Performance._meta.db_table)
    halls, cities, countries = map(list, zip(*places, strict=True))
    told = (
        "SELECT found.id FROM UNNEST(%s::bigint[], %s::text[], %s::text[]) AS place(hall, city, country) "  # noqa: S608
        f"CROSS JOIN LATERAL (SELECT id, first_day, time FROM {table} WHERE deleted_at IS NULL AND composer_id = %s "
        "AND venue_id = place.hall AND city = place.city AND country = place.country "
        f"ORDER BY {order} LIMIT {end}) AS found ORDER BY {order} LIMIT {end - start} OFFSET {start}"
    )
    return told, (halls, cities, countries, composer.pk)


def part_of(place: Place, order: str, most: int) -> tuple[str, tuple[Any, ...]]:
    """Return the question for the performances at a place, and its values.

    PostgreSQL does not see that an index has those without a hall in the order, unless it is told to order by the hall.
    """
    venue, city, country = place
    table = connection.ops.quote_name(Performance._meta.db_table)
    hall = "venue_id IS NULL" if venue is None else "venue_id = %s"
    told = (
        f"SELECT id, first_day, time FROM {table} "  # noqa: S608 - names and words of ours
        f"WHERE deleted_at IS NULL AND composer_id = %s AND {hall} AND city = %s AND country = %s"
    )
    if venue is not None:
        return told, (venue, city, country)
    if connection.vendor == "postgresql":
        way = "ASC" if order == LATEST else "DESC"
        told = f"(SELECT * FROM ({told} ORDER BY venue_id {way}, {order} LIMIT {most}) nowhere)"  # noqa: S608 - of ours
    return told, (city, country)
