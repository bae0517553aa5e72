"""Performances as lists show them: what a record of each would say, in few queries."""

from __future__ import annotations

from typing import Any

import pytest

from catalogue.gathering.listed import gather_listed
from catalogue.models import Performance, PerformanceCredit, ProgrammedWork
from catalogue.terms import PerformerRole
from tests.makers import NOW, make_organisation, make_performance, make_person, make_venue, make_work

pytestmark = pytest.mark.django_db


def evening(**columns: Any) -> Performance:
    """Return a performance of two works, one of them twice, and of one that is deleted."""
    first, second, gone = (make_work(title) for title in ("Tides", "Low <Water>", "Gone"))
    made = make_performance(first, **columns)
    ProgrammedWork.objects.filter(performance=made).update(order=2)
    for order, work in ((1, second), (3, first), (4, gone)):
        ProgrammedWork.objects.create(performance=made, work=work, order=order)
    gone.deleted_at = NOW
    gone.save()
    told = {"performance": made}
    PerformanceCredit.objects.create(**told, order=3, name="", organisation=make_organisation(), role="ensemble")
    PerformanceCredit.objects.create(**told, order=1, name="N. H.", person=make_person(), role="conductor")
    PerformanceCredit.objects.create(**told, order=2, name="Mo", role=PerformerRole.ELECTRONICS.value)
    return made


def test_listed_performance_says_what_its_record_does() -> None:
    hall, presenter = make_venue(), make_organisation("Quay Concerts")
    made = evening(venue=hall, presenter=presenter, event_title="Spring", date="2026-03")

    (found,) = gather_listed([made.pk])

    record = Performance.objects.with_everything_printed().get(pk=made.pk)
    assert (found.date, found.kind, found.status) == (record.date, record.kind, record.status)
    assert (found.event_title, found.composer_id, found.presenter) == ("Spring", record.composer_id, "Quay Concerts")
    assert record.venue is not None
    assert found.venue is not None
    assert (found.venue.name, found.venue.city, found.venue.country) == (hall.name, hall.city, hall.country)
    assert [work.title for work in found.works] == ["Low <Water>", "Tides"]
    assert list(found.played) == [row.pk for row in record.programme.all()]
    assert found.performers == ("N. H.", "Kestrel Ensemble")


def test_performance_without_hall_programme_and_performers_has_none() -> None:
    made = make_performance(venue=None, city="Bergen", country="NO", presenter_name="Nobody")

    (found,) = gather_listed([made.pk])

    assert (found.venue, found.city, found.country) == (None, "Bergen", "NO")
    assert (found.works, found.played, found.performers, found.presenter) == ((), (), (), "Nobody")


def test_rows_come_in_the_order_of_their_keys_without_those_that_are_deleted() -> None:
    first, second, gone = (make_performance(make_work(title)) for title in ("One", "Two", "Three"))
    gone.deleted_at = NOW
    gone.save()

    found = gather_listed([second.pk, gone.pk, first.pk, 0])

    assert [one.pk for one in found] == [second.pk, first.pk]


def test_number_of_queries_does_not_grow_with_the_performances(django_assert_num_queries: Any) -> None:
    keys = [evening().pk for _time in range(3)]

    for some in (keys[:1], keys):
        with django_assert_num_queries(3):
            gather_listed(some)
