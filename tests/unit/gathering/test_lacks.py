"""What the records of a catalogue lack."""

from __future__ import annotations

from datetime import date
from typing import Any

import pytest

from catalogue.actions.performances import delete_performance, save_performance
from catalogue.gathering.lacks import Lack, contradictions, gather_lacks
from catalogue.models import Composer, ProgrammedWork
from tests.makers import NOW, make_composer, make_performance, make_venue, make_work

pytestmark = pytest.mark.django_db
TODAY = date(2026, 3, 9)


@pytest.fixture
def composer() -> Composer:
    return make_composer()


def whole(title: str, **columns: Any) -> Any:
    return make_work(title, **{"duration": "12′", "instrumentation": "fl, vc", **columns})


def test_catalogue_of_which_all_is_known_lacks_nothing(composer: Composer) -> None:
    make_performance(whole("Tides"), venue=make_venue(), date="2025-05-16")

    assert gather_lacks(composer, today=TODAY) == {}


def test_works_lack_durations_forces_and_readings(composer: Composer) -> None:
    silent = whole("Silent", duration="")
    bare = whole("Bare", instrumentation="")
    odd = whole("Odd", instrumentation="", instrumentation_typed="any seven blorps", duration="")

    assert gather_lacks(composer, today=TODAY) == {
        Lack.DURATION: (odd.pk, silent.pk),
        Lack.FORCES: (bare.pk,),
        Lack.READING: (odd.pk,),
    }


def test_performances_lack_countries_dates_programmes_and_outcomes(composer: Composer) -> None:
    work, hall = whole("Tides"), make_venue()
    nowhere = make_performance(work, date="2025-05-16")
    undated = make_performance(work, date="", venue=hall)
    bare = make_performance(composer=composer, date="2024-05-16", venue=hall)
    expected = make_performance(work, date="2026-03-08", venue=hall, status="confirmed")
    make_performance(work, date="2026-03-09", venue=hall, status="confirmed")
    make_performance(work, date="2023-05-16", status="duplicate")

    assert gather_lacks(composer, today=TODAY) == {
        Lack.COUNTRY: (nowhere.pk,),
        Lack.DATE: (undated.pk,),
        Lack.PROGRAMME: (bare.pk,),
        Lack.OUTCOME: (expected.pk,),
    }


def test_numbers_that_cannot_be_right_are_found(composer: Composer) -> None:
    wrong = whole("Ebb", iswc="T-034.524.680-2")
    whole("Tides", iswc="T-034.524.680-1", ismn="M-060-11561-5")
    composer.ipi = "00014107339"

    assert gather_lacks(composer, today=TODAY) == {Lack.NUMBER: (wrong.pk,), Lack.OWN_NUMBER: (composer.pk,)}


def test_own_country_serves_where_the_hall_has_none(composer: Composer) -> None:
    make_performance(whole("Tides"), venue=make_venue(country=""), country="CH", date="2025-05-16")

    assert gather_lacks(composer, today=TODAY) == {}


def test_contradicted_billings_are_found_with_their_reason(composer: Composer) -> None:
    work, hall = whole("Tides"), make_venue()
    make_performance(work, venue=hall, date="2024-05-16")
    later = make_performance(work, venue=hall, date="2025-05-16")
    later.programme.update(billing="Swiss premiere")

    (programmed,) = later.programme.all()
    assert gather_lacks(composer, today=TODAY) == {Lack.BILLING: (later.pk,)}
    assert contradictions(composer, today=TODAY) == {
        programmed.pk: "Billed as “Swiss premiere”, but these records have an earlier public performance in the same "
        "country: 16\xa0May 2024, Zurich."
    }


def test_billing_is_settled_once_it_was_said_by_hand_what_it_was(composer: Composer) -> None:
    work, hall = whole("Tides"), make_venue()
    make_performance(work, venue=hall, date="2024-05-16")
    later = make_performance(work, venue=hall, date="2025-05-16")
    later.programme.update(billing="Swiss premiere", claim_override="Swiss premiere", claim_reason="A try-out before.")

    assert gather_lacks(composer, today=TODAY) == {}


def test_other_catalogues_and_what_is_deleted_are_left_out(composer: Composer) -> None:
    other = make_composer("Pell Tarrowick", sort_name="Tarrowick")
    make_performance(make_work("Serenade", composer=other), date="")
    gone, performance = make_work("Gone", composer=composer), make_performance(composer=composer, date="")
    for record in (gone, performance):
        record.deleted_at = record.changed_at
        record.save()

    assert gather_lacks(composer, today=TODAY) == {}


def test_number_of_queries_stays_the_same(composer: Composer, django_assert_num_queries: Any) -> None:
    for year in (2021, 2022, 2023):
        make_performance(make_work(f"Work {year}"), date=f"{year}-01-01").programme.update(billing="world premiere")

    with django_assert_num_queries(7):
        gather_lacks(composer, today=TODAY)


def test_contradictions_are_reckoned_once_and_anew_after_each_change(
    composer: Composer, django_assert_num_queries: Any
) -> None:
    work, hall = whole("Tides"), make_venue()
    first = make_performance(work, venue=hall, date="2024-05-16")
    later = make_performance(work, venue=hall, date="2025-05-16")
    later.programme.update(billing="Swiss premiere")
    assert len(contradictions(composer, today=TODAY)) == 1

    with django_assert_num_queries(1):
        contradictions(composer, today=TODAY)
    delete_performance(performance=first, by=None, now=NOW)

    assert contradictions(composer, today=TODAY) == {}


def test_change_of_the_programme_alone_is_noticed(composer: Composer) -> None:
    work, hall = whole("Tides"), make_venue()
    make_performance(work, venue=hall, date="2024-05-16")
    later = make_performance(work, venue=hall, date="2025-05-16")
    before = contradictions(composer, today=TODAY)

    save_performance(performance=later, programme=[ProgrammedWork(work=work, billing="Swiss premiere")], now=NOW)

    assert (len(before), len(contradictions(composer, today=TODAY))) == (0, 1)
