"""Loading the invented demo house."""

from __future__ import annotations

from datetime import UTC, date, datetime, timedelta
from typing import Any

import pytest
from django.apps import apps
from django.contrib.auth.models import User
from django.db import models

from catalogue.actions.demo import load_demo
from catalogue.actions.index import reindex
from catalogue.actions.performances import delete_performance
from catalogue.actions.works import save_work
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


def everything() -> dict[str, list[dict[str, Any]]]:
    """Return every row of every table, the entries of histories too."""
    tables = apps.get_app_config("catalogue").get_models()
    return {table.__name__: list(table._base_manager.order_by("pk").values()) for table in tables}


def days() -> dict[str, date | None]:
    return {str(one.uid): one.first_day for one in Performance.objects.all()}


def test_the_small_selection_is_one_composer_with_fifteen_works_and_forty_performances() -> None:
    load_demo(TODAY, only_core=True)

    assert [composer.slug for composer in Composer.objects.all()] == ["nevena-haldoreva"]
    assert (Work.objects.count(), Performance.objects.count()) == (15, 40)


def test_one_user_without_a_password_owns_the_catalogues() -> None:
    user = load_demo(TODAY, only_core=True)

    assert User.objects.get() == user
    assert not user.has_usable_password()
    assert [(one.user, one.role) for one in Membership.objects.all()] == [(user, Role.OWNER)]


def test_the_user_who_is_there_already_keeps_a_catalogue_that_is_there_already() -> None:
    user = load_demo(TODAY, only_core=True)
    Membership.objects.all().delete()

    assert load_demo(TODAY, only_core=True) == user
    assert [(one.user, one.role) for one in Membership.objects.all()] == [(user, Role.OWNER)]


def test_loading_twice_on_a_day_changes_nothing() -> None:
    load_demo(TODAY, only_core=True)
    before = everything()

    load_demo(TODAY, only_core=True)

    assert everything() == before


def test_what_is_told_from_the_day_of_loading_moves_with_it_and_the_rest_stays() -> None:
    load_demo(TODAY, only_core=True)
    before = days()

    load_demo(LATER, only_core=True)

    moved = {uid for uid, day in days().items() if day != before[uid]}
    assert len(moved) == 8
    assert {uid: before[uid] for uid in moved} == {uid: days()[uid] - timedelta(days=3) for uid in moved}
    assert {one.sequence for one in Performance.objects.filter(uid__in=moved)} == {1}
    assert {one.sequence for one in Performance.objects.exclude(uid__in=moved)} == {0}


def test_what_was_changed_or_deleted_since_stays_so() -> None:
    user = load_demo(TODAY, only_core=True)
    work = Work.objects.get(title="Ghost Meter")
    work.title = "Ghost Metre"
    save_work(work=work, now=NOON)
    delete_performance(performance=Performance.objects.latest_first().first(), by=user, now=NOON)

    load_demo(LATER, only_core=True)

    assert Work.objects.filter(title="Ghost Metre").count() == 1
    assert (Work.objects.count(), Performance.objects.count()) == (15, 39)


@pytest.mark.slow
def test_the_small_selection_can_grow_into_the_whole_house() -> None:
    load_demo(TODAY, only_core=True)
    small = set(Work.objects.values_list("pk", flat=True))

    load_demo(TODAY)

    assert (Composer.objects.count(), Work.objects.count(), Performance.objects.count()) == (3, 78, 170)
    assert small <= set(Work.objects.values_list("pk", flat=True))


def test_a_title_in_another_script_stands_beside_its_latin_form() -> None:
    load_demo(TODAY, only_core=True)
    work = Work.objects.get(catalogue_number="NH 12")

    assert (work.title, work.title_language) == ("Sedemte tepeta", "bg-Latn")
    assert (work.original_title, work.original_language) == ("Седемте тепета", "bg")
    assert work.translated_title == "The Seven Hills"


def test_a_version_follows_its_first_version() -> None:
    load_demo(TODAY, only_core=True)
    version = Work.objects.get(catalogue_number="NH 21a")

    assert version.version_of == Work.objects.get(catalogue_number="NH 21")
    assert version.version_label == "second version, 2017"


def test_a_work_has_its_parts_in_order() -> None:
    load_demo(TODAY, only_core=True)
    work = Work.objects.get(title="Understudy for a Mountain")

    assert [(one.body, one.place, one.funder) for one in work.commissions.order_by("pk")] == [
        ("Kinnickinnic Symphony", "Milwaukee", "Lowbridge Arts Fund"),
        ("Pleißenau-Philharmonie", "Leipzig", "Stiftung Wiesenquell"),
    ]
    assert [one.number for one in Work.objects.get(title="Seven Radiators").movements.order_by("pk")] == list(
        range(1, 8)
    )
    assert [str(one) for one in work.recordings.all()] == [
        "Kinnickinnic Symphony, conducted by Marisol Echevante, Loft Hatch Records, LH 027"
    ]


def test_a_performance_has_its_place_its_moment_its_programme_and_its_performers() -> None:
    load_demo(TODAY, only_core=True)
    performance = Performance.objects.get(first_day=date(2018, 6, 15))

    assert str(performance.venue) == "Kesselhaus am Gleis, Leipzig"
    assert performance.starts_at == datetime(2018, 6, 15, 18, 0, tzinfo=UTC)
    assert str(performance.presenter) == "Konzerte im Kesselhaus"
    assert [(one.work.title, one.billing) for one in performance.programme.all()] == [("Ghost Meter", "Uraufführung")]
    assert [str(one) for one in performance.credits.order_by("order")] == [
        "Oskar Rautengarten (piano)",
        "Milda Strauvytė (electronics)",
    ]


def test_a_player_without_a_record_is_billed_by_name() -> None:
    load_demo(TODAY, only_core=True)
    performance = Performance.objects.get(first_day=TODAY - timedelta(days=3))

    assert [one.billed_name for one in performance.credits.order_by("order")] == [
        "A student of the piano class",
        "A student of the cello class",
    ]


def test_every_record_passes_the_checks_of_a_form_and_begins_its_history() -> None:
    load_demo(TODAY, only_core=True)
    nouns: tuple[type[models.Model], ...] = (
        Composer, Person, Organisation, Venue, Work, Performance, ProgrammedWork, PerformanceCredit,
    )  # fmt: skip

    for noun in nouns:
        for record in noun._base_manager.all():
            record.full_clean()
        assert noun.history.count() == noun._base_manager.count() > 0


def test_nothing_derived_has_to_be_mended() -> None:
    load_demo(TODAY, only_core=True)

    assert reindex().mended == 0


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
