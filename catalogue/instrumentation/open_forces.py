"""Reads forces whose players are not named: ``any six treble instruments``, ``octet``, ``soprano and ensemble``."""

from __future__ import annotations

from catalogue.instrumentation import limits
from catalogue.instrumentation.drafts import Draft, Forces
from catalogue.instrumentation.lexicon import ANY, ENSEMBLE, ORCHESTRA, SOLO, TREBLE
from catalogue.instrumentation.names import name_at
from catalogue.instrumentation.phrases import count_at, is_key, limited_count, phrase_end, token_at
from catalogue.instrumentation.tokens import Bracket, Nodes
from catalogue.instrumentation.vocabulary import key_of

Found = tuple[list[Draft], int, bool]
CATEGORIES = {"vocal": "voice", "instrumental": "instrument"}
CATEGORY_WORDS = {"category", "categories", "section", "work", "works", "piece", "pieces", "ensemble", "music"}
COMPRISING = {"comprising", "consisting", "bestehend", "compose", "composed"}
OPEN = {
    "treble": "treble-instrument",
    "melody": "treble-instrument",
    "bass": "bass-instrument",
    "string": "string-instrument",
    "wind": "wind-instrument",
    "woodwind": "wind-instrument",
    "brass": "brass-instrument",
}
KINDS = {"equal", "different", "other", "solo", "like", "similar", "identical", "same", "gleiche", "gleichen"}


def open_at(nodes: Nodes, at: int, forces: Forces) -> Found | None:
    """Read forces left open, ``any 3-7 players``; a number of players that a list follows only introduces it."""
    whole = phrase_end(nodes, at, ORCHESTRA)
    if whole is not None and whole < len(nodes) and isinstance(nodes[whole], Bracket):
        return [], whole, True
    anyone = phrase_end(nodes, at, ANY)
    solo = phrase_end(nodes, anyone if anyone is not None else at, SOLO)
    start = solo if solo is not None else anyone if anyone is not None else at
    counted = count_at(nodes, start) or limited_count(nodes, start)
    if counted is None and anyone is None:
        return None
    if anyone is not None and is_key(token_at(nodes, start), {"number"}) and is_key(token_at(nodes, start + 1), {"of"}):
        start += 2
    if counted is None and forces.drafts and forces.drafts[-1].collective == "players":
        noun = phrase_end(nodes, start, ENSEMBLE)
        return None if noun is None else ([], noun, True)
    end = counted.end if counted else start
    words = end
    while words < len(nodes) and is_key(nodes[words], TREBLE | KINDS):
        words += 1
    noun = phrase_end(nodes, words, ENSEMBLE)
    named = name_at(nodes, end) if counted is not None and anyone is None else None
    if noun is None or (named is not None and named.end > noun):
        return None
    if counted is not None and introduces(nodes, noun) and len(forces.drafts) in (1, 2):
        for draft in forces.drafts:
            draft.role = "soloist"
    of_players = limits.of_players_at(nodes, noun) if counted is None else None
    if of_players is not None:
        counted, noun = of_players
    if anyone is None and introduces(nodes, noun):
        return [], noun, True
    kind = forces.written(nodes[end].start, nodes[words - 1].end) if words > end else ""
    draft = Draft(OPEN.get(key_of(kind), "instrument"), nodes[at].start, nodes[noun - 1].end, count=counted)
    draft.open = anyone is not None
    draft.collective = "any" if anyone is not None or kind else "players"
    if kind and draft.slug == "instrument":
        draft.notes.append(kind)
    whole_of = forces.drafts[-1] if forces.drafts else None
    if counted is not None and whole_of is not None and whole_of.collective == "any" and whole_of.open:
        whole_of.count, whole_of.open = counted, False
        return [], noun, True
    return [draft], limits.on_any_end(nodes, noun), False


def category_at(nodes: Nodes, at: int, forces: Forces) -> Found | None:
    """Read ``vocal category``, ``instrumental works``: whoever sings or plays is left open."""
    first = token_at(nodes, at)
    slug = CATEGORIES.get(first.key) if first is not None else None
    if slug is None or not is_key(token_at(nodes, at + 1), CATEGORY_WORDS):
        return None
    return [Draft(slug, nodes[at].start, nodes[at + 1].end, open=True)], at + 2, False


def introduces(nodes: Nodes, at: int) -> bool:
    """Whether a bracket, a colon or ``comprising`` follows, so that the players are itemised."""
    while at < len(nodes) and nodes[at].is_mark(",-"):
        at += 1
    if at >= len(nodes):
        return False
    return isinstance(nodes[at], Bracket) or nodes[at].is_mark(":") or is_key(nodes[at], COMPRISING)
