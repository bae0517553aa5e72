"""Texts in the order of a list: without case and marks, the same on both databases.

SQLite's own LOWER knows ASCII alone, and how PostgreSQL compares depends on the language it was set up with. So SQLite
is given ``rules.search.fold`` as a function on each connection, PostgreSQL folds with functions of its own, and both
compare code by code.
"""

from __future__ import annotations

import sqlite3
from functools import lru_cache
from typing import Any

from django.db.backends.base.base import BaseDatabaseWrapper
from django.db.backends.signals import connection_created
from django.db.models import CharField, Func
from django.dispatch import receiver

from catalogue.rules.search import PLAIN, fold

FOLD = "LEDGERLINE_FOLD"
MOST_KEPT = 65_536  # names in the lists of a large house
SINGLE = {chr(code): other for code, other in PLAIN.items() if len(other) == 1}
SHARP_S = "\N{LATIN SMALL LETTER SHARP S}"


class Folded(Func):
    """A text as it is sorted. Equal ones are left to what follows in the order."""

    function = FOLD
    output_field = CharField()
    arity = 1

    def as_postgresql(self, compiler: Any, connection: Any, **context: Any) -> Any:
        bare = "REGEXP_REPLACE(NORMALIZE(%(expressions)s, NFKD), '[\u0300-\u036f]', '', 'g')"
        plain = f"TRANSLATE(LOWER({bare}), '{quoted(SINGLE)}', '{quoted(SINGLE.values())}')"
        return self.as_sql(
            compiler, connection, template=f"REPLACE({plain}, '{SHARP_S}', 'ss') COLLATE \"C\"", **context
        )


def quoted(signs: Any) -> str:
    """Return signs within the quotes of SQL."""
    return "".join(signs).replace("'", "''").replace("%", "%%")


@receiver(connection_created, dispatch_uid="sorting")
def teach_sqlite(sender: Any, connection: BaseDatabaseWrapper, **_ignored: Any) -> None:
    """Give a connection to SQLite the function by which texts are sorted."""
    if connection.vendor == "sqlite":
        made: sqlite3.Connection = connection.connection
        made.create_function(FOLD, 1, folded, deterministic=True)


@lru_cache(maxsize=MOST_KEPT)
def folded(text: str | None) -> str | None:
    return None if text is None else fold.__wrapped__(text)
