"""Names every record."""

from __future__ import annotations

from catalogue.models.cues import Cue
from catalogue.models.entry import EntryKey, EntryPurpose
from catalogue.models.imports import ImportBatch, ImportedRecord, ImportSource, ImportState
from catalogue.models.merges import Merge, SetApart
from catalogue.models.people import Composer, Membership, Organisation, Person
from catalogue.models.performances import Performance, PerformanceCredit, ProgrammedWork
from catalogue.models.places import Venue
from catalogue.models.recordings import Recording
from catalogue.models.works import Commission, InstrumentationLine, Movement, Work

__all__ = [
    "Commission",
    "Composer",
    "Cue",
    "EntryKey",
    "EntryPurpose",
    "ImportBatch",
    "ImportSource",
    "ImportState",
    "ImportedRecord",
    "InstrumentationLine",
    "Membership",
    "Merge",
    "Movement",
    "Organisation",
    "Performance",
    "PerformanceCredit",
    "Person",
    "ProgrammedWork",
    "Recording",
    "SetApart",
    "Venue",
    "Work",
]
