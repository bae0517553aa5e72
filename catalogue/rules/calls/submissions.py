"""What is sent to a call, as plain values: its works with what there is of each, its texts, the referees' letters."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date

from catalogue.facts import ComposerFacts, RecordingFacts, WorkFacts
from catalogue.record_facts import BiographyFacts, EditionFacts, PictureFacts, ProgrammeNoteFacts
from catalogue.rules.calls.terms import Call
from catalogue.terms import FileKind, Permission, SubmissionStatus

CUT = ("wav", "mp3", "aiff", "flac")
"""Files of sound that are cut to their excerpt in a pack and lose their tags; of others the cover tells what is to be
heard, and their tags stay.
"""


@dataclass(frozen=True, slots=True)
class FileFacts:
    """A file that is kept: what it is of, and its content by its SHA-256 and its ``suffix``."""

    id: int
    kind: FileKind
    sha256: str
    suffix: str
    size: int
    name: str = ""
    version: str = ""
    edition_id: int | None = None
    recording_id: int | None = None

    @property
    def told(self) -> str:
        return ", ".join(part for part in (self.name, self.version) if part)


@dataclass(frozen=True, slots=True)
class SentWork:
    """A work that is sent: what there is of it, and the ids of what the composer has chosen to send."""

    work: WorkFacts
    notes: tuple[ProgrammeNoteFacts, ...] = ()
    recordings: tuple[RecordingFacts, ...] = ()
    editions: tuple[EditionFacts, ...] = ()
    files: tuple[FileFacts, ...] = ()
    note_id: int | None = None
    recording_id: int | None = None
    edition_id: int | None = None
    cover_pages: int = 0
    has_rider: bool = False
    was_played: bool = False

    @property
    def recording(self) -> RecordingFacts | None:
        """The recording that is sent: the chosen one, else of those that may be one whose file is kept before others,
        then one with an excerpt.
        """
        for one in self.recordings:
            if one.id == self.recording_id:
                return one
        allowed = [one for one in self.recordings if one.permission is not Permission.REFUSED]
        kept = {one.recording_id for one in self.files}
        return min(allowed, key=lambda one: (one.id not in kept, one.excerpt_from is None), default=None)

    @property
    def score(self) -> FileFacts | None:
        """The score that is sent: of the chosen edition, a PDF before others, the latest that was kept."""
        return max(
            (one for one in self.files if one.kind is FileKind.SCORE),
            key=lambda one: (self.is_of_edition(one), one.suffix == "pdf", one.id),
            default=None,
        )

    @property
    def parts(self) -> tuple[FileFacts, ...]:
        """The files of the parts, those of the chosen edition alone where it has any."""
        found = [one for one in self.files if one.kind is FileKind.PARTS]
        return tuple([one for one in found if self.is_of_edition(one)] or found)

    @property
    def sound(self) -> FileFacts | None:
        """The latest file of the recording that is sent."""
        if self.recording is None:
            return None
        found = (one for one in self.files if one.recording_id == self.recording.id)
        return max(found, key=lambda one: one.id, default=None)

    def is_of_edition(self, file: FileFacts) -> bool:
        return self.edition_id is not None and file.edition_id == self.edition_id


@dataclass(frozen=True, slots=True)
class Letter:
    """A referee's letter and how far it has come."""

    id: int
    referee_id: int
    name: str
    position: str = ""
    institution: str = ""
    email: str = ""
    asked_on: date | None = None
    agreed_on: date | None = None
    received_on: date | None = None


@dataclass(frozen=True, slots=True)
class SubmissionFacts:
    """A submission to a ``call``; without a record of its own it is an empty draft."""

    call: Call
    composer: ComposerFacts
    title: str = ""
    status: SubmissionStatus = SubmissionStatus.DRAFT
    sent_on: date | None = None
    language: str = ""
    motto: str = ""
    statement: str = ""
    by_hand: frozenset[str] = frozenset()
    works: tuple[SentWork, ...] = ()
    letters: tuple[Letter, ...] = ()
    lives: tuple[BiographyFacts, ...] = ()
    portraits: tuple[PictureFacts, ...] = ()

    @property
    def signed(self) -> str:
        """The name under which it goes: the motto where the call is anonymous."""
        return self.motto if self.call.anonymous else self.composer.name


def heard_seconds(recording: RecordingFacts) -> int | None:
    """Return how long a jury hears of a recording: its excerpt, else all of it.

    >>> heard_seconds(RecordingFacts(1, "A trio", excerpt_from=60, excerpt_until=240))
    180
    """
    whole = recording.duration.seconds if recording.duration else None
    begins, ends = recording.excerpt_from or 0, recording.excerpt_until or whole
    return None if ends is None else max(ends - begins, 0)
