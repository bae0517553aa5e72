"""Instruments of which one is chosen: ``saxophone (alto or soprano)``, ``2 (fl or ob)``, ``keyboard (pf or org)``.

Sizes joined by *or* are a choice of the one instrument, whoever plays it; so are instruments of different sections
that stand in the bracket of a number alone, since nobody changes from the one to the other. Common practice.
"""

from __future__ import annotations

import re
from itertools import pairwise

from catalogue.instrumentation.chair_lists import BY_LETTER
from catalogue.instrumentation.drafts import Draft, Forces
from catalogue.instrumentation.lexicon import ARTICLES, OR
from catalogue.instrumentation.names import name_at
from catalogue.instrumentation.phrases import is_key
from catalogue.instrumentation.players_meant import linked
from catalogue.instrumentation.senses import in_section
from catalogue.instrumentation.tokens import Bracket, Node, Nodes, Row
from catalogue.instrumentation.vocabulary import instrument, key_of

FEWEST = 2
KINDS = ("instrument", "keyboard")
AS_EXAMPLE = re.compile(
    r"\s*(?:e\.? ?g\b|for example|such as|z\. ?b\b|zum beispiel|etwa|p(?:ar)?\.? ?ex|ad es|per es|p(?:or)?\.? ?ej)",
    re.IGNORECASE,
)


def pieces_of(nodes: Nodes) -> list[tuple[Node, ...]]:
    """Return what commas and a word for *or* part; nothing where no such word stands there."""
    found: list[list[Node]] = [[]]
    told = False
    for node in nodes:
        either = is_key(node, OR)
        told = told or either
        if either or node.is_mark(","):
            found.append([])
        else:
            found[-1].append(node)
    return [tuple(piece) for piece in found if piece] if told else []


def chosen_size(draft: Draft, bracket: Bracket, forces: Forces) -> list[Draft] | None:
    """Settle ``saxophone (alto or soprano)``: the one size or the other, nobody plays both."""
    section = draft.slug if draft.slug in BY_LETTER and draft.name is not None else ""
    pieces = pieces_of(bracket.nodes) if section else []
    sizes = [size_in(piece, section) for piece in pieces]
    if len(sizes) < FEWEST or not all(sizes):
        return None
    draft.slug, *others = [size for size in sizes if size]
    draft.alternatives += others
    return []


def size_in(piece: Nodes, section: str) -> str | None:
    """Return the size that fills a piece of a bracket, with the name of its section or by itself."""
    size = in_section("".join(node.key for node in piece), section)
    name = name_at(piece, 0) if size is None else None
    whole = name is not None and name.end == len(piece)
    fitting = [slug for slug in name.slugs if instrument(slug).section == section] if name is not None and whole else []
    return size or next(iter(fitting), None)


def chosen_kind(draft: Draft, bracket: Bracket, forces: Forces) -> list[Draft] | None:
    """Settle ``2 (fl or ob)``: so many players of either, where the names are of different sections."""
    pieces = pieces_of(bracket.nodes) if draft.figure else []
    names = [name_at(piece, 0) for piece in pieces]
    if len(names) < FEWEST or any(one is None or one.end != len(p) for one, p in zip(names, pieces, strict=True)):
        return None
    slugs = [one.surely() or one.slugs[0] for one in names if one is not None]
    sections = {instrument(slug).section or slug for slug in slugs}
    if len(sections) < FEWEST:
        return None
    draft.slug, *others = slugs
    draft.figure, draft.section = False, ""
    draft.alternatives += others
    message = f"“{forces.written(draft.start, bracket.end)}” was read as a choice of instruments."
    forces.remark("alternative", message, draft.start, bracket.end, "a player who changes to the other")
    return []


def is_kind(draft: Draft) -> bool:
    """Whether a draft names no more than a kind of instrument, ``melody instrument``, ``keyboard``."""
    return draft.slug in KINDS or draft.slug.endswith("-instrument")


def is_person(draft: Draft) -> bool:
    """Whether a kind names who plays, who has all that is listed at hand: ``keyboard player (piano, celesta)``."""
    return draft.slug == "keyboard" or (draft.name is not None and draft.name.written.lower().endswith("player"))


def chosen_of_kind(draft: Draft, bracket: Bracket, forces: Forces) -> list[Draft] | None:
    """Settle ``melody instrument (flute, oboe or violin)``: one of those named, or of those who are named for many."""
    if not is_kind(draft) or any(linked(bracket.nodes, at)[0] is not None for at in range(len(bracket.nodes))):
        return None
    if is_person(draft) and not pieces_of(bracket.nodes):
        return None
    pieces = parted(bracket.nodes)
    names = [name_at(piece, is_key(piece[0], ARTICLES)) for piece in pieces]
    if len(pieces) < FEWEST or not any(names):
        return None
    example = AS_EXAMPLE.match(forces.text[bracket.start + 1 : bracket.end])
    whole = example is None and all(
        name is not None and name.end == len(piece) for name, piece in zip(names, pieces, strict=True)
    )
    written = forces.written(bracket.start + 1, bracket.nodes[-1].end)
    if not whole or draft.most > 1 or draft.size == 0 or any(node.kind == "number" for node in bracket.nodes):
        draft.notes.append(written)
        message = f"“{written}” was kept as what the players may be."
        forces.remark("alternative", message, bracket.start, bracket.end, "further players")
        return []
    draft.slug, *others = [name.surely() or name.slugs[0] for name in names if name is not None]
    draft.alternatives += others
    message = f"“{written}” was read as a choice of one of them."
    forces.remark("alternative", message, bracket.start, bracket.end, "a player who plays them all")
    return []


def choice_after_colon(nodes: Nodes, at: int) -> Bracket | None:
    """Return what a colon leads to as a bracket, ``melody instrument: flute, oboe or violin``; ``None`` for a list."""
    if at >= len(nodes) or not nodes[at].is_mark(":"):
        return None
    start = end = at + 1
    either = False
    while (name := name_at(nodes, end)) is not None:
        end = name.end
        if either or end >= len(nodes) or not (nodes[end].is_mark(",/") or is_key(nodes[end], OR)):
            break
        either = is_key(nodes[end], OR)
        end += 1
    inside = nodes[start:end]
    if not either or name is None:
        return None
    return Bracket("(", Row(inside), nodes[start].start - 1, nodes[end - 1].end)


def parted(nodes: Nodes) -> list[tuple[Node, ...]]:
    """Return what commas, slashes and words for *or* part."""
    found: list[list[Node]] = [[]]
    for node in nodes:
        if node.is_mark(",/") or is_key(node, OR):
            found.append([])
        else:
            found[-1].append(node)
    return [tuple(piece) for piece in found if piece]


def names_choice(node: Node) -> bool:
    """Whether a bracket lists instruments of which one is chosen."""
    return isinstance(node, Bracket) and len(pieces_of(node.nodes)) >= FEWEST


def sizes_after_comma(forces: Forces) -> None:
    """Give ``saxophone`` the sizes that a comma parts from it, ``saxophone, alto or soprano``: it is one player."""
    for before, draft in pairwise([*forces.drafts]):
        plain = not (before.count or before.brackets or before.clauses or before.alternatives or before.number_after)
        if before.slug not in BY_LETTER or not plain or not draft.alternatives or draft.name is None or draft.count:
            continue
        if draft.separator.strip() not in (",", ":", "-"):
            continue
        written = [key_of(draft.name.written), *(slug.removeprefix("voice-") for slug in draft.alternatives)]
        sizes = [in_section(one.removesuffix(f"-{before.slug}"), before.slug) for one in written]
        if all(sizes):
            before.slug, *before.alternatives = [size for size in sizes if size]
            before.end = draft.end
            forces.drafts.remove(draft)
