"""Reads the keys of single chairs in a bracket, ``3 trumpets (1st in D, 2nd and 3rd in C)``, ``2 cl (in A, in B)``.

keys = chair keys , { [ "," | ";" | "and" ] , chair keys } ;
chair keys = [ chair , { [ "," | "and" ] , chair } ] , ( "in" | "en" ) , key ;

A key that makes another instrument of a clarinet or a flute tells what that chair plays; any other is its note.
"""

from __future__ import annotations

from catalogue.instrumentation.drafts import Draft, Forces
from catalogue.instrumentation.lexicon import AND, ARTICLES, IN
from catalogue.instrumentation.model import Chair
from catalogue.instrumentation.phrases import is_key, is_small, ordinal_at, pitch_end, seat_value, token_at
from catalogue.instrumentation.seating import MOST_CHAIRS, own_section
from catalogue.instrumentation.senses import KEYED, NOTED
from catalogue.instrumentation.tokens import Bracket, Nodes

Keyed = tuple[tuple[int, ...], int, int]
"""The chairs, the first and the last node of their key."""


def chair_keys(draft: Draft, bracket: Bracket, forces: Forces) -> list[Draft] | None:
    """Settle the keys that a bracket tells chair by chair; in order where it names no chairs but as many keys."""
    if draft.family not in ("woodwind", "brass") or draft.most < 2 or (draft.figure and not draft.section):
        return None
    found = keys_in(bracket.nodes)
    if len(found) < 2:
        return None
    if all(not seats for seats, _, _ in found):
        if len(found) != draft.most:
            return None
        found = [((at,), first, end) for at, (_, first, end) in enumerate(found, 1)]
    seats = [seat for one, _, _ in found for seat in one]
    if any(not one for one, _, _ in found) or len({*seats}) < len(seats) or max(seats) > MOST_CHAIRS:
        return None
    draft.chairs += [
        keyed_chair(draft, seat, bracket.nodes[first:end], forces) for one, first, end in found for seat in one
    ]
    return []


def keyed_chair(draft: Draft, seat: int, key: Nodes, forces: Forces) -> Chair:
    spelled = "".join(node.key for node in key)
    slug = KEYED.get((own_section(draft) or draft.slug, spelled), draft.slug)
    if slug not in (*NOTED, draft.slug):
        return Chair(seat, (slug,))
    return Chair(seat, (draft.slug,), "in " + forces.written(key[0].start, key[-1].end))


def keys_in(nodes: Nodes) -> list[Keyed]:
    """Return the chairs and keys of a bracket, nothing where anything else stands in it."""
    found: list[Keyed] = []
    at = 0
    while at < len(nodes):
        seats, at = seats_at(nodes, at)
        if at >= len(nodes) or not is_key(nodes[at], IN):
            return []
        end = pitch_end(nodes, at + 1)
        if end is None:
            return []
        found.append((seats, at + 1, end))
        at = end
        while at < len(nodes) and (nodes[at].is_mark(",;/") or is_key(nodes[at], AND)):
            at += 1
    return found


def seats_at(nodes: Nodes, at: int) -> tuple[tuple[int, ...], int]:
    """Return the chairs that are named here, ``1st``, ``2. und 3.``, ``II, III``, and where they end."""
    seats: list[int] = []
    end = at
    while at < len(nodes):
        at += is_small(nodes[at], ARTICLES) and ordinal_at(nodes, at) is None
        seat = ordinal_at(nodes, at)
        token = token_at(nodes, at)
        if seat is None and token is not None and (value := seat_value(token)) is not None:
            pointed = token_at(nodes, at + 1)
            seat = value, at + 1 + (token.kind == "number" and pointed is not None and pointed.is_mark("."))
        if seat is None:
            break
        seats.append(seat[0])
        at = end = seat[1]
        while at < len(nodes) and (nodes[at].is_mark(",") or is_key(nodes[at], AND)):
            at += 1
    return tuple(seats), end
