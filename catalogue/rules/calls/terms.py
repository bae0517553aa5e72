"""What a call asks for, as plain values; ``None`` and an empty text are what it does not say."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date, datetime
from enum import StrEnum


class CallKind(StrEnum):
    """What is to be won or had."""

    CALL = "call"
    COMPETITION = "competition"
    READING = "reading"
    RESIDENCY = "residency"
    GRANT = "grant"
    DEGREE = "degree"


class ForcesRule(StrEnum):
    """How the forces of a call bind: as a maximum, exactly, as a body to choose from, or not at all."""

    AT_MOST = "at most"
    EXACTLY = "exactly"
    ANY_SUBSET = "any subset of"
    ANY = "any"


class Electronics(StrEnum):
    """Whether works with electronics may, must or must not be sent."""

    EXCLUDED = "excluded"
    ALLOWED = "allowed"
    REQUIRED = "required"


class ElectronicsKind(StrEnum):
    """The one kind of electronics that a call admits, where it refuses the other."""

    FIXED = "fixed media"
    LIVE = "live electronics"


class RecordingRule(StrEnum):
    """What a call says about a recording sent along; forbidden is stronger than not wanted."""

    REQUIRED = "required"
    OPTIONAL = "optional"
    NOT_WANTED = "not wanted"
    FORBIDDEN = "forbidden"


class TextRights(StrEnum):
    """What the words that a work sets must be: free of rights, the composer's own, or cleared with their holders."""

    PUBLIC_DOMAIN = "in the public domain"
    OWN = "in the public domain or your own"
    CLEARED = "in the public domain or cleared"


class Basis(StrEnum):
    """Which date of a work a limit looks at: begun to completed, or completed alone."""

    COMPOSED = "composed"
    COMPLETED = "completed"


class Versions(StrEnum):
    """What a call says of versions and arrangements of an earlier work, and of revisions."""

    UNSAID = ""
    EXCLUDED = "excluded"
    KEEP_FIRST_DATE = "keep the first date"
    COUNT_AS_NEW = "count as new"


class Players(StrEnum):
    """Whose performances a rule on novelty looks at."""

    ANYONE = "anyone"
    PROFESSIONALS = "professionals"
    ORCHESTRA = "an orchestra"
    PROFESSIONAL_ORCHESTRA = "a professional orchestra"


@dataclass(frozen=True, slots=True)
class Novelty:
    """What must not have happened to a work: performances by whom, before whom, where.

    ``closed``: readings, workshops and events without an audience count too. ``open_rehearsals``: open rehearsals
    count. ``students``: performances by students and amateurs count. ``planned``: what is fixed for later counts.
    ``country``: only performances in this state, ISO 3166-1 alpha-2.
    """

    by: Players = Players.ANYONE
    closed: bool = False
    open_rehearsals: bool = False
    students: bool = True
    planned: bool = False
    country: str = ""


@dataclass(frozen=True, slots=True)
class SetRule:
    """A rule on the works sent together: at least ``least`` of them of this ``kind``; ``players`` for large ones."""

    kind: str
    least: int = 1
    players: int | None = None
    text: str = ""


@dataclass(frozen=True, slots=True)
class Forces:
    """The players that a call offers: one text for each alternative, in the usual shorthand.

    ``extra_players`` may come in beside them, on whatever instrument the work needs.
    """

    texts: tuple[str, ...] = ()
    rule: ForcesRule = ForcesRule.ANY
    usual_doublings: bool = False
    timpani_among_percussion: bool = False
    strings_compulsory: bool = False
    players_min: int | None = None
    players_max: int | None = None
    extra_players: int | None = None
    note: str = ""

    @property
    def text(self) -> str:
        return " or ".join(self.texts)


@dataclass(frozen=True, slots=True)
class Age:
    """The oldest and youngest age admitted on a day, and a first day of birth; ``after`` leaves that day itself out."""

    limit: int | None = None
    least: int | None = None
    on: date | None = None
    born: date | None = None
    after: bool = False
    text: str = ""


@dataclass(frozen=True, slots=True)
class Residence:
    """States of which an entrant must be a national, live in or be born in; one of them is enough."""

    national: tuple[str, ...] = ()
    resident: tuple[str, ...] = ()
    born: tuple[str, ...] = ()
    text: str = ""


@dataclass(frozen=True, slots=True)
class Portal:
    """What may be handed in and how: words, pages, seconds and bytes at most, of which kinds and names the files are.

    ``formats`` are suffixes such as ``pdf``. ``pairs``: a score and a recording of every work. ``referees`` is how many
    are asked. ``file_names`` is a pattern with its places in braces, such as ``{surname}_{title}``, without a
    suffix.
    """

    statement_least: int | None = None
    statement_words: int | None = None
    life_words: int | None = None
    sample_pages: int | None = None
    cv_pages: int | None = None
    excerpt: int | None = None
    referees: int | None = None
    pairs: bool = False
    file_bytes: int | None = None
    pack_bytes: int | None = None
    file_names: str = ""
    formats: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class Call:
    """One call. Durations are whole seconds, limits inclusive unless ``duration_strict``; money is text.

    ``deadline`` is a moment with its offset where the call names an hour, else ``deadline_day`` alone is known, and
    ``deadline_hour`` (``17:00``) where it is not said by whose clock the call closes;
    ``composed_from`` is the first day that counts and ``composed_until`` the last. ``text_languages`` are BCP 47.
    """

    title: str = ""
    organiser: str = ""
    kind: CallKind = CallKind.CALL
    deadline: datetime | None = None
    deadline_day: date | None = None
    deadline_zone: str = ""
    deadline_hour: str = ""
    deadline_text: str = ""
    results_on: date | None = None
    forces: Forces = Forces()
    soloists_excluded: bool = False
    voices_excluded: bool = False
    duration_min: int | None = None
    duration_max: int | None = None
    duration_strict: bool = False
    duration_tolerance: int | None = None
    works_min: int | None = None
    works_max: int | None = None
    total_min: int | None = None
    total_max: int | None = None
    set_rules: tuple[SetRule, ...] = ()
    composed_from: date | None = None
    composed_until: date | None = None
    composed_basis: Basis = Basis.COMPOSED
    composed_text: str = ""
    versions: Versions = Versions.UNSAID
    unperformed: bool | None = None
    novelty: Novelty = Novelty()
    novelty_text: str = ""
    unpublished: bool | None = None
    unrecorded: bool | None = None
    age: Age | None = None
    residence: Residence | None = None
    electronics: Electronics | None = None
    electronics_only: ElectronicsKind | None = None
    channels_max: int | None = None
    channels_exact: int | None = None
    text_languages: tuple[str, ...] = ()
    text_rights: TextRights | None = None
    anonymous: bool = False
    anonymity_text: str = ""
    recording: RecordingRule | None = None
    recording_live: bool = False
    recording_text: str = ""
    note_words: int | None = None
    portal: Portal = Portal()
    fee: str = ""
    exclusive: bool = False
    documents: tuple[str, ...] = ()
    contradictions: tuple[str, ...] = ()

    @property
    def closes(self) -> date | None:
        """The last day on the organiser's calendar; a midnight at its end is named by that day."""
        return self.deadline_day or (self.deadline.date() if self.deadline else None)


@dataclass(frozen=True, slots=True)
class Evidence:
    """From which words of the text a field was taken: character positions from 0."""

    field: str
    start: int
    end: int


@dataclass(frozen=True, slots=True)
class Proposal:
    """What was read from a call's text, with the words that each field came from.

    ``unread`` are sentences that sound like conditions and from which nothing was taken.
    """

    call: Call
    text: str = ""
    evidence: tuple[Evidence, ...] = ()
    unread: tuple[str, ...] = ()

    def sentence_of(self, name: str) -> str:
        """Return the words that a field came from, empty where it was not found."""
        return " … ".join(self.text[one.start : one.end].strip() for one in self.evidence if one.field == name)


@dataclass(frozen=True, slots=True)
class Found:
    """One field's value as a reader of one subject finds it, with the passage it stands in."""

    field: str
    value: object
    start: int
    end: int
    rank: int = 0
