from __future__ import annotations

import pytest
from django.db import connection

from catalogue.facts import CommissionFacts, MovementFacts, RecordingFacts, TitleFacts, WorkFacts
from catalogue.gathering import gather_catalogue, gather_work, reading_of
from catalogue.instrumentation import read
from catalogue.models import Commission, Movement, Work
from catalogue.terms import Category, WorkStatus
from catalogue.timing import Duration, PartialDate
from tests.makers import make_organisation, make_recording, make_work

pytestmark = pytest.mark.django_db

FORCES = "2(II=picc).2.2.2 – 2.2.0.0 – timp – str"


def test_work_with_everything_becomes_facts() -> None:
    work = make_work(
        "Étude",
        title_language="fr",
        original_title="Этюд",
        original_language="ru",
        transliteration="Etyud",
        translated_title="Study",
        subtitle="after a map",
        catalogue_number="12",
        category=Category.ORCHESTRA.value,
        status=WorkStatus.WITHDRAWN.value,
        begun=PartialDate(2017),
        completed="2019-04",
        revised=PartialDate(2021, circa=True),
        published=PartialDate(2022),
        instrumentation=FORCES,
        instrumentation_typed="2[1.2/pic] 2 2 2 - 2 2 - tmp - str",
        duration="c. 12'",
        string_strengths=(8, 6, 4, 4, 2),
        dedication="to the ferrymen",
        text_author="anonymous",
        text_language="la",
        publisher="Slate Editions",
        iswc="T-034.524.680-1",
        ismn="979-0-2600-0043-8",
        parts_on_hire=True,
        programme_note="A *note*.",
        electronics_note="two loudspeakers",
        notes="sketches in box 3",
    )
    Movement.objects.create(work=work, number=2, title="Fast", duration=Duration(200))
    Movement.objects.create(work=work, number=1, title="Slow", attacca=True)
    Commission.objects.create(work=work, name="the Kestrel Ensemble", place="Zurich", funder="Harbour Fund")
    body = make_organisation("Harbour Festival")
    Commission.objects.create(work=work, organisation=body)

    assert gather_work(Work.objects.with_everything_printed().get()) == WorkFacts(
        id=work.pk,
        uid=work.uid,
        composer_id=work.composer_id,
        title=TitleFacts("Étude", "fr", "Этюд", "ru", "Etyud", "Study", "after a map"),
        category=Category.ORCHESTRA,
        status=WorkStatus.WITHDRAWN,
        catalogue_number="12",
        begun=PartialDate(2017),
        completed=PartialDate(2019, 4),
        revised=PartialDate(2021, circa=True),
        published=PartialDate(2022),
        instrumentation=read(FORCES),
        instrumentation_text=FORCES,
        instrumentation_typed="2[1.2/pic] 2 2 2 - 2 2 - tmp - str",
        duration=Duration(720, approximate=True),
        movements=(MovementFacts(1, "Slow", None, True), MovementFacts(2, "Fast", Duration(200), False)),
        commissions=(
            CommissionFacts("the Kestrel Ensemble", "Zurich", "Harbour Fund"),
            CommissionFacts("Harbour Festival", organisation_id=body.pk),
        ),
        dedication="to the ferrymen",
        text_author="anonymous",
        text_language="la",
        publisher="Slate Editions",
        iswc="T-034.524.680-1",
        ismn="979-0-2600-0043-8",
        parts_on_hire=True,
        programme_note="A *note*.",
        electronics_note="two loudspeakers",
        string_strengths=(8, 6, 4, 4, 2),
        notes="sketches in box 3",
    )


def test_work_with_a_title_alone_becomes_facts_without_inventions() -> None:
    work = make_work("Tides")

    assert gather_work(work) == WorkFacts(
        id=work.pk, uid=work.uid, composer_id=work.composer_id, title=TitleFacts("Tides"), category=Category.OTHER
    )


def test_version_names_its_first_version() -> None:
    first = make_work("Tides")
    version = make_work("Tides", version_of=first, version_label="for strings")

    facts = gather_work(version)

    assert (facts.version_of, facts.version_label) == (first.pk, "for strings")


def test_text_that_cannot_be_read_is_told_as_typed() -> None:
    work = make_work(instrumentation="", instrumentation_typed="qwx 7 (?)", duration_typed="quite long")

    facts = gather_work(work)

    assert (facts.instrumentation, facts.instrumentation_text) == (None, "")
    assert (facts.instrumentation_typed, facts.duration, facts.duration_typed) == ("qwx 7 (?)", None, "quite long")


def test_stored_text_that_is_no_longer_read_breaks_nothing() -> None:
    work = make_work(duration="12 min", completed="2019", string_strengths=(8, 6, 4, 4, 2))
    with connection.cursor() as cursor:
        cursor.execute(
            "UPDATE catalogue_work SET duration = '12', completed = '?', string_strengths = 'few',"
            " instrumentation = 'qwx 7 (?)'"
        )

    facts = gather_work(Work.objects.get(pk=work.pk))

    assert (facts.duration, facts.completed, facts.string_strengths) == (None, None, ())
    assert (facts.instrumentation, facts.instrumentation_text) == (None, "qwx 7 (?)")


def test_an_instrumentation_is_read_once() -> None:
    assert reading_of("pf") is reading_of("pf")
    assert reading_of("   ") is None


def test_releases_of_living_works_are_told() -> None:
    work = make_work()
    recording = make_recording(work, released=PartialDate(2021))
    make_recording(work, form="audio", kind="rehearsal")

    assert gather_catalogue(work.composer).recordings == (
        RecordingFacts(work.pk, "Kestrel Ensemble", "Slate Records", "SL 12", PartialDate(2021), id=recording.pk),
    )
