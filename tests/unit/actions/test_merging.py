from __future__ import annotations

from datetime import UTC, datetime

import pytest

from catalogue.actions.merging import MODELS, MOVED_WHERE_NONE, NAMING, NotMerged, merge, undo_merge
from catalogue.gathering.likenesses import Alike
from catalogue.models import (
    Call,
    Commission,
    Composer,
    InstrumentationLine,
    LeadTimes,
    Merge,
    Movement,
    Organisation,
    Performance,
    PerformanceCredit,
    Person,
    ProgrammedWork,
    Recording,
    Submission,
    SubmittedWork,
    Venue,
    Work,
)
from catalogue.rules.journey import Lead
from catalogue.timing import Duration
from tests.makers import make_organisation, make_performance, make_person, make_recording, make_venue, make_work

pytestmark = pytest.mark.django_db

BUILT_ANEW = {InstrumentationLine}  # an index, rebuilt as a work is saved
NOW = datetime(2026, 3, 9, 10, 0, tzinfo=UTC)


def merged(composer: Composer, sort: Alike, kept: object, gone: object) -> Merge:
    key = [str(getattr(one, "pk", one)) for one in (kept, gone)]
    return merge(composer=composer, sort=sort, kept=key[0], gone=key[1], by=None, now=NOW)


def test_hall_takes_over_performances_and_what_it_did_not_know(composer: Composer) -> None:
    kept = make_venue("Old Granary", composer=composer, city="", country="", zone="")
    gone = make_venue("Old Granary.", composer=composer)
    performance = make_performance(composer=composer, venue=gone)

    made = merged(composer, Alike.VENUE, kept, gone)

    performance.refresh_from_db()
    assert list(Venue.objects.values_list("name", "city", "country", "zone")) == [
        ("Old Granary", "Zurich", "CH", "Europe/Zurich")
    ]
    assert (performance.venue, performance.sequence) == (kept, 2)
    assert made.filled == {"city": ["", "Zurich"], "country": ["", "CH"], "zone": ["", "Europe/Zurich"]}


def test_hall_is_parted_again(composer: Composer) -> None:
    kept = make_venue("Old Granary", composer=composer, city="", country="", zone="")
    gone = make_venue("Old Granary.", composer=composer)
    performance = make_performance(composer=composer, venue=gone)
    made = merged(composer, Alike.VENUE, kept, gone)

    assert undo_merge(merged=made, now=NOW) == 0

    performance.refresh_from_db()
    assert performance.venue == gone
    assert list(Venue.objects.order_by("pk").values_list("name", "city")) == [
        ("Old Granary", ""),
        ("Old Granary.", "Zurich"),
    ]
    assert made.undone_at == NOW


def test_work_takes_over_programmes_recordings_and_parts_it_has_not(composer: Composer) -> None:
    kept = make_work("Ash Ferry", composer=composer, commissioned_by=("Pier Trust",))
    gone = make_work(
        "Ash ferry", composer=composer, duration="12'", movements=("Rope", "Lamp"), commissioned_by=("Tide House",),
        catalogue_number="Op. 3",
    )  # fmt: skip
    version = make_work("Ash Ferry", composer=composer, version_of=gone, version_label="for strings")
    performance, recording = make_performance(gone), make_recording(gone)

    made = merged(composer, Alike.WORK, kept, gone)

    work = Work.objects.get(pk=kept.pk)
    assert (work.duration, work.catalogue_number) == (Duration(720), "Op. 3")
    assert [one.title for one in Movement.objects.filter(work=work).order_by("number")] == ["Rope", "Lamp"]
    assert [one.body for one in Commission.objects.filter(work=work)] == ["Pier Trust"]
    assert ProgrammedWork.objects.get(performance=performance).work == work
    assert Recording.objects.get(pk=recording.pk).work == work
    assert Work.objects.get(pk=version.pk).version_of == work

    undo_merge(merged=made, now=NOW)

    assert sorted(Work.objects.values_list("title", "catalogue_number")) == [
        ("Ash Ferry", ""), ("Ash Ferry", ""), ("Ash ferry", "Op. 3"),
    ]  # fmt: skip
    assert ProgrammedWork.objects.get(performance=performance).work == gone
    assert Work.objects.get(pk=version.pk).version_of == gone
    assert Movement.objects.filter(work=gone).count() == 2


def test_lead_times_of_the_body_that_stays_count_and_the_others_come_back(composer: Composer) -> None:
    kept, gone = (make_organisation(name, composer=composer) for name in ("Pier Trust", "Pier trust"))
    for body, days in ((kept, 30), (gone, 60)):
        LeadTimes.objects.create(composer=composer, organisation=body, parts=Lead(days))

    made = merged(composer, Alike.ORGANISATION, kept, gone)
    assert [(one.organisation, one.parts) for one in LeadTimes.objects.all()] == [(kept, Lead(30))]

    undo_merge(merged=made, now=NOW)
    assert {one.organisation: one.parts for one in LeadTimes.objects.all()} == {kept: Lead(30), gone: Lead(60)}


def test_version_of_a_work_is_no_duplicate_of_it(composer: Composer) -> None:
    work = make_work("Ash Ferry", composer=composer)
    version = make_work("Ash Ferry", composer=composer, version_of=work, version_label="for strings")

    with pytest.raises(NotMerged) as caught:
        merged(composer, Alike.WORK, work, version)

    assert caught.value.reason == "One of the two is a version of the other; both stay."
    assert Work.objects.count() == 2


def test_names_of_performers_are_spelled_as_one_and_as_two_again(composer: Composer) -> None:
    first = make_performance(composer=composer, performers=("Iva Dørn", "Per Lund"))
    make_performance(composer=composer, performers=("Iva Dorn",))

    made = merged(composer, Alike.NAME, "Iva Dorn", "Iva Dørn")
    names = list(PerformanceCredit.objects.filter(performance=first).order_by("order").values_list("name", flat=True))
    undo_merge(merged=made, now=NOW)

    assert names == ["Iva Dorn", "Per Lund"]
    assert sorted(PerformanceCredit.objects.values_list("name", flat=True)) == ["Iva Dorn", "Iva Dørn", "Per Lund"]
    assert Performance.objects.get(pk=first.pk).sequence == 2


def test_names_of_presenters_are_spelled_as_one_and_as_two_again(composer: Composer) -> None:
    first, _second = (make_performance(composer=composer, presenter_name=name) for name in ("The Pier", "Pier"))

    made = merged(composer, Alike.NAME, "Pier", "The Pier")
    names = set(Performance.objects.values_list("presenter_name", flat=True))
    undo_merge(merged=made, now=NOW)

    assert names == {"Pier"}
    assert Performance.objects.get(pk=first.pk).presenter_name == "The Pier"


def test_submission_holds_the_work_that_stays_once(composer: Composer) -> None:
    stays, goes = (make_work(title, composer=composer) for title in ("Ebb", "EBB"))
    both, only = (
        Submission.objects.create(call=Call.objects.create(composer=composer, title=title)) for title in ("A", "B")
    )
    for submission, work in ((both, stays), (both, goes), (only, goes)):
        SubmittedWork.objects.create(submission=submission, work=work)

    made = merged(composer, Alike.WORK, stays, goes)
    held = set(SubmittedWork.objects.values_list("submission", "work"))
    undo_merge(merged=made, now=NOW)

    assert held == {(both.pk, stays.pk), (both.pk, goes.pk), (only.pk, stays.pk)}
    assert set(SubmittedWork.objects.filter(submission=only).values_list("work", flat=True)) == {goes.pk}


@pytest.mark.parametrize("sort", MODELS)
def test_nothing_that_names_a_record_is_forgotten(sort: Alike) -> None:
    moved = {(model, column) for model, column in NAMING[sort]}
    moved |= {(model, "work_id") for model in MOVED_WHERE_NONE.get(sort, ())}
    naming = {
        (one.related_model, one.field.attname)
        for one in MODELS[sort]._meta.related_objects
        if not one.related_model.__name__.startswith("Historical") and one.related_model not in BUILT_ANEW
    }

    assert naming - moved == set()


def test_people_and_bodies_are_merged(composer: Composer) -> None:
    one, other = make_person("Iva Dorn", composer=composer), make_person("Iva Dørn", composer=composer, plays="viola")
    bodies = [make_organisation(name, composer=composer) for name in ("Kestrel", "The Kestrel")]
    performance = make_performance(composer=composer, presenter=bodies[1])
    for columns in ({"person": other}, {"organisation": bodies[1]}):
        PerformanceCredit.objects.create(performance=performance, **columns)

    merged(composer, Alike.PERSON, one, other)
    merged(composer, Alike.ORGANISATION, bodies[0], bodies[1])

    assert [(person.name, person.plays) for person in Person.objects.all()] == [("Iva Dorn", "viola")]
    assert [credit.billed_name for credit in performance.credits.order_by("pk")] == ["Iva Dorn", "Kestrel"]
    performance.refresh_from_db()
    assert (performance.presenter, Organisation.objects.count()) == (bodies[0], 1)


def test_what_was_changed_since_stays_and_is_counted(composer: Composer) -> None:
    kept, gone, third = (make_venue(name, composer=composer) for name in ("Hall", "Hall.", "Barn"))
    moved, changed = (make_performance(composer=composer, venue=gone) for _ in range(2))
    made = merged(composer, Alike.VENUE, kept, gone)
    Performance.objects.filter(pk=changed.pk).update(venue=third)

    assert undo_merge(merged=made, now=NOW) == 1
    assert [Performance.objects.get(pk=one.pk).venue for one in (moved, changed)] == [gone, third]
    assert undo_merge(merged=made, now=NOW) == 0


@pytest.mark.parametrize(("kept", "gone"), [("1", "1"), ("no number", "1"), ("99999", "1"), ("9" * 40, "1")])
def test_what_is_not_there_is_not_merged(composer: Composer, kept: str, gone: str) -> None:
    with pytest.raises(NotMerged):
        merged(composer, Alike.VENUE, kept, gone)


def test_records_of_another_catalogue_are_not_touched(composer: Composer, other_composer: Composer) -> None:
    mine, theirs = make_venue("Hall", composer=composer), make_venue("Hall", composer=other_composer)

    with pytest.raises(NotMerged):
        merged(composer, Alike.VENUE, mine, theirs)

    assert Venue.objects.count() == 2
