"""The builder beside the instrumentation field: each button writes the text anew, one section, player or doubling on.

It works on the text that stands in the field, and what it writes is the same shorthand that one can type.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from functools import lru_cache
from itertools import groupby

from django.utils.functional import Promise
from django.utils.translation import gettext_lazy as _

from catalogue.instrumentation import (
    Instrumentation,
    InstrumentationError,
    Line,
    called,
    family_of,
    instruments,
    read,
    write_shorthand,
    write_words,
)
from catalogue.instrumentation import building as steps

NUMBERS = tuple(range(1, 17))
WHOLE: dict[str, Promise] = {
    "strings": _("Orchestral strings"),
    "string quartet": _("String quartet"),
    "SATB choir": _("SATB choir"),
}
FAMILIES: dict[str, Promise] = {
    "woodwind": _("Woodwind"),
    "brass": _("Brass"),
    "percussion": _("Percussion"),
    "plucked": _("Harp and plucked strings"),
    "keyboard": _("Keyboards"),
    "voice": _("Voices"),
    "strings": _("Strings"),
    "electronics": _("Electronics"),
    "other": _("Other"),
}
NOTHING = Instrumentation(())


@dataclass(frozen=True, slots=True)
class Row:
    """A line of the instrumentation with its key; ``can_change`` where its players are counted."""

    key: str
    words: str
    can_change: bool


@dataclass(frozen=True, slots=True)
class Builder:
    """What can be pressed and chosen: the lines that are there, and the players who may double."""

    rows: tuple[Row, ...]
    seats: tuple[tuple[str, str], ...]


@lru_cache(maxsize=8)
def instrument_choices(language: str) -> tuple[tuple[Promise, tuple[tuple[str, str], ...]], ...]:
    """Return the instruments by family, in score order, as a language calls them."""
    by_family = sorted(instruments(), key=lambda slug: list(FAMILIES).index(family_of(slug)))
    return tuple(
        (FAMILIES[family], tuple((slug, called(slug, language).singular) for slug in slugs))
        for family, slugs in groupby(by_family, family_of)
    )


def builder_of(found: Instrumentation | None, language: str) -> Builder:
    if found is None:
        return Builder((), ())
    rows = (
        Row(f"{place}:{line.instrument}", line_in_words(line, language), bool(line.players and line.players[1]))
        for place, line in enumerate(found.lines)
    )
    seats = ((f"{seat.line}:{seat.chair}", seat_in_words(found, seat, language)) for seat in steps.seats(found))
    return Builder(tuple(rows), tuple(seats))


def line_in_words(line: Line, language: str) -> str:
    return write_words(Instrumentation((line,)), language)


def seat_in_words(found: Instrumentation, seat: steps.Seat, language: str) -> str:
    name = called(found.lines[seat.line].instrument, language).singular
    number = f" {seat.chair}" if steps.seats_in(found.lines[seat.line]) > 1 else ""
    also = [called(slug, language).singular for slug in seat.plays if slug != found.lines[seat.line].instrument]
    return f"{name}{number}" + (f" ({', '.join(also)})" if also else "")


# ---- what a button does


def built(text: str, typed: Mapping[str, str]) -> str:
    """Return the text as the button that was pressed has it; as it was where the text cannot be read."""
    try:
        found = read(text) if text.strip() else NOTHING
        return write_shorthand(step(found, typed)) or text
    except (InstrumentationError, ValueError, LookupError):
        return text


def step(found: Instrumentation, typed: Mapping[str, str]) -> Instrumentation:
    """Take the step that a button asks for; ValueError or LookupError for one that is not there to be pressed."""
    verb, _mark, what = typed["build"].partition(":")
    if verb == "whole":
        return steps.with_whole(found, what)
    if verb == "add":
        slug, number = typed["build_instrument"], int(typed["build_number"])
        role = "soloist" if typed.get("build_solo") else "ensemble"
        return steps.with_players(found, known(slug), min(number, max(NUMBERS)), role)
    if verb == "double":
        line, _mark, chair = typed["build_seat"].partition(":")
        return steps.with_doubling(found, int(line), int(chair), known(typed["build_second"]))
    return CHANGES[verb](found, place_of(found, what))


CHANGES = {"more": steps.with_one_more, "fewer": steps.with_one_fewer, "away": steps.without}


def place_of(found: Instrumentation, key: str) -> int:
    """Return the place of a line, if the instrument that was meant still stands there."""
    place, _mark, slug = key.partition(":")
    if found.lines[int(place)].instrument != slug:
        raise LookupError(key)
    return int(place)


def known(slug: str) -> str:
    if slug not in instruments():
        raise LookupError(slug)
    return slug
