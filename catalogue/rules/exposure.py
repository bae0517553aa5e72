"""How much noise a day of rehearsing or listening comes to, by each criterion that is named, and by no other.

It records and converts; it never says that a level is safe. Each criterion keeps its own average period and exchange
rate: nothing is carried from a rate of 3 dB to one of 5 dB, because the two do not count the same thing.

Time allowed at a level L: T = period / 2^((L − criterion level) / exchange rate); dose = 100 · ΣC/T per cent. Sources:
NIOSH Publication 98-126 (85 dB(A), 8 hours, 3 dB, no time above 140 dB(A), from memory); OSHA, 29 CFR 1910.95, Table
G-16 (90 dB(A), 8 hours, 5 dB, its rounded hours where the table has the level, nothing below 90, no time above 115);
Directive 2003/10/EC (values of 80, 85 and 87 dB(A) over a day of 8 hours, equal energy); ITU-T H.870 (80 dB(A) for 40
hours a week, equal energy, reckoned with 3 dB). What the WHO asks of venues (2022: 100 dB(A) averaged over 15 minutes)
cannot be told from the average of a longer session.
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field
from math import log10
from types import MappingProxyType

from catalogue.rules.technical.lists import ListError, ListRow, rows_of
from catalogue.timing import DurationError, read_duration

HOUR = 3600
DAY = 24 * HOUR
LEAST, MOST = 30.0, 150.0
LEVEL = re.compile(r"(\d{1,3}(?:[.,]\d{1,2})?)\s*(?:db\s*(?:\(?a\)?)?)?", re.IGNORECASE | re.ASCII)
G16 = MappingProxyType({90: 8, 92: 6, 95: 4, 97: 3, 100: 2, 102: 1.5, 105: 1, 110: 0.5, 115: 0.25})
"""Hours that Table G-16 of 29 CFR 1910.95 permits at a level; it is rounded, and its note gives the formula."""


@dataclass(frozen=True, slots=True)
class Session:
    """A stretch of a day: what it was, its level in dB(A) averaged over it, and how many seconds it lasted."""

    name: str
    level: float
    seconds: int


@dataclass(frozen=True, slots=True)
class Criterion:
    """A way of counting: so many seconds at ``level`` dB(A), half of them for each ``exchange`` dB more.

    ``floor`` is the level below which nothing counts, ``most`` the one above which no time is given at all; ``table``
    are hours that are published for a level.
    """

    name: str
    source: str
    level: float
    seconds: int
    exchange: int
    per: str = "day"
    floor: float = 0
    most: float | None = None
    table: Mapping[int, float] = field(default_factory=lambda: MappingProxyType({}))


NIOSH = Criterion("NIOSH recommended exposure limit", "NIOSH Publication 98-126", 85, 8 * HOUR, 3, most=140)
OSHA = Criterion(
    "OSHA permissible exposure limit", "29 CFR 1910.95, Table G-16", 90, 8 * HOUR, 5, floor=90, most=115, table=G16
)
EU_LOWER = Criterion("EU lower exposure action value", "Directive 2003/10/EC, article 3", 80, 8 * HOUR, 3)
EU_UPPER = Criterion("EU upper exposure action value", "Directive 2003/10/EC, article 3", 85, 8 * HOUR, 3)
EU_LIMIT = Criterion("EU exposure limit value, at the ear", "Directive 2003/10/EC, article 3", 87, 8 * HOUR, 3)
LISTENERS = Criterion("WHO and ITU, personal listening", "ITU-T H.870, mode 1", 80, 40 * HOUR, 3, per="week")
CRITERIA = (NIOSH, OSHA, EU_LOWER, EU_UPPER, EU_LIMIT, LISTENERS)


@dataclass(frozen=True, slots=True)
class Counted:
    """What the sessions come to by one criterion: per cent of it, and the seconds that it gives at each level."""

    criterion: Criterion
    dose: float
    given: tuple[float | None, ...]


@dataclass(frozen=True, slots=True)
class Reckoning:
    """Sessions with what they come to; ``level`` is their equal-energy level in dB(A) over 8 hours, L_EX,8h."""

    sessions: tuple[Session, ...]
    counted: tuple[Counted, ...]
    level: float

    @property
    def seconds(self) -> int:
        return sum(one.seconds for one in self.sessions)


def given_seconds(level: float, criterion: Criterion) -> float | None:
    """How long a criterion gives at a level; ``None`` below the level at which it begins to count, 0 above its most.

    >>> [round(given_seconds(level, NIOSH) / 60) for level in (85, 88, 97, 100)], given_seconds(92, OSHA) / 3600
    ([480, 240, 30, 15], 6.0)
    """
    if level < criterion.floor:
        return None
    if criterion.most is not None and level > criterion.most:
        return 0.0
    return counted_seconds(level, criterion)


def counted_seconds(level: float, criterion: Criterion) -> float:
    """The time by which a session is counted, above the most as well (29 CFR 1910.95, Appendix A, Table G-16a)."""
    published = criterion.table.get(int(level)) if level == int(level) else None
    if published is not None:
        return published * HOUR
    return criterion.seconds / 2 ** ((level - criterion.level) / criterion.exchange)


def dose(sessions: Iterable[Session], criterion: Criterion) -> float:
    """Per cent of a criterion that sessions come to together.

    >>> round(dose([Session("rehearsal", 92, 8 * HOUR)], OSHA), 1)
    133.3
    """
    counted = (one for one in sessions if one.level >= criterion.floor)
    return 100 * sum(one.seconds / counted_seconds(one.level, criterion) for one in counted)


def day_level(sessions: Iterable[Session]) -> float:
    """L_EX,8h in dB(A): the level that would carry the same energy for 8 hours (ISO 1999; Directive 2003/10/EC).

    >>> round(day_level([Session("rehearsal", 88, 4 * HOUR)]), 1)
    85.0
    """
    energy = sum(one.seconds * 10 ** (one.level / 10) for one in sessions)
    return 10 * log10(energy / (8 * HOUR)) if energy else 0.0


def reckon_exposure(sessions: tuple[Session, ...]) -> Reckoning:
    """Count sessions by every criterion, each by itself."""
    counted = tuple(
        Counted(one, dose(sessions, one), tuple(given_seconds(session.level, one) for session in sessions))
        for one in CRITERIA
    )
    return Reckoning(sessions, counted, day_level(sessions))


# ---- as it is typed


def read_sessions(text: str) -> tuple[Session, ...]:
    """Read sessions, one a line: what; level; how long. Raises ListError, its place in the text.

    >>> read_sessions("tutti; 91 dB(A); 1h 30m")
    (Session(name='tutti', level=91.0, seconds=5400),)
    """
    found = tuple(read_session(row) for row in rows_of(text))
    refuse_longer_than_a_day(found, text)
    return found


def read_session(row: ListRow) -> Session:
    if len(row.parts) != 3:
        raise row.mistake("Write what it was, its level and how long it lasted, as in: tutti; 91 dB(A); 1h 30m.")
    name, level, length = row.parts
    return Session(name.text, read_level(row, level.text), read_length(row, length.text))


def read_level(row: ListRow, text: str) -> float:
    part = row.parts[1]
    found = LEVEL.fullmatch(text)
    if found is None:
        raise row.mistake(f"“{text}” is no level; write decibels weighted A, such as 91 dB(A).", part)
    level = float(found[1].replace(",", "."))
    if not LEAST <= level <= MOST:
        raise row.mistake(f"A level lies between {LEAST:g} and {MOST:g} dB(A), not at {level:g}.", part)
    return level


def read_length(row: ListRow, text: str) -> int:
    part = row.parts[2]
    try:
        seconds = read_duration(text).seconds
    except DurationError as mistake:
        raise row.mistake(mistake.reason, part) from mistake
    if not seconds:
        raise row.mistake("A session lasts longer than no time.", part)
    return seconds


def refuse_longer_than_a_day(sessions: tuple[Session, ...], text: str) -> None:
    if sum(one.seconds for one in sessions) > DAY:
        raise ListError("These sessions last longer than a day together; count one day at a time.", text, 0, len(text))
