"""Instruments of which one is chosen: ``saxophone (alto or soprano)``, ``2 (fl or ob)``, ``recorder, soprano or alto``.

Sizes joined by *or* are a choice of the one instrument, whoever plays it; so are instruments of different sections
that stand in the bracket of a number alone, since nobody changes from the one to the other. Common practice.
"""

from __future__ import annotations

from itertools import pairwise

from catalogue.instrumentation.chair_lists import BY_LETTER
from catalogue.instrumentation.drafts import Draft, Forces
from catalogue.instrumentation.lexicon import OR
from catalogue.instrumentation.names import name_at
from catalogue.instrumentation.phrases import is_key
from catalogue.instrumentation.senses import in_section
from catalogue.instrumentation.tokens import Bracket, Node, Nodes
from catalogue.instrumentation.vocabulary import instrument, key_of

FEWEST = 2


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
