"""From a text to lines of glyphs: faces, shaping, measuring, breaking.

This is the only door from what somebody typed to the page. Nothing in it is markup and nothing is dropped but control
characters, which have no form. Lines are ragged right and break at spaces, between ideographs, and inside a
word only where it is wider than the measure.
"""

from __future__ import annotations

import re
import unicodedata
from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass, field
from functools import lru_cache
from itertools import groupby
from operator import attrgetter, itemgetter

from catalogue.documents.model import Run, Style, Text
from catalogue.documents.renderers.characters import HELD, KEPT, printable
from catalogue.documents.renderers.pdf.bidi import in_visual_order, text_levels
from catalogue.documents.renderers.pdf.codes import common_name, spelled
from catalogue.documents.renderers.pdf.faces import CHAINS, Face, carried_face, face_for, missing
from catalogue.documents.renderers.pdf.shaping import Glyph, shape
from catalogue.documents.sheets.geometry import Look

DIRECTIONS = "\u061c\u200e\u200f\u202a\u202b\u202c\u202d\u202e\u2066\u2067\u2068\u2069"
"""Controls of direction have done their work when the levels are known."""

SIMPLE = re.compile("[ -~\u00a0-\u00ac\u00ae-\u017f\u2013\u2014\u2018\u2019\u201c\u201d\u2032\u2033]*")
"""Signs of Latin texts that every first face has, none of which joins, stacks, is invisible or reads from the right."""
BLANKS = re.compile(f"( (?!–|{KEPT}))")
"""Where a simple text may be broken: at spaces, but not before a dash nor between a figure and what it counts."""
PARTING = "-/_"
"""What a word that is wider than its line is rather broken behind, as the name of a file is."""
WIDTH = attrgetter("width")
FIRST = itemgetter(0)
MANY = 2000
"""Words of one dress that are at hand; there are some twenty dresses, and :func:`piece_of` remembers more."""
LONG = 400
"""Texts of more signs are set anew each time."""

Measure = Callable[[int], float]
"""The width that a line may have, by its place from 0."""


@dataclass(slots=True, eq=False)
class Piece:
    """Glyphs of one face and direction, set side by side; a blank is a space between words.

    Words return again and again: each is made once (:func:`piece_of`), and is the same wherever it stands. ``shown``
    and ``codes`` are its spelling in common codes, ``font`` is how these are chosen, where it is in the document's
    language.
    """

    glyphs: tuple[Glyph, ...]
    face: Face
    size: float
    level: int
    text: str
    language: str
    inked: bool
    blank: bool
    width: float
    shown: str
    codes: bytes
    font: str


@dataclass(slots=True)
class SetLine:
    """A line as it stands on the page, from left to right; ``turned`` is the space at which it was broken, if it was.

    The space has no width on the page but parts the words of a text that is read or copied. ``told`` is how the line is
    written in every document, when that is known (``text``); empty where documents differ in it.
    """

    pieces: tuple[Piece, ...]
    turned: Piece | None = None
    width: float = 0.0
    told: str | None = field(default=None, compare=False, repr=False)


@dataclass(frozen=True, slots=True)
class Character:
    text: str
    face: Face
    size: float
    level: int
    language: str


def set_text(text: Text, look: Look, measure: float | Measure, language: str) -> tuple[SetLine, ...]:
    """Break a text into lines of the measure; ``language`` is the document's. An empty text has no line."""
    if not text:
        return ()
    long = is_long(text)
    whole = simple_of(text, look) if long else simply_set(text, look)
    room = measure(0) if callable(measure) else measure
    if whole is not None and (not whole or whole[0].width <= room):
        return whole
    if callable(measure):
        return broken(text, look, measure, language)
    return broken(text, look, lambda _line: room, language) if long else set_within(text, look, room, language)


def is_long(text: Text) -> bool:
    """Whether a text is a note or a life rather than a line or two: these are not remembered, they take room."""
    return len(text[0][0]) > LONG if len(text) == 1 else sum([len(run[0]) for run in text]) > LONG


@lru_cache(20000)
def set_within(text: Text, look: Look, measure: float, language: str) -> tuple[SetLine, ...]:
    """Lines of one measure; papers are made again and again, and share most of their words."""
    return broken(text, look, lambda _line: measure, language)


def broken(text: Text, look: Look, room: Measure, language: str) -> tuple[SetLine, ...]:
    """A text that is more than one line, or not simple, word by word."""
    if is_simple(text) and not is_held_across(text):
        words = simple_words(simple_parts(text, look))
    else:
        words = all_words(characters(text, look, language), look)
    lines: list[SetLine] = []
    line: list[Piece] = []
    width = 0.0
    for word in words:
        for part in fitting(word, room(len(lines)), look):
            wide = sum(map(WIDTH, part))
            if line and width + wide > room(len(lines)) + 0.01 and not part[0].blank:
                lines.append(finished(line))
                line, width = [], 0.0
            if line or not part[0].blank:
                line += part
                width += wide
    return (*lines, finished(line)) if line else tuple(lines)


@lru_cache(20000)
def simply_set(text: Text, look: Look) -> tuple[SetLine, ...] | None:
    """The same as :func:`simple_of`; papers are made again and again."""
    return simple_of(text, look)


def simple_of(text: Text, look: Look) -> tuple[SetLine, ...] | None:
    """The one line that a text is, however wide, if none of its signs needs to be looked at; no line of an empty one.

    None of a text with other signs, and of one that begins with a space.
    """
    if not is_simple(text):
        return None
    parts = simple_parts(text, look)
    if not parts:
        return ()
    if parts[0].blank:
        return None
    if parts[-1].blank:
        return (finished(parts),)
    return (SetLine(tuple(parts), None, sum(map(WIDTH, parts))),)


def set_line(text: Text, look: Look, language: str) -> SetLine:
    """A text on one line, however long."""
    if text and not is_long(text) and (whole := simply_set(text, look)):
        return whole[0]
    lines = set_text(text, look, 1e6, language)
    return lines[0] if lines else SetLine(())


def finished(line: Sequence[Piece]) -> SetLine:
    """The pieces in visual order, without the spaces at the end."""
    turned = line[-1] if line and line[-1].blank else None
    while line and line[-1].blank:
        line = line[:-1]
    return SetLine(tuple(in_visual_order(line)), turned, sum(map(WIDTH, line)))


def is_simple(text: Text) -> bool:
    """Whether every sign is one that the first face of every chain has and that stands by itself, left to right."""
    said = text[0][0] if len(text) == 1 else "".join([run[0] for run in text])
    if not SIMPLE.fullmatch(said):
        return False
    return "–" not in said or not ("  –" in said or any(run.text.startswith("–") for run in text))


def is_held_across(text: Text) -> bool:
    """Whether a space at which no line is broken may stand where two runs meet, which are cut one by one."""
    return len(text) > 1 and HELD.search("".join([run.text for run in text])) is not None


def simple_parts(text: Text, look: Look) -> list[Piece]:
    """The pieces of a simple text: what is between its spaces, and the spaces; of one look and language one piece."""
    if len(text) == 1:
        return parts_of(text[0].text, worn(text[0].style, look, text[0].language))
    told = [(worn(run.style, look, run.language), run.text) for run in text if run.text]
    return [
        part for words, runs in groupby(told, key=FIRST) for part in parts_of("".join([run for _, run in runs]), words)
    ]


class Words(dict[str, Piece]):
    """The words that have been set in one dress, each once; when they are very many they are all forgotten."""

    def __init__(self, face: Face, size: float, language: str, inked: bool) -> None:
        super().__init__()
        self.dress = (face, size, 0, language, inked)

    def __eq__(self, other: object) -> bool:
        return self is other

    def __hash__(self) -> int:  # type: ignore[override]
        return id(self)

    def __missing__(self, word: str) -> Piece:
        if len(self) > MANY:
            self.clear()
        piece = self[word] = piece_of(word, *self.dress)
        return piece


@lru_cache(64)
def words_in(face: Face, size: float, language: str, inked: bool) -> Words:
    return Words(face, size, language, inked)


@lru_cache(256)
def worn(style: Style, look: Look, language: str) -> Words:
    return words_in(*dress(style, look), language, look.inked)


def parts_of(text: str, words: Words) -> list[Piece]:
    if " " not in text:
        return [words[text]] if text else []
    return [words[part] for part in BLANKS.split(text) if part]


@lru_cache(4000)
def dress(style: Style, look: Look) -> tuple[Face, float]:
    """The first face for a style, and the size it is set in."""
    face = carried_face(CHAINS[look.family, cut_of(style, look)][0])
    return face, (look.emphasis if look.emphasis and style is Style.EMPHASIS else look.size) * face.scale


def simple_words(parts: Sequence[Piece]) -> Iterator[list[Piece]]:
    """What :func:`all_words` makes of a simple text, without looking at its signs one by one."""
    for blank, group in groupby(parts, key=attrgetter("blank")):
        if blank:
            yield from ([piece] for piece in group)
        else:
            yield list(group)


def characters(text: Text, look: Look, language: str) -> list[Character]:
    """Every printing character with its face; marks and joiners stay in the face of the character before them."""
    text = tuple(settable(run, look, language) for run in text)
    found: list[Character] = []
    place = 0
    levels = text_levels(text)
    for run in text:
        cut = cut_of(run.style, look)
        size = look.emphasis if look.emphasis and run.style is Style.EMPHASIS else look.size
        for sign in run.text:
            face = face_for(sign, look.family, cut, run.language or language)
            if found and stays(sign) and ord(sign) in found[-1].face.coverage:
                face = found[-1].face
            form = "" if sign in DIRECTIONS else printable(sign)
            if form:
                found.append(Character(form, face, size * face.scale, levels[place], run.language))
            place += 1
    return found


def settable(run: Run, look: Look, language: str) -> Run:
    """The run, or what stands for it where no face has its script."""
    if run.instead is None or not missing(run.text, look.family, run.language or language):
        return run
    return Run(run.instead, run.style, f"{run.language}-Latn" if run.language else "", value=True)


def cut_of(style: Style, look: Look) -> str:
    """Upright, slanted or strong: a title or an emphasis inside slanted text stands upright again."""
    if look.strong or style is Style.STRONG:
        return "strong"
    return "italic" if look.italic != (style in (Style.TITLE, Style.EMPHASIS)) else "roman"


def stays(sign: str) -> bool:
    return unicodedata.category(sign) in ("Mn", "Me", "Cf")


def all_words(signs: list[Character], look: Look) -> Iterator[list[Piece]]:
    """Unbreakable stretches: words, spaces, ideographs; a dash keeps to the word before it, a unit to its figure."""
    said = "".join([one.text for one in signs])
    held = {place for found in HELD.finditer(said) for place in (found.start(), found.end())}
    word: list[Character] = []
    for place, sign in enumerate(signs):
        if (
            word
            and place not in held
            and breaks(word[-1].text, sign.text, signs[place + 1].text if place + 1 < len(signs) else "")
        ):
            yield pieces(word, look)
            word = []
        word.append(sign)
    if word:
        yield pieces(word, look)


def breaks(before: str, sign: str, after: str) -> bool:
    """Whether a stretch ends before the sign."""
    if sign == " ":
        return after != "–"
    return (before == " " and sign != "–") or ideograph(sign) or ideograph(before)


def ideograph(sign: str) -> bool:
    """Whether a line may break before and after the sign: wide letters, not closing or opening punctuation."""
    return unicodedata.east_asian_width(sign) == "W" and unicodedata.category(sign) == "Lo"


def pieces(word: list[Character], look: Look) -> list[Piece]:
    return [
        piece_of("".join(one.text for one in group), *shared, look.inked)
        for shared, group in groupby(word, key=lambda one: (one.face, one.size, one.level, one.language))
    ]


@lru_cache(40000)
def piece_of(text: str, face: Face, size: float, level: int, language: str, inked: bool) -> Piece:
    glyphs = shape(text, face, bool(level % 2))
    width = sum(glyph.advance for glyph in glyphs) * size / 1000
    shown, codes = spelled(glyphs, face)
    font = common_name(face, size) if shown and not language else ""
    return Piece(glyphs, face, size, level, text, language, inked, text == " ", width, shown, codes, font)


def fitting(word: list[Piece], room: float, look: Look) -> Iterator[list[Piece]]:
    """The word, or where it is wider than a line, parts of it that are not."""
    if sum(map(WIDTH, word)) <= room:
        yield word
        return
    part: list[Character] = []
    width = 0.0
    for piece in word:
        for sign in piece.text:
            one = Character(sign, piece.face, piece.size, piece.level, piece.language)
            if part and width + width_of(one) > room and not stays(sign):
                end = end_of_part(part)
                yield pieces(part[:end], look)
                part = part[end:]
                width = sum(map(width_of, part))
            part.append(one)
            width += width_of(one)
    yield pieces(part, look)


def width_of(sign: Character) -> float:
    return sum(glyph.advance for glyph in shape(sign.text, sign.face, bool(sign.level % 2))) * sign.size / 1000


def end_of_part(part: list[Character]) -> int:
    """Where a word is broken that fills a line: behind its last hyphen or stroke, else where the line ends."""
    return next((place for place in range(len(part), 0, -1) if part[place - 1].text in PARTING), len(part))
