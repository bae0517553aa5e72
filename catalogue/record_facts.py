"""What outputs are told about the records around works: the same plain frozen values as ``facts``.

The names of the fields are those of the columns that they come from.
"""

from __future__ import annotations

from dataclasses import dataclass
from decimal import Decimal

from catalogue.facts import CommissionFacts, RecordingFacts
from catalogue.terms import (
    AccidentalRule,
    Clearance,
    ContactRole,
    ContributorRole,
    EditionKind,
    NoteLength,
    NotePurpose,
    Permission,
    PictureKind,
    ScorePitch,
    SignGroup,
)
from catalogue.timing import PartialDate


@dataclass(frozen=True, slots=True)
class ContributorFacts:
    """Somebody beside the composer, as billed; ``share`` in per cent."""

    id: int
    billed_name: str
    role: ContributorRole
    contribution: str = ""
    share: Decimal | None = None
    society: str = ""
    ipi: str = ""
    isni: str = ""
    person_id: int | None = None
    organisation_id: int | None = None


@dataclass(frozen=True, slots=True)
class ProgrammeNoteFacts:
    """A text about a work; without an ``id`` it is the one that the work itself holds."""

    id: int | None
    body: str
    length: NoteLength
    heading: str = ""
    language: str = ""
    as_of: PartialDate | None = None
    author: str = ""
    most_words: int | None = None
    words: int = 0


@dataclass(frozen=True, slots=True)
class BiographyFacts:
    """A text about the composer, or about ``person``; without an ``id`` it is one of the profile's two."""

    id: int | None
    body: str
    length: NoteLength
    language: str = ""
    as_of: PartialDate | None = None
    author: str = ""
    most_words: int | None = None
    words: int = 0
    person_id: int | None = None
    about: str = ""


@dataclass(frozen=True, slots=True)
class PerformanceNoteFacts:
    """A note for the players in front of the music; ``first_at`` says where in the score it first counts."""

    id: int
    body: str
    heading: str = ""
    concerns: str = ""
    language: str = ""
    first_at: str = ""
    purpose: NotePurpose = NotePurpose.PLAYING


@dataclass(frozen=True, slots=True)
class PercussionFacts:
    """An instrument of the percussion list, and the number of the player who has it."""

    id: int
    player: int
    instrument: str
    number: int = 1
    size: str = ""
    compass: str = ""
    pitches: str = ""
    beaters: str = ""
    shared_with: str = ""
    needs_power: bool = False
    provided_by: str = ""


@dataclass(frozen=True, slots=True)
class SignFacts:
    """A row of the notation key; ``smufl`` is the sign's name in the Standard Music Font Layout."""

    id: int
    group: SignGroup
    name: str
    smufl: str = ""
    cents: Decimal | None = None
    meaning: str = ""
    concerns: str = ""
    first_at: str = ""
    system: str = ""


@dataclass(frozen=True, slots=True)
class TuningFacts:
    """How a work is tuned: into how many equal ``divisions`` of the octave, and the frequency of a note in Hz."""

    id: int
    name: str
    divisions: int | None = None
    reference_note: str = ""
    reference_hertz: Decimal | None = None
    description: str = ""
    source: str = ""


@dataclass(frozen=True, slots=True)
class RetuningFacts:
    """An instrument tuned otherwise than usual: to which pitches, or by how many ``cents``."""

    id: int
    instrument: str
    tuned_to: str = ""
    cents: Decimal | None = None
    written: str = ""
    preparation: str = ""


@dataclass(frozen=True, slots=True)
class EditionFacts:
    """A score or parts as they can be had; ``pitch`` and ``accidentals`` are ``None`` where nobody has said."""

    id: int
    kind: EditionKind
    pitch: ScorePitch | None = None
    accidentals: AccidentalRule | None = None
    published_by: str = ""
    publisher_address: str = ""
    publisher_email: str = ""
    publisher_website: str = ""
    number: str = ""
    ismn: str = ""
    published: PartialDate | None = None
    pages: int | None = None
    paper: str = ""
    binding: str = ""
    stave_height: Decimal | None = None
    on_hire: bool = False
    printing: str = ""
    copyright_line: str = ""


@dataclass(frozen=True, slots=True)
class TextSourceFacts:
    """A text that a work sets; ``credit`` is the line that the holder of the rights wants printed.

    ``body`` and ``translation`` are the words themselves, an empty line between stanzas.
    """

    id: int
    author: str = ""
    title: str = ""
    source: str = ""
    language: str = ""
    translator: str = ""
    clearance: Clearance = Clearance.NOT_ASKED
    rights_holder: str = ""
    granted: PartialDate | None = None
    expires: PartialDate | None = None
    credit: str = ""
    covers: str = ""
    isbn: str = ""
    body: str = ""
    translation: str = ""
    translation_language: str = ""
    translation_clearance: Clearance = Clearance.NOT_ASKED


@dataclass(frozen=True, slots=True)
class ReviewFacts:
    """A review of a work, a performance or a recording, with the words that may be quoted."""

    id: int
    publication: str
    author: str = ""
    date: PartialDate | None = None
    headline: str = ""
    quotation: str = ""
    language: str = ""
    address: str = ""
    doi: str = ""
    work_id: int | None = None
    performance_id: int | None = None
    recording_id: int | None = None


@dataclass(frozen=True, slots=True)
class AwardFacts:
    """An award, for a work or, without ``work_id``, for the composer."""

    id: int
    name: str
    result: str = ""
    date: PartialDate | None = None
    given_by: str = ""
    place: str = ""
    amount: str = ""
    address: str = ""
    work_id: int | None = None


@dataclass(frozen=True, slots=True)
class PictureFacts:
    """A picture by the SHA-256 of its content; ``alternative`` says what it shows."""

    id: int
    kind: PictureKind
    alternative: str
    sha256: str
    suffix: str
    width: int
    height: int
    caption: str = ""
    credit: str = ""
    permission: Permission = Permission.NOT_ASKED
    work_id: int | None = None
    performance_id: int | None = None
    person_id: int | None = None


@dataclass(frozen=True, slots=True)
class ContactFacts:
    """Somebody at an organisation, and how they are reached."""

    id: int
    organisation_id: int
    name: str
    role: ContactRole
    position: str = ""
    email: str = ""
    telephone: str = ""
    hours: str = ""
    until: PartialDate | None = None


@dataclass(frozen=True, slots=True)
class WorkRecords:
    """All that is recorded around one work, each in the order in which it is printed."""

    work_id: int
    contributors: tuple[ContributorFacts, ...] = ()
    commissions: tuple[CommissionFacts, ...] = ()
    programme_notes: tuple[ProgrammeNoteFacts, ...] = ()
    performance_notes: tuple[PerformanceNoteFacts, ...] = ()
    percussion: tuple[PercussionFacts, ...] = ()
    signs: tuple[SignFacts, ...] = ()
    tunings: tuple[TuningFacts, ...] = ()
    retunings: tuple[RetuningFacts, ...] = ()
    editions: tuple[EditionFacts, ...] = ()
    text_sources: tuple[TextSourceFacts, ...] = ()
    recordings: tuple[RecordingFacts, ...] = ()
    awards: tuple[AwardFacts, ...] = ()
    reviews: tuple[ReviewFacts, ...] = ()
    pictures: tuple[PictureFacts, ...] = ()


@dataclass(frozen=True, slots=True)
class ComposerRecords:
    """All that is recorded around the composer, awards and reviews of single works included."""

    composer_id: int
    biographies: tuple[BiographyFacts, ...] = ()
    awards: tuple[AwardFacts, ...] = ()
    reviews: tuple[ReviewFacts, ...] = ()
    pictures: tuple[PictureFacts, ...] = ()
    contacts: tuple[ContactFacts, ...] = ()
