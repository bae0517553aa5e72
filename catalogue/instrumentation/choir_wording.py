"""Choirs in words: ``choir (SATB)``, ``double choir (SATB/SATB)``, ``choir (S(div)ATB)``."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from itertools import groupby

from catalogue.instrumentation.choir_writing import DIVIDED, divided, strengths, undivided
from catalogue.instrumentation.grammar import Grammar, in_brackets
from catalogue.instrumentation.model import Line

LETTERS = {"soprano": "S", "mezzo-soprano": "Mez", "alto": "A", "tenor": "T", "baritone": "Bar", "bass": "B"}
DOUBLE = 2


def choir_phrases(lines: Sequence[Line], speech: Grammar) -> Iterator[str]:
    """Yield the choirs among the lines; those that are only numbered together, two as a double choir."""
    bodies = [tuple(one) for _, one in groupby(lines, key=lambda line: line.group)]
    numbered = [body[0].group for body in bodies] == [f"choir {number}" for number in range(1, len(bodies) + 1)]
    if numbered and len(bodies) > 1 and not any(line.note for line in lines):
        optional = f"{speech.word('optional')} " if lines[0].optional else ""
        name = speech.word("double" if len(bodies) == DOUBLE else "choir")
        yield f"{optional}{name} ({'/'.join(voicing(body) for body in bodies)})"
        return
    for body in bodies:
        yield from (choir_phrase(part, speech) for part in choirs(body))


def voicing(lines: Sequence[Line]) -> str:
    letters = (LETTERS[line.instrument.removeprefix("choir-")] * line.parts for line in lines)
    return divided(letters, lines)


def choirs(lines: Sequence[Line]) -> Iterator[Sequence[Line]]:
    """Yield the parts of each choir: a note ends one, since it is said of the part before it, or of all of them."""
    notes = {line.note for line in lines}
    if len(notes) == 1 or notes <= {"", DIVIDED}:
        yield lines
        return
    start = 0
    for end, line in enumerate(lines, 1):
        if line.note or end == len(lines):
            yield lines[start:end]
            start = end


def choir_phrase(lines: Sequence[Line], speech: Grammar) -> str:
    """Return a choir by its voicing; *optional* stands before it, so that it is said of all parts."""
    note = undivided(lines)
    notes = f" {in_brackets(note)}" if note else ""
    optional = f"{speech.word('optional')} " if lines[0].optional else ""
    place = f" ({speech.word('offstage')})" if lines[0].role == "offstage" and not lines[0].group else ""
    return f"{optional}{speech.word('choir')} ({voicing(lines)}){strengths(lines)}{place}{notes}"
