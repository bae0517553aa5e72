from __future__ import annotations

import pytest
from django.db import connection

from catalogue.actions.works import delete_work
from catalogue.gathering.checks import Finding, Kind, find_faults
from catalogue.models import Work
from tests.makers import NOW, make_composer, make_performance, make_user, make_work

pytestmark = [pytest.mark.django_db, pytest.mark.usefixtures("no_files")]


@pytest.fixture(autouse=True)
def composer_with_an_owner() -> None:
    make_composer(owner=make_user())


def test_nothing_is_found_in_a_catalogue_in_order() -> None:
    make_performance(make_work(instrumentation="pf", duration="12 min", duration_typed="12 min"))

    assert list(find_faults()) == []


def test_typed_texts_that_cannot_be_read_are_found_with_their_place() -> None:
    work = make_work("Tides", duration_typed="about 12")

    assert list(find_faults()) == [
        Finding(
            Kind.UNREADABLE,
            "work",
            work.pk,
            "Tides",
            "duration_typed",
            "about 12",
            "Say whether 12 is minutes or seconds: write 12′, 12 min or 12 s.",
            6,
            8,
        )
    ]


def test_typed_texts_that_nobody_has_confirmed_are_found() -> None:
    make_work(instrumentation="", instrumentation_typed="pf")

    assert [(finding.column, finding.reason) for finding in find_faults()] == [
        ("instrumentation_typed", "This can be read, but nobody has confirmed the reading; edit the work.")
    ]


def test_unreadable_instrumentations_are_found_in_deleted_works_too() -> None:
    work = make_work(instrumentation="qwx 7 (?)")
    delete_work(work=work, by=None, now=NOW)

    assert [(finding.kind, finding.column, finding.text) for finding in find_faults()] == [
        (Kind.UNREADABLE, "instrumentation", "qwx 7 (?)")
    ]


def test_stored_values_that_are_not_read_are_found() -> None:
    make_work("Tides", duration="12 min")
    with connection.cursor() as cursor:
        cursor.execute("UPDATE catalogue_work SET duration = 'zwölf'")

    found = list(find_faults())

    assert [(finding.record, finding.title, finding.column, finding.text) for finding in found] == [
        ("work", "Tides", "duration", "zwölf")
    ]


def test_version_that_has_lost_its_first_version_is_found() -> None:
    first = make_work("Tides")
    version = make_work("Tides for strings", version_of=first)
    Work.objects.filter(pk=first.pk).update(deleted_at=NOW)

    assert [(finding.kind, finding.record, finding.id, finding.reason) for finding in find_faults()] == [
        (Kind.ORPHAN, "work", version.pk, "Its first version, “Tides”, has been deleted."),
    ]


def test_catalogue_without_members_is_found() -> None:
    composer = make_composer("Bruno Vey")

    assert [(finding.record, finding.id, finding.column) for finding in find_faults()] == [
        ("composer", composer.pk, "memberships")
    ]
