"""Whose records were saved since a state of all catalogues, told by the lines that are new in the histories."""

from __future__ import annotations

from functools import cache
from typing import Any

from django.db import connection

from catalogue.gathering.once import once_for_each_state
from catalogue.gathering.versions import State, Version, has_composer, quoted
from catalogue.models import Composer, Rider, RiderSending


@once_for_each_state(64)
def composers_with_new_lines(_state: State, held: tuple[Any, ...], version: Version) -> frozenset[int] | None:
    """Return the composers of whom a record was saved between a version and a state; None where that cannot be told.

    ``held`` says of which kind of record the newest line stands at each place of the version
    (``catalogue.gathering.versions``). One query. What was saved after the state may be among it.
    """
    kinds = tuple(kind for kind in held if kind is not None)
    numbers = [number or 0 for kind, number in zip(held, version, strict=False) if kind is not None]
    with connection.cursor() as cursor:
        cursor.execute(statement(kinds, connection.vendor), numbers)
        found = {composer for (composer,) in cursor.fetchall()}
    return None if None in found else frozenset(found)


@cache
def statement(kinds: tuple[Any, ...], _vendor: str) -> str:
    return " UNION ".join(map(of_new_lines, kinds))


def of_new_lines(kind: Any) -> str:
    """Ask for the composers of the lines of a kind that come after a number; of what is nobody's for nothing."""
    if kind is RiderSending:
        return OF_NEW_SENDINGS
    way = way_to_composer(kind)
    if not way:
        return f"SELECT CAST(NULL AS bigint) FROM {quoted(kind.history.model)} WHERE history_id > %s"  # noqa: S608
    asked = kind.history.filter(history_id__gt=0).order_by().values_list(way).query
    text, _told = asked.sql_with_params()
    return str(text)


def way_to_composer(kind: Any) -> str:
    """Return by which columns a record leads to its composer, nothing where it leads to none.

    >>> from catalogue.models import House, Submission, SubmittedWork, Work
    >>> [way_to_composer(kind) for kind in (Composer, Work, Submission, SubmittedWork, House)]
    ['id', 'composer_id', 'call__composer_id', 'submission__call__composer_id', '']
    """
    if kind is Composer:
        return "id"
    if has_composer(kind):
        return "composer_id"
    needed = (one for one in kind._meta.concrete_fields if one.is_relation and not one.null)
    ways = ((one.name, way_to_composer(one.related_model)) for one in needed if hasattr(one.related_model, "history"))
    return next((f"{name}__{way}" for name, way in ways if way), "")


OF_NEW_SENDINGS = (
    f"SELECT rider.composer_id FROM {quoted(RiderSending)} sending "  # noqa: S608 - names of tables alone
    f"JOIN {quoted(Rider)} rider ON rider.id = sending.rider_id WHERE sending.id > %s"
)
