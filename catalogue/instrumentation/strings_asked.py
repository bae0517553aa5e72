"""Asks for the strings of an orchestra that is named without them: two or more of each woodwind, horns, trumpets.

Wind bands and wind ensembles have no strings either: saxophones, euphoniums and cornets tell a band, and
without timpani and percussion the winds may be all there are. Common practice.
"""

from __future__ import annotations

from catalogue.instrumentation.drafts import Forces
from catalogue.instrumentation.families import WOODWIND
from catalogue.instrumentation.model import Line

OF_ORCHESTRA = (*WOODWIND, "horn", "trumpet")
BESIDE_STRINGS = {"timpani", "percussion"}
OF_BAND = ("euphonium", "baritone-horn", "cornet", "flugelhorn", "tenor-horn")
LEAST = 2


def ask_for_strings(forces: Forces, lines: tuple[Line, ...]) -> None:
    """Say that no strings are named where all else is that of a full orchestra."""
    most = dict.fromkeys(OF_ORCHESTRA, 0)
    for line in lines:
        if line.instrument in most and line.role == "ensemble" and line.players is not None:
            most[line.instrument] += line.players[1]
    named = {line.instrument for line in lines}
    band = any(slug in OF_BAND or slug.endswith(("saxophone", "-band")) for slug in named)
    strings = any(line.family == "strings" or line.instrument == "orchestra" for line in lines)
    if band or strings or min(most.values()) < LEAST or not named >= BESIDE_STRINGS:
        return
    drafts = [draft for draft in forces.drafts if draft.slug in OF_ORCHESTRA]
    if drafts:
        start, end = drafts[0].start, max(draft.end for draft in drafts)
        message = "These are the winds of an orchestra, and no strings are named."
        forces.remark("no-strings", message, start, end, "strings that the text leaves out")
