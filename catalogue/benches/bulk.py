"""Rows by the million: written in portions, past the records' own saving, in the quickest way each database has.

SQLite takes one statement with many values, PostgreSQL a stream (COPY). Both take the values that the columns make.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping, Sequence
from itertools import chain, islice
from typing import Any

from django.core.management.color import no_style
from django.db import DEFAULT_DB_ALIAS, connection, connections, models

from catalogue.actions.additions import quoted
from catalogue.benches.invented import NOW

AT_ONCE = 5_000  # rows in one portion
AS_THEY_ARE = {int, str, bool, type(None)}
Row = Mapping[str, Any]
Values = tuple[Any, ...]


def write(model: type[models.Model], rows: Iterable[Row]) -> int:
    """Store rows of one kind and return how many; each names the same columns, the others take their defaults."""
    coming = iter(rows)
    first = next(coming, None)
    if first is None:
        return 0
    columns = [field for field in model._meta.concrete_fields if field.attname in first or not field.primary_key]
    values = values_maker(columns, first)
    number = 0
    all_rows = map(values, chain((first,), coming))
    while portion := list(islice(all_rows, AT_ONCE)):
        store(model, columns, portion)
        number += len(portion)
    return number


def values_maker(columns: Sequence[Any], example: Row) -> Callable[[Row], Values]:
    """Return what makes of a row the values of these columns as the database takes them."""
    database = connections[DEFAULT_DB_ALIAS]  # looked up once, not for every value

    def prepared(field: Any, value: Any) -> Any:
        return value if type(value) in AS_THEY_ARE else field.get_db_prep_save(value, database)

    usual = {field.attname: prepared(field, field.get_default()) for field in columns if field.attname not in example}
    ways = [(field.attname, field, field.attname in example) for field in columns]

    def values(row: Row) -> Values:
        return tuple(prepared(field, row[name]) if is_told else usual[name] for name, field, is_told in ways)

    return values


def store(model: type[models.Model], columns: Sequence[Any], portion: Sequence[Values]) -> None:
    table, names = quoted(model._meta.db_table), ", ".join(quoted(field.column) for field in columns)
    with connection.cursor() as cursor:
        if connection.vendor == "postgresql":
            with cursor.copy(f"COPY {table} ({names}) FROM STDIN") as stream:
                for values in portion:
                    stream.write_row(values)
        else:
            places = ", ".join(["%s"] * len(columns))
            cursor.executemany(f"INSERT INTO {table} ({names}) VALUES ({places})", portion)  # noqa: S608 - names of ours


def begin_histories(kinds: Sequence[Any]) -> None:
    """Write the first line of the history of every record of these kinds, copied within the database."""
    with connection.cursor() as cursor:
        for model in kinds:
            lines = model.history.model
            names = ", ".join(quoted(field.column) for field in lines.tracked_fields)
            cursor.execute(
                f"INSERT INTO {quoted(lines._meta.db_table)} ({names}, history_date, history_type) "  # noqa: S608 - ours
                f"SELECT {names}, %s, '+' FROM {quoted(model._meta.db_table)} ORDER BY id",
                [NOW],
            )


def settle(kinds: Sequence[Any]) -> None:
    """Have new rows numbered after those that brought their numbers, and the database count what it holds."""
    with connection.cursor() as cursor:
        for statement in connection.ops.sequence_reset_sql(no_style(), list(kinds)):
            cursor.execute(statement)
        cursor.execute("ANALYZE")
