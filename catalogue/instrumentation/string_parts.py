"""Reads the strings of a library's list of parts, ``2fl,2ob,2cl,4cor,timp,2vl,vla,vlc,cb``: sections, not five players.

There the figure before the violins counts their parts. Italian rules for cataloguing printed music write so. Older
music names no more than a bass below the violas, ``2vl,vla,b``, or the continuo: how many play, and which instruments
the bass, is left to the performance. Where it stands beside a choir or winds in pairs in any other dress, single
players are the usual reading, and the other is told.
"""

from __future__ import annotations

import re

from catalogue.instrumentation.drafts import Draft, Forces
from catalogue.instrumentation.lexicon import AND
from catalogue.instrumentation.names import Name
from catalogue.instrumentation.phrases import is_key, token_at
from catalogue.instrumentation.tokens import Nodes

PARTS = (("violin", "viola", "cello"), ("violin", "viola", "cello", "double-bass"))
ABOVE_BASS = (("violin",), ("violin", "viola"), ("violin", "viola", "cello"))
WITHOUT_CELLO = (("violin", "double-bass"), ("violin", "viola", "double-bass"))
LOWEST = ("basso-continuo", "bass-instrument")
UPPER = {"violin", "violin-1", "violin-2", "viola", "cello"}
TWO = re.compile(r"2[a-z]")
FEWEST_PAIRS = 3
FEWEST_PLAYED = 2


def unnamed_bass(nodes: Nodes, at: int, forces: Forces) -> Name | None:
    """Return the name of the ``b`` that ends the strings of a list of codes, ``2vl,vla,b``, and say how it was read."""
    token, before = token_at(nodes, at), token_at(nodes, at - 1)
    if token is None or token.text != "b" or before is None or not (before.is_mark(",;") or is_key(before, AND)):
        return None
    after = nodes[at + 1] if at + 1 < len(nodes) else None
    stop = after is not None and after.is_mark(".") and (at + 2 == len(nodes) or nodes[at + 2].is_mark(",;\n"))
    strings = any(one.name is not None and UPPER & {*one.name.slugs} for one in forces.drafts)
    if not strings or not (after is None or stop or after.is_mark(",;\n")):
        return None
    message = "“b” was read as a bass instrument below the strings."
    forces.remark("bass", message, token.start, token.end, "a double bass, or the continuo")
    return Name(("bass-instrument",), token.text, at, at + 1, token.start, token.end)


def sections_by_parts(forces: Forces) -> None:
    """Open the strings of such a list: glued figures, winds in pairs or a choir, two violins and one of each other."""
    if "violin" not in [draft.slug for draft in forces.drafts]:
        return
    named = [draft for draft in forces.drafts if draft.family == "strings" and draft.role == "ensemble"]
    slugs = tuple(draft.slug for draft in named)
    lowest = [draft for draft in forces.drafts if draft.slug in LOWEST and draft.role == "ensemble"]
    if not named or named[0].most != 2 or any(one.count is not None or one.number_after for one in named[1:]):
        return
    pairs = [one for one in forces.drafts if one.family in ("woodwind", "brass") and one.most > 1]
    choir = any(draft.slug.startswith("choir") for draft in forces.drafts)
    many = choir or len(pairs) >= FEWEST_PAIRS
    if many and glued_pair(named[0], forces) and all(glued(one, forces) for one in pairs):
        if slugs in PARTS or (lowest and slugs in ABOVE_BASS):
            open_sections(named, lowest, forces)
    elif (choir or len(pairs) >= FEWEST_PLAYED) and (slugs in WITHOUT_CELLO or (lowest and slugs in ABOVE_BASS)):
        readings = ("single players", "sections of strings")
        start, end = named[0].start, named[-1].end
        if not forces.decide("single-strings", "The strings were read as", readings, start, end):
            open_all(named)


def open_sections(named: list[Draft], lowest: list[Draft], forces: Forces) -> None:
    """Open the strings, and the bass below them, unless the other reading was chosen."""
    readings = ("sections, of which the parts are counted", "single players")
    if forces.decide("string-parts", "The strings were read as", readings, named[0].start, named[-1].end):
        open_all(named)
        for draft in lowest:
            draft.open = draft.count is None


def open_all(named: list[Draft]) -> None:
    """Leave the number of players of every section open, the two violins as firsts and seconds."""
    named[0].count, named[0].number_after = None, (1, 2)
    for draft in named:
        draft.plural = True


def glued_pair(draft: Draft, forces: Forces) -> bool:
    """Whether a draft is ``2vl``, a two written to its name."""
    return draft.most == 2 and TWO.match(forces.text, draft.start) is not None


def glued(draft: Draft, forces: Forces) -> bool:
    """Whether a figure is written to the name."""
    return re.match(r"\d+[a-z]", forces.text[draft.start : draft.end]) is not None
