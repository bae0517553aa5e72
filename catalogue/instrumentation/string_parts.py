"""Reads the strings of a library's list of parts, ``2fl,2ob,2cl,4cor,timp,2vl,vla,vlc,cb``: sections, not five players.

There the figure before the violins counts their parts. Italian rules for cataloguing printed music write so.
"""

from __future__ import annotations

import re

from catalogue.instrumentation.drafts import Draft, Forces

PARTS = (("violin", "viola", "cello"), ("violin", "viola", "cello", "double-bass"))
TWO = re.compile(r"2[a-z]")
FEWEST_PAIRS = 3


def sections_by_parts(forces: Forces) -> None:
    """Open the strings of such a list: glued figures, winds in pairs, two violins and one of each other."""
    if "violin" not in [draft.slug for draft in forces.drafts]:
        return
    named = [draft for draft in forces.drafts if draft.family == "strings"]
    if tuple(draft.slug for draft in named) not in PARTS or not glued_pair(named[0], forces):
        return
    pairs = [one for one in forces.drafts if one.family in ("woodwind", "brass") and one.most > 1]
    if len(pairs) < FEWEST_PAIRS or not all(glued(one, forces) for one in pairs):
        return
    if any(one.count is not None or one.number_after for one in named[1:]):
        return
    readings = ("sections, of which the parts are counted", "single players")
    if forces.decide("string-parts", "The strings were read as", readings, named[0].start, named[-1].end):
        named[0].count, named[0].number_after = None, (1, 2)
        for draft in named:
            draft.plural = True


def glued_pair(draft: Draft, forces: Forces) -> bool:
    """Whether a draft is ``2vl``, a two written to its name."""
    return draft.most == 2 and TWO.match(forces.text, draft.start) is not None


def glued(draft: Draft, forces: Forces) -> bool:
    """Whether a figure is written to the name."""
    return re.match(r"\d+[a-z]", forces.text[draft.start : draft.end]) is not None
