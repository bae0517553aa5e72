"""Names every record."""

from __future__ import annotations

from catalogue.models.calendars import CalendarAddress
from catalogue.models.calls import Call, Referee, Reference, Submission, SubmittedWork
from catalogue.models.contacts import BilledName, ContactPerson
from catalogue.models.contributors import Contributor
from catalogue.models.cues import Cue
from catalogue.models.editions import Edition, TextSource
from catalogue.models.entry import EntryKey, EntryPurpose
from catalogue.models.file_links import FileLink, LinkedFile
from catalogue.models.handovers import HandOver
from catalogue.models.hires import Hire, HiredPerformance, HireItem
from catalogue.models.houses import House
from catalogue.models.imports import ImportBatch, ImportedRecord, ImportSource, ImportState
from catalogue.models.journeys import LeadTimes, Return, Session, SocietyDeadline, Step
from catalogue.models.mails import AskedMail, MailPurpose
from catalogue.models.materials import HireTerms, MaterialRequirements, MaterialSet
from catalogue.models.merges import Merge, SetApart
from catalogue.models.notation import NotationSign, PercussionInstrument, Retuning, TuningSystem
from catalogue.models.people import Composer, Membership, Organisation, Person
from catalogue.models.performances import Performance, PerformanceCredit, ProgrammedWork
from catalogue.models.pictures import Picture
from catalogue.models.places import Venue
from catalogue.models.reception import Award, Review
from catalogue.models.recordings import Recording
from catalogue.models.saved_views import SavedView
from catalogue.models.second_factors import RecoveryCode, SecondFactor
from catalogue.models.sendings import Sending
from catalogue.models.stored_files import StoredFile
from catalogue.models.technical import Rider, RiderAnswer, RiderSending, TechnicalSetup
from catalogue.models.works import Commission, InstrumentationLine, Movement, Work
from catalogue.models.writings import Biography, PerformanceNote, ProgrammeNote

__all__ = [
    "AskedMail",
    "Award",
    "BilledName",
    "Biography",
    "CalendarAddress",
    "Call",
    "Commission",
    "Composer",
    "ContactPerson",
    "Contributor",
    "Cue",
    "Edition",
    "EntryKey",
    "EntryPurpose",
    "FileLink",
    "HandOver",
    "Hire",
    "HireItem",
    "HireTerms",
    "HiredPerformance",
    "House",
    "ImportBatch",
    "ImportSource",
    "ImportState",
    "ImportedRecord",
    "InstrumentationLine",
    "LeadTimes",
    "LinkedFile",
    "MailPurpose",
    "MaterialRequirements",
    "MaterialSet",
    "Membership",
    "Merge",
    "Movement",
    "NotationSign",
    "Organisation",
    "PercussionInstrument",
    "Performance",
    "PerformanceCredit",
    "PerformanceNote",
    "Person",
    "Picture",
    "ProgrammeNote",
    "ProgrammedWork",
    "Recording",
    "RecoveryCode",
    "Referee",
    "Reference",
    "Retuning",
    "Return",
    "Review",
    "Rider",
    "RiderAnswer",
    "RiderSending",
    "SavedView",
    "SecondFactor",
    "Sending",
    "Session",
    "SetApart",
    "SocietyDeadline",
    "Step",
    "StoredFile",
    "Submission",
    "SubmittedWork",
    "TechnicalSetup",
    "TextSource",
    "TuningSystem",
    "Venue",
    "Work",
]
