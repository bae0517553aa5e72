"""Moments: the clock at a place, in an IANA time zone, and the same moment in universal time.

Where the clocks are put forward an hour of the wall clock is missing, where they are put back one comes twice; neither
is guessed.
"""

from __future__ import annotations

import re
from datetime import UTC, date, datetime, time, timedelta
from enum import StrEnum
from zoneinfo import ZoneInfo

from catalogue.timing.dates import PartialDate, write_date
from catalogue.timing.mistakes import Mistake
from catalogue.timing.words import NO_BREAK_SPACE


class MomentError(Mistake):
    """A clock time or a time zone that cannot be used."""


class Occurs(StrEnum):
    """How often a wall clock shows a time on a day."""

    ONCE = "once"
    NEVER = "never"
    TWICE = "twice"


CLOCK_TIME = re.compile(
    r"\s*(?P<hour>[0-9]{1,2})(?:\s?[:.h]\s?(?P<minute>[0-9]{2}))?(?::00)?\s*(?P<half>[ap]\.?m\.?|uhr|h|heures?|ore|horas?)?\s*",
    re.IGNORECASE,
)


def read_clock_time(text: str) -> time:
    """Return the time of day that a person wrote: 19:30, 19.30 Uhr, 19h30, 20 h, 7.30 pm. Raises MomentError.

    >>> read_clock_time("7.30 pm")
    datetime.time(19, 30)
    """
    match = CLOCK_TIME.fullmatch(text)
    if match is None or not (match["minute"] or match["half"]):
        raise MomentError(f"“{text}” is no time of day; write 19:30.", text, 0, len(text))
    hour, minute, half = int(match["hour"]), int(match["minute"] or 0), (match["half"] or "")[:1].lower()
    if half in ("a", "p"):
        if not 1 <= hour <= 12:
            raise MomentError("With am or pm the hour goes from 1 to 12.", text, match.start("hour"), match.end("hour"))
        hour = hour % 12 + (12 if half == "p" else 0)
    if hour > 23 or minute > 59:
        raise MomentError("A day goes from 00:00 to 23:59.", text, match.start("hour"), match.end())
    return time(hour, minute)


def write_clock_time(at: time, language: str) -> str:
    """Write a time of day as readers of the language do: by twelve hours in the United States, by twenty-four else.

    Between the figures and their half stands a no-break space (Unicode CLDR, medium times of en-US).

    >>> write_clock_time(time(19, 30), "en-GB"), write_clock_time(time(0, 5), "en-US").replace(chr(160), " ")
    ('19:30', '12:05 AM')
    """
    if language != "en-US":
        return f"{at:%H:%M}"
    return f"{at.hour % 12 or 12}:{at:%M}\u00a0{'AM' if at.hour < 12 else 'PM'}"


def print_clock_time(at: time, language: str) -> str:
    """Write a time of day as printed matter does: in the United States *7:30 p.m.* (common practice in programmes).

    >>> print_clock_time(time(19, 30), "en-US").replace(chr(160), " "), print_clock_time(time(19, 30), "de")
    ('7:30 p.m.', '19:30')
    """
    return write_clock_time(at, language).replace("AM", "a.m.").replace("PM", "p.m.")


def zone_named(name: str) -> ZoneInfo:
    """Return the IANA time zone of that name, such as Europe/Vienna. Raises MomentError."""
    try:
        return ZoneInfo(name)
    except (LookupError, ValueError, OSError) as fault:
        reason = f"“{name}” is no time zone; write one such as Europe/London."
        raise MomentError(reason, name, 0, len(name)) from fault


def occurs(day: date, clock: time, zone: str) -> Occurs:
    """Return how often the clocks of the zone show this time on this day.

    >>> str(occurs(date(2027, 3, 28), time(2, 30), "Europe/Berlin"))
    'never'
    """
    place = zone_named(zone)
    first, second = (datetime.combine(day, clock, place).replace(fold=fold) for fold in (0, 1))
    if first.utcoffset() == second.utcoffset():
        return Occurs.ONCE
    exists = first.astimezone(UTC).astimezone(place).replace(tzinfo=None) == first.replace(tzinfo=None)
    return Occurs.TWICE if exists else Occurs.NEVER


def moment_at(day: date, clock: time, zone: str, *, second: bool | None = None) -> datetime:
    """Return the moment, in UTC, at which the clocks of a zone show this time.

    Where that comes twice, ``second`` says which; without it, and where it never comes, MomentError is raised with a
    sentence.

    >>> moment_at(date(2027, 7, 1), time(19, 30), "Europe/Berlin")
    datetime.datetime(2027, 7, 1, 17, 30, tzinfo=datetime.timezone.utc)
    """
    how_often = occurs(day, clock, zone)
    shown = f"{clock:%H:%M}"
    if how_often is Occurs.NEVER:
        raise MomentError(_never(day, clock, zone), shown, 0, len(shown))
    if how_often is Occurs.TWICE and second is None:
        when = f"On {_named(day)} the clocks in {zone} show {shown} twice"
        reason = f"{when}, as they go back; say the first or the second time."
        raise MomentError(reason, shown, 0, len(shown))
    fold = 1 if second and how_often is Occurs.TWICE else 0
    return datetime.combine(day, clock, zone_named(zone)).replace(fold=fold).astimezone(UTC)


def _named(day: date) -> str:
    return write_date(PartialDate.of(day)).replace(NO_BREAK_SPACE, " ")


def _never(day: date, clock: time, zone: str) -> str:
    """Say that a time is missing, and between which times the clocks jump."""
    place = zone_named(zone)
    missing = datetime.combine(day, clock, place)
    later, earlier = (missing.replace(fold=fold).astimezone(UTC).astimezone(place) for fold in (0, 1))
    gap = (later.utcoffset() or timedelta()) - (earlier.utcoffset() or timedelta())
    return (
        f"On {_named(day)} the clocks in {zone} never show {clock:%H:%M}, as they go forward by "
        f"{int(gap.total_seconds() // 60)} minutes; write {earlier:%H:%M} or {later:%H:%M}."
    )


def steady_clocks(day: date, clock: time, zone: str) -> tuple[str, str] | None:
    """Return the zones without summer time that the clocks show the first and the second time an hour comes twice.

    Their names count westward (the zones Etc/GMT of the IANA database); none where they differ by no whole hours.

    >>> steady_clocks(date(2027, 10, 31), time(2, 30), "Europe/Berlin")
    ('Etc/GMT-2', 'Etc/GMT-1')
    """
    if occurs(day, clock, zone) is not Occurs.TWICE:
        return None
    moment = datetime.combine(day, clock, zone_named(zone))
    ahead = [moment.replace(fold=fold).utcoffset() or timedelta() for fold in (0, 1)]
    if any(one % timedelta(hours=1) for one in ahead):
        return None
    first, second = (f"Etc/GMT{-(one // timedelta(hours=1)):+d}" for one in ahead)
    return first, second


def clock_at(moment: datetime, zone: str) -> datetime:
    """Return a moment as the clocks of a zone show it (a datetime in that zone)."""
    return moment.astimezone(zone_named(zone))
