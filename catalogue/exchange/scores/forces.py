"""Which instruments the parts of a score are for, and the instrumentation that they make up.

What a part list cannot say is resolved by convention and said: strings beside a full wind section are sections,
soprano, alto, tenor and bass are a choir.
"""

from __future__ import annotations

import functools
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, field

from catalogue.exchange.scores.doublings import doublings_of, word_beside
from catalogue.exchange.scores.model import Part, PlayedInstrument
from catalogue.exchange.scores.naming import (
    PERCUSSION,
    ROMANS,
    STRINGS,
    by_instrument,
    is_french,
    is_plural,
    spelled,
    without_numbers,
)
from catalogue.instrumentation import InstrumentationError, called, family_of, read, shorthand

CHOIR_VOICES = ("voice-soprano", "voice-alto", "voice-tenor", "voice-bass")
FULL_WINDS = 5  # wind and brass players beside whom a part for violin is a section's
ROMAN = {number: numeral for numeral, number in ROMANS.items()}


@dataclass(frozen=True, slots=True)
class Resolved:
    """A part with the instrument it is for (``None`` where unknown), its players and what they take up besides.

    ``doublings`` holds, by the place of a player within the part, the instruments of that player.
    """

    name: str
    instrument: str | None
    players: int = 1
    doublings: dict[int, list[str]] = field(default_factory=dict)
    plural: bool = False
    doubts: tuple[str, ...] = ()


@dataclass(slots=True)
class Forces:
    """The instrumentation of a score as canonical shorthand, with what was resolved on the way."""

    text: str
    parts: list[Resolved]
    warnings: list[str] = field(default_factory=list)


def forces_of(parts: Sequence[Part]) -> Forces:
    """Return what the parts make up together; ``text`` is "" where no part tells its instrument."""
    resolved: list[Resolved] = []
    french = is_french([part.name for part in parts])
    for part in parts:
        resolved.append(resolve(part, resolved[-1].instrument if resolved else None, french=french))
    known = [one for one in resolved if one.instrument]
    forces = Forces("", resolved)
    unknown = [one.name or "a part without a name" for one in resolved if not one.instrument]
    if unknown:
        forces.warnings.append(f"Not known as an instrument: {', '.join(dict.fromkeys(unknown))}.")
    forces.warnings += dict.fromkeys(doubt for one in resolved for doubt in one.doubts)
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
    doubled = []
    chair = 1
    for one in together:
        for place, others in sorted(one.doublings.items()):
            seat = chair + place
            taken = "+".join(word_beside(slug, other) for other in others)
            doubled.append(f"{ROMAN[seat]}={taken}" if players > 1 and seat in ROMAN else f"={taken}")
        chair += one.players
    if slug == PERCUSSION:
        return f"perc({players})"
    name = f"{players} {called(slug).plural}" if players > 1 else called(slug).singular
    return name + (f"({', '.join(doubled)})" if doubled else "")


def resolve(part: Part, above: str | None = None, *, french: bool = False) -> Resolved:
    """Return the instrument, the players and the doublings of a part.

    A name of several instruments ("Bass") is that of the family of the part above it in the score, or what it means in
    French where the parts have ``french`` names.
    """
    name, players = without_numbers(part.name)
    declared = in_order_of_use(part)
    if is_kit(part, declared):
        return Resolved(part.name, "timpani" if spelled(name) == "timpani" else PERCUSSION, players)
    found = named(name, part, above, french=french) or next(
        filter(None, (by_instrument(one) for one in declared)), None
    )
    if found is None:
        return Resolved(part.name, None, players, plural=is_plural(name))
    also = doublings_of(part, declared, found, players)
    return Resolved(part.name, found, players, also.taken, is_plural(name), tuple(also.doubts))


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


def named(name: str, part: Part, above: str | None, *, french: bool) -> str | None:
    return spelled(name, above, french=french) or spelled(without_numbers(part.abbreviation)[0], above)
