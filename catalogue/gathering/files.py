"""Files that are kept, with what was found in them when they came, and what of that does not agree with the records."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import asdict, dataclass
from typing import Any

from catalogue.gathering.technical import gather_setup
from catalogue.models import MaterialRequirements, Recording, StoredFile
from catalogue.rules.preflight import Asked, Offered, against, read_papers, untold
from catalogue.rules.technical.files import (
    PageSize,
    PdfFacts,
    SaidOfRecording,
    SoundFacts,
    against_recording,
    against_setup,
    doubts_about_pdf,
    doubts_about_sound,
)
from catalogue.terms import FileKind
from catalogue.timing import Duration

Found = SoundFacts | PdfFacts | None
SOUND, SCORE = "sound", "score"


def kept_values(found: Found) -> dict[str, Any]:
    """Return what was found as it is kept, plain values under the name of their sort; nothing where it is nothing."""
    if found is None:
        return {}
    return {SOUND if isinstance(found, SoundFacts) else SCORE: asdict(found)}


def found_in(record: StoredFile) -> Found:
    """Return what was found in a file when it came."""
    sound, score = record.found.get(SOUND), record.found.get(SCORE)
    if sound:
        return SoundFacts(**{**sound, "tags": tuple((name, text) for name, text in sound["tags"])})
    if not score:
        return None
    lists = {name: tuple(score[name]) for name in ("loose_fonts", "blank", "turned", "bookmarks")}
    return PdfFacts(**{**score, **lists, "sizes": tuple(PageSize(**one) for one in score["sizes"])})


def doubts_about_file(record: StoredFile) -> Iterator[str]:
    """Give what of a file does not agree with its setup, its recording or its edition, a sentence each."""
    found = found_in(record)
    if isinstance(found, SoundFacts):
        yield from doubts_about_sound(found)
        if record.setup is not None:
            setup = gather_setup(record.setup)
            yield from against_setup(found, name=record.original_name, sha256=record.sha256, setup=setup)
        if record.recording is not None:
            yield from against_recording(found, said_of(record.recording))
    elif isinstance(found, PdfFacts):
        is_whole = record.edition is not None and record.kind == FileKind.SCORE
        yield from doubts_about_pdf(found, record.edition.pages if is_whole and record.edition else None)


@dataclass(frozen=True, slots=True)
class HeldAgainst:
    """What one presenter asks, with what of a file does not answer it, and what cannot be told of it."""

    asked: MaterialRequirements
    wrong: tuple[str, ...]
    untold: tuple[str, ...]


def held_against_requirements(record: StoredFile) -> Iterator[HeldAgainst]:
    """Hold a score or a part against what each presenter asks of such material; one query."""
    found = found_in(record)
    if not isinstance(found, PdfFacts) or record.kind not in (FileKind.SCORE, FileKind.PARTS):
        return
    edition = record.edition
    offered = Offered(
        record.original_name,
        found,
        stave_height=edition.stave_height if edition else None,
        binding=edition.binding if edition else "",
    )
    ours = MaterialRequirements.objects.filter(composer=record.composer_id, material__in=("", record.kind))
    for one in ours.select_related("organisation").order_by("pk"):
        asked = asked_by(one)
        locked = found.is_locked
        yield HeldAgainst(one, tuple(against(asked, offered)), () if locked else tuple(untold(asked, offered)))


def asked_by(record: MaterialRequirements) -> Asked:
    return Asked(
        papers=read_papers(record.papers),
        stave_least=record.stave_least,
        stave_most=record.stave_most,
        binding=record.binding,
        file_names=record.file_names,
        bookmarks=record.bookmarks,
    )


def said_of(recording: Recording) -> SaidOfRecording:
    duration = recording.duration if isinstance(recording.duration, Duration) else None
    return SaidOfRecording(
        duration.seconds if duration else None,
        is_approximate=bool(duration and duration.approximate),
        excerpt_until=recording.excerpt_until,
    )
