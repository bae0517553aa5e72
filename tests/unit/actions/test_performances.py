from __future__ import annotations

from datetime import UTC, date, datetime, time, timedelta

import pytest
from django.core.exceptions import ValidationError

from catalogue.actions.performances import (
    delete_performance,
    restore_performance,
    save_performance,
    save_venue,
)
from catalogue.actions.saving import Overtaken
from catalogue.models import Performance, PerformanceCredit, ProgrammedWork, Venue
from catalogue.terms import PerformanceStatus
from catalogue.timing import PartialDate
from tests.makers import NOW, make_composer, make_performance, make_venue, make_work

pytestmark = pytest.mark.django_db

LATER = NOW + timedelta(hours=1)


@pytest.mark.parametrize(
    ("zone", "day", "starts_at"),
    [
        ("Europe/Zurich", "2026-01-16", datetime(2026, 1, 16, 18, 30, tzinfo=UTC)),
        ("Europe/Zurich", "2026-07-16", datetime(2026, 7, 16, 17, 30, tzinfo=UTC)),
        ("Asia/Tokyo", "2026-05-16", datetime(2026, 5, 16, 10, 30, tzinfo=UTC)),
        ("Australia/Adelaide", "2026-05-16", datetime(2026, 5, 16, 10, 0, tzinfo=UTC)),
    ],
)
def test_moment_follows_from_day_time_and_zone(zone: str, day: str, starts_at: datetime) -> None:
    performance = make_performance(date=day, at=time(19, 30), zone=zone)

    assert Performance.objects.get(pk=performance.pk).starts_at == starts_at


@pytest.mark.parametrize(("second", "hour"), [(False, 0), (True, 1)])
def test_of_a_time_that_comes_twice_it_is_said_which(second: bool, hour: int) -> None:
    performance = make_performance(date="2026-10-25", at=time(2, 30), zone="Europe/Zurich", second_time=second)

    assert performance.starts_at == datetime(2026, 10, 25, hour, 30, tzinfo=UTC)
    with pytest.raises(ValidationError, match="twice"):
        make_performance(date="2026-10-25", at=time(2, 30), zone="Europe/Zurich")


@pytest.mark.parametrize(
    ("day", "at", "zone"), [("2026-05", time(19), "UTC"), ("2026-05-16", None, "UTC"), ("2026-05-16", time(19), "")]
)
def test_moment_is_unknown_where_day_time_or_zone_is(day: str, at: time | None, zone: str) -> None:
    assert make_performance(date=day, at=at, zone=zone).starts_at is None


def test_imprecise_dates_leave_their_first_and_last_day() -> None:
    month, unknown = make_performance(date="2024-02", at=None), make_performance(date="")

    assert (month.first_day, month.last_day) == (date(2024, 2, 1), date(2024, 2, 29))
    assert (unknown.first_day, unknown.last_day) == (None, None)


@pytest.mark.parametrize(
    "columns",
    [
        {"date": PartialDate(2026, 5, 17)},
        {"time": time(20)},
        {"zone": "Asia/Tokyo"},
        {"city": "Bergen"},
        {"country": "NO"},
        {"status": PerformanceStatus.CANCELLED.value},
        {"event_title": "Closing night"},
    ],
)
def test_sequence_rises_with_what_calendars_show(columns: dict[str, object]) -> None:
    performance = make_performance(zone="Europe/Zurich")
    for name, value in columns.items():
        setattr(performance, name, value)

    save_performance(performance=performance, now=LATER)

    assert (performance.sequence, performance.changed_at, performance.saves) == (1, LATER, 2)


def test_sequence_stays_for_what_calendars_do_not_show() -> None:
    performance = make_performance()
    uid = performance.uid
    performance.notes = "box 3"

    save_performance(performance=performance, now=LATER)

    stored = Performance.objects.get()
    assert (stored.sequence, stored.uid, stored.changed_at) == (0, uid, LATER)


def test_second_of_two_who_correct_a_hall_at_once_is_told() -> None:
    mine = make_venue("Old Granary")
    yours = Venue.objects.get()
    mine.name = "The Granary"
    save_venue(venue=mine, now=LATER)

    with pytest.raises(Overtaken) as caught:
        save_venue(venue=yours, now=LATER)

    assert (caught.value.latest, mine.saves, mine.changed_at) == (mine, 2, LATER)
    assert Venue.objects.get().name == "The Granary"


def test_second_of_two_who_edit_at_once_is_told() -> None:
    make_performance()
    mine, yours = Performance.objects.get(), Performance.objects.get()
    save_performance(performance=mine, now=NOW)

    with pytest.raises(Overtaken) as caught:
        save_performance(performance=yours, now=LATER)

    assert caught.value.latest == mine


def test_performance_that_must_not_be_stored_is_refused() -> None:
    with pytest.raises(ValidationError) as caught:
        save_performance(performance=Performance(composer=make_composer(), country="XX"), now=NOW)

    assert caught.value.message_dict == {
        "country": ["“XX” is no country code; write the two capital letters of ISO 3166, such as CH."]
    }
    assert Performance.objects.count() == 0


def test_programme_changes_places_and_calendars_follow() -> None:
    performance = make_performance(make_work("Tides"), make_work("Ash"))
    tides, ash = performance.programme.order_by("order")
    before = performance.sequence
    encore = ProgrammedWork(work=make_work("Encore"))

    save_performance(performance=performance, programme=[ash, tides, encore], now=LATER)

    assert [one.work.title for one in performance.programme.order_by("order")] == ["Ash", "Tides", "Encore"]
    stored = Performance.objects.get()
    assert (stored.sequence, stored.changed_at) == (before + 1, LATER)


def test_programme_that_stays_the_same_is_no_change() -> None:
    performance = make_performance(make_work("Tides"), performers=("Kestrel Ensemble",))

    before = performance.sequence
    programme, credits = list(performance.programme.all()), list(performance.credits.all())

    save_performance(performance=performance, programme=programme, credits=credits, now=LATER)

    assert Performance.objects.get().sequence == before


def test_work_of_another_composer_does_not_get_onto_a_programme() -> None:
    performance = make_performance(composer=make_composer())
    stranger = ProgrammedWork(work=make_work(composer=make_composer("Bruno Vey")))

    with pytest.raises(ValidationError):
        save_performance(performance=performance, programme=[stranger], now=LATER)

    assert performance.programme.count() == 0


def test_performers_are_set_in_order() -> None:
    performance = make_performance(performers=("Kestrel Ensemble", "Noor Halvorsen"))
    ensemble, conductor = performance.credits.order_by("order")

    save_performance(
        performance=performance, credits=[conductor, ensemble, PerformanceCredit(name="Ada Brandt")], now=LATER
    )

    names = [credit.billed_name for credit in performance.credits.order_by("order")]
    assert names == ["Noor Halvorsen", "Kestrel Ensemble", "Ada Brandt"]


def test_new_clocks_of_a_venue_move_its_performances() -> None:
    venue = make_venue(zone="Europe/Zurich")
    performance = make_performance(venue=venue, date="2026-05-16", at=time(19, 30))
    elsewhere = make_performance(date="2026-05-16", at=time(19, 30), zone="Europe/Zurich")
    venue.zone = "Asia/Tokyo"

    save_venue(venue=venue, now=LATER)

    performance.refresh_from_db()
    elsewhere.refresh_from_db()
    assert performance.starts_at == datetime(2026, 5, 16, 10, 30, tzinfo=UTC)
    assert (performance.sequence, performance.changed_at) == (1, LATER)
    assert (elsewhere.sequence, elsewhere.changed_at) == (0, NOW)


def test_notes_on_a_venue_leave_calendars_alone() -> None:
    venue = make_venue()
    performance = make_performance(venue=venue)
    venue.notes = "loading door at the back"

    save_venue(venue=venue, now=LATER)

    performance.refresh_from_db()
    assert performance.changed_at == NOW


def test_deleted_performance_comes_back_with_its_identity() -> None:
    performance = make_performance(make_work())
    uid = performance.uid

    delete_performance(performance=performance, by=None, now=LATER)

    assert list(Performance.objects.all()) == []
    restore_performance(performance=Performance.with_deleted.get(), now=LATER)
    found = Performance.objects.get()
    assert (found.uid, found.programme.count(), found.deleted_at) == (uid, 1, None)


def test_everything_of_a_performance_is_saved_at_once_with_one_new_revision() -> None:
    performance = make_performance(make_work("Tides"), performers=("Kestrel Ensemble",))
    first = performance.sequence
    performance.event_title = "Opening night"

    save_performance(
        performance=performance,
        now=LATER,
        programme=[ProgrammedWork(work=make_work("Ash"))],
        credits=[PerformanceCredit(name="Noor Halvorsen")],
    )

    stored = Performance.objects.get()
    assert (first, stored.sequence, stored.saves) == (0, 1, 2)
    assert [one.work.title for one in stored.programme.all()] == ["Ash"]
    assert [credit.billed_name for credit in stored.credits.all()] == ["Noor Halvorsen"]


def test_new_programme_alone_is_a_new_revision() -> None:
    performance = make_performance(make_work("Tides"))

    save_performance(performance=performance, now=LATER, programme=[])

    assert (performance.sequence, performance.programme.count()) == (1, 0)


def test_mistake_in_the_programme_leaves_the_performance_as_it_was() -> None:
    performance = make_performance(make_work("Tides"))
    performance.event_title = "Opening night"
    stranger = ProgrammedWork(work=make_work(composer=make_composer("Bruno Vey")))

    with pytest.raises(ValidationError):
        save_performance(performance=performance, now=LATER, programme=[stranger])

    stored = Performance.objects.get()
    assert (stored.event_title, stored.saves, stored.programme.count()) == ("", 1, 1)
