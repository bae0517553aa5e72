"""Subtitles that say for whom a work is, told in another language part by part.

A subtitle is the composer's own wording. Where it says forces and nothing else (*for mezzo-soprano, flute and harp*,
*five songs for soprano and piano*), each part is a word of the table below, a number of players, or instruments that
the reader of forces knows and would write just so. Where one part is none of these, the whole stays as it was typed.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from functools import lru_cache

from catalogue.documents.labels import LANGUAGES, UNITS, Labels, fill, labels
from catalogue.documents.model import Text, plain, wording
from catalogue.instrumentation import InstrumentationError, Line, read
from catalogue.instrumentation.vocabulary import called

BODIES = (
    "orchestra",
    "chamber orchestra",
    "small orchestra",
    "string orchestra",
    "sinfonietta",
    "ensemble",
    "wind band",
    "mixed choir",
    "double choir",
    "children’s choir",
    "upper voices",
    "lower voices",
    "string trio",
    "string quartet",
    "string quintet",
    "piano trio",
    "piano quartet",
    "piano quintet",
    "wind quintet",
    "brass quintet",
    "saxophone quartet",
    "percussion quartet",
    "piano four hands",
    "electronics",
    "fixed media",
    "live electronics",
)
WHOLE = ("sound installation",)
COUNTED = (
    ("{n} player", "{n} players"),
    ("{n} percussionist", "{n} percussionists"),
    ("{n} singer", "{n} singers"),
)
HEADS = ("for {forces}", "concerto for {forces}")
COUNTED_HEADS = (
    ("{n} song for {forces}", "{n} songs for {forces}"),
    ("{n} piece for {forces}", "{n} pieces for {forces}"),
)
NUMBERS = {
    "en": tuple(UNITS),
    "de": (
        "", "", "zwei", "drei", "vier", "fünf", "sechs", "sieben", "acht", "neun", "zehn", "elf", "zwölf", "dreizehn",
        "vierzehn", "fünfzehn", "sechzehn", "siebzehn", "achtzehn", "neunzehn",
    ),
    "fr": (
        "", "", "deux", "trois", "quatre", "cinq", "six", "sept", "huit", "neuf", "dix", "onze", "douze", "treize",
        "quatorze", "quinze", "seize", "dix-sept", "dix-huit", "dix-neuf",
    ),
    "it": (
        "", "", "due", "tre", "quattro", "cinque", "sei", "sette", "otto", "nove", "dieci", "undici", "dodici",
        "tredici", "quattordici", "quindici", "sedici", "diciassette", "diciotto", "diciannove",
    ),
    "es": (
        "", "", "dos", "tres", "cuatro", "cinco", "seis", "siete", "ocho", "nueve", "diez", "once", "doce", "trece",
        "catorce", "quince", "dieciséis", "diecisiete", "dieciocho", "diecinueve",
    ),
}  # fmt: skip
"""How numbers of players are spelled, from nought on."""
PARTED = {
    "en": re.compile(r",? and |, "), "de": re.compile(r" und |, "), "fr": re.compile(r" et |, "),
    "it": re.compile(r" ed? |, "), "es": re.compile(r" [ye] |, "),
}  # fmt: skip
FOUR_HANDS = re.compile(r"(?<=piano), (?=four hands)")


@lru_cache(2048)
def told_in(subtitle: str, language: str) -> Text:
    """The subtitle in the language, where another one says forces and nothing else; else nothing.

    >>> plain(told_in("for piano and small orchestra", "de")), plain(told_in("for two rooms", "de"))
    ('für Klavier und kleines Orchester', '')
    """
    says = labels(language)
    own = says.language.partition("-")[0]
    text = FOUR_HANDS.sub(" ", " ".join(subtitle.replace("'", "\N{RIGHT SINGLE QUOTATION MARK}").split()))
    others = (labels(tag) for tag in LANGUAGES if tag != "en-US" and tag.partition("-")[0] != own)
    return next((told for other in others if (told := translated(text.casefold(), other, says))), ())


def translated(text: str, other: Labels, says: Labels) -> Text:
    for message in WHOLE:
        if text == other.word(message).casefold():
            return wording(says.word(message))
    for template, forces in heads_met(text, other, says):
        parts = tuple(part_told(part, other, says) for part in PARTED[base_of(other)].split(forces))
        if all(parts):
            return fill(template, says.language, forces=says.listed(parts))
    return ()


def heads_met(text: str, other: Labels, says: Labels) -> Iterator[tuple[str, str]]:
    """Give how the language begins that is wanted, and the forces that follow in the other one."""
    for message in HEADS:
        before = other.word(message).casefold().partition("{forces}")[0]
        if text.startswith(before):
            yield says.word(message), text.removeprefix(before)
    for one, many in COUNTED_HEADS:
        met = counted(one, many, other).match(text)
        if met and number_of(met[1], other):
            yield begun(one, many, number_of(met[1], other), says), text[met.end() :]


def begun(one: str, many: str, number: int, says: Labels) -> str:
    """The beginning with its number spelled, as titles have it."""
    spelled = NUMBERS[base_of(says)]
    told = spelled[number] if 1 < number < len(spelled) else str(number)
    return says.catalogue.ngettext(one, many, number).replace("{n}", told)


def counted(one: str, many: str, other: Labels) -> re.Pattern[str]:
    """What several things look like, up to the forces that they are for."""
    template = other.catalogue.ngettext(one, many, 2)
    told = re.escape(template.casefold().partition("{forces}")[0]).replace(re.escape("{n}"), r"([\w-]+)")
    return re.compile(told)


def part_told(part: str, other: Labels, says: Labels) -> Text:
    """One of the forces in the language that is wanted; nothing where it is not known."""
    for message in BODIES:
        if part == other.word(message).casefold():
            return wording(says.word(message))
    for one, many in COUNTED:
        met = counted(one, many, other).fullmatch(part)
        if met and (number := number_of(met[1], other)):
            return wording(says.count(one, many, number, spelled=True))
    return instruments_told(part, other, says)


def instruments_told(part: str, other: Labels, says: Labels) -> Text:
    """Instruments of one kind with their number, where the reader of forces would write them just so."""
    try:
        lines = read(part).lines
    except InstrumentationError:
        return ()
    if len(lines) != 1 or lines[0].players is None or lines[0].players[0] != lines[0].players[1]:
        return ()
    written = plain(with_number(lines[0], other))
    return with_number(lines[0], says) if figures_in(written, other) == figures_in(part, other) else ()


def with_number(line: Line, says: Labels) -> Text:
    name = called(line.instrument, says.language)
    number = line.players[1] if line.players else 0
    return wording(says.count(name.singular, f"{{n}} {name.plural or name.singular}", number, spelled=True))


def figures_in(text: str, other: Labels) -> str:
    """The text with its first word as a figure, where that is a number."""
    first, blank, rest = text.casefold().partition(" ")
    number = number_of(first, other)
    return f"{number}{blank}{rest}" if number else text.casefold()


def number_of(word: str, other: Labels) -> int:
    """A number that is spelled or a figure; nought for anything else."""
    if word.isdecimal() and len(word) < 4:
        return int(word)
    spelled = NUMBERS[base_of(other)]
    return spelled.index(word) if word and word in spelled else 0


def base_of(says: Labels) -> str:
    return says.language.partition("-")[0]
