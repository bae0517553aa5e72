"""What rules and outputs are told: plain frozen values, without a database, a clock or a language.

``gathering`` makes them from records; ``rules`` reckon on them; ``documents``, ``drawings`` and
``feeds`` print them. Unknown is ``None``, an empty text or an empty tuple, never a made-up value.
"""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date, datetime, time
from uuid import UUID

from catalogue.instrumentation import Instrumentation
from catalogue.terms import (
    Audience,
    Category,
    Clearance,
    Extent,
    HouseStyle,
    OrganisationKind,
    PerformanceKind,
    PerformanceStatus,
    PerformerRole,
    Permission,
    RecordingForm,
    RecordingKind,
    VersionKind,
    WorkStatus,
)
from catalogue.timing import Duration, PartialDate


@dataclass(frozen=True, slots=True)
class TitleFacts:
    """A work's title in the scripts it has; ``language`` tags are BCP 47."""

    title: str
    language: str = ""
    original: str = ""
    original_language: str = ""
    transliteration: str = ""
    translated: str = ""
    subtitle: str = ""


@dataclass(frozen=True, slots=True)
class HouseFacts:
    """The house whose letterhead a composer's papers bear; ``registration`` is told under its address."""

    name: str
    address: str = ""
    email: str = ""
    telephone: str = ""
    website: str = ""
    registration: str = ""


@dataclass(frozen=True, slots=True)
class ComposerFacts:
    """The composer as printed and as sorted, with the house, if any. ``country`` is ISO 3166-1 alpha-2.

    ``number_prefix`` stands before the numbers of the composer's list; ``string_strengths`` are for works without.
    """

    id: int
    slug: str
    name: str
    sort_name: str
    original_name: str = ""
    born: PartialDate | None = None
    died: PartialDate | None = None
    birthplace: str = ""
    country: str = ""
    email: str = ""
    telephone: str = ""
    website: str = ""
    address: str = ""
    biography: str = ""
    short_biography: str = ""
    language: str = "en-GB"
    number_prefix: str = ""
    string_strengths: tuple[int, ...] = ()
    house_style: HouseStyle = HouseStyle.CLASSIC
    ipi: str = ""
    isni: str = ""
    house: HouseFacts | None = None


@dataclass(frozen=True, slots=True)
class OrganisationFacts:
    """An ensemble, presenter, publisher or other body; ``country`` is a code of ISO 3166."""

    id: int
    name: str
    city: str = ""
    country: str = ""
    kinds: tuple[OrganisationKind, ...] = ()


@dataclass(frozen=True, slots=True)
class CommissionFacts:
    """One commissioning body, with its place and who paid; ``due`` is when the work was to be delivered."""

    body: str
    place: str = ""
    funder: str = ""
    agreed: PartialDate | None = None
    due: PartialDate | None = None
    delivered: PartialDate | None = None
    organisation_id: int | None = None


@dataclass(frozen=True, slots=True)
class MovementFacts:
    """A movement, numbered from 1; ``attacca`` says that the next follows without a break."""

    number: int
    title: str
    duration: Duration | None = None
    attacca: bool = False


@dataclass(frozen=True, slots=True)
class WorkFacts:
    """One work, or one version of a work (``version_of`` names the first version's id).

    ``instrumentation`` is the reading of ``instrumentation_text`` (the canonical text), or ``None``
    where there is no text or it cannot be read; ``instrumentation_typed`` is what was typed.
    ``duration_typed`` is what was typed for a duration; it prints where ``duration`` is ``None``. ``duration`` is the
    published one; of an open form it is the usual one between ``least_duration`` and ``most_duration``.
    """

    id: int
    uid: UUID
    composer_id: int
    title: TitleFacts
    category: Category
    status: WorkStatus = WorkStatus.ACTIVE
    catalogue_number: str = ""
    begun: PartialDate | None = None
    completed: PartialDate | None = None
    revised: PartialDate | None = None
    published: PartialDate | None = None
    instrumentation: Instrumentation | None = None
    instrumentation_text: str = ""
    instrumentation_typed: str = ""
    duration: Duration | None = None
    duration_typed: str = ""
    least_duration: Duration | None = None
    most_duration: Duration | None = None
    movements: tuple[MovementFacts, ...] = ()
    commissions: tuple[CommissionFacts, ...] = ()
    dedication: str = ""
    text_author: str = ""
    text_language: str = ""
    publisher: str = ""
    iswc: str = ""
    ismn: str = ""
    parts_on_hire: bool = False
    programme_note: str = ""
    electronics_note: str = ""
    version_of: int | None = None
    version_label: str = ""
    version_kind: VersionKind | None = None
    string_strengths: tuple[int, ...] = ()
    notes: str = ""


@dataclass(frozen=True, slots=True)
class VenueFacts:
    """``country`` is ISO 3166-1 alpha-2, ``zone`` an IANA name."""

    id: int
    name: str
    city: str = ""
    country: str = ""
    zone: str = ""
    latitude: float | None = None
    longitude: float | None = None


@dataclass(frozen=True, slots=True)
class PerformerFacts:
    """A person or body as billed. ``plays`` is the instrument, voice or part, free text."""

    name: str
    role: PerformerRole
    plays: str = ""
    organisation_id: int | None = None


@dataclass(frozen=True, slots=True)
class ProgrammedFacts:
    """A work in a programme. ``part`` says which part where ``extent`` is not complete.

    ``claim_override`` is what the playing is to be called whatever the records make of it, ``claim_reason`` why.
    """

    id: int
    work_id: int
    extent: Extent = Extent.COMPLETE
    part: str = ""
    billing: str = ""
    note: str = ""
    duration: Duration | None = None
    claim_override: str = ""
    claim_reason: str = ""


@dataclass(frozen=True, slots=True)
class PerformanceFacts:
    """One event. ``date`` is the venue's local calendar; ``starts_at`` is UTC where date, time and zone are known.

    ``country_then`` is the state of the time where the record names one, else empty; ``country`` and ``city``
    are the venue's (or the event's own where no venue is known), ``region`` is the part of the country that it names.
    """

    id: int
    uid: UUID
    date: PartialDate | None
    kind: PerformanceKind = PerformanceKind.CONCERT
    audience: Audience = Audience.PUBLIC
    status: PerformanceStatus = PerformanceStatus.GIVEN
    time: time | None = None
    zone: str = ""
    starts_at: datetime | None = None
    event_title: str = ""
    venue: VenueFacts | None = None
    city: str = ""
    country: str = ""
    country_then: str = ""
    region: str = ""
    presenter: str = ""
    series: str = ""
    performers: tuple[PerformerFacts, ...] = ()
    programme: tuple[ProgrammedFacts, ...] = ()
    string_strengths: tuple[int, ...] = ()
    notes: str = ""
    sequence: int = 0
    changed_at: datetime | None = None


@dataclass(frozen=True, slots=True)
class RecordingFacts:
    """A recording as it is cited, and with whom it may be shared; an excerpt is told in seconds from the beginning."""

    work_id: int
    performers: str
    label: str = ""
    number: str = ""
    released: PartialDate | None = None
    duration: Duration | None = None
    id: int | None = None
    kind: RecordingKind = RecordingKind.STUDIO
    form: RecordingForm = RecordingForm.RELEASE
    title: str = ""
    recorded: PartialDate | None = None
    place: str = ""
    performance_id: int | None = None
    isrc: str = ""
    ean: str = ""
    address: str = ""
    file_name: str = ""
    excerpt_from: int | None = None
    excerpt_until: int | None = None
    permission: Permission = Permission.NOT_ASKED


@dataclass(frozen=True, slots=True)
class CueFacts:
    """One cue, its ``place`` as typed: a bar and beat, a time, or nothing before the beginning."""

    number: str
    place: str
    action: str
    media: str = ""
    length: Duration | None = None
    who: str = ""
    notes: str = ""


@dataclass(frozen=True, slots=True)
class TimingFacts:
    """How a work goes in time: its tempo map as typed and the day of it, its cues, and who their letters are."""

    work_id: int
    tempo_map: str = ""
    dated: date | None = None
    cues: tuple[CueFacts, ...] = ()
    letters: str = ""


@dataclass(frozen=True, slots=True)
class DeadlineFacts:
    """Until when a call is open: ``closes_at`` in UTC where an hour is known, ``day`` by the organiser's calendar.

    ``local`` says the same by the organiser's clock, in words; ``is_sent`` that works were sent. Of a hire
    (``is_hire``) it is when the set is due back.
    """

    id: int
    uid: UUID
    title: str
    organiser: str = ""
    day: date | None = None
    closes_at: datetime | None = None
    local: str = ""
    changed_at: datetime | None = None
    sequence: int = 0
    is_hire: bool = False
    is_sent: bool = False


@dataclass(frozen=True, slots=True)
class SessionFacts:
    """A rehearsal, a get-in, a line check or a talk of a performance; moments in UTC where hours and zone are known.

    ``name`` is what it is called, ``local`` its hours by the clocks there, in words.
    """

    uid: UUID
    performance_id: int
    name: str
    day: date
    starts_at: datetime | None = None
    ends_at: datetime | None = None
    place: str = ""
    local: str = ""
    changed_at: datetime | None = None
    sequence: int = 0


@dataclass(frozen=True, slots=True)
class DueFacts:
    """A step around a performance that is open, and the day by which it is due; ``name`` is what is to be done."""

    uid: UUID
    performance_id: int
    name: str
    day: date
    changed_at: datetime | None = None
    sequence: int = 0


@dataclass(frozen=True, slots=True)
class TextFacts:
    """A text that a work sets: its language, and until when and how its use is cleared."""

    work_id: int
    author: str = ""
    title: str = ""
    language: str = ""
    clearance: Clearance = Clearance.NOT_ASKED
    expires: PartialDate | None = None


@dataclass(frozen=True, slots=True)
class CatalogueFacts:
    """A whole catalogue: every work of the composer and every performance, withdrawn works included."""

    composer: ComposerFacts
    works: tuple[WorkFacts, ...]
    performances: tuple[PerformanceFacts, ...]
    recordings: tuple[RecordingFacts, ...] = ()
    texts: tuple[TextFacts, ...] = ()

    def works_by_id(self) -> dict[int, WorkFacts]:
        return {work.id: work for work in self.works}
