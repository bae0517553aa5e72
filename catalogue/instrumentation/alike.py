"""Reads so many bodies that are alike: ``3 groups of 4 clarinets``, ``two quartets of horns``, ``3 x 4 trombones``.

alike = number , ( group | size ) , [ "of" ] , [ number ] , name | number , "x" , number , name ;

Each body is a group of its own, so that the players of one are told from those of another.
"""

from __future__ import annotations

from dataclasses import replace

from catalogue.instrumentation import collectives
from catalogue.instrumentation.drafts import Draft, Forces
from catalogue.instrumentation.lexicon import OF, keyed
from catalogue.instrumentation.names import Name, name_at
from catalogue.instrumentation.phrases import count_at, is_key, token_at
from catalogue.instrumentation.tokens import Nodes
from catalogue.instrumentation.vocabulary import family_of

Found = tuple[list[Draft], int, bool]
BODIES = keyed("groups gruppen groupes gruppi grupos choirs chöre choeurs cori coros ensembles")
EACH = OF | keyed("zu je à with mit zu_je")
MOST_BODIES = 12


def alike_at(nodes: Nodes, at: int, forces: Forces) -> Found | None:
    """Return one draft for each of the bodies that a number counts here."""
    bodies = count_at(nodes, at)
    if bodies is None or bodies.least != bodies.most or not 1 < bodies.most <= MOST_BODIES:
        return None
    found = members_at(nodes, bodies.end)
    if found is None:
        return None
    size, name = found
    draft = Draft(name.slugs[0] if len(name.slugs) == 1 else "", nodes[at].start, name.stop, name=name)
    draft.counted(size)
    return repeated([draft], bodies.most), name.end, False


def repeated(drafts: list[Draft], bodies: int) -> list[Draft]:
    """Return the drafts of so many bodies that are alike, each body a group."""
    return [replace(one, group=f"group {number}") for number in range(1, bodies + 1) for one in drafts]


def members_at(nodes: Nodes, at: int) -> tuple[int, Name] | None:
    """Return how many are in each body, and the name of what they play."""
    token = token_at(nodes, at)
    if token is None:
        return None
    size = collectives.size_of(token.text) if token.kind == "word" and token.key.endswith(("s", "i", "e")) else None
    start = at + 1
    while start < len(nodes) and is_key(nodes[start], EACH):
        start += 1
    counted = count_at(nodes, start)
    if size is not None and start > at + 1:
        return player_at(nodes, start, size)
    joined = token.is_mark("×") or (token.is_word("x") and at + 1 == start) or (token.key in BODIES and start > at + 1)
    if counted is None or counted.least != counted.most or not joined:
        return None
    return player_at(nodes, counted.end, counted.most)


def player_at(nodes: Nodes, at: int, size: int) -> tuple[int, Name] | None:
    """Return a number of players with the name of an instrument, ``None`` where a body or a voice is named."""
    name = name_at(nodes, at)
    if name is None or len(name.written) < 2 or family_of(name.slugs[0]) in ("voice", "other", "electronics"):
        return None
    return size, name
