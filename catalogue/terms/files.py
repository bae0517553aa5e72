"""Recordings, pictures and files that are kept."""

from __future__ import annotations

from enum import StrEnum


class RecordingKind(StrEnum):
    """How a recording came about; a rendered one is made by a computer from the score."""

    LIVE = "live"
    STUDIO = "studio"
    REHEARSAL = "rehearsal"
    RENDERED = "rendered"


class RecordingForm(StrEnum):
    """In what form a recording is there; only a release is cited in lists."""

    AUDIO = "audio"
    VIDEO = "video"
    RELEASE = "release"


class Permission(StrEnum):
    """With whom something may be shared, as those who are heard or seen in it have said."""

    NOT_ASKED = "not asked"
    REFUSED = "refused"
    APPLICATIONS = "for applications"
    PUBLIC = "public"


class PictureKind(StrEnum):
    """What a picture shows."""

    PORTRAIT = "portrait"
    PERFORMANCE = "performance"
    SCORE_PAGE = "score page"
    DIAGRAM = "diagram"
    LOGO = "logo"
    OTHER = "other"


class FileKind(StrEnum):
    """What a file that is kept is of a work, or of the catalogue."""

    SCORE = "score"
    PARTS = "parts"
    RECORDING = "recording"
    MEDIA = "media"
    PROGRAMS = "programs"
    OTHER = "other"
