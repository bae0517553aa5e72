"""Facts whose fields are named after the columns they come from."""

from __future__ import annotations

from enum import StrEnum
from functools import cache
from types import UnionType
from typing import Any, TypeVar, cast, get_args, get_type_hints

from catalogue.gathering.readings import readable

F = TypeVar("F")


def facts_of(facts: type[F], record: Any, **others: Any) -> F:
    """Return facts of a record: each field the column or property of its name, unless it is given.

    Words of a list become terms; what cannot be read, and the empty word of a term, is ``None``.
    """
    return facts(
        **others,
        **{
            name: value_of(getattr(record, name), term)
            for name, term in fields_of(cast(Any, facts))
            if name not in others
        },
    )


def value_of(value: Any, term: type[StrEnum] | None) -> Any:
    if term is not None:
        return term(value) if value else None
    return readable(value, None)


@cache
def fields_of(facts: type[Any]) -> tuple[tuple[str, type[StrEnum] | None], ...]:
    """Return the names of the fields, each with the list that its words come from, if any."""
    return tuple((name, term_in(hint)) for name, hint in get_type_hints(facts).items())


def term_in(hint: Any) -> type[StrEnum] | None:
    kinds = get_args(hint) if isinstance(hint, UnionType) else (hint,)
    return next((kind for kind in kinds if isinstance(kind, type) and issubclass(kind, StrEnum)), None)
