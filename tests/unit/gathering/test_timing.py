from __future__ import annotations

import pytest
from django.db import connection
from django.test.utils import CaptureQueriesContext

from catalogue.actions.works import save_work
from catalogue.facts import CueFacts, TimingFacts
from catalogue.gathering.timing import gather_recordings, gather_timing
from catalogue.models import Cue, Work
from catalogue.timing import Duration, PartialDate
from tests.makers import NOW, make_recording, make_work

pytestmark = pytest.mark.django_db

MAP = "1-16 4/4 q=60\n"


def test_tempo_map_and_cues_become_facts_in_their_order() -> None:
    work = make_work(tempo_map=MAP, cue_letters="E electronics")
    bell = Cue(
        number="2", place="9.3", action="Bell", media="bell.wav", length=Duration(90, True), who="E", notes="softly"
    )
    save_work(work=work, now=NOW, cues=[Cue(number="T", place="", action="Check"), bell])

    assert gather_timing(work) == TimingFacts(
        work_id=work.pk,
        tempo_map=MAP,
        dated=NOW.date(),
        cues=(
            CueFacts("T", "", "Check"),
            CueFacts("2", "9.3", "Bell", "bell.wav", Duration(90, True), "E", "softly"),
        ),
        letters="E electronics",
    )


def test_a_work_without_a_map_has_facts_as_well() -> None:
    work = make_work()

    assert gather_timing(work) == TimingFacts(work_id=work.pk)


def test_a_length_that_somebody_has_spoilt_is_left_out() -> None:
    work = make_work(cues=(("1", "1", "Bell"),))
    Cue.objects.update(length=Duration(90))
    with connection.cursor() as cursor:
        cursor.execute("UPDATE catalogue_cue SET length = 'soon'")

    assert [cue.length for cue in gather_timing(Work.objects.get(pk=work.pk)).cues] == [None]


def test_recordings_become_facts_of_their_work_alone() -> None:
    work = make_work()
    make_recording(work, released=PartialDate(2021), duration=Duration(598))
    make_recording(make_work("Ash"))

    (found,) = gather_recordings(work)
    assert (found.work_id, found.performers, found.label, found.number) == (
        work.pk,
        "Kestrel Ensemble",
        "Slate Records",
        "SL 12",
    )
    assert (found.released, found.duration) == (PartialDate(2021), Duration(598))


def test_each_is_one_query_however_many_there_are() -> None:
    work = make_work(cues=tuple((str(number), "1", "Bell") for number in range(1, 9)))
    for number in range(5):
        make_recording(work, number=str(number))

    with CaptureQueriesContext(connection) as timing:
        gather_timing(work)
    with CaptureQueriesContext(connection) as recordings:
        gather_recordings(work)

    assert (len(timing), len(recordings)) == (1, 1)
