"""What is sent to a call, as plain values: its works with what there is of each, its texts, the referees' letters."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date

from catalogue.facts import ComposerFacts, RecordingFacts, WorkFacts
from catalogue.record_facts import BiographyFacts, EditionFacts, PictureFacts, ProgrammeNoteFacts
from catalogue.rules.calls.terms import Call
from catalogue.terms import Permission, SubmissionStatus


@dataclass(frozen=True, slots=True)
class SentWork:
    """A work that is sent: what there is of it, and the ids of what the composer has chosen to send."""

    work: WorkFacts
    notes: tuple[ProgrammeNoteFacts, ...] = ()
    recordings: tuple[RecordingFacts, ...] = ()
    editions: tuple[EditionFacts, ...] = ()
    note_id: int | None = None
    recording_id: int | None = None
    edition_id: int | None = None
    cover_pages: int = 0

    @property
    def recording(self) -> RecordingFacts | None:
        """The recording that is sent: the chosen one, else the first that may be, one with an excerpt before others."""
        for one in self.recordings:
            if one.id == self.recording_id:
                return one
        allowed = [one for one in self.recordings if one.permission is not Permission.REFUSED]
        return min(allowed, key=lambda one: one.excerpt_from is None, default=None)


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
