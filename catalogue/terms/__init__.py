"""The words that code branches on: categories, kinds, states, extents.

Each is stored by its value; what a reader sees comes from the word tables of pages and documents.
Words that are only printed live in tables, not here.

``files``         recordings, pictures and files that are kept
``hires``         material that is lent, sold or sent, and how it comes back
``papers``        how papers look
``people``        people, bodies, and who keeps a catalogue
``performances``  performances and what happens around them, calls among it, and which of it calendars tell
``scores``        scores and parts, and how they are written
``technical``     how the electronics of a work are set up, and what a presenter answers
``works``         works and their versions, and the texts and people that belong to them
"""

from __future__ import annotations

from catalogue.terms.files import FileKind, Permission, PictureKind, RecordingForm, RecordingKind
from catalogue.terms.papers import FaceFamily, HouseStyle, PaperMargins
from catalogue.terms.people import ContactRole, HandOverWay, OrganisationKind, Role
from catalogue.terms.performances import (
    Audience,
    CalendarHolds,
    DeadlineKind,
    Extent,
    PerformanceKind,
    PerformanceStatus,
    PerformerRole,
    SessionKind,
    StepKind,
    StepState,
    SubmissionStatus,
)
from catalogue.terms.scores import AccidentalRule, EditionKind, ScorePitch, SignGroup
from catalogue.terms.technical import Answer, LayoutName, SetupKind, Synchronisation
from catalogue.terms.works import Category, Clearance, ContributorRole, NoteLength, NotePurpose, VersionKind, WorkStatus

__all__ = [
    "AccidentalRule",
    "Answer",
    "Audience",
    "CalendarHolds",
    "Category",
    "Clearance",
    "ContactRole",
    "ContributorRole",
    "DeadlineKind",
    "EditionKind",
    "Extent",
    "FaceFamily",
    "FileKind",
    "HandOverWay",
    "HouseStyle",
    "LayoutName",
    "NoteLength",
    "NotePurpose",
    "OrganisationKind",
    "PaperMargins",
    "PerformanceKind",
    "PerformanceStatus",
    "PerformerRole",
    "Permission",
    "PictureKind",
    "RecordingForm",
    "RecordingKind",
    "Role",
    "ScorePitch",
    "SessionKind",
    "SetupKind",
    "SignGroup",
    "StepKind",
    "StepState",
    "SubmissionStatus",
    "Synchronisation",
    "VersionKind",
    "WorkStatus",
]
