"""What stored text says, and nothing where it says nothing that can be read."""

from __future__ import annotations

from functools import lru_cache
from typing import TypeVar

from catalogue.instrumentation import Instrumentation, InstrumentationError, read
from catalogue.models.fields import Unreadable

V = TypeVar("V")


@lru_cache(maxsize=8192)
def reading_of(text: str) -> Instrumentation | None:
    """Return the instrumentation that a text says, read once however often it is asked for."""
    if not text.strip():
        return None
    try:
        return read(text)
    except InstrumentationError:
        return None


def readable(value: V | Unreadable, otherwise: V) -> V:
    """Return a column's value, or ``otherwise`` where the stored text is no longer read."""
    return otherwise if isinstance(value, Unreadable) else value
