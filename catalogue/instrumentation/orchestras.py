"""Remembers the families of an orchestra: woodwind, brass, and the rest with its body of strings.

In ``2(II=picc).2.2.2 – 4.2.3.1 – timp.perc(2) – str`` no family bears on what another says, and the works of a
catalogue share few woodwinds and few brasses. Of a text in this dress the reading is kept family by family; a text
whose three families have all been read is put together from them. Whatever is written in another way, or could bear
on its neighbours, is left to the readers: a wind beside the percussion, a name of two meanings, ``str(1.1.1.1.1)``.
"""

from __future__ import annotations

import functools
import re
from collections.abc import Iterator
from dataclasses import dataclass
from itertools import takewhile

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
    """What a family's own text says; the remarks count characters from where the family begins."""

    lines: tuple[Line, ...]
    remarks: tuple[Remark, ...]


kept: dict[tuple[int, str], Family] = {}
"""What has been read, by the place of the family and its text."""


def in_usual_dress(text: str) -> re.Match[str] | None:
    """Return the three families of a text where it is written so that they can be read one by one."""
    return TEXT.fullmatch(text)


def recalled(families: re.Match[str]) -> Instrumentation | None:
    """Return the forces of a text all of whose families have been read before, ``None`` where one is new."""
    winds, brass, rest = map(kept.get, enumerate(families.groups()))
    if winds is None or brass is None or rest is None:
        return None
    remarks: tuple[Remark, ...] = ()
    if winds.remarks or brass.remarks or rest.remarks:
        told = enumerate((winds.remarks, brass.remarks, rest.remarks), 1)
        remarks = tuple(moved(one, families.start(place)) for place, own in told for one in own)
    return Instrumentation(
        lines=winds.lines + brass.lines + rest.lines,
        text=families.string,
        convention=convention_of(families.string),
        warnings=remarks,
    )


def moved(remark: Remark, by: int) -> Remark:
    return Remark(remark.start + by, remark.end + by, remark.code, remark.message, remark.other)


def convention_of(text: str) -> str:
    dress = bracket_dress(text)
    return f"dotted, {dress}" if dress else "dotted"


def keep(families: re.Match[str], reading: Instrumentation) -> None:
    """Keep what the families of a text say, unless something in it could say more together with other neighbours."""
    plain = (
        reading.convention == convention_of(families.string)
        and reading.electronics == "none"
        and not reading.alternatives
    )
    lines = lines_of(reading.lines)
    if not plain or not all(map(is_by_place, families.groups(), lines, MAINS)):
        return
    spans = [families.span(place) for place in (1, 2, 3)]
    remarks = [[one for one in reading.warnings if start <= one.start and one.end <= end] for start, end in spans]
    if sum(map(len, remarks)) != len(reading.warnings) or not all(map(is_clear, families.groups(), MAINS)):
        return
    if len(kept) > MOST_KEPT:
        kept.clear()
    for key, own, told, (start, _) in zip(enumerate(families.groups()), lines, remarks, spans, strict=True):
        kept[key] = Family(own, tuple(moved(one, -start) for one in told))


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
