"""What somebody may have meant by a word that is no instrument: names and abbreviations that are spelled nearly so."""

from __future__ import annotations

from dataclasses import dataclass
from difflib import get_close_matches
from functools import lru_cache

from catalogue.instrumentation import Instrumentation, InstrumentationError, Remark, called, instruments, read
from catalogue.instrumentation.vocabulary import key_of

MOST = 3
NEARNESS = 0.6  # of difflib: one letter in three may differ
UNKNOWN = "unknown-instrument"


@dataclass(frozen=True, slots=True)
class Suggestion:
    """A word to be written between two places of a text; ``key`` names it in a form."""

    start: int
    end: int
    word: str

    @property
    def key(self) -> str:
        return f"{self.start}-{self.end}-{self.word}"

    def written_into(self, text: str) -> str:
        return f"{text[: self.start]}{self.word}{text[self.end :]}"


@lru_cache(maxsize=8)
def spellings(language: str) -> dict[str, str]:
    """Return the abbreviations and names of a language by the key under which they are found."""
    names = [called(slug, language) for slug in instruments()]
    return {key_of(name): name for each in names for name in (each.singular, each.abbreviation) if name}


def suggestions_for(text: str, start: int, end: int, language: str) -> tuple[Suggestion, ...]:
    """Return the likeliest words for a place of a text, only such with which the text reads on there."""
    known = spellings(language)
    near = get_close_matches(key_of(text[start:end]), known, MOST, NEARNESS) if 0 < end - start <= 40 else []
    offered = (Suggestion(start, end, known[key]) for key in near)
    return tuple(one for one in offered if reads_on(one.written_into(text), start))


def reads_on(text: str, place: int) -> bool:
    """Say whether a text is read at this place, to an instrument that is known."""
    try:
        return all(remark.start != place for remark in unknown_in(read(text)))
    except InstrumentationError as mistake:
        return mistake.start > place


def unknown_in(found: Instrumentation) -> tuple[Remark, ...]:
    """Return the remarks on words that were kept as written because no instrument is called so."""
    return tuple(remark for remark in found.warnings if remark.code == UNKNOWN)
