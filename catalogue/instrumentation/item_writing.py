"""Writes one line of the canonical shorthand: its number, its name, who doubles, and what is said of it.

    2cl(II=bcl)   up to 5 fl   perc(2)   hp(opt)   solo vn   pf 4 hands   asax(amp) “in the balcony”

What cannot be said in a short form stands in quotation marks, and is read back as a note.
"""

from __future__ import annotations

import re
from collections.abc import Callable
from dataclasses import dataclass
from itertools import groupby

from catalogue.instrumentation.model import Chair, Line, Span
from catalogue.instrumentation.senses import clear_name
from catalogue.instrumentation.vocabulary import called, instrument

BOWED = ("violin-1", "violin-2", "violin", "viola", "cello", "double-bass")
ROMANS = ("", "I", "II", "III", "IV", "V", "VI", "VII", "VIII", "IX", "X")
HANDS = re.compile(r"(\d+) hands(?: at (\d+))?")
LONGEST_GLUED = 6
MOST_TOLD = 2
CLEAR = {
    "voice-baritone": "baritone voice", "voice-alto": "contralto", "voice-bass": "bass voice",
    "voice-tenor": "tenor voice",
}  # fmt: skip
IN_FULL = ("fixed-media", "live-electronics", "electronics", "conductor", "dancer")
Bracketing = Callable[[Line], str]


@dataclass(frozen=True, slots=True)
class Dress:
    """How much is written out: winds by place or by name, numbers left out or told, short or whole names.

    ``told`` is 0 for numbers that go without saying, 1 where one percussionist is counted, 2 where a single string
    player is too and what may stand in is put in brackets. ``apart`` puts players off stage under a heading.
    ``bracket`` writes the doublings of a line.
    """

    positional: bool
    told: int
    spelled: bool
    apart: bool
    bracket: Bracketing


def item(line: Line, dress: Dress, solo: str = "solo ") -> str:
    """Return one line by name; ``solo`` stands before an instrument that is a soloist's."""
    hands = HANDS.fullmatch(line.note)
    if hands and line.family == "keyboard" and line.players == (int(hands[1]) // 2,) * 2 and not line.chairs:
        return f"{hands[2] or ''}{word(line.instrument, dress)} {hands[1]} hands{tail(line, note='')}"
    name = word(line.instrument, dress)
    before = solo if line.role == "soloist" and line.family != "voice" else ""
    text = before + counted(line, name, dress) + dress.bracket(line) + tail(line, note=told_note(line))
    apart = "(or {})" if dress.told == MOST_TOLD else " or {}"
    return text + "".join(apart.format(word(slug, dress)) for slug in line.alternatives)


def word(slug: str, dress: Dress) -> str:
    """Return the name of an instrument, short where the trade has a short form."""
    if dress.spelled and slug in CLEAR:
        return CLEAR[slug]
    names = called(slug)
    return names.singular if dress.spelled or slug in IN_FULL or slug.endswith("instrument") else names.abbreviation


def counted(line: Line, name: str, dress: Dress) -> str:
    """Return a name with its number: before it, in a bracket after it for timpani and percussion."""
    one = (0, 1) if line.optional else (1, 1)
    if line.family == "electronics":
        return name
    if line.players is None and line.instrument != "basso-continuo":
        return f"{name}(open)" if dress.told or line.family not in ("percussion", "voice", "other") else name
    if line.players is None:
        return name
    said = dress.told > (0 if line.instrument == "percussion" else 1)
    if line.instrument in ("percussion", "timpani") and not limited(line):
        said = said and line.instrument == "percussion"
        return f"{name}({number(line)})" if said or line.players != one else name
    if line.players == one and not (said and line.instrument in BOWED):
        return f"{name}" if not has_more(line) else f"{number(line)} {name}"
    return f"{number(line)}{blank(line, name, dress)}{plural(line, name)}"


def has_more(line: Line) -> bool:
    """Whether the number is the least there may be."""
    return "or more" in line.note.split("; ")


def blank(line: Line, name: str, dress: Dress) -> str:
    """Return a blank between number and name unless the name is a short abbreviation."""
    glued = len(name) <= LONGEST_GLUED and name.isalpha()
    return "" if glued and number(line)[-1].isdigit() and not (dress.spelled or limited(line)) else " "


def limited(line: Line) -> bool:
    """Whether a number has a limit before it or words after it."""
    return has_more(line) or (line.players is not None and line.players[0] == 0 < line.players[1] and not line.optional)


def plural(line: Line, name: str) -> str:
    names = called(line.instrument)
    several = line.players is not None and line.players[1] > 1 and name.endswith("instrument")
    return names.plural if several else name


def number(line: Line) -> str:
    """Return the number of players, ``2``, ``2–4``, ``up to 5``, ``2 or more``."""
    if line.players is None:
        return ""
    least, most = line.players
    if has_more(line):
        return f"{least or most} or more"
    if line.optional or least == most:
        return str(most)
    return f"{least}–{most}" if least else f"up to {most}"


def told_note(line: Line) -> str:
    """Return the note without what the number says."""
    return "; ".join(one for one in line.note.split("; ") if one != "or more")


def tail(line: Line, *, note: str | None = None, body: bool = False) -> str:
    """Return what is said of a line after its name: optional, amplified, off-stage, a note."""
    text = "(opt)" if line.optional else ""
    text += "(amp)" if line.amplified else ""
    text += "(offstage)" if line.role == "offstage" else ""
    if line.family == "strings" and not body:
        strength = {"preferred": "(preferred)", "least": "(min)"}.get(line.strength or "", "")
        text += "(desks)" if line.unit == "desks" else strength
    if line.parts > 1 and not body:
        text += f"({line.parts} parts)"
    note = line.note if note is None else note
    return text + (f" “{note}”" if note else "")


def chairs(line: Line) -> str:
    """Return the doublings of a line in one bracket, ``(II=picc)``, ``(picc)`` where the chair is not known."""
    told = [chair for chair in line.chairs if chair.plays != (line.instrument,) or chair.note]
    if not told:
        return ""
    first = told[0]
    own = first.plays[0] == line.instrument
    section = instrument(line.instrument).section
    if len(told) == 1 and first.chair is None and own and len(first.plays) == 2 and is_choice(first):
        return f"({plays(first, section)})"
    if line.players is not None and line.players[1] == 1 and own and is_choice(first):
        return f"(={plays(first, section)})"
    named = [chair for chair in told if chair.chair is not None]
    pieces = [chair_text(list(alike), line.instrument) for _, alike in groupby(named, key=said_of)]
    unnamed = [chair for chair in told if chair.chair is None]
    for chair in dict.fromkeys(unnamed):
        pieces.append(f"{unnamed.count(chair)} doubling {plays(chair, section)}")
    return f"({', '.join(pieces)})"


def is_choice(chair: Chair) -> bool:
    """Whether the note on a chair says no more than that what it doubles is optional, or one of several."""
    return set(chair.note.split()) <= {"or", "optional"}


def said_of(chair: Chair) -> tuple[tuple[str, ...], str, int]:
    """Return what chairs have in common that are told together; what stands in quotation marks is said of each."""
    return chair.plays, chair.note, 0 if is_choice(chair) else chair.chair or 0


def chair_text(alike: list[Chair], slug: str) -> str:
    """Return what is said of chairs that play the same, ``II,III=picc``."""
    chair = alike[0]
    section = instrument(slug).section
    seat = ",".join(seat_of(one) for one in alike)
    note = f" “{chair.note}”" if chair.note and not is_choice(chair) else ""
    if chair.plays == (slug,):
        return f"{seat}{note}"
    if chair.plays[0] == slug:
        return f"{seat}={plays(chair, section)}{note}"
    return f"{seat}={joined(chair, chair.plays, section)} only{note}"


def seat_of(chair: Chair) -> str:
    return ROMANS[chair.chair] if chair.chair and chair.chair < len(ROMANS) else str(chair.chair)


def plays(chair: Chair, section: str) -> str:
    """Return what a chair also plays."""
    return joined(chair, chair.plays[1:], section)


def joined(chair: Chair, slugs: tuple[str, ...], section: str) -> str:
    said = chair.note.split() if is_choice(chair) else []
    names = [clear_name(slug, section) for slug in slugs]
    either = said.count("or")
    listed = " or ".join(names) if either and either == len(names) - 1 else "+".join(names)
    return ("optional " if "optional" in said else "") + listed


def digits(players: Span | None) -> str:
    """Return the number of a place or a section."""
    return "0" if players is None else str(players[1])
