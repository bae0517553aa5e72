from __future__ import annotations

from collections.abc import Callable, Iterator
from contextlib import contextmanager
from importlib import import_module
from threading import Thread
from typing import Any

import pytest
from django.apps import apps
from django.db import connection, transaction
from django.test.utils import CaptureQueriesContext

from catalogue.actions.calendars import open_to_all
from catalogue.actions.composers import save_composer
from catalogue.actions.deletion import delete_record
from catalogue.actions.performances import save_performance, save_venue
from catalogue.actions.records import save_record
from catalogue.actions.works import save_work
from catalogue.gathering.versions import (
    OF_COMPOSER,
    State,
    connection_now,
    state_of_address,
    state_of_all_of,
    state_of_lists,
    state_of_public,
    state_of_site,
    statement_of_everything,
    write_mark,
)
from catalogue.models import (
    Composer,
    LeadTimes,
    Performance,
    PerformanceCredit,
    ProgrammedWork,
    Return,
    Review,
    Session,
    SocietyDeadline,
    Step,
    Work,
)
from tests.makers import (
    NOW,
    make_composer,
    make_organisation,
    make_performance,
    make_person,
    make_recording,
    make_user,
    make_venue,
    make_work,
)
from tests.record_makers import make_record

pytestmark = pytest.mark.django_db


@pytest.fixture
def performance() -> Performance:
    composer = make_composer(owner=make_user())
    work = make_work("Tides", composer=composer)
    return make_performance(work, venue=make_venue(composer=composer), performers=("Kestrel Ensemble",))


def version(composer: Composer) -> Any:
    return state_of_address(composer.pk, "0" * 64).version, state_of_public(composer.pk).version


def work_of(performance: Performance) -> Work:
    return performance.programme.get().work


def renamed(record: Any, save: Callable[..., Any], name: str) -> None:
    setattr(record, "title" if name == "work" else "name", "Another name")
    save(**{name: record}, now=NOW)


CHANGES: dict[str, Callable[[Performance], Any]] = {
    "date": lambda one: save_performance(performance=one, now=NOW),
    "programme": lambda one: save_performance(
        performance=one, programme=[ProgrammedWork(work=make_work("Weirs", composer=one.composer))], now=NOW
    ),
    "performers": lambda one: save_performance(performance=one, credits=[PerformanceCredit(name="Pia")], now=NOW),
    "deletion": lambda one: delete_record(record=one, by=None, now=NOW),
    "venue": lambda one: renamed(one.venue, save_venue, "venue"),
    "work": lambda one: renamed(work_of(one), save_work, "work"),
    "composer": lambda one: renamed(one.composer, save_composer, "composer"),
    "public": lambda one: open_to_all(composer=one.composer, is_open=True),
    "person": lambda one: save_record(record=make_person("Pia", composer=one.composer), now=NOW),
    "organisation": lambda one: save_record(record=make_organisation("Quay", composer=one.composer), now=NOW),
    "recording": lambda one: save_record(record=make_recording(work_of(one), performance=one), now=NOW),
    **{
        model.__name__: lambda one, model=model: make_record(model, work=work_of(one), performance=one)  # type: ignore[misc]
        for model in (Return, Review, Session, Step)
    },
    "lead times": lambda one: make_record(LeadTimes, work=work_of(one)),
    "deadlines": lambda one: make_record(SocietyDeadline, work=work_of(one)),
}


@pytest.mark.parametrize("change", CHANGES.values(), ids=CHANGES.keys())
def test_whatever_is_saved_makes_another_state(performance: Performance, change: Callable[[Performance], Any]) -> None:
    before = version(performance.composer)

    assert version(performance.composer) == before
    change(performance)
    after = version(performance.composer)
    assert after[0] != before[0]
    assert after[1] != before[1]


def test_record_of_another_catalogue_does_not(performance: Performance) -> None:
    before = version(performance.composer)
    other = make_composer("Bruno Vey")
    make_work("Serenade", composer=other)
    make_performance(composer=other)
    make_record(LeadTimes, work=make_work("Cassation", composer=other))

    assert version(performance.composer) == before


@pytest.mark.parametrize(
    "change", ["date", "programme", "performers", "deletion", "venue", "work", "person", "organisation"]
)
def test_whatever_lists_show_makes_another_state_of_them(performance: Performance, change: str) -> None:
    composer = performance.composer_id
    before = [state_of_lists(whose) for whose in ([composer], [composer, composer + 1])]

    assert [state_of_lists([composer]), state_of_lists([composer, composer + 1])] == before
    CHANGES[change](performance)
    after = [state_of_lists(whose) for whose in ([composer], [composer, composer + 1])]
    assert all(later.version != earlier.version for later, earlier in zip(after, before, strict=True))


def test_state_is_settled_while_nobody_else_is_writing(performance: Performance) -> None:
    assert state_of_public(performance.composer_id).is_settled


@pytest.mark.skipif(connection.vendor == "sqlite", reason="SQLite has one writer at a time")
def test_state_is_settled_while_somebody_writes_into_another_database_but_not_into_this(
    performance: Performance,
) -> None:
    with somebody_writing(dbname="postgres"):
        elsewhere = state_of_public(performance.composer_id)
    with somebody_writing():
        here = state_of_public(performance.composer_id)

    assert (elsewhere.is_settled, here.is_settled) == (True, False)
    assert elsewhere.version == here.version


@contextmanager
def somebody_writing(**elsewhere: str) -> Iterator[None]:
    """Hold a transaction open that has written something."""
    database: Any = connection.Database
    told = {**connection.get_connection_params(), **elsewhere}
    for ours in ("cursor_factory", "context"):
        told.pop(ours, None)
    with database.connect(**told) as other:
        other.execute("CREATE TEMPORARY TABLE under_way (line integer)")
        other.execute("INSERT INTO under_way VALUES (1)")
        yield
        other.rollback()


def test_every_history_that_is_asked_for_its_newest_line_has_an_index_for_it() -> None:
    made = ("0033_newest_lines", "0035_society_deadlines", "0040_papers_sent")
    told = {name for one in made for name in import_module(f"catalogue.migrations.{one}").OF_COMPOSER}

    assert {model._meta.model_name for model in OF_COMPOSER} == told


SEEN = "SELECT pg_current_snapshot()::text"


@pytest.mark.django_db(transaction=True)
@pytest.mark.parametrize("is_another", [False, True])
def test_state_is_asked_for_again_only_once_somebody_has_written(is_another: bool) -> None:
    composer = make_composer(owner=make_user())
    before, again, unasked = asked_twice(composer)
    if is_another:
        thread = Thread(target=work_of_another, args=[composer])
        thread.start()
        thread.join()
    else:
        make_work("Ebb", composer=composer)

    assert unasked == ([] if connection.vendor == "sqlite" else [SEEN])
    assert before == again != state_of_public(composer.pk)


def asked_twice(composer: Composer) -> tuple[State, State, list[str]]:
    """Ask for a state twice while nobody writes, and return what was asked the second time.

    PostgreSQL's snapshot is that of all its databases, so whoever tests beside may write into theirs in between.
    """
    for _time in range(100):
        mark = write_mark(connection_now())
        before = state_of_public(composer.pk)
        with CaptureQueriesContext(connection) as asked:
            again = state_of_public(composer.pk)
        if mark == write_mark(connection_now()):
            return before, again, [one["sql"] for one in asked]
    raise AssertionError("somebody writes all the time")


@pytest.mark.django_db(transaction=True)
@pytest.mark.skipif(connection.vendor == "sqlite", reason="SQLite has one writer at a time")
def test_state_that_is_not_settled_is_asked_for_again_and_one_that_was_stays_so() -> None:
    composer = make_composer(owner=make_user())
    for _time in range(100):
        mark = write_mark(connection_now())
        before = state_of_public(composer.pk)
        with somebody_writing():
            told_before = state_of_public(composer.pk)
            nobody_ended = mark == write_mark(connection_now())
            elsewhere = [state_of_site().is_settled for _time in range(2)]
        if nobody_ended:
            break

    assert nobody_ended, "as in asked_twice"
    assert (told_before, elsewhere, state_of_site().is_settled) == (before, [False, False], True)


def work_of_another(composer: Composer) -> None:
    make_work("Tides", composer=composer)
    connection.close()


@pytest.mark.django_db(transaction=True)
def test_what_is_taken_back_leaves_the_state_as_it_was() -> None:
    composer = make_composer(owner=make_user())
    before = state_of_public(composer.pk)
    with transaction.atomic():
        make_work("Tides", composer=composer)
        within = state_of_public(composer.pk)
        transaction.set_rollback(True)

    assert within != before == state_of_public(composer.pk)


def test_the_state_of_all_of_a_composer_asks_every_history() -> None:
    histories = [
        one.history.model._meta.db_table
        for one in apps.get_app_config("catalogue").get_models()
        if hasattr(one, "history")
    ]
    asked = statement_of_everything("composer_id", connection.vendor)

    assert len(histories) > 40
    assert [name for name in histories if f'"{name}"' not in asked] == []


def test_what_another_composer_saves_of_their_own_leaves_the_state_of_all_of_one_as_it_was(
    performance: Performance,
) -> None:
    other = make_work("Serenade", composer=make_composer("Osric Vane", slug="osric-vane"))
    before = state_of_all_of([performance.composer_id]), state_of_all_of([performance.composer_id, other.composer_id])

    other.title = "Night Music"
    other.save()

    ours, of_both = (
        state_of_all_of([performance.composer_id]),
        state_of_all_of([performance.composer_id, other.composer_id]),
    )
    assert ours == before[0]
    assert of_both != before[1]


def test_what_a_composer_saves_makes_another_state_of_all_of_them(performance: Performance) -> None:
    before = state_of_all_of([performance.composer_id])

    performance.city = "Basel"
    performance.save()

    assert state_of_all_of([performance.composer_id]) != before
