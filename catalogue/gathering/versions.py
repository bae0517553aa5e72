"""Which state of a catalogue somebody was told: whatever is saved that a calendar can show makes another one.

Every saving of a record leaves a line in its history, so the newest lines are the state, and nobody has to remember to
count. Where a kind of record does not name its composer, the newest line of all catalogues counts: that makes a state
new too often, never too seldom. All of it is one statement that reads the end of each index.
"""

from __future__ import annotations

from datetime import datetime, timedelta
from functools import cache
from typing import Any

from django.contrib.auth.models import User
from django.db import connection, models

from catalogue.models import (
    CalendarAddress,
    Call,
    Composer,
    Hire,
    LeadTimes,
    Membership,
    Organisation,
    Performance,
    PerformanceCredit,
    Person,
    ProgrammedWork,
    Recording,
    Return,
    Review,
    Rider,
    RiderSending,
    Session,
    Step,
    TechnicalSetup,
    Venue,
    Work,
)
from catalogue.models.records import READING_ROLES

Version = tuple[Any, ...]

OF_COMPOSER: tuple[Any, ...] = (
    Call, Hire, LeadTimes, Organisation, Performance, Person, Return, Review, Rider, Session, Step, Venue, Work,
)  # fmt: skip
OF_PARTS: tuple[Any, ...] = (PerformanceCredit, ProgrammedWork, Recording, TechnicalSetup)
UNDER_WAY = timedelta(minutes=10)
"""How long something may still be under way that began before what is newest and is not to be seen yet."""


def version_of_address(composer: int, token_sha256: str) -> Version:
    """Return the state of a catalogue as an address shows it; its first item is the day of reading, if it is in use."""
    return asked(ADDRESS, composer, token_sha256)


def version_of_public(composer: int) -> Version:
    """Return the state of a catalogue as everybody sees it; its first item is whether they may."""
    return asked(PUBLIC, composer, composer)


def is_settled(composer: int, now: datetime) -> bool:
    """Say whether nothing can still turn up that is older than the state at hand.

    SQLite has one writer at a time. PostgreSQL numbers the lines of a history as they are written and shows them as
    they are kept, so that one may be late.
    """
    if connection.vendor == "sqlite":
        return True
    since = now - UNDER_WAY
    ours = (model.history.filter(composer_id=composer, history_date__gt=since) for model in OF_COMPOSER)
    parts = (model.history.filter(history_date__gt=since) for model in (Composer, *OF_PARTS))
    return not any(lines.exists() for lines in (*ours, *parts))


def asked(first: str, composer: int, key: str | int) -> Version:
    with connection.cursor() as cursor:
        cursor.execute(statement(first), [key, *[composer] * (len(OF_COMPOSER) + 2)])
        return tuple(cursor.fetchone())


@cache
def statement(first: str) -> str:
    lines = [
        newest(Composer, "id"),
        *(newest(model, "composer_id") for model in OF_COMPOSER),
        newest(Performance, "composer_id", "history_date"),
        *(newest(model) for model in OF_PARTS),
        f"(SELECT MAX(id) FROM {quoted(RiderSending)})",  # noqa: S608
    ]
    return f"SELECT {first}, {', '.join(lines)}"


def newest(model: Any, owner: str = "", column: str = "history_id") -> str:
    """Select the number of the newest line in a history, of one composer where its column is named."""
    where = f" WHERE {owner} = %s" if owner else ""
    return f"(SELECT {column} FROM {quoted(model.history.model)}{where} ORDER BY history_id DESC LIMIT 1)"  # noqa: S608


def quoted(model: type[models.Model]) -> str:
    return connection.ops.quote_name(model._meta.db_table)


ADDRESS = (
    f"(SELECT a.read_on FROM {quoted(CalendarAddress)} a "  # noqa: S608 - names of tables alone
    f"JOIN {quoted(User)} u ON u.id = a.keeper_id AND u.is_active "
    f"JOIN {quoted(Membership)} m ON m.user_id = u.id AND m.composer_id = a.composer_id "
    f"AND m.role IN ({', '.join(repr(role.value) for role in READING_ROLES)}) "
    "WHERE a.token_sha256 = %s)"
)
PUBLIC = f"(SELECT feed_is_public FROM {quoted(Composer)} WHERE id = %s)"  # noqa: S608 - names of tables alone
