"""Which instruments the parts of a score are for, and the instrumentation that they make up.

An instrument is found by the part's name, else by what the file says of its sound, else by its General MIDI program
(General MIDI 1 instrument numbers). What a part list cannot say is resolved by convention and said: strings beside a
full wind section are sections, soprano, alto, tenor and bass are a choir.
"""

from __future__ import annotations

import functools
import re
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, field

from catalogue.exchange.scores.model import Part, PlayedInstrument
from catalogue.instrumentation import InstrumentationError, called, family_of, read, shorthand
from catalogue.instrumentation.sounds import instrument_of_sound
from catalogue.instrumentation.vocabulary import LANGUAGES, instruments, key_of, keys, languages_of

# General MIDI 1 program numbers, from 1, of instruments that a score names so (from memory of the standard's table).
PROGRAMS = {
    1: "piano", 7: "harpsichord", 9: "celesta", 10: "glockenspiel", 12: "vibraphone", 13: "marimba", 14: "xylophone",
    15: "tubular-bells", 20: "organ", 22: "accordion", 25: "guitar", 41: "violin", 42: "viola", 43: "cello",
    44: "double-bass", 47: "harp", 48: "timpani", 57: "trumpet", 58: "trombone", 59: "tuba", 61: "horn",
    65: "soprano-saxophone", 66: "alto-saxophone", 67: "tenor-saxophone", 68: "baritone-saxophone", 69: "oboe",
    70: "cor-anglais", 71: "bassoon", 72: "clarinet", 73: "piccolo", 74: "flute", 75: "recorder",
}  # fmt: skip
PERCUSSION = "percussion"
STRINGS = ("violin", "viola", "cello", "double-bass")
CHOIR_VOICES = ("voice-soprano", "voice-alto", "voice-tenor", "voice-bass")
UNDER_STRINGS = {"bass": "double-bass", "basses": "double-bass", "alto": "viola", "altos": "viola"}
MOST_PLAYERS = 40  # to a part
FULL_WINDS = 5  # wind and brass players beside whom a part for violin is a section's
NUMBER = r"(?:\d{1,2}|[IVX]{1,4})"
NUMBERS = re.compile(rf"[\s.(]*\b(?P<numbers>{NUMBER}(?:\s*(?:[,&+/.-]|and|und|et|e|y)\s*{NUMBER})*)\s*[.)]*$")
LEADING = re.compile(rf"^(?P<numbers>{NUMBER}(?:\s*[,&+/.]\s*{NUMBER})*)\s*[.)]*\s+")
KEY = r"(?:[A-H](?:\s*-?\s*(?:flat|sharp|b|♭|#|♯))?|[ABDEFGH]s|sib|mib|lab|fa|do|re|sol|la)"
PITCH = re.compile(rf"\s*(?:\(\s*(?:in\s+)?{KEY}\s*\)|\b(?:in|en)\s+{KEY})(?=\s|$|[(.,\d])", re.IGNORECASE)
ROMANS = {"I": 1, "II": 2, "III": 3, "IV": 4, "V": 5, "VI": 6, "VII": 7, "VIII": 8, "IX": 9, "X": 10}


@dataclass(frozen=True, slots=True)
class Resolved:
    """A part with the instrument it is for (``None`` where unknown), its players and what they take up besides."""

    name: str
    instrument: str | None
    players: int = 1
    doublings: tuple[str, ...] = ()
    plural: bool = False


@dataclass(slots=True)
class Forces:
    """The instrumentation of a score as canonical shorthand, with what was resolved on the way."""

    text: str
    parts: list[Resolved]
    warnings: list[str] = field(default_factory=list)


def forces_of(parts: Sequence[Part]) -> Forces:
    """Return what the parts make up together; ``text`` is "" where no part tells its instrument."""
    resolved: list[Resolved] = []
    for part in parts:
        resolved.append(resolve(part, resolved[-1].instrument if resolved else None))
    known = [one for one in resolved if one.instrument]
    forces = Forces("", resolved)
    unknown = [one.name or "a part without a name" for one in resolved if not one.instrument]
    if unknown:
        forces.warnings.append(f"Not known as an instrument: {', '.join(dict.fromkeys(unknown))}.")
    typed = ", ".join(items(known, forces.warnings))
    if typed:
        forces.text = canonical(typed)
    return forces


@functools.lru_cache(maxsize=512)
def canonical(typed: str) -> str:
    """Return a list of forces as canonical shorthand, as it is where it cannot be read."""
    try:
        return shorthand(read(typed, language="en-GB"))
    except InstrumentationError:
        return typed


def items(known: Sequence[Resolved], warnings: list[str]) -> Iterator[str]:
    """Give the items of a list of forces, instruments together that belong together."""
    counts = counted(known)
    choir = voices_of_choir(known)
    if choir:
        warnings.append("Soprano, alto, tenor and bass are taken as a choir; they may be four soloists.")
        yield "SATB choir"
    sections = are_sections(counts)
    if sections:
        warnings.append("Strings beside winds are taken as sections; their numbers are not in the file.")
    for slug, together in counts.items():
        if (choir and slug in CHOIR_VOICES) or (sections and slug in STRINGS):
            continue
        yield item(slug, together)
    if sections:
        yield "str" if all(slug in counts for slug in STRINGS) else ", ".join(string_sections(counts))


def counted(known: Sequence[Resolved]) -> dict[str, list[Resolved]]:
    counts: dict[str, list[Resolved]] = {}
    for one in known:
        counts.setdefault(one.instrument or "", []).append(one)
    return counts


def voices_of_choir(known: Sequence[Resolved]) -> bool:
    sung = [one.instrument for one in known if one.instrument and family_of(one.instrument) == "voice"]
    return sorted(sung) == sorted(CHOIR_VOICES)


def are_sections(counts: dict[str, list[Resolved]]) -> bool:
    strings = [one for slug in STRINGS for one in counts.get(slug, [])]
    winds = sum(
        one.players for slug, listed in counts.items() if family_of(slug) in ("woodwind", "brass") for one in listed
    )
    return bool(strings) and (winds >= FULL_WINDS or any(one.plural for one in strings))


def string_sections(counts: dict[str, list[Resolved]]) -> Iterator[str]:
    names = {"violin": "violins", "viola": "violas", "cello": "cellos", "double-bass": "double basses"}
    return (names[slug] for slug in STRINGS if slug in counts)


def item(slug: str, together: Sequence[Resolved]) -> str:
    """Write one instrument with its number and, chair by chair, what is taken up besides."""
    players = sum(one.players for one in together)
    name = called(slug).singular if slug != PERCUSSION else PERCUSSION
    doubled = []
    chair = 1
    for one in together:
        if one.doublings:
            taken = "+".join(called(other).abbreviation or other for other in one.doublings)
            doubled.append(f"{ROMAN[chair]}={taken}" if players > 1 and chair in ROMAN else f"={taken}")
        chair += one.players
    if slug == PERCUSSION:
        return f"perc({players})"
    return (f"{players} {name}" if players > 1 else name) + (f"({', '.join(doubled)})" if doubled else "")


ROMAN = {number: numeral for numeral, number in ROMANS.items()}


def resolve(part: Part, above: str | None = None) -> Resolved:
    """Return the instrument, the players and the doublings of a part.

    A name of several instruments ("Bass") is that of the family of the part above it in the score.
    """
    name, players = without_numbers(part.name)
    declared = in_order_of_use(part)
    if is_kit(part, declared):
        return Resolved(part.name, "timpani" if spelled(name) == "timpani" else PERCUSSION, players)
    found = named(name, part, above) or next(filter(None, (by_instrument(one) for one in declared)), None)
    others = [by_instrument(one) for one in declared] + [spelled(change) or sounding(change) for change in part.changes]
    doublings = tuple(dict.fromkeys(slug for slug in others if slug and slug != found and may_double(found, slug)))
    return Resolved(part.name, found, players, doublings, is_plural(name))


def in_order_of_use(part: Part) -> list[PlayedInstrument]:
    if len(part.instruments) < 2:
        return part.instruments
    by_id = {one.id: one for one in part.instruments}
    return [by_id[used] for used in part.used if used in by_id] or part.instruments[:1]


def is_kit(part: Part, declared: Sequence[PlayedInstrument]) -> bool:
    """Whether the part is played by a percussionist with several things at hand."""
    return (
        bool(declared)
        and (len(part.instruments) > 1 or declared[0].unpitched)
        and all(one.unpitched or family_of(by_instrument(one) or "") == "percussion" for one in part.instruments)
    )


def may_double(main: str | None, slug: str) -> bool:
    """Whether a player of one instrument takes up the other in the same part: of one family, voices never."""
    return main is not None and family_of(main) == family_of(slug) != "voice"


def named(name: str, part: Part, above: str | None) -> str | None:
    return spelled(name, above) or spelled(without_numbers(part.abbreviation)[0], above)


def by_instrument(one: PlayedInstrument) -> str | None:
    name = without_numbers(one.name)[0]
    known = (spelled(name) if len(name) > 2 else None) or sounding(one.sound)
    return known or (PERCUSSION if one.unpitched else PROGRAMS.get(one.program or 0))


def sounding(sound: str) -> str | None:
    return instrument_of_sound(sound) if "." in sound else None


def without_numbers(name: str) -> tuple[str, int]:
    """Return a part's name without its chair numbers and key, and how many players share the part.

    >>> without_numbers("Clarinet in B♭ 1, 2"), without_numbers("Violin II"), without_numbers("4 Trombones")
    (('Clarinet', 2), ('Violin', 1), ('Trombones', 4))
    """
    name = PITCH.sub("", " ".join(name.split()))
    players = 1
    for pattern in (NUMBERS, LEADING):
        found = pattern.search(name)
        if found and found.end() - found.start() < len(name):
            rest = name[: found.start()] + name[found.end() :]
            players = max(players, players_of(found["numbers"], before=pattern is LEADING and is_plural(rest)))
            name = rest
    return PITCH.sub("", name).strip(" .,"), players


def players_of(numbers: str, before: bool) -> int:
    """Return how many players share a part: its chair numbers, or the number that stands before a plural."""
    figures = [ROMANS.get(one) or int(one) for one in re.findall(NUMBER, numbers) if one in ROMANS or one.isdigit()]
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
    return key_of(PITCH.sub("", name)) in plural_keys()


def spelled(name: str, above: str | None = None) -> str | None:
    """Return the instrument of a name, of several the one of the family above it, or the one that English calls so."""
    found = keys().get(key_of(name), ()) if name else ()
    if above in STRINGS and key_of(name) in UNDER_STRINGS:
        return UNDER_STRINGS[key_of(name)]
    if above and len(found) > 1:
        found = tuple(slug for slug in found if family_of(slug) == family_of(above)) or found
    english = [slug for slug in found if languages_of()[key_of(name), slug] & {"en-GB", "en-US"}]
    return next(iter(english or found), None)
