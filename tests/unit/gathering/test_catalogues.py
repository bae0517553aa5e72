from __future__ import annotations

from datetime import date, time

import pytest
from pytest_django import DjangoAssertNumQueries

from catalogue.actions.performances import delete_performance
from catalogue.actions.works import delete_work
from catalogue.facts import ComposerFacts
from catalogue.gathering import gather_catalogue, gather_composer, gather_performance, gather_upcoming, gather_work
from catalogue.gathering.catalogues import gathered_once, once
from catalogue.models import Composer, Performance, PerformanceCredit, Work
from catalogue.timing import PartialDate
from tests.makers import (
    NOW,
    make_composer,
    make_organisation,
    make_performance,
    make_person,
    make_recording,
    make_venue,
    make_work,
)

pytestmark = pytest.mark.django_db


def fill(composer: Composer, rows: int) -> None:
    for number in range(1, rows + 1):
        work = make_work(f"Work {number}", composer=composer, movements=("I", "II"), commissioned_by=("A hall",))
        venue = make_venue(f"Hall {number}", composer=composer)
        presenter = make_organisation(f"Festival {number}", composer=composer)
        performance = make_performance(
            work, venue=venue, presenter=presenter, date=f"2026-05-{number:02}", performers=("Kestrel Ensemble",)
        )
        person = make_person(f"Player {number}", composer=composer)
        PerformanceCredit.objects.create(performance=performance, person=person, order=2)
        make_recording(work)


@pytest.mark.parametrize("rows", [1, 3])
def test_catalogue_is_gathered_in_seven_queries(rows: int, django_assert_num_queries: DjangoAssertNumQueries) -> None:
    composer = make_composer()
    fill(composer, rows)

    with django_assert_num_queries(7):
        facts = gather_catalogue(composer)

    assert (len(facts.works), len(facts.performances), len(facts.recordings)) == (rows, rows, rows)


def test_catalogue_of_several_papers_is_gathered_once(django_assert_num_queries: DjangoAssertNumQueries) -> None:
    composer = make_composer()
    fill(composer, 2)

    with django_assert_num_queries(7), gathered_once():
        first, second = gather_catalogue(composer), gather_catalogue(composer)
    with django_assert_num_queries(7):
        later = gather_catalogue(composer)

    assert first is second
    assert later is not first


def test_what_is_reckoned_is_reckoned_once_for_papers_made_together() -> None:
    told: list[str] = []

    with gathered_once():
        found = [once("claims", lambda: told.append("reckoned") or len(told)) for _time in range(2)]
    once("claims", lambda: told.append("reckoned again"))

    assert found == [1, 1]
    assert told == ["reckoned", "reckoned again"]


@pytest.mark.parametrize("rows", [1, 3])
def test_what_is_to_come_is_gathered_in_six_queries(
    rows: int, django_assert_num_queries: DjangoAssertNumQueries
) -> None:
    composer = make_composer()
    fill(composer, rows)

    with django_assert_num_queries(6):
        facts = gather_upcoming(composer, since=date(2026, 5, 1))

    assert (len(facts.works), len(facts.performances)) == (rows, rows)


@pytest.mark.parametrize("rows", [1, 3])
def test_records_fetched_with_everything_are_gathered_without_a_query(
    rows: int, django_assert_num_queries: DjangoAssertNumQueries
) -> None:
    fill(make_composer(), rows)
    works = list(Work.objects.with_everything_printed().in_title_order())
    performances = list(Performance.objects.with_everything_printed().in_date_order())

    with django_assert_num_queries(0):
        titles = [gather_work(work).title.title for work in works]
        performers = [len(gather_performance(performance).performers) for performance in performances]

    assert titles == [f"Work {number}" for number in range(1, rows + 1)]
    assert performers == [2] * rows


def test_catalogue_holds_one_composer_and_nothing_deleted() -> None:
    composer, other = make_composer(), make_composer("Bruno Vey")
    work, gone = make_work("Tides", composer=composer), make_work("Ash", composer=composer)
    make_work("Elsewhere", composer=other)
    performance, cancelled = make_performance(work), make_performance(work)
    make_performance(composer=other)
    make_recording(gone)
    delete_work(work=gone, by=None, now=NOW)
    delete_performance(performance=cancelled, by=None, now=NOW)

    facts = gather_catalogue(composer)

    assert [work.id for work in facts.works] == [work.pk]
    assert [performance.id for performance in facts.performances] == [performance.pk]
    assert facts.recordings == ()


def test_works_stand_by_title_and_performances_by_date() -> None:
    composer = make_composer()
    for title in ("birch", "Ash"):
        make_work(title, composer=composer)
    for day, at in (("2026-05-16", time(20)), ("2026-05-16", time(11)), ("2025", None)):
        make_performance(composer=composer, date=day, at=at)

    facts = gather_catalogue(composer)

    assert [work.title.title for work in facts.works] == ["Ash", "birch"]
    assert [performance.time for performance in facts.performances] == [None, time(11), time(20)]


def test_what_is_to_come_has_the_works_on_its_programmes_once() -> None:
    composer = make_composer()
    past, coming, idle = (make_work(title, composer=composer) for title in ("Past", "Coming", "Idle"))
    make_performance(past, date="2026-04-30")
    months = [make_performance(coming, date="2026-05", at=None), make_performance(coming, date="2026-06-01")]

    facts = gather_upcoming(composer, since=date(2026, 5, 2))

    assert [performance.id for performance in facts.performances] == [performance.pk for performance in months]
    assert [work.id for work in facts.works] == [coming.pk]
    assert idle.pk not in facts.works_by_id()


def test_composer_becomes_facts() -> None:
    composer = make_composer(
        original_name="Ильзе Тарнов",
        born=PartialDate(1971, 3, 2),
        birthplace="Riga",
        country="LV",
        email="ilse@example.org",
        telephone="+41 44 000 00 00",
        website="https://example.org/",
        address="3 Quay Lane",
        biography="Long.",
        short_biography="Short.",
        language="de",
        number_prefix="Op.",
        string_strengths=(8, 6, 4, 4, 2),
        ipi="00000000199",
        isni="0000 0001 2103 2683",
    )

    assert gather_composer(Composer.objects.get(pk=composer.pk)) == ComposerFacts(
        id=composer.pk,
        slug="ilse-tarnow",
        name="Ilse Tarnow",
        sort_name="Tarnow, Ilse",
        original_name="Ильзе Тарнов",
        born=PartialDate(1971, 3, 2),
        birthplace="Riga",
        country="LV",
        email="ilse@example.org",
        telephone="+41 44 000 00 00",
        website="https://example.org/",
        address="3 Quay Lane",
        biography="Long.",
        short_biography="Short.",
        language="de",
        number_prefix="Op.",
        string_strengths=(8, 6, 4, 4, 2),
        ipi="00000000199",
        isni="0000 0001 2103 2683",
    )
