"""Performances and what happens around them, calls among it, and which of it calendars tell."""

from __future__ import annotations

from enum import StrEnum


class PerformanceKind(StrEnum):
    """What sort of event it is; a rehearsal or reading is never a first performance."""

    CONCERT = "concert"
    STAGE = "stage"
    BROADCAST = "broadcast"
    PREVIEW = "preview"
    READING = "reading"
    WORKSHOP = "workshop"
    STUDENT_RECITAL = "student recital"
    RECORDING_SESSION = "recording session"
    INSTALLATION = "installation"


class Audience(StrEnum):
    """Who was let in."""

    PUBLIC = "public"
    PRIVATE = "private"
    INVITED = "invited"
    PUBLIC_REHEARSAL = "public rehearsal"


class CalendarHolds(StrEnum):
    """What stands in a calendar that programs subscribe to."""

    EVERYTHING = "everything"
    PERFORMANCES = "performances"
    DEADLINES = "deadlines"


class PerformanceStatus(StrEnum):
    """What has become of it. GIVEN and CONFIRMED events may be firsts; the rest never are."""

    PLANNED = "planned"
    CONFIRMED = "confirmed"
    GIVEN = "given"
    POSTPONED = "postponed"
    CANCELLED = "cancelled"
    WITHDRAWN = "withdrawn"
    OLD_STYLE_DATE = "old-style date"
    DUPLICATE = "duplicate"


class StepKind(StrEnum):
    """What has to happen around a performance, in the order in which it is told; OTHER is named by its label."""

    CONTRACT = "contract"
    RIDER = "rider"
    PARTS = "parts"
    TEXTS = "note and biography"
    STREAM = "stream permission"
    RECORDING_REQUEST = "recording request"
    TRAVEL = "travel"
    ELECTRONICS = "electronics test"
    LASTED = "duration as played"
    THANKS = "thanks"
    SET_BACK = "set back"
    RECORDING = "recording received"
    REVIEW = "review"
    RETURN = "return"
    OTHER = "other"


class DeadlineKind(StrEnum):
    """What a day in the list of all deadlines is about, in the order in which it is told."""

    STEP = "step"
    RECORD = "record"
    RETURN = "return"
    SET = "set"
    CALL = "call"


class StepState(StrEnum):
    """What somebody has said of a step; an open one is late once its day is over."""

    OPEN = "open"
    DONE = "done"
    NOT_NEEDED = "not needed"


class SessionKind(StrEnum):
    """What belongs to a performance at an hour of its own."""

    REHEARSAL = "rehearsal"
    DRESS_REHEARSAL = "dress rehearsal"
    GET_IN = "get-in"
    LINE_CHECK = "line check"
    TALK = "talk"
    OTHER = "other"


class Extent(StrEnum):
    """How much of the work was played."""

    COMPLETE = "complete"
    PARTIAL = "partial"
    EXCERPT = "excerpt"
    SUITE = "suite"


class PerformerRole(StrEnum):
    """What a performer did; an instrument or voice is named beside SOLOIST."""

    ENSEMBLE = "ensemble"
    CONDUCTOR = "conductor"
    SOLOIST = "soloist"
    PERFORMER = "performer"
    CHORUS_MASTER = "chorus master"
    DIRECTOR = "director"
    ELECTRONICS = "electronics"
    NARRATOR = "narrator"


class SubmissionStatus(StrEnum):
    """How far what is sent to a call has come."""

    DRAFT = "draft"
    SENT = "sent"
    CHOSEN = "chosen"
    NOT_CHOSEN = "not chosen"
    WITHDRAWN = "withdrawn"

    @property
    def is_decided(self) -> bool:
        """Whether nothing is to be done or waited for any more."""
        return self in (SubmissionStatus.CHOSEN, SubmissionStatus.NOT_CHOSEN, SubmissionStatus.WITHDRAWN)
