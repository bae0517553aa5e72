"""What many ask for at once and nobody has kept is built by the first of them; the others wait and get the same.

The key names what is built and from which state, so that whoever waits is never given anything older than what they
asked for. Where building fails, or takes too long, each builds for themselves.
"""

from __future__ import annotations

from collections.abc import Callable, Hashable
from dataclasses import dataclass, field
from threading import Event, Lock
from typing import Any, TypeVar, cast

PATIENCE = 20.0  # seconds

Made = TypeVar("Made")


@dataclass(slots=True)
class UnderWay:
    """Something that somebody builds, and what came of it once that is ended."""

    ended: Event = field(default_factory=Event)
    made: Any = None


_under_way: dict[Hashable, UnderWay] = {}
_lock = Lock()


def built_once(key: Hashable, build: Callable[[], Made]) -> Made:
    """Build something, or wait for whoever is building it already; ``build`` looks first whether it is kept by now."""
    own = UnderWay()
    with _lock:
        known = _under_way.setdefault(key, own)
    if known is not own:
        known.ended.wait(PATIENCE)
        return build() if known.made is None else cast(Made, known.made)
    try:
        own.made = build()
        return cast(Made, own.made)
    finally:
        with _lock:
            del _under_way[key]
        own.ended.set()
