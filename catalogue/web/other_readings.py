"""The other ways in which a typed instrumentation can be read, to be seen side by side and chosen.

What is chosen is written in canonical shorthand, which can be read in one way only.
"""

from __future__ import annotations

from dataclasses import dataclass

from catalogue.instrumentation import Instrumentation, write_shorthand, write_words
from catalogue.instrumentation import other_readings as others


@dataclass(frozen=True, slots=True)
class OtherReading:
    """What a text says by another convention; ``key`` names that in a form, ``words`` are the players."""

    key: str
    called: str
    words: str
    instrumentation: Instrumentation


def other_readings(text: str, found: Instrumentation, language: str) -> tuple[OtherReading, ...]:
    """Return the readings that differ from the one found, by other conventions, in the words of a language."""
    return tuple(
        OtherReading(other.key, other.says, write_words(other.instrumentation, language), other.instrumentation)
        for other in others.other_readings(text, found)
    )


def written_as_read(text: str, key: str) -> str:
    """Return the shorthand of the reading that was chosen, the text itself where there is none."""
    found = others.read_by(text, key)
    return write_shorthand(found) if found else text
