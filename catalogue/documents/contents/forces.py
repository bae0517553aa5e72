"""How a list says what a work is for: a description in words, the shorthand, the strip, and the key to both.

The composer's own subtitle is the description where there is one, told in the document's language where it says the
forces and no more; otherwise it is made from the lines of the instrumentation. Forces are not repeated in shorthand
where the description has said them all.
"""

from __future__ import annotations

import re
import tomllib
from collections import Counter
from dataclasses import dataclass, replace
from functools import cache, lru_cache
from importlib.resources import files
from typing import NamedTuple

from catalogue.documents.contents.subtitles import told_in
from catalogue.documents.contents.titles import generic
from catalogue.documents.labels import LANGUAGES, Labels, labels
from catalogue.documents.model import (
    Block,
    Legend,
    Paragraph,
    Section,
    Sign,
    Text,
    Voice,
    joined,
    plain,
    value,
    wording,
)
from catalogue.drawings.player_strip import FIRST_Y, LINE_Y, Point, Span, Strip, player_strip
from catalogue.facts import WorkFacts
from catalogue.instrumentation import Instrumentation, Line, write_shorthand
from catalogue.instrumentation.vocabulary import called
from catalogue.instrumentation.wording import write_sentence
from catalogue.terms import Category

FEW = 6
GROUPS = tomllib.loads(files("catalogue.documents.contents").joinpath("groupings.toml").read_text(encoding="utf-8"))
WHOLE_BODIES = (Category.ORCHESTRA, Category.SOLOIST_AND_ORCHESTRA)
SECTIONS = {"violin-1": "violin", "violin-2": "violin"}
CHOIR_LETTERS = {"soprano": "S", "mezzo-soprano": "Mez", "alto": "A", "tenor": "T", "baritone": "Bar", "bass": "B"}
FLAT = re.compile(r"(?<=\b[A-G])b(?=[a-z])")
"""The flat of an instrument's short name (Ebcl), which paper has a sign for and the reader of forces takes as well."""
KEY = re.compile(r"in [A-H](?:e?s|is)?(?:[ -]?(?:flat|sharp|b)|\N{MUSIC FLAT SIGN})?", re.IGNORECASE)
"""A remark that tells in which key a line is written: a matter of the score, not of its forces."""
HIGH, LOW = {"choir-soprano", "choir-mezzo-soprano", "choir-alto"}, {"choir-tenor", "choir-baritone", "choir-bass"}


def without_keys(forces: Instrumentation) -> str | None:
    """The shorthand as a list has it, clarinets, horns and trumpets without their keys; None where none has any."""
    if not any(line.note and KEY.fullmatch(line.note) for line in forces.lines):
        return None
    lines = (replace(line, note="") if KEY.fullmatch(line.note) else line for line in forces.lines)
    return write_shorthand(replace(forces, lines=tuple(lines)))


@dataclass(frozen=True, slots=True)
class Told:
    """A part of a description, and whether it tells its players one by one."""

    text: Text
    whole: bool = True


class Said(NamedTuple):
    """What is said of the same ``forces``, whichever work they play: of those that were met first.

    ``sentence`` says for whom, ``keyless`` is the shorthand :func:`without_keys`; ``bare`` where a shorthand would tell
    no more than the words do.
    """

    told: tuple[Told, ...]
    sentence: Text
    keyless: str | None = None
    bare: bool = False
    forces: Instrumentation | None = None


def described(work: WorkFacts, says: Labels) -> Text:
    """What the work is, in a few words: its subtitle, or what it is for.

    Nothing where neither is known, or where the title names its kind and so its players (String Quartet No. 2).
    """
    return description(work, said_forces(work, says), says)


def description(work: WorkFacts, said: Said, says: Labels) -> Text:
    if work.title.subtitle and not (said.told and says_forces_elsewhere(work, says)):
        return told_in(work.title.subtitle, says.language) or value(work.title.subtitle)
    if not said.told or (generic(work.title.title) and all_in(said.told, work.title.title)):
        return ()
    return said.told[0].text if only_media(work.instrumentation) else said.sentence


def says_forces_elsewhere(work: WorkFacts, says: Labels) -> bool:
    """Whether the subtitle is what another language says of the forces, and no more: it can be told in any."""
    subtitle = work.title.subtitle.casefold()
    other = next((tag for beginning, tag in beginnings() if subtitle.startswith(beginning)), says.language)
    if other.partition("-")[0] == says.language.partition("-")[0]:
        return False
    return plain(said_forces(work, labels(other)).sentence).casefold() == subtitle


@cache
def beginnings() -> tuple[tuple[str, str], ...]:
    """How each language begins to say for whom a work is, and the language."""
    return tuple((labels(tag).word("for {forces}").partition("{")[0].casefold(), tag) for tag in LANGUAGES)


def for_whom(told: tuple[Told, ...], says: Labels) -> Text:
    return says.say("for {forces}", forces=says.listed(tuple(one.text for one in told)))


def forces_line(work: WorkFacts, says: Labels) -> Text:
    """The canonical shorthand, or what was typed where it could not be read, unless the words above it say it all."""
    return described_with_forces(work, says)[1]


def described_with_forces(work: WorkFacts, says: Labels) -> tuple[Text, Text]:
    """What :func:`described` and :func:`forces_line` say."""
    return told_with_forces(work, said_forces(work, says), says)


def told_with_forces(work: WorkFacts, said: Said, says: Labels) -> tuple[Text, Text]:
    """As :func:`described_with_forces`, from what is ``said`` of the forces."""
    above = description(work, said, says)
    if work.instrumentation is None:
        return above, value(work.instrumentation_text or work.instrumentation_typed)
    if said.bare and all_in(said.told, f"{work.title.title} {plain(above)}"):
        return above, ()
    shorthand = said.keyless or work.instrumentation_text or work.instrumentation_typed
    return above, value(FLAT.sub("\N{MUSIC FLAT SIGN}", shorthand))


def all_in(told: tuple[Told, ...], words: str) -> bool:
    """Whether the words name every player that the parts of a description tell."""
    return all(one.whole and plain(one.text).casefold() in words.casefold() for one in told)


def said_forces(work: WorkFacts, says: Labels) -> Said:
    """What is said of a work's forces; of those that nobody has told, what its category says."""
    if work.instrumentation is not None:
        return said_of(work.instrumentation, work.category, says.language)
    told = (Told(wording(says.word("orchestra")), whole=False),) if work.category in WHOLE_BODIES else ()
    return Said(told, for_whom(told, says))


@lru_cache(2048)
def said_of(forces: Instrumentation, category: Category, language: str) -> Said:
    told, says = told_of(forces, category, language), labels(language)
    bare = bool(told) and all(not line.chairs and not line.note and not line.optional for line in forces.lines)
    return Said(told, for_whom(told, says), without_keys(forces), bare, forces)


def told_of(forces: Instrumentation, category: Category, language: str) -> tuple[Told, ...]:
    """Soloists, choir, players and electronics, each in words."""
    says = labels(language)
    soloists = tuple(
        told for line in forces.lines if line.role in ("soloist", "narrator") for told in named(line, says)
    )
    body = [line for line in forces.lines if line.role in ("ensemble", "offstage")]
    singers = tuple(told for line in body if is_solo_voice(line) for told in named(line, says))
    choirs = [line for line in body if line.instrument.startswith("choir-")]
    players = players_told([line for line in body if line.family not in ("voice", "electronics")], category, says)
    played = (*players, *electronics_told(forces, says))
    return (*soloists, *singers, *choir_told(choirs, says, alone=not played), *played)


def is_solo_voice(line: Line) -> bool:
    return line.family == "voice" and not line.instrument.startswith("choir-")


def named(line: Line, says: Labels) -> tuple[Told, ...]:
    """One instrument with its number: clarinet; two percussion; nothing certain can be said of an open number."""
    name = called(line.instrument, says.language)
    if line.players is None or line.players[0] != line.players[1]:
        return (Told(value(name.plural or name.singular), whole=False),)
    return (
        Told(
            wording(says.count(name.singular, f"{{n}} {name.plural or name.singular}", line.players[1], spelled=True))
        ),
    )


def choir_told(lines: list[Line], says: Labels, *, alone: bool) -> tuple[Told, ...]:
    if not lines:
        return ()
    slugs = {line.instrument for line in lines}
    kind = "mixed choir" if slugs & HIGH and slugs & LOW else "upper voices" if slugs & HIGH else "lower voices"
    letters = "".join(CHOIR_LETTERS.get(line.instrument.removeprefix("choir-"), "") * line.parts for line in lines)
    return (Told((*wording(says.word(kind)), *wording(f", {letters}" if alone else f" ({letters})"))),)


def players_told(lines: list[Line], category: Category, says: Labels) -> tuple[Told, ...]:
    if not lines:
        return ()
    if category in WHOLE_BODIES:
        strings = all(line.family == "strings" for line in lines)
        return (Told(wording(says.word("string orchestra" if strings else "orchestra")), whole=False),)
    if any(line.players is None or line.players[0] != line.players[1] for line in lines):
        return (Told(wording(says.word("ensemble")), whole=False),)
    number = sum(line.players[1] for line in lines if line.players)
    if number > FEW:
        return (Told(wording(says.count("{n} player", "{n} players", number, spelled=True)), whole=False),)
    group = group_name(lines)
    return (Told(wording(says.word(group))),) if group else tuple(one for line in lines for one in named(line, says))


def group_name(lines: list[Line]) -> str:
    """The name of a chamber group with exactly these players, if it has one."""
    players: Counter[str] = Counter()
    for line in lines:
        players[SECTIONS.get(line.instrument, line.instrument)] += line.players[1] if line.players else 0
    return next((name for name, group in GROUPS.items() if group == players), "")


def only_media(forces: Instrumentation | None) -> bool:
    return forces is not None and all(line.family == "electronics" for line in forces.lines)


def electronics_told(forces: Instrumentation, says: Labels) -> tuple[Told, ...]:
    word = {"fixed": "fixed media", "live": "live electronics", "both": "live electronics and fixed media"}
    if forces.electronics == "none":
        return ()
    return (Told(wording(says.word(word.get(forces.electronics, "electronics")))),)


def strip_of(work: WorkFacts, says: Labels) -> Strip | None:
    """The player strip, its title the forces in a sentence; none for a single player or forces that are unknown."""
    return strip_of_said(said_forces(work, says), says)


def strip_of_said(said: Said, says: Labels) -> Strip | None:
    """As :func:`strip_of`, of what is said of the forces: these are the same wherever they are, and quickly found."""
    return strip_for(said.forces, says.language) if said.forces else None


@lru_cache(2048)
def strip_for(forces: Instrumentation, language: str) -> Strip | None:
    strip = player_strip(forces, labels(language).spaced(write_sentence(forces, language)))
    return strip if strip.marks > 1 else None


def reading_key(
    works: tuple[WorkFacts, ...], says: Labels, *, shorthand: tuple[str, ...] = (), strips: tuple[Strip, ...] = ()
) -> tuple[Block, ...]:
    """*How to read the list*: only the signs that occur in its lines of forces and its strips."""
    blocks: tuple[Block, ...] = (
        *(Paragraph(text, Voice.NOTE) for text in (shorthand_key(shorthand, says),) if text),
        *(Legend(signs) for signs in (signs_met(strips, says),) if signs),
        Paragraph(years_key(works, says), Voice.NOTE),
    )
    return (Section(wording(says.word("How to read the list")), blocks, key=True),)


def shorthand_key(shorthand: tuple[str, ...], says: Labels) -> Text:
    met = (
        (
            any(" – " in text and text.count(".") > 2 for text in shorthand),
            "Score order: flute, oboe, clarinet, bassoon – horn, trumpet, trombone, tuba – timpani, percussion – "
            "harp – keyboards – strings.",
        ),
        (
            any("=" in text for text in shorthand),
            "A Roman numeral names the chair, = what it also plays: 3(III=picc) is three players, the third doubling "
            "piccolo.",
        ),
        (
            any("perc(" in text or "str(" in text for text in shorthand),
            "The figures after perc and str count players.",
        ),
    )
    return joined(tuple(wording(says.word(message)) for occurs, message in met if occurs), " ")


def signs_met(strips: tuple[Strip, ...], says: Labels) -> tuple[Sign, ...]:
    signs = (
        (any(strip.discs for strip in strips), SAMPLE_DISC, "a player"),
        (any(strip.rings for strip in strips), SAMPLE_RING, "a player who also plays another instrument"),
        (any(strip.small for strip in strips), SAMPLE_SMALL, "a player who may be left out"),
        (any(strip.above for strip in strips), SAMPLE_ABOVE, "a soloist, above the line"),
        (any(bar.end - bar.x < 10 for strip in strips for bar in strip.bars), SAMPLE_CHOIR, "a choir part"),
        (any(bar.end - bar.x > 10 for strip in strips for bar in strip.bars), SAMPLE_OPEN, "a section of open size"),
        (any(strip.triangles for strip in strips), SAMPLE_MEDIA, "electronics"),
    )
    return tuple(Sign(drawing, wording(says.word(meaning))) for occurs, drawing, meaning in signs if occurs)


def years_key(works: tuple[WorkFacts, ...], says: Labels) -> Text:
    sentences = [says.word("Years are of completion.")]
    revised, versions = any(work.revised for work in works), any(work.version_of for work in works)
    if revised and versions:
        sentences.append(says.word("A revised work keeps its number; a version for other forces has its own."))
    elif revised:
        sentences.append(says.word("A revised work keeps its number."))
    elif versions:
        sentences.append(says.word("A version for other forces has its own number."))
    return wording(" ".join(sentences))


SHORT = (Span(0, 5, LINE_Y),)
SAMPLE_DISC = Strip(5, 14, SHORT, discs=(Point(2.5, FIRST_Y),))
SAMPLE_RING = Strip(5, 14, SHORT, rings=(Point(2.5, FIRST_Y),))
SAMPLE_SMALL = Strip(5, 14, SHORT, small=(Point(2.5, FIRST_Y),))
SAMPLE_ABOVE = Strip(5, 14, SHORT, discs=(Point(2.5, FIRST_Y), Point(2.5, 3.5)), above=True)
SAMPLE_CHOIR = Strip(7.2, 14, (Span(0, 7.2, LINE_Y),), bars=(Span(0.6, 6.6, FIRST_Y),))
SAMPLE_OPEN = Strip(23.2, 14, (Span(0, 23.2, LINE_Y),), bars=(Span(0.6, 22.6, FIRST_Y),))
SAMPLE_MEDIA = Strip(5, 14, SHORT, triangles=(Point(0.6, FIRST_Y),))
