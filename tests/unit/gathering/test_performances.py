from __future__ import annotations

from datetime import UTC, datetime, time

import pytest

from catalogue.actions.works import delete_work
from catalogue.facts import PerformanceFacts, PerformerFacts, ProgrammedFacts, VenueFacts
from catalogue.gathering import gather_performance
from catalogue.models import Performance, PerformanceCredit, ProgrammedWork
from catalogue.terms import Audience, Extent, PerformanceKind, PerformanceStatus, PerformerRole
from catalogue.timing import Duration, PartialDate
from tests.makers import NOW, make_organisation, make_performance, make_person, make_venue, make_work

pytestmark = pytest.mark.django_db


def test_performance_with_everything_becomes_facts() -> None:
    venue = make_venue(latitude=47.37, longitude=8.54)
    work, suite = make_work("Tides"), make_work("Masque")
    ensemble, conductor = make_organisation("Kestrel Ensemble"), make_person("Noor Halvorsen")
    performance = make_performance(
        venue=venue,
        city="ignored, the venue's stands",
        date="2026-05-16",
        at=time(19, 30),
        kind=PerformanceKind.BROADCAST.value,
        audience=Audience.INVITED.value,
        status=PerformanceStatus.CONFIRMED.value,
        event_title="Opening night",
        country_then="Switzerland",
        presenter=make_organisation("Harbour Festival"),
        series="Late hours",
        string_strengths=(8, 6, 4, 4, 2),
        notes="doors at 19:00",
    )
    second = ProgrammedWork.objects.create(
        performance=performance, work=suite, order=2, extent=Extent.SUITE.value, part="Suite 1", note="after the pause"
    )
    first = ProgrammedWork.objects.create(
        performance=performance, work=work, order=1, billing="world premiere", duration=Duration(700)
    )
    PerformanceCredit.objects.create(performance=performance, organisation=ensemble, role="ensemble", order=1)
    PerformanceCredit.objects.create(performance=performance, person=conductor, role="conductor", order=2)
    PerformanceCredit.objects.create(performance=performance, name="Ada Brandt", role="soloist", plays="viola", order=3)

    assert gather_performance(Performance.objects.with_everything_printed().get()) == PerformanceFacts(
        id=performance.pk,
        uid=performance.uid,
        date=PartialDate(2026, 5, 16),
        kind=PerformanceKind.BROADCAST,
        audience=Audience.INVITED,
        status=PerformanceStatus.CONFIRMED,
        time=time(19, 30),
        zone="Europe/Zurich",
        starts_at=datetime(2026, 5, 16, 17, 30, tzinfo=UTC),
        event_title="Opening night",
        venue=VenueFacts(venue.pk, "Old Granary", "Zurich", "CH", "Europe/Zurich", 47.37, 8.54),
        city="Zurich",
        country="CH",
        country_then="Switzerland",
        presenter="Harbour Festival",
        series="Late hours",
        performers=(
            PerformerFacts("Kestrel Ensemble", PerformerRole.ENSEMBLE, organisation_id=ensemble.pk),
            PerformerFacts("Noor Halvorsen", PerformerRole.CONDUCTOR),
            PerformerFacts("Ada Brandt", PerformerRole.SOLOIST, "viola"),
        ),
        programme=(
            ProgrammedFacts(first.pk, work.pk, billing="world premiere", duration=Duration(700)),
            ProgrammedFacts(second.pk, suite.pk, Extent.SUITE, "Suite 1", note="after the pause"),
        ),
        string_strengths=(8, 6, 4, 4, 2),
        notes="doors at 19:00",
        sequence=0,
        changed_at=NOW,
    )


def test_performance_without_a_venue_has_its_own_place() -> None:
    performance = make_performance(
        date="2026-05", at=None, city="Bergen", country="NO", zone="Europe/Oslo", presenter_name="a barn owner"
    )

    facts = gather_performance(performance)

    assert (facts.venue, facts.city, facts.country, facts.zone) == (None, "Bergen", "NO", "Europe/Oslo")
    assert (facts.date, facts.starts_at, facts.presenter) == (PartialDate(2026, 5), None, "a barn owner")


def test_deleted_works_are_left_out_of_the_programme() -> None:
    kept, gone = make_work("Tides"), make_work("Ash")
    performance = make_performance(kept, gone)
    delete_work(work=gone, by=None, now=NOW)

    fetched = Performance.objects.with_everything_printed().get()
    plain = Performance.objects.get(pk=performance.pk)

    assert [programmed.work_id for programmed in gather_performance(fetched).programme] == [kept.pk]
    assert gather_performance(plain).programme == gather_performance(fetched).programme
