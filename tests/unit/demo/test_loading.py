"""Loading the invented demo house. It is loaded and told from once, and taken back; each test reads what was told."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from datetime import UTC, date, datetime, timedelta
from typing import Any, TypeVar

import pytest
from django.apps import apps
from django.contrib.auth.models import User
from django.db import models, transaction

from catalogue.actions.index import reindex
from catalogue.actions.performances import delete_performance
from catalogue.actions.works import save_work
from catalogue.demo.loading import load_demo
from catalogue.gathering import gather_catalogue
from catalogue.models import (
    Composer,
    Membership,
    Organisation,
    Performance,
    PerformanceCredit,
    Person,
    ProgrammedWork,
    Venue,
    Work,
)
from catalogue.rules.premieres import reckon
from catalogue.terms import Role

pytestmark = pytest.mark.django_db

TODAY = date(2026, 3, 9)
LATER = date(2026, 3, 12)
NOON = datetime(2026, 3, 9, 12, tzinfo=UTC)
Value = TypeVar("Value")


def everything() -> dict[str, list[dict[str, Any]]]:
    """Return every row of every table, the entries of histories too."""
    tables = apps.get_app_config("catalogue").get_models()
    return {table.__name__: list(table._base_manager.order_by("pk").values()) for table in tables}


def days() -> dict[str, date | None]:
    return {str(one.uid): one.first_day for one in Performance.objects.all()}


@dataclass(frozen=True, slots=True)
class Told:
    """What the records say after the small selection was loaded on a day, and after something more was done."""

    slugs: list[str]
    counts: tuple[int, int]
    users: list[tuple[str, bool]]
    keepers: list[tuple[str, str]]
    works: dict[str, Any]
    performances: dict[str, Any]
    histories: dict[str, tuple[int, int]]
    mended: int
    first: dict[str, list[dict[str, Any]]]
    again: dict[str, list[dict[str, Any]]]
    keepers_again: list[tuple[str, str]]
    days: dict[str, date | None]
    moved: dict[str, date | None]
    sequences: dict[str, int]
    edited: tuple[int, int, int]


@pytest.fixture(scope="module")
def told(django_db_setup: None, django_db_blocker: Any) -> Told:
    with django_db_blocker.unblock(), transaction.atomic():
        user = load_demo(TODAY, only_core=True)
        slugs = [composer.slug for composer in Composer.objects.all()]
        told = Told(
            slugs=slugs,
            counts=counts(),
            users=[(one.username, one.has_usable_password()) for one in User.objects.all()],
            keepers=keepers(),
            works=works(),
            performances=performances(),
            histories=histories(),
            mended=reindex().mended,
            first=everything(),
            again=afterwards(lambda: load_demo(TODAY, only_core=True), everything),
            keepers_again=afterwards(keeper_is_lost, keepers),
            days=days(),
            moved=afterwards(lambda: load_demo(LATER, only_core=True), days),
            sequences=afterwards(lambda: load_demo(LATER, only_core=True), sequences),
            edited=afterwards(lambda: edit_and_load(user), edited),
        )
        transaction.set_rollback(True)
    return told


def afterwards(do: Callable[[], Any], tell: Callable[[], Value]) -> Value:
    """Do something, tell of it, and take it back."""
    with transaction.atomic():
        do()
        told = tell()
        transaction.set_rollback(True)
    return told


def counts() -> tuple[int, int]:
    return Work.objects.count(), Performance.objects.count()


def keepers() -> list[tuple[str, str]]:
    return [(one.user.username, one.role) for one in Membership.objects.all()]


def keeper_is_lost() -> None:
    Membership.objects.all().delete()
    load_demo(TODAY, only_core=True)


def works() -> dict[str, Any]:
    hills, version = Work.objects.get(catalogue_number="NH 12"), Work.objects.get(catalogue_number="NH 21a")
    understudy = Work.objects.get(title="Understudy for a Mountain")
    return {
        "titles": (hills.title, hills.title_language, hills.original_title, hills.original_language),
        "translated": hills.translated_title,
        "version": (version.version_of and version.version_of.catalogue_number, version.version_label),
        "commissions": [(one.body, one.place, one.funder) for one in understudy.commissions.order_by("pk")],
        "movements": [one.number for one in Work.objects.get(title="Seven Radiators").movements.order_by("pk")],
        "recordings": [str(one) for one in understudy.recordings.all()],
    }


def performances() -> dict[str, Any]:
    evening = Performance.objects.get(first_day=date(2018, 6, 15))
    class_evening = Performance.objects.get(first_day=TODAY - timedelta(days=3))
    return {
        "place": (str(evening.venue), str(evening.presenter)),
        "moment": evening.starts_at,
        "programme": [(one.work.title, one.billing) for one in evening.programme.all()],
        "performers": [str(one) for one in evening.credits.order_by("order")],
        "billed": [one.billed_name for one in class_evening.credits.order_by("order")],
    }


def histories() -> dict[str, tuple[int, int]]:
    """Return how many records and entries of histories there are; each record passes the checks of its form."""
    nouns: tuple[type[models.Model], ...] = (
        Composer, Person, Organisation, Venue, Work, Performance, ProgrammedWork, PerformanceCredit,
    )  # fmt: skip
    for noun in nouns:
        for record in noun._base_manager.all():
            record.full_clean()
    return {noun.__name__: (noun._base_manager.count(), noun.history.count()) for noun in nouns}


def sequences() -> dict[str, int]:
    return {str(one.uid): one.sequence for one in Performance.objects.all()}


def edit_and_load(user: User) -> None:
    work = Work.objects.get(title="Ghost Meter")
    work.title = "Ghost Metre"
    save_work(work=work, now=NOON)
    delete_performance(performance=Performance.objects.latest_first().first(), by=user, now=NOON)
    load_demo(LATER, only_core=True)


def edited() -> tuple[int, int, int]:
    return Work.objects.filter(title="Ghost Metre").count(), *counts()


def test_the_small_selection_is_one_composer_with_fifteen_works_and_forty_performances(told: Told) -> None:
    assert told.slugs == ["nevena-haldoreva"]
    assert told.counts == (15, 40)


def test_one_user_without_a_password_owns_the_catalogues(told: Told) -> None:
    assert told.users == [(told.keepers[0][0], False)]
    assert told.keepers == [(told.users[0][0], Role.OWNER)]


def test_the_user_who_is_there_already_keeps_a_catalogue_that_is_there_already(told: Told) -> None:
    assert told.keepers_again == told.keepers


def test_loading_twice_on_a_day_changes_nothing(told: Told) -> None:
    assert told.again == told.first


def test_what_is_told_from_the_day_of_loading_moves_with_it_and_the_rest_stays(told: Told) -> None:
    moved = {uid for uid, day in told.moved.items() if day != told.days[uid]}
    assert len(moved) == 8
    assert {uid: told.days[uid] for uid in moved} == {
        uid: day - timedelta(days=3) for uid, day in told.moved.items() if uid in moved and day
    }
    assert told.sequences == {uid: int(uid in moved) for uid in told.days}


def test_what_was_changed_or_deleted_since_stays_so(told: Told) -> None:
    assert told.edited == (1, 15, 39)


def test_a_title_in_another_script_stands_beside_its_latin_form(told: Told) -> None:
    assert told.works["titles"] == ("Sedemte tepeta", "bg-Latn", "Седемте тепета", "bg")
    assert told.works["translated"] == "The Seven Hills"


def test_a_version_follows_its_first_version(told: Told) -> None:
    assert told.works["version"] == ("NH 21", "second version, 2017")


def test_a_work_has_its_parts_in_order(told: Told) -> None:
    assert told.works["commissions"] == [
        ("Kinnickinnic Symphony", "Milwaukee", "Lowbridge Arts Fund"),
        ("Pleißenau-Philharmonie", "Leipzig", "Stiftung Wiesenquell"),
    ]
    assert told.works["movements"] == list(range(1, 8))
    assert told.works["recordings"] == [
        "Kinnickinnic Symphony, conducted by Marisol Echevante, Loft Hatch Records, LH 027"
    ]


def test_a_performance_has_its_place_its_moment_its_programme_and_its_performers(told: Told) -> None:
    assert told.performances["place"] == ("Kesselhaus am Gleis, Leipzig", "Konzerte im Kesselhaus")
    assert told.performances["moment"] == datetime(2018, 6, 15, 18, 0, tzinfo=UTC)
    assert told.performances["programme"] == [("Ghost Meter", "Uraufführung")]
    assert told.performances["performers"] == ["Oskar Rautengarten (piano)", "Milda Strauvytė (electronics)"]


def test_a_player_without_a_record_is_billed_by_name(told: Told) -> None:
    assert told.performances["billed"] == ["A student of the piano class", "A student of the cello class"]


def test_every_record_begins_its_history(told: Told) -> None:
    assert {
        noun: records for noun, (records, entries) in told.histories.items() if records != entries or not records
    } == {}


def test_nothing_derived_has_to_be_mended(told: Told) -> None:
    assert told.mended == 0


@pytest.mark.slow
def test_the_small_selection_can_grow_into_the_whole_house() -> None:
    load_demo(TODAY, only_core=True)
    small = set(Work.objects.values_list("pk", flat=True))

    load_demo(TODAY)

    assert (Composer.objects.count(), Work.objects.count(), Performance.objects.count()) == (3, 78, 170)
    assert small <= set(Work.objects.values_list("pk", flat=True))


@pytest.mark.slow
def test_every_text_of_the_whole_house_is_stored_as_a_value() -> None:
    load_demo(TODAY)

    assert reindex().mended == 0
    for record in [*Work.objects.all(), *Performance.objects.all()]:
        record.full_clean()


@pytest.mark.slow
def test_the_records_contradict_one_billing_of_the_whole_house() -> None:
    load_demo(TODAY)
    catalogues = [gather_catalogue(composer) for composer in Composer.objects.order_by("pk")]

    reckoned = [one for catalogue in catalogues for one in reckon(catalogue, today=TODAY)]
    contradicted = [one.playing for one in reckoned if one.claim.contradicts]

    assert [(str(one.event.date), one.work.title.title, one.item.billing) for one in contradicted] == [
        ("2019-02-15", "Cinq adresses perdues", "Création française")
    ]
