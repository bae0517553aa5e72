"""Reads voices by their range, ``high voice``, ``mittlere Stimme``, ``voix grave``: whoever sings it.

A range is kept as the remark on the voice, in English, so that every language can say it in its own words.
"""

from __future__ import annotations

from catalogue.instrumentation.choirs import Found, Lead
from catalogue.instrumentation.drafts import Draft, Forces
from catalogue.instrumentation.lexicon import OR, keyed
from catalogue.instrumentation.names import name_at
from catalogue.instrumentation.phrases import is_key, token_at
from catalogue.instrumentation.tokens import Nodes

RANGES = {
    "high": keyed("high hohe hoher hohes hoch haute élevée élevées aiguë aiguës acuta acute alta aguda agudas"),
    "medium": keyed("medium middle mittlere mittlerer mittleres moyenne moyennes médium media medie medias mediana"),
    "low": keyed("low tiefe tiefer tiefes tief grave graves gravi basse bassa baja bajas"),
}
RANGE_WORDS = frozenset[str]().union(*RANGES.values())


def ranged_at(nodes: Nodes, at: int, forces: Forces, lead: Lead) -> Found | None:
    """Return the voice whose range is named before or after it."""
    qualities, start = lead
    before, end = ranges_at(nodes, start)
    name = name_at(nodes, end)
    if name is None or name.slugs[0] != "voice":
        return None
    after, stop = ("", name.end) if before else ranges_at(nodes, name.end)
    if not (before or after):
        return None
    draft = Draft("voice", nodes[at].start, nodes[stop - 1].end, name=name, count=qualities.count)
    draft.notes.append(before or after)
    draft.optional, draft.amplified = qualities.optional, qualities.amplified
    return [draft], stop, False


def ranges_at(nodes: Nodes, at: int) -> tuple[str, int]:
    """Return one range or several, ``medium or high``, in English, and where they end."""
    found: list[str] = []
    end = at
    while (token := token_at(nodes, at)) is not None:
        said = next((kind for kind, words in RANGES.items() if token.kind == "word" and token.key in words), None)
        if said is None:
            break
        found.append(said)
        end = at = at + 1
        if at < len(nodes) and (nodes[at].is_mark("/-") or is_key(nodes[at], OR) or is_key(nodes[at], {"to", "bis"})):
            at += 1
    return " or ".join(found), end
