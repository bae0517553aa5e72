"""Which state of a catalogue somebody was told: whatever is saved that a calendar can show makes another one.

Every saving of a record leaves a line in its history, so the newest lines are the state, and nobody has to remember to
count. Where a kind of record does not name its composer, the newest line of all catalogues counts: that makes a state
new too often, never too seldom. All of it is one statement that reads the end of each index; where the database says
that nothing was written since it was last asked, not even that. Another catalogue put in this one's place may come to
lines of the same numbers: PostgreSQL numbers its tables anew, and for SQLite what was kept is let go of with the swap.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field
from functools import cache
from typing import Any
from weakref import WeakKeyDictionary

from django.apps import apps
from django.contrib.auth.models import User
from django.db import DEFAULT_DB_ALIAS, connection, connections, models
from django.db.backends.base.base import BaseDatabaseWrapper

from catalogue.models import (
    CalendarAddress,
    Call,
    Commission,
    Composer,
    Hire,
    HiredPerformance,
    LeadTimes,
    Membership,
    Movement,
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
    Sending,
    Session,
    SocietyDeadline,
    Step,
    Submission,
    TechnicalSetup,
    Venue,
    Work,
)
from catalogue.models.records import READING_ROLES

Version = tuple[Any, ...]
Mark = tuple[Any, int | str, int]
MOST_REMEMBERED = 1_000


@dataclass(frozen=True, slots=True)
class State:
    """What is different once anything is saved; ``is_settled`` where nothing older can still turn up.

    SQLite has one writer at a time. PostgreSQL numbers the lines of a history as they are written and shows them as
    they are kept, so that one may be late: the state is settled where nobody else is in the midst of writing.
    """

    version: Version
    is_settled: bool


OF_COMPOSER: tuple[Any, ...] = (
    Call, Hire, LeadTimes, Organisation, Performance, Person, Return, Review, Rider, Sending, Session, SocietyDeadline,
    Step, Venue, Work,
)  # fmt: skip
OF_PARTS: tuple[Any, ...] = (HiredPerformance, PerformanceCredit, ProgrammedWork, Recording, Submission, TechnicalSetup)
OF_LISTS: tuple[Any, ...] = (Organisation, Performance, Person, Venue, Work)
PARTS_OF_LISTS: tuple[Any, ...] = (PerformanceCredit, ProgrammedWork)
PARTS_OF_PAGES: tuple[Any, ...] = (Commission, Movement, *PARTS_OF_LISTS)
OF_SITE: tuple[Any, ...] = (Composer, Performance, ProgrammedWork, Work)
OF_DUES: tuple[Any, ...] = (Composer, *OF_COMPOSER, *OF_PARTS)
HELD_BY_LISTS: tuple[Any, ...] = (*OF_LISTS, None, *PARTS_OF_LISTS)
HELD_BY_DUES: tuple[Any, ...] = (*OF_DUES, None, RiderSending)
"""Of which kind of record the newest line stands at each place of a version, or of riders that were sent the last."""


def state_of_address(composer: int, token_sha256: str) -> State:
    """Return the state of a catalogue as an address shows it; its first item is the day of reading, if it is in use."""
    return asked(statement(ADDRESS, connection.vendor), token_sha256, composer)


def state_of_public(composer: int) -> State:
    """Return the state of a catalogue as everybody sees it; its first item is whether they may."""
    return asked(statement(PUBLIC, connection.vendor), composer, composer)


def state_of_pages(composer: int) -> State:
    """Return the state of a catalogue as its public pages show it; its first item is whether they are open."""
    return asked(statement_of_pages(connection.vendor), composer)


def state_of_site() -> State:
    """Return the state of all catalogues as a list of their public pages shows it."""
    return asked(statement_of_site(connection.vendor))


def state_of_lists(composers: Sequence[int]) -> State:
    """Return the state of all that lists of works and performances show; of several composers that of all there are."""
    if len(composers) == 1:
        return asked(statement_of_lists("composer_id", connection.vendor), composers[0])
    return asked(statement_of_lists("", connection.vendor))


def state_of_composers() -> State:
    """Return the state of the composers themselves, of every one there is."""
    return asked(statement_of_composers(connection.vendor))


def state_of_dues() -> State:
    """Return the state of all that says by when something is due, of every composer there is."""
    return asked(statement_of_dues(connection.vendor))


def state_of_everything() -> State:
    """Return the state of all catalogues: another one once a record of any kind is saved."""
    return asked(statement_of_everything("", connection.vendor))


def state_of_all_of(composers: Sequence[int]) -> State:
    """Return the state of all that is kept of one composer; of several that of all catalogues there are."""
    if len(composers) == 1:
        return asked(statement_of_everything("composer_id", connection.vendor), composers[0])
    return state_of_everything()


def asked(question: str, *told: str | int) -> State:
    """Return a state: as it was told before where nothing at all was written since, else asked anew."""
    wrapper = connection_now()
    mark = write_mark(wrapper)
    if mark is None:
        return asked_anew(question, told)
    remembered = _told.get(wrapper)
    if remembered is None or remembered.mark != mark or len(remembered.states) >= MOST_REMEMBERED:
        remembered = _told[wrapper] = Remembered(mark)
    found = remembered.states.get((question, told))
    if found is None:
        found = asked_anew(question, told)
        if found.is_settled:
            remembered.states[question, told] = found
    return found


def asked_anew(question: str, told: tuple[str | int, ...]) -> State:
    """Ask with as many values as there are places: the last of them for all that are left."""
    missing = question.count("%s") - len(told)
    with connection.cursor() as cursor:
        cursor.execute(question, [*told, *told[-1:] * missing])
        *version, is_settled = cursor.fetchone()
    return State(tuple(version), bool(is_settled))


# ---- whether anything was written


@dataclass(slots=True)
class Remembered:
    """The states that were told to a connection while nothing was written, by the question and its values."""

    mark: Mark
    states: dict[tuple[str, tuple[str | int, ...]], State] = field(default_factory=dict)


_told: WeakKeyDictionary[BaseDatabaseWrapper, Remembered] = WeakKeyDictionary()


def connection_now() -> BaseDatabaseWrapper:
    return connections[DEFAULT_DB_ALIAS]


def write_mark(wrapper: BaseDatabaseWrapper) -> Mark | None:
    """Return what is different once anybody has written into the database; nothing where that cannot be told cheaply.

    Within a transaction that may be taken back, it is not asked.
    """
    if wrapper.in_atomic_block:
        return None
    return mark_of_sqlite(wrapper) if wrapper.vendor == "sqlite" else mark_of_postgresql(wrapper)


def mark_of_sqlite(wrapper: BaseDatabaseWrapper) -> Mark | None:
    """Return whether others have written since, and how many rows the connection has changed itself.

    https://www.sqlite.org/pragma.html#pragma_data_version
    """
    wrapper.ensure_connection()
    ours = wrapper.connection
    if ours.in_transaction:
        return None
    (others,) = ours.execute("PRAGMA data_version").fetchone()
    return ours, others, ours.total_changes


def mark_of_postgresql(wrapper: BaseDatabaseWrapper) -> Mark | None:
    """Return which transactions are seen; whoever has written anything and ends makes that another snapshot.

    https://www.postgresql.org/docs/current/functions-info.html#FUNCTIONS-INFO-SNAPSHOT
    """
    if not wrapper.get_autocommit():
        return None
    with wrapper.cursor() as cursor:
        cursor.execute("SELECT pg_current_snapshot()::text")
        (seen,) = cursor.fetchone()
    return wrapper.connection, seen, 0


@cache
def statement(first: str, vendor: str) -> str:
    lines = [
        first,
        newest(Composer, "id"),
        *(newest(model, "composer_id") for model in OF_COMPOSER),
        newest(Performance, "composer_id", "history_date"),
        *(newest(model) for model in OF_PARTS),
        f"(SELECT MAX(id) FROM {quoted(RiderSending)})",  # noqa: S608
        TABLES[vendor],
        SETTLED[vendor],
    ]
    return f"SELECT {', '.join(lines)}"


@cache
def statement_of_lists(owner: str, vendor: str) -> str:
    lines = [
        *(newest(model, owner) for model in OF_LISTS),
        newest(Performance, owner, "history_date"),
        *(newest(model) for model in PARTS_OF_LISTS),
        newest(Work, owner, "history_date"),
        TABLES[vendor],
        SETTLED[vendor],
    ]
    return f"SELECT {', '.join(lines)}"


@cache
def statement_of_composers(vendor: str) -> str:
    return f"SELECT {', '.join((newest(Composer), TABLES[vendor], SETTLED[vendor]))}"


@cache
def statement_of_dues(vendor: str) -> str:
    lines = [
        *(newest(model) for model in OF_DUES),
        newest(Performance, column="history_date"),
        f"(SELECT MAX(id) FROM {quoted(RiderSending)})",  # noqa: S608
        TABLES[vendor],
        SETTLED[vendor],
    ]
    return f"SELECT {', '.join(lines)}"


@cache
def statement_of_pages(vendor: str) -> str:
    lines = [
        *(f"(SELECT {column} FROM {quoted(Composer)} WHERE id = %s)" for column in ("is_public", "feed_is_public")),  # noqa: S608
        newest(Composer, "id"),
        *(newest(model, "composer_id") for model in OF_LISTS),
        newest(Performance, "composer_id", "history_date"),
        newest(Work, "composer_id", "history_date"),
        *(newest(model) for model in PARTS_OF_PAGES),
        TABLES[vendor],
        SETTLED[vendor],
    ]
    return f"SELECT {', '.join(lines)}"


@cache
def statement_of_site(vendor: str) -> str:
    return f"SELECT {', '.join((*map(newest, OF_SITE), TABLES[vendor], SETTLED[vendor]))}"


@cache
def statement_of_everything(owner: str, vendor: str) -> str:
    """Ask for the newest line of every kind of record, of one composer where ``owner`` names the column for it."""
    lines = [
        *(newest(one, owner if has_composer(one) else "") for one in kinds_of_everything()),
        newest(Performance, owner, "history_date"),
        f"(SELECT MAX(id) FROM {quoted(RiderSending)})",  # noqa: S608
        TABLES[vendor],
        SETTLED[vendor],
    ]
    return f"SELECT {', '.join(lines)}"


@cache
def kinds_of_everything() -> tuple[Any, ...]:
    """Return every kind of record that leaves lines in a history."""
    return tuple(one for one in apps.get_app_config("catalogue").get_models() if hasattr(one, "history"))


def has_composer(model: Any) -> bool:
    return any(column.attname == "composer_id" for column in model._meta.concrete_fields)


def state_of_works(lists: State) -> State:
    """Return of a state of the lists of one composer that of what follows from works alone."""
    version = lists.version
    return State((version[place_of(Work)], moment_of(Work, version), version[-1]), lists.is_settled)


def place_of(model: Any) -> int:
    """Return at which place of the version of lists the newest line of this kind of record stands."""
    return HELD_BY_LISTS.index(model)


@cache
def held_by_everything() -> tuple[Any, ...]:
    """Return of which kind of record the newest line stands at each place of the version of everything."""
    return *kinds_of_everything(), None, RiderSending


def moment_of(model: Any, version: Version) -> Any:
    """Return of when the newest line of this kind of record is, as the database tells it; None where it is not told."""
    place = {Performance: len(OF_LISTS), Work: len(OF_LISTS) + 1 + len(PARTS_OF_LISTS)}.get(model)
    return None if place is None else version[place]


def newest(model: Any, owner: str = "", column: str = "history_id") -> str:
    """Select the number of the newest line in a history, of one composer where its column is named."""
    where = f" WHERE {owner} = %s" if owner else ""
    return f"(SELECT {column} FROM {quoted(model.history.model)}{where} ORDER BY history_id DESC LIMIT 1)"  # noqa: S608


def quoted(model: type[models.Model]) -> str:
    return connection.ops.quote_name(model._meta.db_table)


OTHERS_WRITING = """
    SELECT 1 FROM pg_locks
    WHERE locktype = 'relation' AND mode = 'RowExclusiveLock' AND pid IS DISTINCT FROM pg_backend_pid()
    AND database = (SELECT oid FROM pg_database WHERE datname = current_database())"""
"""Whether others are in the midst of writing: whoever adds a line locks its table before the line has its number, and
until it is kept. The locks are looked at after the lines; who ends between is seen by whoever reads on."""
TABLES = {"sqlite": "0", "postgresql": "to_regclass('catalogue_composer')::oid::bigint"}
"""The number of a table, another one in each schema (https://www.postgresql.org/docs/current/datatype-oid.html)."""
SETTLED = {"sqlite": "1", "postgresql": f"NOT EXISTS ({OTHERS_WRITING})"}
ADDRESS = (
    f"(SELECT a.read_on FROM {quoted(CalendarAddress)} a "  # noqa: S608 - names of tables alone
    f"JOIN {quoted(User)} u ON u.id = a.keeper_id AND u.is_active "
    f"JOIN {quoted(Membership)} m ON m.user_id = u.id AND m.composer_id = a.composer_id "
    f"AND m.role IN ({', '.join(repr(role.value) for role in READING_ROLES)}) "
    "WHERE a.token_sha256 = %s)"
)
PUBLIC = f"(SELECT feed_is_public FROM {quoted(Composer)} WHERE id = %s)"  # noqa: S608 - names of tables alone
