"""Works and their versions, and the texts and people that belong to them."""

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


class VersionKind(StrEnum):
    """What a version is to the first version; each has forces and a text of its own."""

    REVISION = "revision"
    ARRANGEMENT = "arrangement"
    ORCHESTRATION = "orchestration"
    REDUCTION = "reduction"
    TRANSCRIPTION = "transcription"
    SUITE = "suite"


class ContributorRole(StrEnum):
    """What somebody beside the composer did for a work."""

    CO_COMPOSER = "co-composer"
    LIBRETTIST = "librettist"
    AUTHOR = "author of the text"
    TRANSLATOR = "translator"
    ARRANGER = "arranger"
    ORCHESTRATOR = "orchestrator"
    ELECTRONICS = "electronics"
    EDITOR = "editor"
    PUBLISHER = "publisher"
    OTHER = "other"


class NoteLength(StrEnum):
    """For what a text is long enough; how many words each may have stands in ``rules/texts.py``."""

    LINE = "one line"
    SHORT = "short"
    MEDIUM = "medium"
    LONG = "long"


class NotePurpose(StrEnum):
    """For whom a note in front of the music is written."""

    PLAYING = "for playing"
    OPERATING = "for the sound operator"
    PRACTISING = "for practising"


class Clearance(StrEnum):
    """Whether a text may be set, printed and sung."""

    NOT_ASKED = "not asked"
    ASKED = "asked"
    GRANTED = "granted"
    REFUSED = "refused"
    PUBLIC_DOMAIN = "public domain"
    OWN_TEXT = "own text"
