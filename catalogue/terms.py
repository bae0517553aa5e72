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


class Role(StrEnum):
    """What a member may do with a composer's catalogue; a librarian sees and keeps the material alone."""

    OWNER = "owner"
    EDITOR = "editor"
    VIEWER = "viewer"
    LIBRARIAN = "librarian"


class HandOverWay(StrEnum):
    """Whether a catalogue was given away or taken over."""

    GIVEN = "given"
    TAKEN = "taken"


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


class SignGroup(StrEnum):
    """Where a sign stands in a notation key, in the order of the key (common practice)."""

    ACCIDENTAL = "accidental"
    NOTEHEAD = "notehead"
    TECHNIQUE = "technique"
    ELECTRONICS = "electronics"
    TIME = "time"
    GRAPHIC = "graphic"


class EditionKind(StrEnum):
    """What is printed or sent."""

    FULL_SCORE = "full score"
    STUDY_SCORE = "study score"
    VOCAL_SCORE = "vocal score"
    PIANO_REDUCTION = "piano reduction"
    PARTS = "parts"
    SCORE_AND_PARTS = "score and parts"
    PLAYING_SCORE = "playing score"
    ELECTRONICS = "electronics package"


class ScorePitch(StrEnum):
    """At which pitch transposing instruments are written; octave-transposing ones are as usual in both."""

    IN_C = "in C"
    TRANSPOSED = "transposed"


class AccidentalRule(StrEnum):
    """How long an accidental holds."""

    BAR = "for the bar"
    NOTE = "for its note only"


class Clearance(StrEnum):
    """Whether a text may be set, printed and sung."""

    NOT_ASKED = "not asked"
    ASKED = "asked"
    GRANTED = "granted"
    REFUSED = "refused"
    PUBLIC_DOMAIN = "public domain"
    OWN_TEXT = "own text"


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


class ContactRole(StrEnum):
    """What somebody at an organisation is asked about."""

    PRODUCTION = "production"
    LIBRARIAN = "librarian"
    TECHNICIAN = "technician"
    PRESS = "press"
    ARTISTIC = "artistic direction"
    RIGHTS = "rights"
    OTHER = "other"


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


class HouseStyle(StrEnum):
    """How a composer's documents look: serifs and one ink, serifs in black alone, or sans serifs and another ink."""

    CLASSIC = "classic"
    BLACK = "black"
    CLEAR = "clear"


class FaceFamily(StrEnum):
    """The two families of faces that documents are set in."""

    SERIF = "serif"
    SANS = "sans"


class PaperMargins(StrEnum):
    """What is left free at the sides of a document: as usual, less, or more where it is bound."""

    USUAL = "usual"
    NARROW = "narrow"
    BOUND = "bound"


class SetupKind(StrEnum):
    """Which way of doing the electronics it is: as meant, with less, or when something fails."""

    FULL = "full"
    REDUCED = "reduced"
    FALLBACK = "fallback"


class Synchronisation(StrEnum):
    """How the players and the electronics keep together."""

    NONE = "none"
    CLICK = "click"
    EAR = "by ear from the score"
    PEDAL = "cues by pedal"
    OPERATOR = "cues by an operator"
    STOPWATCH = "stopwatch"


class Answer(StrEnum):
    """What a presenter says to one item of a rider."""

    YES = "yes"
    NOT_QUITE = "not quite"
    NO = "no"
    QUESTION = "question"


class LayoutName(StrEnum):
    """How the loudspeakers stand; ``own`` is written out loudspeaker by loudspeaker."""

    NONE = "none"
    STEREO = "stereo"
    QUAD = "quad"
    FIVE_ONE = "5.1"
    SEVEN_ONE = "7.1"
    OCTO_PAIR = "octophonic, front pair"
    OCTO_CENTRE = "octophonic, front centre"
    DOME = "dome of sixteen"
    OWN = "own"
