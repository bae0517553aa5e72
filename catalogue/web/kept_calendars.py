"""Calendars as they were last given out, so that one that has not changed is not built again.

A calendar is kept with the state of the catalogue that it was built from; another state, another day or another
language is another calendar. It lies in the data folder, where every process finds it, and in the memory of those that
were asked for it. What was kept in memory longest ago without being asked for goes first.
"""

from __future__ import annotations

from collections import OrderedDict
from dataclasses import dataclass
from datetime import date
from hashlib import sha256
from threading import Lock

from catalogue.exchange.calendar_files import found_calendar, let_go_of_all, put_calendar
from catalogue.gathering.versions import Version

MOST, MOST_BYTES = 256, 32_000_000

Key = tuple[str, ...]
Days = tuple[date, ...]


@dataclass(frozen=True, slots=True)
class KeptCalendar:
    """A calendar of a composer: its bytes, their strong tag, the file's name, and what it was built from.

    A public page is kept as well (``catalogue.web.kept_pages``), with its type for a name.
    """

    composer: int
    state: str
    days: Days
    name: str
    content: bytes
    etag: str


class Kept(OrderedDict[Key, KeptCalendar]):
    """What is kept, what was asked for longest ago first, and how many bytes that comes to."""

    size = 0

    def keep(self, key: Key, calendar: KeptCalendar) -> None:
        if key in self:
            self.size -= len(self[key].content)
        self[key] = calendar
        self.move_to_end(key)
        self.size += len(calendar.content)
        while len(self) > MOST or (self.size > MOST_BYTES and len(self) > 1):
            self.size -= len(self.popitem(last=False)[1].content)

    def let_go(self) -> None:
        self.clear()
        self.size = 0


_kept = Kept()
_lock = Lock()


def etag_of(content: bytes) -> str:
    """Return the strong tag of a file's bytes (RFC 9110, 8.8.3)."""
    return f'"{sha256(content).hexdigest()}"'


def text_of(version: Version) -> str:
    """Return a state as text, the same in every process that is told the same."""
    return repr(version)


def kept_calendar(key: Key, days: Days) -> KeptCalendar | None:
    """Return what was kept under a key, unless it was built on another day; from memory, or else from its file."""
    return remembered(key, days) or filed_calendar(key, days)


def remembered(key: Key, days: Days) -> KeptCalendar | None:
    """Return what this process has kept under a key on these days: a calendar, or a public page, which has no file."""
    with _lock:
        found = _kept.get(key)
        if found is None or found.days != days:
            return None
        _kept.move_to_end(key)
        return found


def filed_calendar(key: Key, days: Days) -> KeptCalendar | None:
    """Return what any process has kept under a key on these days, and keep it in the memory of this one."""
    found = found_calendar(name_of(days), key)
    if found is None:
        return None
    head = found.head
    etag = f'"{found.sha256}"'
    calendar = KeptCalendar(head["composer"], head["state"], days, head["name"], found.content, etag)
    remember(key, calendar)
    return calendar


def keep_calendar(key: Key, calendar: KeptCalendar) -> None:
    """Keep a calendar for this process, and for all."""
    remember(key, calendar)
    head = {"composer": calendar.composer, "state": calendar.state, "name": calendar.name}
    put_calendar(name_of(calendar.days), key, head, calendar.content)


def remember(key: Key, calendar: KeptCalendar) -> None:
    with _lock:
        _kept.keep(key, calendar)


def name_of(days: Days) -> str:
    return " ".join(day.isoformat() for day in days)


def number_kept() -> int:
    with _lock:
        return len(_kept)


def forget_calendars() -> None:
    """Let go what this process has in its memory, as after a start."""
    with _lock:
        _kept.let_go()


def forget_everywhere() -> None:
    """Let everything go, in this memory and in the files of all."""
    forget_calendars()
    let_go_of_all()
