"""Works as facts."""

from __future__ import annotations

from catalogue.facts import CommissionFacts, MovementFacts, RecordingFacts, TitleFacts, WorkFacts
from catalogue.gathering.columns import facts_of
from catalogue.gathering.readings import readable, reading_of
from catalogue.models import Commission, Edition, Movement, Recording, Work
from catalogue.terms import Category, VersionKind, WorkStatus
from catalogue.timing import PartialDate


def gather_work(work: Work) -> WorkFacts:
    """Return the facts of one work; no query where it comes from ``with_everything_printed``."""
    return WorkFacts(
        id=work.pk,
        uid=work.uid,
        composer_id=work.composer_id,
        title=title_of(work),
        category=Category(work.category),
        status=WorkStatus(work.status),
        catalogue_number=work.catalogue_number,
        begun=readable(work.begun, None),
        completed=readable(work.completed, None),
        revised=readable(work.revised, None),
        published=readable(work.published, None),
        instrumentation=reading_of(work.instrumentation),
        instrumentation_text=work.instrumentation,
        instrumentation_typed=work.instrumentation_typed,
        duration=readable(work.duration, None),
        duration_typed=work.duration_typed,
        least_duration=readable(work.least_duration, None),
        most_duration=readable(work.most_duration, None),
        movements=movements_of(work),
        commissions=commissions_of(work),
        dedication=work.dedication,
        text_author=work.text_author,
        text_language=work.text_language,
        publisher=work.publisher,
        iswc=work.iswc,
        ismn=work.ismn,
        parts_on_hire=work.parts_on_hire,
        programme_note=work.programme_note,
        electronics_note=work.electronics_note,
        version_of=work.version_of_id,
        version_label=work.version_label,
        version_kind=VersionKind(work.version_kind) if work.version_kind else None,
        string_strengths=readable(work.string_strengths, ()),
        notes=work.notes,
    )


def title_of(work: Work) -> TitleFacts:
    return TitleFacts(
        title=work.title,
        language=work.title_language,
        original=work.original_title,
        original_language=work.original_language,
        transliteration=work.transliteration,
        translated=work.translated_title,
        subtitle=work.subtitle,
    )


def movements_of(work: Work) -> tuple[MovementFacts, ...]:
    """Return the movements of a work in their order."""
    in_order = sorted(work.movements.all(), key=lambda movement: movement.number)
    return tuple(gather_movement(movement) for movement in in_order)


def gather_movement(movement: Movement) -> MovementFacts:
    return MovementFacts(movement.number, movement.title, readable(movement.duration, None), movement.attacca)


def commissions_of(work: Work) -> tuple[CommissionFacts, ...]:
    in_order = sorted(work.commissions.all(), key=lambda commission: commission.pk)
    return tuple(gather_commission(commission) for commission in in_order)


def gather_commission(commission: Commission) -> CommissionFacts:
    return CommissionFacts(
        body=commission.body,
        place=commission.place,
        funder=commission.funder,
        agreed=readable(commission.agreed, None),
        due=readable(commission.due, None),
        delivered=readable(commission.delivered, None),
        organisation_id=commission.organisation_id,
    )


def gather_recording(recording: Recording) -> RecordingFacts:
    """Return the facts of a recording."""
    return facts_of(RecordingFacts, recording)


def published_dates(work: Work) -> list[PartialDate]:
    """Return when the editions of a work were published, as far as that can be read; one query."""
    days = Edition.objects.filter(work=work, published__isnull=False).order_by("pk").values_list("published", flat=True)
    return [day for one in days if (day := readable(one, None)) is not None]
