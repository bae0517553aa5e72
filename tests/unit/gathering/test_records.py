from __future__ import annotations

from decimal import Decimal
from typing import Any

import pytest

from catalogue.gathering.records import gather_records_of_composer, gather_records_of_work, gather_records_of_works
from catalogue.models import Award, Biography, Contributor, NotationSign, PercussionInstrument, ProgrammeNote, Review
from catalogue.record_facts import (
    AwardFacts,
    BiographyFacts,
    ContributorFacts,
    PercussionFacts,
    ProgrammeNoteFacts,
    WorkRecords,
)
from catalogue.terms import ContributorRole, NoteLength
from catalogue.timing import PartialDate
from tests.makers import make_composer, make_recording, make_work
from tests.record_makers import make_one_of_each, make_record

pytestmark = pytest.mark.django_db


def test_columns_become_facts_of_the_same_names() -> None:
    work = make_work()
    contributor = make_record(Contributor, work=work)
    percussion = make_record(PercussionInstrument, work=work)

    found = gather_records_of_work(work)

    assert found.contributors == (
        ContributorFacts(contributor.pk, "Mira Oxley", ContributorRole.LIBRETTIST, share=Decimal(25)),
    )
    assert found.percussion == (PercussionFacts(percussion.pk, 2, "vibraphone", compass="3 octaves", needs_power=True),)


def test_note_of_the_work_itself_comes_first() -> None:
    work = make_work(programme_note="Twice a day the sea is here.")
    note = make_record(ProgrammeNote, work=work)

    assert gather_records_of_work(work).programme_notes == (
        ProgrammeNoteFacts(None, "Twice a day the sea is here.", NoteLength.LINE, words=7),
        ProgrammeNoteFacts(note.pk, "The tide comes in twice a day.", NoteLength.SHORT, language="en", words=7),
    )


def test_signs_stand_group_by_group() -> None:
    work = make_work()
    for name, group in (("slap", "technique"), ("sharp", "accidental"), ("cross", "notehead")):
        make_record(NotationSign, work=work, name=name, group=group)

    assert [sign.name for sign in gather_records_of_work(work).signs] == ["sharp", "cross", "slap"]


def test_biographies_of_the_profile_come_first_and_awards_the_latest_first() -> None:
    composer = make_composer(short_biography="Born by the sea.")
    work = make_work(composer=composer)
    biography = make_record(Biography, work=work)
    older, undated = make_record(Award, work=work), make_record(Award, work=work, date=None)
    newer = make_record(Award, work=work, date=PartialDate(2025))

    found = gather_records_of_composer(composer)

    assert found.biographies == (
        BiographyFacts(None, "Born by the sea.", NoteLength.SHORT, language="en-GB", words=4),
        BiographyFacts(
            biography.pk, "Ilse Tarnow lives by the sea.", NoteLength.LINE, as_of=PartialDate(2025, 6, 1), words=6
        ),
    )
    assert [award.id for award in found.awards] == [newer.pk, older.pk, undated.pk]
    assert found.awards[1] == AwardFacts(older.pk, "Harbour Prize", "second prize", PartialDate(2024))


def test_everything_is_found_in_as_many_queries_however_many_works(django_assert_num_queries: Any) -> None:
    works = [make_work(), make_work("Ebb")]
    for work in works:
        made = make_one_of_each(work)
        make_recording(work)
        for model in (Award, Review):
            made[model].work = work
            made[model].save()

    with django_assert_num_queries(14):
        found = gather_records_of_works(works)
    with django_assert_num_queries(14):
        gather_records_of_works(works[:1])

    single = ("contributors", "programme_notes", "performance_notes", "percussion", "signs", "tunings", "retunings")
    others = ("editions", "text_sources", "recordings", "awards", "reviews")
    assert {len(getattr(found[work.pk], name)) for work in works for name in (*single, *others)} == {1}


def test_what_is_deleted_is_left_out() -> None:
    work = make_work()
    for record in make_one_of_each(work).values():
        type(record)._base_manager.filter(pk=record.pk).update(deleted_at="2026-01-15T12:00Z")

    assert gather_records_of_work(work) == WorkRecords(work.pk)
