"""What a rider is made of, gathered from the records."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from datetime import date

from catalogue.record_facts import WorkRecords
from catalogue.rules.technical.terms import Need, Setup, Slot


@dataclass(frozen=True, slots=True)
class Sent:
    """The revision that was sent last: its number, its day, its language, and its lines by their heads."""

    revision: int
    day: date
    language: str = ""
    lists: Mapping[str, tuple[str, ...]] = field(default_factory=dict)


@dataclass(frozen=True, slots=True)
class RiderFacts:
    """A rider of one work, for a performance or in general.

    ``others`` are the setups with less and for when something fails; ``stock`` is the hall's list of equipment.
    """

    records: WorkRecords
    setup: Setup | None = None
    others: tuple[Setup, ...] = ()
    contact_name: str = ""
    contact_email: str = ""
    contact_telephone: str = ""
    contact_hours: str = ""
    summary: str = ""
    equipment: tuple[Need, ...] = ()
    schedule: tuple[Slot, ...] = ()
    travel: str = ""
    hall: str = ""
    stock: tuple[Need, ...] = ()
    sent: Sent | None = None

    @property
    def revision(self) -> int:
        """The number of this revision."""
        return self.sent.revision + 1 if self.sent else 1
