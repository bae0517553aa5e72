"""Questions about some records that are put into SQL once for each number of keys.

For a page of a list that takes the framework longer than the database takes to answer.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from functools import lru_cache
from typing import Any

from django.db import connection
from django.db.models import QuerySet

Question = Callable[[Sequence[int]], QuerySet[Any, tuple[Any, ...]]]
"""Makes the question about some keys, each of which it names once, in their order; asks for values, not for records.

Nothing else in it may change from one time to another, but the keys and how many they are.
"""


def rows_about(question: Question, keys: Sequence[int]) -> list[tuple[Any, ...]]:
    """Return what the database answers, column by column as it keeps it."""
    if not keys:
        return []
    told, values, places = compiled(question, len(keys), connection.vendor)
    given = dict(zip(places, keys, strict=True))
    with connection.cursor() as cursor:
        cursor.execute(told, [given.get(place, value) for place, value in enumerate(values)])
        rows: list[tuple[Any, ...]] = cursor.fetchall()
    return rows


@lru_cache(128)
def compiled(question: Question, number: int, _vendor: str) -> tuple[str, tuple[Any, ...], tuple[int, ...]]:
    """Return the SQL of a question about so many keys, its values, and at which of their places the keys belong."""
    stand_ins = list(range(-number, 0))  # no record has such a key
    told, values = question(stand_ins).query.sql_with_params()
    among = frozenset(stand_ins)
    places = tuple(place for place, value in enumerate(values) if type(value) is int and value in among)
    if [values[place] for place in places] != stand_ins:
        raise ValueError("A question that is put into SQL once names each of its keys once, in their order.")
    return told, tuple(values), places
