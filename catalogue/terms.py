"""The words that code branches on: categories, kinds, states, extents.

Each is stored by its value; what a reader sees comes from the word tables of pages and documents.
Words that are only printed live in tables, not here.
"""

from __future__ import annotations

from enum import StrEnum


class Category(StrEnum):
    """Where a work stands in a works list, in the usual order of a printed list (common practice)."""

    STAGE = "stage"
    ORCHESTRA = "orchestra"
    SOLOIST_AND_ORCHESTRA = "soloist and orchestra"
    LARGE_ENSEMBLE = "large ensemble"
    CHAMBER = "chamber"
    SOLO = "solo"
    CHOIR = "choir"
    VOICE = "voice"
    ELECTRONICS = "electronics"
    INSTALLATION = "installation"
    OTHER = "other"


class WorkStatus(StrEnum):
    """Whether a work stands on public lists."""

    ACTIVE = "active"
    IN_PROGRESS = "in progress"
    WITHDRAWN = "withdrawn"
    JUVENILE = "juvenile"


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


class Extent(StrEnum):
    """How much of the work was played."""

    COMPLETE = "complete"
    PARTIAL = "partial"
    EXCERPT = "excerpt"
    SUITE = "suite"


class OrganisationKind(StrEnum):
    """What an organisation is to the composer; one may be several."""

    ENSEMBLE = "ensemble"
    ORCHESTRA = "orchestra"
    CHOIR = "choir"
    PRESENTER = "presenter"
    FESTIVAL = "festival"
    PUBLISHER = "publisher"
    FUNDER = "funder"
    BROADCASTER = "broadcaster"
    UNIVERSITY = "university"
    OTHER = "other"


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


class Role(StrEnum):
    """What a member may do with a composer's catalogue."""

    OWNER = "owner"
    EDITOR = "editor"
    VIEWER = "viewer"
