"""Questions that are put into SQL once for each number of keys.

For a page of a list that takes the framework longer than the database takes to answer.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass
from functools import lru_cache
from typing import Any

from django.db import DEFAULT_DB_ALIAS, connection
from django.db.models import Model, QuerySet

Question = Callable[[Sequence[Any]], QuerySet[Any, tuple[Any, ...]]]
"""Makes the question about some keys, each of which it names once, in their order; asks for values, not for records.

Keys are whole numbers or texts. Nothing else in it may change from one time to another, but the keys and how many they
are.
"""


@dataclass(frozen=True, slots=True)
class Compiled:
    """A question in SQL, its values, at which of their places the keys belong, and what makes values of its columns."""

    told: str
    values: tuple[Any, ...]
    places: tuple[int, ...]
    converters: Mapping[int, tuple[Sequence[Callable[..., Any]], Any]]

    def answer(self, keys: Sequence[Any]) -> list[tuple[Any, ...]]:
        given = dict(zip(self.places, keys, strict=True))
        with connection.cursor() as cursor:
            cursor.execute(self.told, [given.get(place, value) for place, value in enumerate(self.values)])
            rows: list[tuple[Any, ...]] = cursor.fetchall()
        return rows


def rows_about(question: Question, keys: Sequence[int]) -> list[tuple[Any, ...]]:
    """Return what the database answers, column by column as it keeps it."""
    return compiled(question, (int,) * len(keys), connection.vendor).answer(keys) if keys else []


def values_about(question: Question, *keys: int | str) -> list[list[Any]]:
    """Return what the database answers, column by column as records hold it."""
    asked = compiled(question, tuple(map(type, keys)), connection.vendor)
    rows = [list(row) for row in asked.answer(keys)]
    for place, (converters, expression) in asked.converters.items():
        for row in rows:
            for convert in converters:
                row[place] = convert(row[place], expression, connection)
    return rows


def columns_of(model: type[Model]) -> tuple[str, ...]:
    """Return the names of all columns of a record, in the order in which ``from_db`` takes them."""
    return tuple(field.attname for field in model._meta.concrete_fields)


@lru_cache(128)
def compiled(question: Question, kinds: tuple[type, ...], _vendor: str) -> Compiled:
    """Put a question about so many keys of these kinds into SQL."""
    stand_ins = [stand_in(kind, number) for number, kind in enumerate(kinds, start=1)]
    compiler = question(stand_ins).query.get_compiler(DEFAULT_DB_ALIAS)
    told, values = compiler.as_sql()
    among = frozenset(stand_ins)
    places = tuple(place for place, value in enumerate(values) if type(value) in kinds and value in among)
    if [values[place] for place in places] != stand_ins:
        raise ValueError("A question that is put into SQL once names each of its keys once, in their order.")
    columns = [column for column, _told, _name in compiler.select[: compiler.col_count]]
    return Compiled(told, tuple(values), places, compiler.get_converters(columns))


def stand_in(kind: type, number: int) -> int | str:
    """Return what no record has for a key."""
    return -number if kind is int else f"\N{INFORMATION SEPARATOR ONE}{number}"
