"""Which files a pack has, in the order and under the names that the call asks for, and what it lacks."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass, replace

from django.core.files.storage import Storage

from catalogue.documents.contents.cover_sheet import Setting, cover_sheet
from catalogue.documents.registry import render
from catalogue.models import Composer
from catalogue.packing.files import Stored
from catalogue.packing.lines import Draft, Gap, Line, State
from catalogue.packing.papers import DOCUMENTS, NAMES_YOU, Papers
from catalogue.rules.anonymity import family_names
from catalogue.rules.calls.handing_in import of_the_whole
from catalogue.rules.calls.packs import (
    BY_HAND,
    NAMING,
    OF_EACH_WORK,
    Asked,
    Breach,
    Naming,
    Part,
    Piece,
    asked_of,
    breaches,
    told_apart,
)
from catalogue.rules.calls.submissions import SentWork, SubmissionFacts
from catalogue.rules.calls.terms import RecordingRule


@dataclass(frozen=True, slots=True)
class Plan:
    """A pack before it is made: its lines in order, and the rules of the call that are broken so far."""

    submission: SubmissionFacts
    lines: tuple[Line, ...]
    broken: tuple[Breach, ...]

    @property
    def files(self) -> tuple[Line, ...]:
        return tuple(line for line in self.lines if line.draft is not None)

    @property
    def lacking(self) -> tuple[Line, ...]:
        return tuple(line for line in self.lines if line.is_open)


def plan_pack(composer: Composer, submission: SubmissionFacts, setting: Setting, storage: Storage) -> Plan:
    """Return the pack of a submission as the records have it now; ``storage`` is where files are kept."""
    papers, stored = Papers(composer, submission, setting), Stored(submission, setting, storage)
    lines = tuple(line for asked in asked_of(submission.call) for line in lines_of(asked, submission, papers, stored))
    named = with_names(with_cover(lines, submission, setting), naming_of(submission))
    parts = tuple(replace(line.draft.part, suffix=line.draft.suffix) for line in named if line.draft)
    return Plan(submission, named, (*breaches(submission.call, parts), *of_the_whole(submission)))


def lines_of(asked: Asked, submission: SubmissionFacts, papers: Papers, stored: Stored) -> Iterator[Line]:
    if asked.piece in BY_HAND:
        yield by_hand(asked, submission)
    elif asked.piece is Piece.REFEREES:
        yield referees(asked, submission)
    elif asked.piece in OF_EACH_WORK:
        if not submission.works:
            yield line_of(asked, Gap("No work is chosen yet.", "Choose the works.", "choose"))
        for sent in submission.works:
            for found in of_work(asked.piece, sent, papers, stored):
                yield line_of(asked, found, sent)
    else:
        yield line_of(asked, of_composer(asked.piece, submission, papers, stored))


def line_of(asked: Asked, found: Draft | Gap, sent: SentWork | None = None) -> Line:
    work, id = (sent.work.title.title, sent.work.id) if sent else ("", None)
    if isinstance(found, Gap):
        return Line(asked, found.state, found.reason, work, id, found.mend, found.place)
    return Line(asked, State.IN, found.told, work, id, draft=found)


def of_work(piece: Piece, sent: SentWork, papers: Papers, stored: Stored) -> Iterable[Draft | Gap]:
    if piece is Piece.PARTS:
        return stored.parts(sent)
    if piece is Piece.RECORDING:
        return (wanted_recording(stored.recording(sent), stored.submission.call.recording),)
    one = {Piece.NOTE: papers.note, Piece.RIDER: papers.rider}
    return (one.get(piece, stored.score)(sent),)


def wanted_recording(found: Draft | Gap, rule: RecordingRule | None) -> Draft | Gap:
    """Return the recording; one that is sent only where there is one is left out and does not lack."""
    if isinstance(found, Gap) and rule is RecordingRule.OPTIONAL:
        return replace(found, state=State.LEFT_OUT)
    return found


def of_composer(piece: Piece, submission: SubmissionFacts, papers: Papers, stored: Stored) -> Draft | Gap:
    if submission.call.anonymous and piece in NAMING:
        return NAMES_YOU
    if piece in DOCUMENTS:
        return papers.document(piece)
    if piece is Piece.BIOGRAPHY:
        return papers.biography()
    if piece is Piece.STATEMENT:
        return papers.statement()
    return papers.photograph(stored.storage)


def by_hand(asked: Asked, submission: SubmissionFacts) -> Line:
    if asked.key in submission.by_hand:
        return Line(asked, State.READY, "You have it ready.")
    told = "It is not noted as paid." if asked.piece is Piece.FEE else "It is not made here."
    return Line(asked, State.TO_DO, told, mend="Tick it below when it is ready.")


def referees(asked: Asked, submission: SubmissionFacts) -> Line:
    wanted = submission.call.portal.referees or max(len(submission.letters), 1)
    received = sum(one.received_on is not None for one in submission.letters)
    told = f"{received} of {wanted} letters received."
    if received >= wanted:
        return Line(asked, State.READY, told)
    unasked = wanted - sum(one.asked_on is not None for one in submission.letters)
    mend = f"Ask {unasked} more." if unasked > 0 else "Remind those who have been asked."
    return Line(asked, State.LACKS, told, mend=mend, place="referees")


# ---- names and the cover


def with_cover(lines: tuple[Line, ...], submission: SubmissionFacts, setting: Setting) -> tuple[Line, ...]:
    """Put the cover sheet first, where the call names it or there is more than one file."""
    kept = tuple(line for line in lines if line.piece is not Piece.COVER)
    files = [line for line in kept if line.draft]
    if len(files) < 2 and len(kept) == len(lines):
        return lines
    asked = next((line.asked for line in lines if line.piece is Piece.COVER), Asked(Piece.COVER, "cover sheet"))
    if submission.call.anonymous and not submission.motto:
        gap = Gap("An anonymous pack needs a motto on its cover.", "Choose one below.", "motto")
        return (line_of(asked, gap), *kept)
    names = [named_piece(line) for line in files]
    draft = Draft(
        Part(Piece.COVER), "What is sent, and by whom.", lambda: render(cover_sheet(submission, names, setting), "pdf")
    )
    return (line_of(asked, draft), *kept)


def named_piece(line: Line) -> str:
    """What a file is, in words for the cover.

    >>> named_piece(Line(Asked(Piece.NOTE, "note"), State.IN, "", "Slack Rope"))
    'Note: Slack Rope'
    """
    word = str(line.piece).capitalize()
    return f"{word}: {line.work}" if line.work else word


def naming_of(submission: SubmissionFacts) -> Naming:
    person, call = submission.composer, submission.call
    surname = next(family_names(person.name, person.sort_name), person.name)
    return Naming(call.portal.file_names, person.name, surname, submission.motto, call.anonymous)


def with_names(lines: tuple[Line, ...], naming: Naming) -> tuple[Line, ...]:
    files = [line for line in lines if line.draft]
    names = told_apart(
        naming.file(number, line.piece, line.work, line.draft.suffix if line.draft else "")
        for number, line in enumerate(files, start=1)
    )
    by_line = dict(zip(map(id, files), names, strict=True))
    return tuple(replace(line, file=by_line.get(id(line), "")) for line in lines)
