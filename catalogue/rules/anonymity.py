"""Whether a text names a composer, in any form and script, or somebody who gives the composer away.

A name is looked for as a whole and by its family name: without case and marks, with German umlauts also as two letters,
letters set apart or run together as a PDF has them, in Latin letters and in the scripts that the records hold; Cyrillic
and Greek letters of the text are also compared by their sound. A short family name must stand as a word of its own.
"""

from __future__ import annotations

import re
import unicodedata
from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from enum import StrEnum
from functools import lru_cache

from catalogue.rules.search import fold

SHORT = 5  # letters below which a name is looked for as a word only
AROUND = 30  # characters shown on either side of a find


class Clue(StrEnum):
    """What gives the composer away."""

    NAME = "name"
    EMAIL = "e-mail"
    WEBSITE = "website"
    TELEPHONE = "telephone"
    NAMESAKE = "namesake"
    GIVEAWAY = "giveaway"


@dataclass(frozen=True, slots=True)
class Sought:
    """Something to look for: the ``text`` as the records have it, and what it would be."""

    text: str
    clue: Clue
    whole_word: bool = False


@dataclass(frozen=True, slots=True)
class Person:
    """The composer as the records name them; ``family`` is how the name is filed."""

    names: tuple[str, ...]
    family: str = ""
    email: str = ""
    website: str = ""
    telephone: str = ""


@dataclass(frozen=True, slots=True)
class Find:
    """What was found in a text: the words around it, and what they give away."""

    text: str
    clue: Clue


def sought_of(person: Person, giveaways: Iterable[str] = (), namesakes: Iterable[str] = ()) -> tuple[Sought, ...]:
    """Return everything to look for, the most telling first."""
    found = [Sought(name, Clue.NAME) for name in spellings(person)]
    families = dict.fromkeys(family for name in spellings(person) for family in family_names(name, person.family))
    found += [Sought(one, Clue.NAME, len(bare(one)) < SHORT) for one in families if len(bare(one)) > 1]
    found += [Sought(person.email, Clue.EMAIL)] if person.email else []
    found += [Sought(one, Clue.WEBSITE) for one in site_names(person.website)]
    digits = re.sub(r"\D", "", person.telephone)
    found += [Sought(digits[-8:], Clue.TELEPHONE)] if len(digits) >= 8 else []
    found += [Sought(name, Clue.NAMESAKE, True) for name in namesakes if name.strip()]
    found += [Sought(name, Clue.GIVEAWAY, True) for name in giveaways if len(bare(name)) >= SHORT]
    return tuple(dict.fromkeys(found))


def spellings(person: Person) -> list[str]:
    """Return the names with umlauts as they stand and as two letters."""
    found = [name.strip() for name in person.names if name.strip()]
    wide = [name.translate(UMLAUTS) for name in found]
    return list(dict.fromkeys([*found, *wide]))


UMLAUTS = str.maketrans({"ä": "ae", "ö": "oe", "ü": "ue", "Ä": "Ae", "Ö": "Oe", "Ü": "Ue", "ø": "oe", "å": "aa"})


def family_names(name: str, family: str) -> Iterator[str]:
    """Yield the family name in a name: as it is filed, else its last word (its first where East Asian)."""
    head = family.partition(",")[0].strip()
    if head and "," in family:
        yield head
        yield head.translate(UMLAUTS)
    if "," in name:
        yield name.partition(",")[0].strip()
    elif not has_spaces_of_latin(name):
        yield name
    elif not head or "," not in family or (not name.isascii() and fold(head) not in fold(name)):
        yield name.split()[-1]


def has_spaces_of_latin(name: str) -> bool:
    return " " in name.strip()


def site_names(website: str) -> Iterator[str]:
    host = re.sub(r"^[a-z]+://(?:www\.)?", "", website.strip().casefold()).strip("/")
    if host:
        yield host.partition("/")[0]


def finds(text: str, sought: tuple[Sought, ...]) -> list[Find]:
    """Return what of the sought stands in a text, each thing once, a whole name before its parts.

    >>> person = Person(("Ilka Marovand",), "Marovand, Ilka")
    >>> [one.text for one in finds("by I L K A  M A R O V A N D", sought_of(person))]
    ['by I L K A M A R O V A N D']
    """
    shown = " ".join(text.split())
    haystacks = [Haystack(shown)]
    if any(ord(letter) > 0x36F for letter in shown):
        haystacks.append(Haystack(by_sound(shown)))
        haystacks.append(Haystack(shown[::-1]))
    found: list[Find] = []
    for one in sought:
        if one.clue is not Clue.GIVEAWAY and any(other.clue is one.clue for other in found):
            continue
        for hay in haystacks:
            place = hay.place_of(one)
            if place is not None:
                found.append(Find(around(hay.text, *place), one.clue))
                break
    return list(dict.fromkeys(found))


def finds_as_stored(text: str, sought: tuple[Sought, ...]) -> list[Find]:
    """Return what stands in a file's bytes letter by letter; among the noise of a file nothing else is sure."""
    low = text.casefold()
    found: dict[Clue, Find] = {}
    for one in sought:
        if one.clue in found or one.clue in (Clue.GIVEAWAY, Clue.TELEPHONE) or len(one.text) < SHORT:
            continue
        for needle in {one.text.casefold(), fold(one.text)}:
            match = re.search(rf"(?<!\w){re.escape(needle)}(?!\w)", low)
            if match:
                found[one.clue] = Find(around(text, match.start(), match.end()), one.clue)
                break
    return list(found.values())


class Haystack:
    """A text with its bare letters and where each of them stands."""

    def __init__(self, text: str) -> None:
        self.text = text
        letters = [(letter, at) for at, sign in enumerate(text) for letter in bare_sign(sign)]
        self.bare = "".join(letter for letter, _ in letters)
        self.places = [at for _, at in letters]

    def place_of(self, one: Sought) -> tuple[int, int] | None:
        """Return where something begins and ends in the text."""
        if one.whole_word:
            return self.word(one.text)
        needle = bare(one.text)
        at = self.bare.find(needle) if needle else -1
        return None if at < 0 else (self.places[at], self.places[at + len(needle) - 1] + 1)

    def word(self, text: str) -> tuple[int, int] | None:
        """Return where a name stands as whole words, whatever stands between its letters."""
        needle = bare(text)
        at = self.bare.find(needle)
        while needle and at >= 0:
            first, last = self.places[at], self.places[at + len(needle) - 1]
            before = self.text[first - 1] if first else " "
            after = self.text[last + 1] if last + 1 < len(self.text) else " "
            inside = self.text[first : last + 1]
            if not before.isalnum() and not after.isalnum() and len(inside.split()) <= len(text.split()):
                return first, last + 1
            at = self.bare.find(needle, at + 1)
        return None


def bare(text: str) -> str:
    """Return the letters and figures of a text, folded, everything else left out."""
    return "".join(sign for sign in fold(text) if sign.isalnum())


@lru_cache(maxsize=4096)
def bare_sign(sign: str) -> str:
    return bare(sign)


def around(text: str, start: int, end: int) -> str:
    first, last = max(0, start - AROUND), min(len(text), end + AROUND)
    return f"{'…' if first else ''}{text[first:last].strip()}{'…' if last < len(text) else ''}"


SOUND_PAIRS = """
а=a б=b в=v г=g д=d е=e ж=zh з=z и=i й=y к=k л=l м=m н=n о=o п=p р=r с=s т=t у=u ф=f х=h ц=ts
ч=ch ш=sh щ=sht ъ=a ы=y ь= э=e ю=yu я=ya ї=yi і=i є=ye ґ=g ј=j љ=lj њ=nj ћ=c ђ=d џ=dz
α=a β=v γ=g δ=d ε=e ζ=z η=i θ=th ι=i κ=k λ=l μ=m ν=n ξ=x ο=o π=p ρ=r σ=s ς=s τ=t υ=y φ=f χ=ch
ψ=ps ω=o
"""
SOUNDS = dict(pair.split("=") for pair in SOUND_PAIRS.split())


def by_sound(text: str) -> str:
    """Return the text with Cyrillic and Greek letters as Latin ones (common practice, not a library's scheme).

    >>> by_sound("Невена Халдорева")
    'nevena haldoreva'
    """
    return "".join(SOUNDS.get(sign, sign) for sign in unicodedata.normalize("NFC", text).casefold())
