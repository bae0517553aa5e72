"""The records around works and the composer as facts; the number of queries does not grow with them."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Callable, Iterable
from typing import Any

from django.db import models
from django.db.models import F

from catalogue.gathering.columns import facts_of
from catalogue.gathering.works import gather_commission, gather_recording
from catalogue.models import (
    Award,
    Biography,
    Commission,
    Composer,
    ContactPerson,
    Contributor,
    Edition,
    NotationSign,
    PercussionInstrument,
    PerformanceNote,
    Picture,
    ProgrammeNote,
    Recording,
    Retuning,
    Review,
    TextSource,
    TuningSystem,
    Work,
)
from catalogue.record_facts import (
    AwardFacts,
    BiographyFacts,
    ComposerRecords,
    ContactFacts,
    ContributorFacts,
    EditionFacts,
    PercussionFacts,
    PerformanceNoteFacts,
    PictureFacts,
    ProgrammeNoteFacts,
    RetuningFacts,
    ReviewFacts,
    SignFacts,
    TextSourceFacts,
    TuningFacts,
    WorkRecords,
)
from catalogue.rules.texts import count_words, length_of
from catalogue.terms import NoteLength, SignGroup

LATEST_FIRST = F("date").desc(nulls_last=True)
SIGN_ORDER = {group.value: place for place, group in enumerate(SignGroup)}


def of_class(facts: type[Any]) -> Callable[[Any], Any]:
    return lambda record: facts_of(facts, record)


def gather_note(note: ProgrammeNote) -> ProgrammeNoteFacts:
    return facts_of(ProgrammeNoteFacts, note)


def gather_biography(biography: Biography) -> BiographyFacts:
    return facts_of(BiographyFacts, biography, about=biography.person.name if biography.person else "")


# field of WorkRecords, records, their order, how each becomes facts
OF_WORK: tuple[tuple[str, type[models.Model], tuple[Any, ...], Callable[[Any], Any]], ...] = (
    ("contributors", Contributor, ("position", "pk"), of_class(ContributorFacts)),
    ("commissions", Commission, ("pk",), gather_commission),
    ("programme_notes", ProgrammeNote, ("pk",), gather_note),
    ("performance_notes", PerformanceNote, ("position", "pk"), of_class(PerformanceNoteFacts)),
    ("percussion", PercussionInstrument, ("player", "position", "pk"), of_class(PercussionFacts)),
    ("signs", NotationSign, ("position", "pk"), of_class(SignFacts)),
    ("tunings", TuningSystem, ("pk",), of_class(TuningFacts)),
    ("retunings", Retuning, ("position", "pk"), of_class(RetuningFacts)),
    ("editions", Edition, ("pk",), of_class(EditionFacts)),
    ("text_sources", TextSource, ("pk",), of_class(TextSourceFacts)),
    ("recordings", Recording, ("pk",), gather_recording),
    ("awards", Award, (LATEST_FIRST, "pk"), of_class(AwardFacts)),
    ("reviews", Review, (LATEST_FIRST, "pk"), of_class(ReviewFacts)),
    ("pictures", Picture, ("pk",), of_class(PictureFacts)),
)
NAMED = {
    Contributor: ("person", "organisation"),
    Commission: ("organisation",),
    Edition: ("publisher",),
    Award: ("body",),
}  # fmt: skip


def gather_records_of_works(works: Iterable[Work]) -> dict[int, WorkRecords]:
    """Return what is recorded around each of these works; fourteen queries, however many works."""
    by_key = {work.pk: work for work in works}
    found: dict[int, dict[str, list[Any]]] = {key: defaultdict(list) for key in by_key}
    for name, model, order, gather in OF_WORK:
        manager: Any = model._default_manager
        rows = manager.filter(work__in=list(by_key)).order_by("work", *order)
        for record in rows.select_related(*NAMED[model]) if model in NAMED else rows:
            found[record.work_id][name].append(gather(record))
    return {key: work_records(work, found[key]) for key, work in by_key.items()}


def gather_records_of_work(work: Work) -> WorkRecords:
    """Return what is recorded around one work; fourteen queries."""
    return gather_records_of_works([work])[work.pk]


def work_records(work: Work, found: dict[str, list[Any]]) -> WorkRecords:
    """Put together the records of a work; its own programme note comes first, signs stand group by group."""
    found["signs"].sort(key=lambda sign: SIGN_ORDER[sign.group])
    own = (own_note(work),) if work.programme_note.strip() else ()
    notes = (*own, *found.pop("programme_notes", ()))
    return WorkRecords(work.pk, programme_notes=notes, **{name: tuple(facts) for name, facts in found.items()})


def own_note(work: Work) -> ProgrammeNoteFacts:
    text = work.programme_note
    return ProgrammeNoteFacts(None, text, length_of(text), words=count_words(text))


def gather_records_of_composer(composer: Composer) -> ComposerRecords:
    """Return what is recorded around the composer; five queries."""
    return ComposerRecords(
        composer_id=composer.pk,
        biographies=(*own_biographies(composer), *map(gather_biography, of_composer(Biography, composer, "person"))),
        awards=tuple(facts_of(AwardFacts, one) for one in of_composer(Award, composer, "body", order=LATEST_FIRST)),
        reviews=tuple(facts_of(ReviewFacts, one) for one in of_composer(Review, composer, order=LATEST_FIRST)),
        pictures=tuple(facts_of(PictureFacts, one) for one in of_composer(Picture, composer)),
        contacts=tuple(facts_of(ContactFacts, one) for one in of_composer(ContactPerson, composer, order="name")),
    )


def of_composer(model: Any, composer: Composer, *named: str, order: Any = "pk") -> Any:
    rows = model.objects.filter(composer=composer).order_by(order, "pk")
    return rows.select_related(*named) if named else rows


def own_biographies(composer: Composer) -> tuple[BiographyFacts, ...]:
    """Return the two biographies that the profile holds, the short one first, as far as they are written."""
    held = ((composer.short_biography, NoteLength.SHORT), (composer.biography, NoteLength.LONG))
    return tuple(
        BiographyFacts(None, text, length, language=composer.language, words=count_words(text))
        for text, length in held
        if text.strip()
    )
