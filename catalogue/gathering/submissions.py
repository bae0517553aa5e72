"""Submissions as facts: the works that are sent, what there is of each, the texts and the referees."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable, Sequence

from catalogue.gathering.people import gather_composer
from catalogue.gathering.records import gather_records_of_composer, gather_records_of_works
from catalogue.gathering.works import gather_work
from catalogue.models import (
    Call,
    Composer,
    ProgrammedWork,
    Reference,
    Rider,
    StoredFile,
    Submission,
    SubmittedWork,
    Work,
)
from catalogue.rules.calls.submissions import FileFacts, Letter, SentWork, SubmissionFacts
from catalogue.terms import FileKind, PerformanceStatus, PictureKind, SubmissionStatus


def gather_submission(call: Call) -> SubmissionFacts:
    """Return what is sent to a call, an empty draft where nothing is noted yet."""
    return gather_submissions(call.composer, [call])[call.pk]


def gather_submissions(composer: Composer, calls: Sequence[Call]) -> dict[int, SubmissionFacts]:
    """Return what is sent to each of a composer's calls, by the calls' ids; the same queries for any number."""
    around = gather_records_of_composer(composer)
    portraits = tuple(one for one in around.pictures if one.kind is PictureKind.PORTRAIT and one.person_id is None)
    lives = tuple(one for one in around.biographies if one.person_id is None)
    person = gather_composer(composer)
    submissions = {one.call_id: one for one in Submission.objects.filter(call__in=calls)}
    works = gather_sent_works(submissions.values())
    letters = gather_letters(submissions.values())
    found: dict[int, SubmissionFacts] = {}
    for call in calls:
        submission = submissions.get(call.pk) or Submission(call=call)
        found[call.pk] = SubmissionFacts(
            call=call.asks,
            composer=person,
            title=call.title,
            status=SubmissionStatus(submission.status),
            sent_on=submission.sent_on,
            language=submission.language,
            motto=submission.motto,
            statement=submission.statement,
            by_hand=frozenset(map(str, submission.by_hand)),
            works=works.get(submission.pk, ()),
            letters=letters.get(submission.pk, ()),
            lives=lives,
            portraits=portraits,
        )
    return found


def gather_sent_works(submissions: Iterable[Submission]) -> dict[int | None, tuple[SentWork, ...]]:
    """Return the works of each submission in their order, with what there is of each."""
    rows = list(SubmittedWork.objects.filter(submission__in=list(submissions)).order_by("order", "pk"))
    keys = {row.work_id for row in rows}
    works = {work.pk: work for work in Work.objects.filter(pk__in=keys).with_everything_printed()}
    records, files = gather_records_of_works(works.values()), gather_files(works)
    ridden = set(Rider.objects.filter(work__in=keys).values_list("work_id", flat=True))
    given = ProgrammedWork.objects.filter(work__in=keys, performance__status=PerformanceStatus.GIVEN)
    played = set(given.filter(performance__deleted_at__isnull=True).values_list("work_id", flat=True))
    told = {key: gather_work(work) for key, work in works.items()}
    found: dict[int | None, list[SentWork]] = defaultdict(list)
    for row in rows:
        if row.work_id in told:
            around = records[row.work_id]
            sent = SentWork(
                told[row.work_id],
                notes=around.programme_notes,
                recordings=around.recordings,
                editions=around.editions,
                files=files.get(row.work_id, ()),
                note_id=row.note_id,
                recording_id=row.recording_id,
                edition_id=row.edition_id,
                cover_pages=row.cover_pages,
                has_rider=row.work_id in ridden,
                was_played=row.work_id in played,
            )
            found[row.submission_id].append(sent)
    return {key: tuple(one) for key, one in found.items()}


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


def gather_letters(submissions: Iterable[Submission]) -> dict[int | None, tuple[Letter, ...]]:
    """Return the letters of each submission whose referees have not been deleted; one query."""
    kept = Reference.objects.filter(submission__in=list(submissions), referee__deleted_at__isnull=True)
    found: dict[int | None, tuple[Letter, ...]] = {}
    for letter in kept.select_related("referee").order_by("pk"):
        referee = letter.referee
        told = Letter(
            letter.pk, referee.pk, referee.name, referee.position, referee.institution, referee.email,
            letter.asked_on, letter.agreed_on, letter.received_on,
        )  # fmt: skip
        found[letter.submission_id] = (*found.get(letter.submission_id, ()), told)
    return found
