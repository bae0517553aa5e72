"""Which instrument a name in a score means, and how many players share a part: by names, sounds and programs.

An instrument is found by its name, else by what the file says of its sound, else by its General MIDI program (General
MIDI 1 instrument numbers). Chair numbers and the key in which it is built are no part of a name.
"""

from __future__ import annotations

import functools
import re
from collections.abc import Sequence

from catalogue.exchange.scores.model import PlayedInstrument
from catalogue.instrumentation import called, family_of, instruments
from catalogue.instrumentation.sounds import instrument_of_sound
from catalogue.instrumentation.vocabulary import LANGUAGES, instrument, key_of, keys, languages_of

PERCUSSION = "percussion"
STRINGS = ("violin", "viola", "cello", "double-bass")
# General MIDI 1 program numbers, from 1, of instruments that a score names so (from memory of the standard's table).
PROGRAMS = {
    1: "piano", 7: "harpsichord", 9: "celesta", 10: "glockenspiel", 12: "vibraphone", 13: "marimba", 14: "xylophone",
    15: "tubular-bells", 20: "organ", 22: "accordion", 25: "guitar", 41: "violin", 42: "viola", 43: "cello",
    44: "double-bass", 47: "harp", 48: "timpani", 57: "trumpet", 58: "trombone", 59: "tuba", 61: "horn",
    65: "soprano-saxophone", 66: "alto-saxophone", 67: "tenor-saxophone", 68: "baritone-saxophone", 69: "oboe",
    70: "cor-anglais", 71: "bassoon", 72: "clarinet", 73: "piccolo", 74: "flute", 75: "recorder",
}  # fmt: skip
UNDER_STRINGS = {"bass": "double-bass", "basses": "double-bass", "alto": "viola", "altos": "viola"}
MOST_PLAYERS = 40  # to a part
NUMBER = r"(?:\d{1,2}|[IVX]{1,4})"
NUMBERS = re.compile(rf"[\s.(]*\b(?P<numbers>{NUMBER}(?:\s*(?:[,&+/.-]|and|und|et|e|y)\s*{NUMBER})*)\s*[.)]*$")
LEADING = re.compile(rf"^(?P<numbers>{NUMBER}(?:\s*[,&+/.]\s*{NUMBER})*)\s*[.)]*\s+")
KEY = r"(?:[A-H](?:\s*-?\s*(?:flat|sharp|b|♭|#|♯))?|[ABDEFGH]s|sib|mib|lab|fa|do|re|sol|la)"
PITCH = re.compile(rf"\s*(?:\(\s*(?:in\s+)?{KEY}\s*\)|\b(?:in|en)\s+{KEY})(?=\s|$|[(.,\d])", re.IGNORECASE)
MAY_BE_PITCHED = re.compile(r"\(|\b[ie]n\s", re.IGNORECASE)
ROMANS = {"I": 1, "II": 2, "III": 3, "IV": 4, "V": 5, "VI": 6, "VII": 7, "VIII": 8, "IX": 9, "X": 10}


def by_instrument(one: PlayedInstrument) -> str | None:
    name = without_numbers(one.name)[0]
    known = (spelled(name) if len(name) > 2 else None) or sounding(one.sound)
    return known or (PERCUSSION if one.unpitched else PROGRAMS.get(one.program or 0))


def sounding(sound: str) -> str | None:
    return instrument_of_sound(sound) if "." in sound else None


@functools.lru_cache(maxsize=1024)
def without_numbers(name: str) -> tuple[str, int]:
    """Return a part's name without its chair numbers and key, and how many players share the part.

    >>> without_numbers("Clarinet in B♭ 1, 2"), without_numbers("Violin II"), without_numbers("4 Trombones")
    (('Clarinet', 2), ('Violin', 1), ('Trombones', 4))
    """
    name = unpitched(" ".join(name.split()))
    players = 1
    for pattern in (NUMBERS, LEADING):
        found = pattern.search(name)
        if found and found.end() - found.start() < len(name):
            rest = name[: found.start()] + name[found.end() :]
            players = max(players, players_of(found["numbers"], before=pattern is LEADING and is_plural(rest)))
            name = rest
    return unpitched(name).strip(" .,"), players


def unpitched(name: str) -> str:
    """Return a name without the key in which its instrument is built; most names are searched for none."""
    return PITCH.sub("", name) if MAY_BE_PITCHED.search(name) else name


def chair_of(written: str) -> int:
    """Return the number of a chair in Arabic or Roman figures, 0 for what is none.

    >>> chair_of("2"), chair_of("IV"), chair_of("IIX")
    (2, 4, 0)
    """
    return ROMANS.get(written) or (int(written) if written.isdecimal() else 0)


def first_chair(name: str) -> int:
    """Return the first chair that the name of a part tells, 1 where it tells none.

    >>> first_chair("Flutes 3, 4"), first_chair("Horn in F II"), first_chair("2 Oboes")
    (3, 2, 1)
    """
    found = NUMBERS.search(unpitched(" ".join(name.split())))
    figures = [chair_of(one) for one in re.findall(NUMBER, found["numbers"])] if found else []
    return next(filter(None, figures), 1)


def players_of(numbers: str, before: bool) -> int:
    """Return how many players share a part: its chair numbers, or the number that stands before a plural."""
    figures = [one for one in map(chair_of, re.findall(NUMBER, numbers)) if one]
    if before and len(figures) == 1:
        return min(figures[0], MOST_PLAYERS) or 1
    if "-" in numbers and len(figures) == 2 and figures[1] > figures[0]:
        return min(figures[1] - figures[0] + 1, MOST_PLAYERS)
    return max(len(figures), 1)


@functools.cache
def plural_keys() -> frozenset[str]:
    """Return the keys of names that are plurals and never singulars, in any language."""
    names = [called(slug, language) for slug in instruments() for language in LANGUAGES]
    return frozenset(key_of(one.plural) for one in names) - frozenset(key_of(one.singular) for one in names)


def is_plural(name: str) -> bool:
    return key_of(unpitched(name)) in plural_keys()


@functools.cache
def spellings_in(language: str) -> frozenset[str]:
    """Return how a language spells instruments, in small letters with their accents."""
    return frozenset(one.lower() for slug in instruments() for one in names_in(slug, language))


def names_in(slug: str, language: str) -> list[str]:
    return [spelling for told, spelling in instrument(slug).spellings if told == language]


def is_french(names: Sequence[str]) -> bool:
    """Whether the parts of a score have French names: some that English does not write so, none that are sung.

    >>> is_french(["Flûte", "Alto"]), is_french(["Flute", "Alto"]), is_french(["Flûte", "Soprano", "Alto"])
    (True, False, False)
    """
    bare = [without_numbers(name)[0] for name in names]
    told = {name.lower() for name in bare} & (spellings_in("fr") - spellings_in("en-GB"))
    sung = (slug for name in bare if key_of(name) not in UNDER_STRINGS for slug in keys().get(key_of(name), ()))
    return bool(told) and not any(family_of(slug) == "voice" for slug in sung)


def spelled(name: str, above: str | None = None, *, french: bool = False) -> str | None:
    """Return the instrument of a name, of several the one of the family above it, or the one that English calls so.

    Where the names of a score are ``french`` and nobody sings, ``Alto`` is the viola.
    """
    found = keys().get(key_of(name), ()) if name else ()
    if key_of(name) in UNDER_STRINGS and (above in STRINGS or (french and key_of(name).startswith("alto"))):
        return UNDER_STRINGS[key_of(name)]
    if above and len(found) > 1:
        found = tuple(slug for slug in found if family_of(slug) == family_of(above)) or found
    english = [slug for slug in found if languages_of()[key_of(name), slug] & {"en-GB", "en-US"}]
    return next(iter(english or found), None)
