"""A backup a day for one's own catalogue, and which of them stay: those of seven days, four weeks, twelve months."""

from __future__ import annotations

import re
from collections.abc import Callable, Hashable, Iterable, Iterator
from dataclasses import dataclass
from datetime import UTC, datetime, timedelta
from pathlib import Path

from catalogue.exchange.backups.lines import Step, nothing
from catalogue.exchange.backups.writing import write_backup

DAILY, ASKED_FOR, BEFORE_UPGRADE = "daily", "asked-for", "before-upgrade"
NAME = re.compile(rf"({DAILY}|{ASKED_FOR}|{BEFORE_UPGRADE})-(\d{{8}}T\d{{6}})Z\.zip")
MOMENT = "%Y%m%dT%H%M%S"
EVERY = timedelta(days=1)
STAY: tuple[tuple[int, Callable[[datetime], Hashable]], ...] = (
    (7, lambda moment: moment.date()),
    (4, lambda moment: moment.isocalendar()[:2]),
    (12, lambda moment: (moment.year, moment.month)),
)


@dataclass(frozen=True, slots=True)
class Kept:
    """A backup in the folder, by its name: why it was made, and when."""

    path: Path
    why: str
    moment: datetime


def kept_in(folder: Path) -> list[Kept]:
    """Return the backups of a folder, the newest first; other files are none of ours."""
    kept = [one for path in sorted(folder.glob("*.zip")) if (one := kept_at(path))]
    return sorted(kept, key=lambda one: one.moment, reverse=True)


def kept_at(path: Path) -> Kept | None:
    match = NAME.fullmatch(path.name)
    try:
        return match and Kept(path, match[1], datetime.strptime(match[2], MOMENT).replace(tzinfo=UTC))
    except ValueError:  # a name with a day that no month has
        return None


def name_of(why: str, moment: datetime) -> str:
    """Return the name of a backup's file, with the moment in UTC."""
    return f"{why}-{moment.astimezone(UTC):{MOMENT}}Z.zip"


def is_due(folder: Path, now: datetime) -> bool:
    """Say whether a day has passed since the last one; one from the future, made by a clock gone wrong, counts not."""
    past = [one.moment for one in kept_in(folder) if one.why == DAILY and one.moment <= now]
    return not past or now - max(past) >= EVERY


def make_daily(folder: Path, *, now: datetime, step: Step = nothing) -> Path | None:
    """Make the day's backup where it is due, and let older ones go. Raises BackupError, and then lets nothing go."""
    if not is_due(folder, now):
        return None
    path = folder / name_of(DAILY, now)
    write_backup(path, now=now, step=step)
    for one in going(kept_in(folder)):
        one.path.unlink(missing_ok=True)
    return path


def going(kept: Iterable[Kept]) -> list[Kept]:
    """Return the daily backups that no longer stay; those made for another reason always do."""
    daily = [one for one in kept if one.why == DAILY]
    staying = {one for number, period in STAY for one in newest_of_each(daily, number, period)}
    return [one for one in daily if one not in staying]


def newest_of_each(daily: list[Kept], number: int, period: Callable[[datetime], Hashable]) -> Iterator[Kept]:
    """Give the newest backup of each of the last so many days, weeks or months that have one."""
    seen: set[Hashable] = set()
    for one in daily:
        if period(one.moment) not in seen and len(seen) < number:
            seen.add(period(one.moment))
            yield one
