"""Indexes in the orders in which lists are shown, and of the texts that a search looks through."""

from __future__ import annotations

from contextlib import suppress
from copy import copy
from typing import Any

from django.db import DatabaseError, models, transaction


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
    trigrams (the extension pg_trgm), or without these one of the other fields, to find the rows that hold a text.
    """

    def create_sql(self, model: Any, schema_editor: Any, using: str = "", **options: Any) -> Any:
        if schema_editor.connection.vendor != "postgresql":
            return super().create_sql(model, schema_editor, using, **options)
        told = copy(self)
        operators = trigram_operators(schema_editor)
        if operators:
            told.fields_orders, told.opclasses = [(TEXT, "")], (operators,)
            return super(TextIndex, told).create_sql(model, schema_editor, " USING gin", **options)
        told.fields_orders = [(name, order) for name, order in self.fields_orders if name != TEXT]
        return super(TextIndex, told).create_sql(model, schema_editor, using, **options)


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
