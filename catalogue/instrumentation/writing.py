"""Writes an instrumentation in the canonical shorthand: ``2(II=picc).2.2.2 – 4.2.3.1 – timp.perc(2) – hp – str``.

Woodwind and brass stand by place where they can, everything else by its abbreviation; an en dash parts families, a
point what belongs to one family, a Roman numeral names a chair. What the short form cannot say, or would say in two
ways, is written out: every text is read back before it is returned, and the first one that says the same is taken.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from itertools import product

from catalogue.instrumentation.model import Chair, Instrumentation, InstrumentationError, Line, Span
from catalogue.instrumentation.reading import read
from catalogue.instrumentation.vocabulary import called, instrument

WOODWIND = ("flute", "oboe", "clarinet", "bassoon")
BRASS = ("horn", "trumpet", "trombone", "tuba")
FIVE = ("violin-1", "violin-2", "viola", "cello", "double-bass")
ROMANS = ("", "I", "II", "III", "IV", "V", "VI", "VII", "VIII", "IX", "X")
LETTERS = {"soprano": "S", "mezzo-soprano": "M", "alto": "A", "tenor": "T", "baritone": "Bar", "bass": "B"}
FAMILY_MARK = " – "
Bracketing = Callable[[Line], str]
STRENGTHS = {"stated": "", "preferred": "preferred ", "least": "min "}


def shorthand(instrumentation: Instrumentation) -> str:
    """Return the canonical text of the forces; reading it gives the same lines."""
    return first_that_reads_back(instrumentation, chairs)


def first_that_reads_back(instrumentation: Instrumentation, bracket: Bracketing) -> str:
    """Return the shortest text that reads back to the same lines; ``bracket`` writes the doublings of a line."""
    texts = [write(instrumentation, Dress(placed, told, spelled, bracket)) for spelled, told, placed in VARIANTS]
    for text in texts:
        try:
            again = read(text)
        except InstrumentationError:
            continue
        if again.lines == instrumentation.lines and again.electronics == instrumentation.electronics:
            return text
    return texts[-1]


@dataclass(frozen=True, slots=True)
class Dress:
    """How much is written out: winds by place or by name, numbers left out or told, short or whole names.

    ``bracket`` writes the doublings of a line.
    """

    positional: bool
    told: bool
    spelled: bool
    bracket: Bracketing


VARIANTS = tuple(product((False, True), (False, True), (True, False)))


def write(instrumentation: Instrumentation, dress: Dress) -> str:
    bodies = []
    for label in dict.fromkeys(line.group for line in instrumentation.lines):
        lines = [line for line in instrumentation.lines if line.group == label]
        text = body(lines, dress)
        bodies.append(f"{label}: {text}" if label else text)
    channels = f" – {instrumentation.channels}-channel" if instrumentation.channels else ""
    return "; ".join(bodies) + channels


def body(lines: list[Line], dress: Dress) -> str:
    """Return the text of one group of lines, family by family."""
    families = [run for run in runs(lines) if run]
    texts: list[str] = []
    placed = False
    for run in families:
        mains = WOODWIND if run[0].family == "woodwind" else BRASS if run[0].family == "brass" and placed else ()
        if not placed and not is_orchestral(lines):
            mains = ()
        if dress.positional and mains and can_be_placed(run, mains):
            texts.append(by_place(run, mains, dress))
            placed = True
        else:
            texts += by_name(run, dress)
    return FAMILY_MARK.join(texts)


def is_orchestral(lines: list[Line]) -> bool:
    """Whether winds are written by place: there is a body of strings or a timpanist, or winds by more than one."""
    strings = any(line.instrument in FIVE and (line.players is None or line.unit) for line in lines)
    kettle = any(line.instrument == "timpani" for line in lines)
    return (
        strings or kettle or any(line.instrument in WOODWIND and line.players not in (None, (1, 1)) for line in lines)
    )


def runs(lines: list[Line]) -> list[list[Line]]:
    """Return the lines cut where the family changes; harps and each choir stand for themselves."""
    found: list[list[Line]] = []
    for line in lines:
        kind = kind_of(line)
        if found and kind_of(found[-1][-1]) == kind:
            found[-1].append(line)
        else:
            found.append([line])
    return found


def kind_of(line: Line) -> str:
    if line.instrument == "harp":
        return "harp"
    if line.instrument.startswith("choir-") and line.instrument != "choir-children":
        return f"choir {line.role}{line.optional}{line.amplified}{line.note}{line.players}"
    return line.family


def can_be_placed(run: list[Line], mains: tuple[str, ...]) -> bool:
    """Whether a run can stand as figures: the main instruments in order, each followed by what belongs to it."""
    found = [line for line in run if line.instrument in mains]
    if len(found) < 2 or (mains == WOODWIND and len(found) == 2 and all(line.players == (1, 1) for line in found)):
        return False
    at = -1
    for line in run:
        plain = line.role == "ensemble" and not (line.optional or line.amplified or line.note or line.alternatives)
        exact = line.players is not None and line.players[0] == line.players[1] > 0
        if not plain or not exact:
            return False
        section = line.instrument if line.instrument in mains else instrument(line.instrument).section
        place = mains.index(section) if section in mains else len(mains) - 1 if section == "saxophone" else -1
        if place < at or place < 0 or (line.instrument in mains and place == at):
            return False
        at = place
    return True


def by_place(run: list[Line], mains: tuple[str, ...], dress: Dress) -> str:
    pieces: list[str] = []
    for place, main in enumerate(mains):
        line = next((one for one in run if one.instrument == main), None)
        pieces.append("0" if line is None else f"{number(line.players)}{dress.bracket(line)}")
        pieces += [item(one, dress) for one in run if one.instrument != main and place_of(one, mains) == place]
    return ".".join(pieces)


def place_of(line: Line, mains: tuple[str, ...]) -> int:
    section = instrument(line.instrument).section
    return mains.index(section) if section in mains else len(mains) - 1


def by_name(run: list[Line], dress: Dress) -> list[str]:
    """Return the texts of a run by name: a choir by its voicing, a body of strings by its figures."""
    first = run[0]
    if kind_of(first).startswith("choir "):
        return [voicing(run)]
    if first.family == "strings":
        return strings(run, dress)
    mark = ", " if first.family in ("voice", "other", "electronics") else "."
    return [mark.join(item(line, dress) for line in run)]


def voicing(run: list[Line]) -> str:
    letters = "".join(LETTERS[line.instrument.removeprefix("choir-")] * line.parts for line in run)
    first = run[0]
    counted = [f"{number(line.players)} {called(line.instrument).abbreviation}{tail(line)}" for line in run]
    return f"choir({letters}){tail(first, body=True)}" if first.players is None else ", ".join(counted)


def strings(run: list[Line], dress: Dress) -> list[str]:
    """Return a body of strings as figures, ``str`` where it is open, and other bowed instruments by name."""
    texts: list[str] = []
    single: list[str] = []
    at = 0
    while at < len(run):
        section = run[at : at + 5]
        if is_body(section):
            texts += [".".join(single)] * bool(single) + [figures(section)]
            single, at = [], at + 5
        else:
            single.append(item(run[at], dress))
            at += 1
    return texts + [".".join(single)] * bool(single)


def is_body(section: list[Line]) -> bool:
    """Whether five lines are one body: the five sections in order, alike in everything but their numbers."""
    if tuple(line.instrument for line in section) != FIVE:
        return False
    first = section[0]
    same = all(
        (line.role, line.optional, line.amplified, line.note, line.unit, line.strength, line.players is None)
        == (first.role, first.optional, first.amplified, first.note, first.unit, first.strength, first.players is None)
        and not line.chairs
        and not line.alternatives
        for line in section
    )
    exact = all(line.players is None or line.players[0] in (0, line.players[1]) for line in section)
    return same and exact


def figures(section: list[Line]) -> str:
    first = section[0]
    if first.players is None:
        return f"str{tail(first, body=True)}"
    numbers = ".".join(str(line.players[1] if line.players else 0) for line in section)
    desks = " desks" if first.unit == "desks" else ""
    return f"str({STRENGTHS[first.strength or 'stated']}{numbers}{desks}){tail(first, body=True)}"


def item(line: Line, dress: Dress) -> str:
    """Return one line by name."""
    name = word(line.instrument, dress)
    solo = "solo " if line.role == "soloist" and line.family != "voice" else ""
    text = solo + counted(line, name, dress) + dress.bracket(line) + tail(line)
    return text + "".join(f" or {word(slug, dress)}" for slug in line.alternatives)


CLEAR = {
    "voice-baritone": "baritone voice", "voice-alto": "contralto", "voice-bass": "bass voice",
    "voice-tenor": "tenor voice",
}  # fmt: skip


def word(slug: str, dress: Dress) -> str:
    if dress.spelled and slug in CLEAR:
        return CLEAR[slug]
    names = called(slug)
    return names.singular if dress.spelled else names.abbreviation


def counted(line: Line, name: str, dress: Dress) -> str:
    """Return a name with its number: before it, in a bracket after it for timpani and percussion."""
    one = (0, 1) if line.optional else (1, 1)
    if line.family == "electronics":
        return name
    if line.players is None:
        return f"{name}(open)" if dress.told or line.family not in ("percussion", "voice", "other") else name
    if dress.told and line.instrument in (*FIVE, "violin"):
        return f"{number(line.players)}{' ' if dress.spelled else ''}{name}"
    if line.instrument in ("percussion", "timpani"):
        return f"{name}({number(line.players)})" if dress.told or line.players != one else name
    amount = "" if line.players == one else number(line.players)
    return f"{amount}{' ' if dress.spelled and amount else ''}{name}"


def tail(line: Line, *, body: bool = False) -> str:
    """Return what is said of a line after its name: optional, amplified, off-stage, a note."""
    text = "(opt)" if line.optional else ""
    text += "(amp)" if line.amplified else ""
    text += "(offstage)" if line.role == "offstage" else ""
    if line.family == "strings" and not body:
        strength = {"preferred": "(preferred)", "least": "(min)"}.get(line.strength or "", "")
        text += "(desks)" if line.unit == "desks" else strength
    if line.parts > 1 and not body:
        text += f"({line.parts} parts)"
    return text + (f" “{line.note}”" if line.note else "")


def number(players: Span | None) -> str:
    if players is None:
        return ""
    least, most = players
    return str(most) if least in (0, most) else f"{least}–{most}"


def chairs(line: Line) -> str:
    """Return the doublings of a line in one bracket, ``(II=picc)``, ``(picc)`` where the chair is not known."""
    told = [chair for chair in line.chairs if chair.plays != (line.instrument,) or chair.note]
    if not told:
        return ""
    if len(told) == 1 and told[0].chair is None and told[0].plays[0] == line.instrument and not told[0].note:
        return f"({plays(told[0].plays[1:])})"
    if line.players == (1, 1) and told[0].plays[0] == line.instrument and not told[0].note:
        return f"(={plays(told[0].plays[1:])})"
    pieces = [chair_text(chair, line.instrument) for chair in told if chair.chair is not None]
    unnamed = [chair for chair in told if chair.chair is None]
    for chair in dict.fromkeys(unnamed):
        pieces.append(f"{unnamed.count(chair)} doubling {plays(chair.plays[1:])}")
    return f"({', '.join(pieces)})"


def chair_text(chair: Chair, slug: str) -> str:
    seat = ROMANS[chair.chair] if chair.chair and chair.chair < len(ROMANS) else str(chair.chair)
    note = f" “{chair.note}”" if chair.note else ""
    if chair.plays == (slug,):
        return f"{seat}{note}"
    if chair.plays[0] == slug:
        return f"{seat}={plays(chair.plays[1:])}{note}"
    return f"{seat}={plays(chair.plays)} only{note}"


def plays(slugs: tuple[str, ...]) -> str:
    return "+".join(called(slug).abbreviation for slug in slugs)
