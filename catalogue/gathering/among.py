"""One of many numbers, asked of the database with a single value.

A house has a thousand composers. As a value each, they take longer to be put into a question than it takes to answer.
"""

from __future__ import annotations

import json
from collections.abc import Collection
from typing import Any

from django.db.models import F, Lookup, Q


class Among(Lookup):
    """Whether a column of numbers holds one of those in a tuple, however many they are."""

    prepare_rhs = False

    def as_sql(self, compiler: Any, connection: Any) -> tuple[str, tuple[Any, ...]]:
        column, told = self.process_lhs(compiler, connection)
        if connection.vendor == "sqlite":
            return f"{column} IN (SELECT value FROM json_each(%s))", (*told, json.dumps(self.rhs))  # noqa: S608 - a column alone
        return f"{column} = ANY(%s::bigint[])", (*told, "{" + ",".join(map(str, self.rhs)) + "}")


def among(column: str, numbers: Collection[int]) -> Any:
    """Return the condition that a column (``composer_id``) holds one of these numbers; a single one is asked for alone.

    >>> among("composer_id", [7])
    <Q: (AND: ('composer_id', 7))>
    """
    if len(numbers) == 1:
        return Q(**{column: next(iter(numbers))})
    return Among(F(column), tuple(numbers))
