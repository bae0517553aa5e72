"""Writes choirs in the canonical shorthand: ``SATB choir``, ``double choir (SATB/SATB)``, ``mixed choir``."""

from __future__ import annotations

import re
from collections.abc import Iterable, Sequence
from dataclasses import replace
from itertools import groupby

from catalogue.instrumentation.item_writing import Dress, item, number, tail
from catalogue.instrumentation.model import Line
from catalogue.instrumentation.vocabulary import called
from catalogue.instrumentation.voicings import is_voicing, parts_of

LETTERS = {"soprano": "S", "mezzo-soprano": "M", "alto": "A", "tenor": "T", "baritone": "Bar", "bass": "B"}
KINDS = {
    "mixed": "mixed choir", "male voices": "male choir", "female voices": "female choir", "unison": "unison choir",
    "treble voices": "treble choir",
    "basses": "bass choir", "tenors": "tenor choir", "sopranos": "soprano choir", "altos": "alto choir",
}  # fmt: skip
DIVIDED = "divisi"
NUMBERED = re.compile(r"choir (\d+)")


def is_choir_label(label: str) -> bool:
    """Whether a label only numbers choirs: ``choir 2``, ``3 choirs``."""
    return bool(NUMBERED.fullmatch(label)) or label.endswith(" choirs")


def is_part(line: Line) -> bool:
    """Whether the line is one part of a choir, written by its letter."""
    return line.instrument.startswith("choir-") and line.instrument != "choir-children"


def body(line: Line) -> tuple[object, ...]:
    """Return what the lines of one choir have in common."""
    counted = line.players is not None
    note = "" if line.note == DIVIDED and is_part(line) else line.note
    return line.group, is_part(line), line.role, line.optional, line.amplified, note, counted


def choirs(run: list[Line], dress: Dress) -> str:
    """Return a run of choirs; those of one kind that are only numbered stand together."""
    bodies = [list(lines) for _, lines in groupby(run, key=body)]
    letters = [voicing(lines) if is_part(lines[0]) else "" for lines in bodies]
    numbered = [lines[0].group == f"choir {at}" for at, lines in enumerate(bodies, 1)]
    alike = len({body(replace(lines[0], group=None)) for lines in bodies}) == 1
    if len(bodies) > 1 and all(letters) and all(numbered) and alike and bodies[0][0].players is None:
        double = "double choir" if len(bodies) == 2 else "choir"
        return f"{double} ({'/'.join(letters)}){tail(bodies[0][0], note=undivided(bodies[0]), body=True)}"
    return ", ".join(choir(lines, dress) for lines in bodies)


def choir(lines: list[Line], dress: Dress) -> str:
    """Return one choir by its voicing, its kind or its name."""
    first = lines[0]
    label = NUMBERED.fullmatch(first.group or "")
    after = f" {label[1]}" if label else ""
    if is_part(first):
        figures = strengths(lines)
        if first.players is not None and not figures:
            return ", ".join(f"{number(one)} {called(one.instrument).abbreviation}{tail(one)}" for one in lines)
        letters = voicing(lines)
        name = f"{letters} choir{after}" if is_voicing(letters.replace("(div)", "")) else f"choir ({letters})"
        return f"{name}{figures}{tail(first, note=undivided(lines), body=True)}"
    return ", ".join(named(one, after, dress) for one in lines)


def strengths(lines: Sequence[Line]) -> str:
    """Return how many sing each part, ``" (4.4.4.4)"``, nothing where that is open or more is to be said."""
    counted = [line.players[1] for line in lines if line.players and line.players[0] == line.players[1]]
    plain = len(lines) > 1 and len(counted) == len(lines) and all(line.parts == 1 for line in lines)
    return f" ({'.'.join(map(str, counted))})" if plain else ""


def voicing(lines: list[Line]) -> str:
    return divided((LETTERS[line.instrument.removeprefix("choir-")] * line.parts for line in lines), lines)


def divided(letters: Iterable[str], lines: Sequence[Line]) -> str:
    """Return a voicing that tells which of its parts divide, ``S(div)ATB``, where not all of them do."""
    mixed = len({line.note == DIVIDED for line in lines}) > 1
    told = ("(div)" if mixed and line.note == DIVIDED else "" for line in lines)
    return "".join(f"{letter}{one}" for letter, one in zip(letters, told, strict=True))


def undivided(lines: Sequence[Line]) -> str:
    """Return the note on all parts of a choir, apart from the division that the voicing tells."""
    notes = {line.note for line in lines}
    return next(iter(notes - {DIVIDED}), "") if len(notes) > 1 else lines[0].note


def named(line: Line, after: str, dress: Dress) -> str:
    """Return a choir that is named and not told by its parts."""
    first, *others = line.note.split("; ")
    rest = "; ".join(others)
    parts = sum(parts_of(first).values()) if is_voicing(first) else 0
    if line.group and line.group.endswith(" choirs"):
        return f"{line.group}{tail(line)}"
    if line.instrument == "choir-children":
        name = f"children's choir{after}"
        return f"{name} ({first}){tail(line, note=rest, body=True)}" if parts == line.parts > 0 else name + tail(line)
    if line.players is not None:
        return item(line, dress)
    if line.parts > 1 and all(is_voicing(one) and len(one) == line.parts for one in first.split("/")):
        return f"{first} choir{tail(line, note=rest, body=True)}"
    if line.parts > 1 and first == "equal voices":
        return f"{line.parts} equal voices{tail(line, note=rest, body=True)}"
    kind = KINDS.get(first)
    return f"{kind}{after}{tail(line, note=rest)}" if kind else f"choir{after}{tail(line)}"
