"""Indexes in the order in which lists are shown."""

from __future__ import annotations

from copy import copy
from typing import Any

from django.db import models


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
