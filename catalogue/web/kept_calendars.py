"""Calendars as they were last given out, so that one that has not changed is not built again.

A calendar is kept in memory with the state of the catalogue that it was built from; another state, another day or
another language is another calendar. What was kept longest ago without being asked for goes first.
"""

from __future__ import annotations

from collections import OrderedDict
from dataclasses import dataclass
from datetime import date
from hashlib import sha256
from threading import Lock

from catalogue.gathering.versions import Version

MOST, MOST_BYTES = 256, 32_000_000

Key = tuple[str, ...]
Days = tuple[date, ...]


@dataclass(frozen=True, slots=True)
class KeptCalendar:
    """A calendar of a composer: its bytes, their strong tag, the file's name, and what it was built from."""

    composer: int
    version: Version
    days: Days
    name: str
    content: bytes
    etag: str


_kept: OrderedDict[Key, KeptCalendar] = OrderedDict()
_lock = Lock()


def etag_of(content: bytes) -> str:
    """Return the strong tag of a file's bytes (RFC 9110, 8.8.3)."""
    return f'"{sha256(content).hexdigest()}"'


def kept_calendar(key: Key, days: Days) -> KeptCalendar | None:
    """Return what was kept under a key, unless it was built on another day."""
    with _lock:
        found = _kept.get(key)
        if found is None or found.days != days:
            return None
        _kept.move_to_end(key)
        return found


def number_kept() -> int:
    with _lock:
        return len(_kept)


def keep_calendar(key: Key, calendar: KeptCalendar) -> None:
    with _lock:
        _kept[key] = calendar
        _kept.move_to_end(key)
        size = sum(len(one.content) for one in _kept.values())
        while len(_kept) > MOST or (size > MOST_BYTES and len(_kept) > 1):
            size -= len(_kept.popitem(last=False)[1].content)


def forget_calendars() -> None:
    """Let everything go, as after a start."""
    with _lock:
        _kept.clear()
