from __future__ import annotations

from datetime import date, time

import pytest
from django.core.exceptions import ValidationError
from django.db import IntegrityError
from django.db.models import RestrictedError

from catalogue.actions.works import delete_work
from catalogue.models import Performance, PerformanceCredit, ProgrammedWork, Venue
from catalogue.timing import PartialDate
from tests.makers import NOW, make_composer, make_organisation, make_performance, make_person, make_venue, make_work

pytestmark = pytest.mark.django_db


def test_matching_looks_through_place_presenter_performers_and_works() -> None:
    found = make_performance(
        make_work("Étude"),
        venue=make_venue("Old Granary", city="Zürich"),
        presenter=make_organisation("Harbour Festival"),
        performers=("Kestrel Ensemble",),
        event_title="Opening night",
    )
    PerformanceCredit.objects.create(performance=found, person=make_person("Noor Halvorsen"), order=2)
    make_performance(make_work("Else"), event_title="Other night")

    for text in ("etude", "granary zurich", "harbour", "kestrel", "halvorsen", "opening etude kestrel"):
        assert list(Performance.objects.matching(text)) == [found], text
    assert list(Performance.objects.matching("etude other")) == []


def test_matching_does_not_find_a_deleted_work() -> None:
    work = make_work("Étude")
    make_performance(work)
    delete_work(work=work, by=None, now=NOW)

    assert list(Performance.objects.matching("etude")) == []


def test_date_order_goes_by_first_day_then_time_with_unknown_dates_last() -> None:
    unknown = make_performance(date="")
    evening = make_performance(date="2026-05-16", at=time(19, 30))
    noon = make_performance(date="2026-05-16", at=time(12))
    year = make_performance(date="2026", at=None)

    assert list(Performance.objects.in_date_order()) == [year, noon, evening, unknown]
    assert list(Performance.objects.latest_first()) == [evening, noon, year, unknown]


def test_from_day_keeps_what_may_still_come() -> None:
    make_performance(date="2026-05-15")
    month = make_performance(date="2026-05", at=None)
    day = make_performance(date="2026-05-16")
    make_performance(date="")

    assert list(Performance.objects.from_day(date(2026, 5, 16)).order_by("pk")) == [month, day]


def test_of_work_finds_each_performance_once() -> None:
    work = make_work()
    twice = make_performance(work, work)
    make_performance(make_work("Else"))

    assert list(Performance.objects.of_work(work)) == [twice]


def test_time_that_the_clocks_never_show_is_refused_at_its_place() -> None:
    performance = Performance(
        composer=make_composer(), date=PartialDate(2027, 3, 28), time=time(2, 30), zone="Europe/Zurich"
    )

    with pytest.raises(ValidationError) as caught:
        performance.full_clean()

    assert caught.value.message_dict == {
        "time": [
            "On 28 March 2027 the clocks in Europe/Zurich never show 02:30, as they go forward by 60 minutes; "
            "write 01:30 or 03:30."
        ]
    }


def test_records_of_another_composer_are_refused() -> None:
    other = make_composer("Bruno Vey")
    performance = Performance(composer=make_composer(), venue=make_venue(composer=other))
    programmed = ProgrammedWork(
        performance=make_performance(composer=other), work=make_work(composer=performance.composer)
    )

    with pytest.raises(ValidationError) as at_venue:
        performance.full_clean()
    with pytest.raises(ValidationError) as at_work:
        programmed.full_clean()

    assert list(at_venue.value.message_dict) == ["venue"]
    assert list(at_work.value.message_dict) == ["work"]


@pytest.mark.parametrize(
    "columns",
    [
        {"kind": "rave"},
        {"audience": "cats"},
        {"status": "dreamt"},
        {"country": "ch"},
        {"country": "C1"},
        {"first_day": date(2026, 5, 2), "last_day": date(2026, 5, 1)},
    ],
)
def test_database_refuses_what_is_no_performance(columns: dict[str, object]) -> None:
    with pytest.raises(IntegrityError):
        Performance.objects.create(composer=make_composer(), **columns)


def test_credit_names_one_performer() -> None:
    performance, person, body = make_performance(), make_person(), make_organisation()

    billed = PerformanceCredit(performance=performance, organisation=body, name="Members of the Kestrel Ensemble")
    assert billed.billed_name == "Members of the Kestrel Ensemble"
    assert PerformanceCredit(performance=performance, person=person).billed_name == "Noor Halvorsen"
    for columns, place in (({}, "name"), ({"person": person, "organisation": body}, "organisation")):
        with pytest.raises(ValidationError) as caught:
            PerformanceCredit(performance=performance, **columns).full_clean()
        assert list(caught.value.message_dict) == [place]


@pytest.mark.parametrize("named", [0, 2])
def test_database_refuses_a_credit_of_nobody_and_of_two(named: int) -> None:
    columns = {"person": make_person(), "organisation": make_organisation()} if named else {}

    with pytest.raises(IntegrityError):
        PerformanceCredit.objects.create(performance=make_performance(), **columns)


def test_places_in_a_programme_are_taken_once() -> None:
    performance = make_performance(make_work())

    with pytest.raises(IntegrityError):
        ProgrammedWork.objects.create(performance=performance, work=make_work("Ash"), order=1)


def test_what_a_playing_is_called_by_hand_needs_a_reason() -> None:
    (programmed,) = make_performance(make_work()).programme.all()
    programmed.claim_override, programmed.claim_reason = "world premiere", " "

    with pytest.raises(ValidationError, match="Say why it is to be called that"):
        programmed.full_clean()
    with pytest.raises(IntegrityError):
        ProgrammedWork.objects.update(claim_override="world premiere")


def test_venue_in_use_is_not_lost() -> None:
    venue = make_venue()
    make_performance(venue=venue)

    with pytest.raises(RestrictedError):
        Venue.objects.get(pk=venue.pk).delete()


def test_composer_goes_with_everything() -> None:
    work = make_work(movements=("I",), commissioned_by=("A hall",))
    make_performance(work, venue=make_venue(), performers=("Kestrel Ensemble",))

    work.composer.delete()

    assert (Performance.objects.count(), Venue.objects.count(), ProgrammedWork.objects.count()) == (0, 0, 0)


@pytest.mark.parametrize(
    ("columns", "place"),
    [({"country": "UK"}, "country"), ({"zone": "Mars/Olympus"}, "zone"), ({"latitude": 91.0}, "latitude")],
)
def test_venue_says_what_is_wrong_at_its_place(columns: dict[str, object], place: str) -> None:
    with pytest.raises(ValidationError) as caught:
        Venue(composer=make_composer(), name="Old Granary", **columns).full_clean()

    assert list(caught.value.message_dict) == [place]
