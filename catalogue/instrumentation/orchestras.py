"""Remembers the places and families of an orchestra: woodwind, brass, and the rest with its body of strings.

In ``2(II=picc).2.2.2 – 4.2.3.1 – timp.perc(2) – str`` no family bears on what another says, no place of the winds on
the one beside it, and the works of a catalogue share few of either. Of a text in this dress the reading is kept family
by family, that of the winds place by place as well; a text all of whose families or places have been read is put
together from them. What a bracket of the winds says may hang on the dress of the whole text and is kept under it;
elsewhere brackets hold numbers. Whatever is written in another way, or could bear on its neighbours, is left to the
readers: a wind beside the percussion, a name of two meanings, ``str(1.1.1.1.1)``.
"""

from __future__ import annotations

import functools
import re
from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from itertools import takewhile
from typing import TypeVar

from catalogue.instrumentation.conventions import bracket_dress
from catalogue.instrumentation.families import BRASS, MAIN, WOODWIND
from catalogue.instrumentation.model import Instrumentation, Line, Remark
from catalogue.instrumentation.numbers import roman
from catalogue.instrumentation.openers import opens_heading
from catalogue.instrumentation.senses import in_section
from catalogue.instrumentation.tokens import Token, spelled
from catalogue.instrumentation.vocabulary import family_of, instrument, key_of, keys

PLACE = r"[0-9]{1,2}(?:\([A-Za-z=+, ]{2,40}\))?"
BLOCK = rf"{PLACE}(?:\.{PLACE}){{3}}"
ITEM = r"[0-9]{0,2}[A-Za-z]{2,}(?:\([0-9]{1,2}\))?"
STRINGS = r"str(?:\((?:[2-9]|[1-9][0-9])(?:\.[0-9]{1,2}){4}\))?"
TEXT = re.compile(rf"({BLOCK}) [–-] ({BLOCK}) [–-] ((?:{ITEM}(?:\.| [–-] )){{0,12}}{STRINGS})")
WORD = re.compile(r"[A-Za-z]+=?")
BESIDE = ("percussion", "keyboard", "plucked")
MAINS = (WOODWIND, BRASS, ())
BODY = "str"
MOST_KEPT = 4096


@dataclass(frozen=True, slots=True)
class Family:
    """What the text of a family, or of one place of it, says; the remarks count characters from where it begins."""

    lines: tuple[Line, ...]
    remarks: tuple[Remark, ...]


kept: dict[tuple[int, str, str], Family] = {}
"""What has been read of families, by their place in the text, how it dresses its brackets, and their own text."""
places: dict[tuple[str, str, str], Family] = {}
"""What has been read of single places, by their main instrument, that dress, and their own text."""


def in_usual_dress(text: str) -> re.Match[str] | None:
    """Return the three families of a text where it is written so that they can be read one by one."""
    return TEXT.fullmatch(text)


def recalled(families: re.Match[str]) -> Instrumentation | None:
    """Return the forces of a text all of whose families have been read before, ``None`` where one is new."""
    dress = bracket_dress(families.string)
    first, second, third = families.groups()
    winds = kept.get((0, dress_in(first, dress), first)) or placed(0, first, dress)
    brass = kept.get((1, dress_in(second, dress), second)) or placed(1, second, dress)
    rest = kept.get((2, "", third))
    if winds is None or brass is None or rest is None:
        return None
    remarks: tuple[Remark, ...] = ()
    if winds.remarks or brass.remarks or rest.remarks:
        told = enumerate((winds.remarks, brass.remarks, rest.remarks), 1)
        remarks = tuple(moved(one, families.start(place)) for place, own in told for one in own)
    lines = winds.lines + brass.lines + rest.lines
    return Instrumentation(lines=lines, text=families.string, convention=named(dress), warnings=remarks)


def dress_in(unit: str, dress: str) -> str:
    """Return the dress that a part of a text is in: none where it has no bracket."""
    return dress if "(" in unit else ""


def placed(family: int, unit: str, dress: str) -> Family | None:
    """Put a family of winds together from its places, ``None`` where one of them has not been read yet."""
    lines: tuple[Line, ...] = ()
    remarks: list[Remark] = []
    at = 0
    for main, written in zip(MAINS[family], unit.split("."), strict=True):
        found = places.get((main, dress_in(written, dress), written))
        if found is None:
            return None
        lines += found.lines
        remarks += [moved(one, at) for one in found.remarks]
        at += len(written) + 1
    made = Family(lines, tuple(remarks))
    keep_in(kept, (family, dress_in(unit, dress), unit), made)
    return made


Key = TypeVar("Key")


def keep_in(memory: dict[Key, Family], key: Key, found: Family) -> None:
    """Keep what has been read; a memory that is full is emptied."""
    if len(memory) >= MOST_KEPT:
        memory.clear()
    memory[key] = found


def moved(remark: Remark, by: int) -> Remark:
    return Remark(remark.start + by, remark.end + by, remark.code, remark.message, remark.other)


def named(dress: str) -> str:
    return f"dotted, {dress}" if dress else "dotted"


def keep(families: re.Match[str], reading: Instrumentation) -> None:
    """Keep what the families of a text say, unless something in it could say more together with other neighbours."""
    text = families.string
    dress = bracket_dress(text)
    plain = reading.convention == named(dress) and reading.electronics == "none" and not reading.alternatives
    lines = lines_of(reading.lines)
    if not plain or not all(map(is_by_place, families.groups(), lines, MAINS)):
        return
    remarks = [within(reading.warnings, *families.span(place)) for place in (1, 2, 3)]
    if sum(map(len, remarks)) != len(reading.warnings) or not all(map(is_clear, families.groups(), MAINS)):
        return
    for place, (unit, own, told) in enumerate(zip(families.groups(), lines, remarks, strict=True)):
        keep_in(kept, (place, dress_in(unit, dress) if MAINS[place] else "", unit), Family(own, told))
        keep_places(unit, own, told, MAINS[place], dress)


def within(remarks: Iterable[Remark], start: int, end: int) -> tuple[Remark, ...]:
    """Return the remarks on a stretch of a text, counted from where it begins."""
    return tuple(moved(one, -start) for one in remarks if start <= one.start and one.end <= end)


def keep_places(
    unit: str, lines: tuple[Line, ...], remarks: tuple[Remark, ...], mains: tuple[str, ...], dress: str
) -> None:
    """Keep what the places of a family of winds say, each by itself; nothing where a remark is on several."""
    at = 0
    found: list[tuple[tuple[str, str, str], Family]] = []
    for main, written in zip(mains, places_of(unit) if mains else (), strict=True):
        own = tuple(line for line in lines if instrument(line.instrument).section == main)
        found.append(((main, dress_in(written, dress), written), Family(own, within(remarks, at, at + len(written)))))
        at += len(written) + 1
    told = sum(len(one.remarks) for _, one in found), sum(len(one.lines) for _, one in found)
    if told == (len(remarks), len(lines)):
        for key, one in found:
            keep_in(places, key, one)


def lines_of(lines: tuple[Line, ...]) -> tuple[tuple[Line, ...], ...]:
    """Return the lines of the woodwind, of the brass, and the rest."""
    winds = tuple(takewhile(lambda line: line.family == "woodwind", lines))
    brass = tuple(takewhile(lambda line: line.family == "brass", lines[len(winds) :]))
    return winds, brass, lines[len(winds) + len(brass) :]


def is_by_place(unit: str, lines: tuple[Line, ...], mains: tuple[str, ...]) -> bool:
    """Whether the main instruments of a family have the numbers that stand in their places; others have no places."""
    figures = [int(place.partition("(")[0]) for place in places_of(unit)] if mains else []
    placed = [(main, (figure, figure)) for main, figure in zip(mains, figures, strict=True) if figure]
    return placed == [(line.instrument, line.players) for line in lines if line.instrument in MAIN]


def places_of(unit: str) -> list[str]:
    return re.findall(PLACE, unit)


def is_clear(unit: str, mains: tuple[str, ...]) -> bool:
    """Whether every word of a family's text has one meaning, whatever stands around it."""
    if not mains:
        return all(word == BODY or is_clear_name(word) for word in WORD.findall(unit))
    brackets = zip(places_of(unit), mains, strict=True)
    return all(doubles(name, main) for place, main in brackets for name in names_in(place))


def names_in(place: str) -> Iterator[str]:
    """Yield the words that name instruments in the bracket of a place, the Roman numerals of chairs left out."""
    for word in WORD.findall(place):
        name = word.removesuffix("=")
        if name != "only" and not (word != name and roman(name)):
            yield name


@functools.lru_cache(maxsize=1 << 10)
def doubles(name: str, main: str) -> bool:
    """Whether a word in the bracket of a section can only be an instrument of that section."""
    slug = in_section(key_of(name), main) or sure_slug(name)
    return instrument(slug).section == main


@functools.lru_cache(maxsize=1 << 10)
def is_clear_name(word: str) -> bool:
    """Whether a word can only be an instrument that is no wind and no string, and begins no heading."""
    lower, key = spelled("word", word)
    opens = opens_heading(Token("word", word, 0, len(word), False, lower, key))
    return family_of(sure_slug(word)) in BESIDE and not opens


def sure_slug(name: str) -> str:
    """Return the one instrument that is spelled so, nothing where there are several or none."""
    slugs = keys().get(key_of(name), ())
    return slugs[0] if len(slugs) == 1 else ""
