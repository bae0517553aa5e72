"""Indexes in the orders in which lists are shown, and of the texts that a search looks through."""

from __future__ import annotations

from contextlib import suppress
from copy import copy
from typing import Any

from django.db import DatabaseError, models, transaction
from django.db.backends.ddl_references import Statement, Table


class LatestFirst(models.Index):
    """An index of falling columns in which what has no value stands last, on every database.

    SQLite takes nothing for the smallest value, PostgreSQL for the greatest unless it is told.
    """

    def create_sql(self, model: Any, schema_editor: Any, using: str = "", **options: Any) -> Any:
        told = copy(self)
        if schema_editor.connection.vendor == "postgresql":
            told.fields_orders = [
                (name, f"{order} NULLS LAST" if order and model._meta.get_field(name).null else order)
                for name, order in self.fields_orders
            ]
        return super(LatestFirst, told).create_sql(model, schema_editor, using, **options)


class TextIndex(models.Index):
    """An index of the folded texts in ``search_text``, for words that stand anywhere in them.

    SQLite goes through an index that holds the texts, which are a small part of the rows, and reads no row; so its
    other ``fields`` are what is asked besides. PostgreSQL takes no long texts into such an index: there it is one of
    trigrams, where the database has the extension for these (pg_trgm), and of single signs, for shorter words. What
    waits to be put into it, which every search goes through, is kept to 64 kB.
    """

    def create_sql(self, model: Any, schema_editor: Any, using: str = "", **options: Any) -> Any:
        if schema_editor.connection.vendor != "postgresql":
            return super().create_sql(model, schema_editor, using, **options)
        operators = trigram_operators(schema_editor)
        parts = [f"{TEXT} {operators}"] if operators else []
        return Statement(
            "CREATE INDEX %(name)s ON %(table)s USING gin (%(parts)s) WITH (gin_pending_list_limit = 64) "
            "WHERE %(condition)s",
            name=schema_editor.quote_name(self.name),
            table=Table(model._meta.db_table, schema_editor.quote_name),
            parts=", ".join((*parts, f"({signs_of(TEXT)})")),
            condition=self._get_condition_sql(model, schema_editor),  # type: ignore[attr-defined]
        )


def signs_of(text: str) -> str:
    """Return what PostgreSQL is told to take a text, written in SQL, apart into its signs."""
    return f"string_to_array({text}, NULL)"


TEXT = "search_text"
PLACE = "ledgerline_search"
"""The schema of the extension: one of its own, for the schema of the tables is another one after a restore."""
WHERE_IT_IS = """
    SELECT n.nspname FROM pg_extension e JOIN pg_namespace n ON n.oid = e.extnamespace
    WHERE e.extname = 'pg_trgm'
    AND NOT EXISTS (SELECT 1 FROM pg_class c WHERE c.relnamespace = n.oid AND c.relname = 'django_migrations')"""


def trigram_operators(schema_editor: Any) -> str:
    """Return the name of the operators by which trigrams are indexed, empty where the database does not know them."""
    with schema_editor.connection.cursor() as cursor:
        cursor.execute(WHERE_IT_IS)
        found = cursor.fetchone()
    return f"{schema_editor.quote_name(found[0])}.gin_trgm_ops" if found else ""


def ask_for_trigrams(_apps: Any, schema_editor: Any) -> None:
    """Have PostgreSQL load its extension for trigrams, where it has it and lets this user do so.

    It is a trusted one (https://www.postgresql.org/docs/current/pgtrgm.html): whoever may create a schema may load it.
    """
    connection = schema_editor.connection
    if connection.vendor != "postgresql" or trigram_operators(schema_editor):
        return
    with suppress(DatabaseError), transaction.atomic(using=connection.alias), connection.cursor() as cursor:
        cursor.execute(f"CREATE SCHEMA IF NOT EXISTS {PLACE}")
        cursor.execute(f"CREATE EXTENSION pg_trgm SCHEMA {PLACE}")
