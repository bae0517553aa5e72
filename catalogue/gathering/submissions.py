"""Submissions as facts: the works that are sent, what there is of each, the texts and the referees."""

from __future__ import annotations

from collections.abc import Iterable

from catalogue.gathering.people import gather_composer
from catalogue.gathering.records import gather_records_of_composer, gather_records_of_works
from catalogue.gathering.works import gather_work
from catalogue.models import Call, Reference, StoredFile, Submission, SubmittedWork, Work
from catalogue.record_facts import WorkRecords
from catalogue.rules.calls.submissions import FileFacts, Letter, SentWork, SubmissionFacts
from catalogue.terms import FileKind, PictureKind, SubmissionStatus


def gather_submission(call: Call) -> SubmissionFacts:
    """Return what is sent to a call, an empty draft where nothing is noted yet; the same queries for any number."""
    submission = Submission.objects.filter(call=call).first()
    around = gather_records_of_composer(call.composer)
    portraits = tuple(one for one in around.pictures if one.kind is PictureKind.PORTRAIT and one.person_id is None)
    lives = tuple(one for one in around.biographies if one.person_id is None)
    composer = gather_composer(call.composer)
    if submission is None:
        return SubmissionFacts(call.asks, composer, call.title, lives=lives, portraits=portraits)
    return SubmissionFacts(
        call=call.asks,
        composer=composer,
        title=call.title,
        status=SubmissionStatus(submission.status),
        sent_on=submission.sent_on,
        language=submission.language,
        motto=submission.motto,
        statement=submission.statement,
        by_hand=frozenset(map(str, submission.by_hand)),
        works=gather_sent_works(submission),
        letters=tuple(map(gather_letter, letters_of(submission))),
        lives=lives,
        portraits=portraits,
    )


def gather_sent_works(submission: Submission) -> tuple[SentWork, ...]:
    rows = list(submission.works.order_by("order", "pk"))
    works = Work.objects.filter(pk__in=[row.work_id for row in rows]).with_everything_printed()
    by_key = {work.pk: work for work in works}
    records = gather_records_of_works(by_key.values())
    files = gather_files(by_key)
    return tuple(
        sent(row, by_key[row.work_id], records[row.work_id], files.get(row.work_id, ()))
        for row in rows
        if row.work_id in by_key
    )


def gather_files(works: Iterable[int]) -> dict[int | None, tuple[FileFacts, ...]]:
    """Return the files that are kept of these works; one query."""
    found: dict[int | None, tuple[FileFacts, ...]] = {}
    for file in StoredFile.objects.filter(work__in=list(works)).order_by("pk"):
        told = FileFacts(
            file.pk, FileKind(file.kind), file.sha256, file.suffix, file.byte_count, str(file), file.version,
            file.edition_id, file.recording_id,
        )  # fmt: skip
        found[file.work_id] = (*found.get(file.work_id, ()), told)
    return found


def sent(row: SubmittedWork, work: Work, records: WorkRecords, files: tuple[FileFacts, ...]) -> SentWork:
    return SentWork(
        gather_work(work),
        notes=records.programme_notes,
        recordings=records.recordings,
        editions=records.editions,
        files=files,
        note_id=row.note_id,
        recording_id=row.recording_id,
        edition_id=row.edition_id,
        cover_pages=row.cover_pages,
    )


def letters_of(submission: Submission) -> list[Reference]:
    """Return the letters whose referees have not been deleted."""
    kept = submission.references.filter(referee__deleted_at__isnull=True)
    return list(kept.select_related("referee").order_by("pk"))


def gather_letter(letter: Reference) -> Letter:
    referee = letter.referee
    return Letter(
        letter.pk, referee.pk, referee.name, referee.position, referee.institution, referee.email,
        letter.asked_on, letter.agreed_on, letter.received_on,
    )  # fmt: skip
