"""What the players of a part take up besides: further instruments that its notes name, changes told in words.

A change counts where it is to an instrument of the part's own family, as second instruments usually are (common
practice). One to another family, or to what is no known instrument, is said and left to the composer.
"""

from __future__ import annotations

import functools
import re
from collections.abc import Sequence
from dataclasses import dataclass, field

from catalogue.exchange.scores.model import Change, Part, PlayedInstrument
from catalogue.exchange.scores.naming import (
    KEY,
    by_instrument,
    first_chair,
    is_plural,
    sounding,
    spelled,
    without_numbers,
)
from catalogue.instrumentation import InstrumentationError, called, family_of, instrument, read

TUNING = re.compile(rf"{KEY}|ut|si|mi|[a-h](?:is|es)", re.IGNORECASE)
"""What a horn or a drum is told to change to that is a key or a pitch and no instrument."""


@dataclass(slots=True)
class Doublings:
    """What players take up, by their place within the part from 0, and what is left to be asked."""

    taken: dict[int, list[str]] = field(default_factory=dict)
    doubts: list[str] = field(default_factory=list)


def doublings_of(part: Part, declared: Sequence[PlayedInstrument], main: str, players: int) -> Doublings:
    """Return what is taken up in a part for so many players of one instrument; ``declared`` in order of use."""
    found = Doublings()
    for one in declared:
        slug = by_instrument(one)
        if slug is not None and (may_double(main, slug) or len(declared) > 1):  # one alone is what the part is heard by
            take(found, part, main, players, slug, 0)
    for change in dict.fromkeys(part.changes):
        slug = meant(change)
        if slug is None and change.is_certain and not TUNING.fullmatch(change.instrument):
            found.doubts.append(f"{quoted(part)} changes to “{change.instrument}”, not known as an instrument.")
        take(found, part, main, players, slug, change.chair)
    return found


def take(found: Doublings, part: Part, main: str, players: int, slug: str | None, chair: int) -> None:
    """Give an instrument to the player whose chair is named, else to the first one."""
    if slug is None or slug == main or any(slug in listed for listed in found.taken.values()):
        return
    name = called(slug).singular
    if not may_double(main, slug):
        found.doubts.append(
            f"{quoted(part)} also names {name}, which is of another family and is not counted as a second instrument."
        )
        return
    if not word_beside(main, slug):
        found.doubts.append(f"{quoted(part)} takes up {name}, which cannot be written beside {called(main).singular}.")
        return
    place = chair - first_chair(part.name)
    if not 0 <= place < players:
        place = 0
        if players > 1:
            found.doubts.append(f"{quoted(part)} takes up {name}; which player does is not told, the first is taken.")
    found.taken.setdefault(place, []).append(slug)


def meant(change: Change) -> str | None:
    return spelled(without_numbers(change.instrument)[0]) or sounding(change.instrument)


def quoted(part: Part) -> str:
    return f"“{part.name}”" if part.name else "A part without a name"


def may_double(main: str, slug: str) -> bool:
    """Whether a player of one instrument takes up the other in the same part: of one family, voices never."""
    return family_of(main) == family_of(slug) != "voice"


@functools.lru_cache(maxsize=512)
def word_beside(main: str, slug: str) -> str:
    """Return how an instrument is called behind another's "=" so that it is read as itself, "" where no name is.

    A clarinet's "piccolo" is a small clarinet, for example, and not the flute.

    >>> word_beside("flute", "piccolo"), word_beside("clarinet", "piccolo")
    ('picc', 'piccolo flute')
    """
    names, row = called(slug), instrument(slug)
    others = [spelling for language, spelling in row.spellings if language == "en-GB" and not is_plural(spelling)]
    others.sort(key=len, reverse=True)  # the longest is the plainest
    words = dict.fromkeys((names.abbreviation, names.singular, *others))
    return next((word for word in words if word and is_read_as(main, word, slug)), "")


def is_read_as(main: str, word: str, slug: str) -> bool:
    try:
        (line,) = read(f"{called(main).singular}(={word})", language="en-GB").lines
    except (InstrumentationError, ValueError):
        return False
    return line.instrument == main and [one.plays for one in line.chairs] == [(main, slug)]
