"""Reads the sizes that stand alone in the list of an ensemble of one kind, ``flute choir (picc, 4 C, alto, bass)``.

There ``alto`` is an alto flute and no singer. Common practice.
"""

from __future__ import annotations

from itertools import pairwise

from catalogue.instrumentation.chair_lists import BY_LETTER, entries, letters_in, member_of
from catalogue.instrumentation.drafts import Draft, Forces
from catalogue.instrumentation.lexicon import AND
from catalogue.instrumentation.names import name_at
from catalogue.instrumentation.phrases import count_at, is_key, pitch_end
from catalogue.instrumentation.senses import KEYED, by_section, in_section
from catalogue.instrumentation.tokens import Bracket, Node, Nodes
from catalogue.instrumentation.vocabulary import family_of, instrument, key_of

SECTIONS = frozenset(section for section, _ in by_section())
SIZED = ("voice", "strings")
"""The families of what a size by itself is elsewhere: a singer, a double bass."""
PLAIN = {"c", "bb", "bflat", "tenor", "concert"}
"""Sizes that are the instrument itself where no other of its sizes is called so."""


def keep_kind(nodes: Nodes, start: int, end: int, forces: Forces) -> None:
    """Keep the instrument that is named in the words from ``start`` to ``end``, before a list of its sizes."""
    for at in range(start, end):
        name = name_at(nodes, at)
        section = instrument(name.slugs[0]).section if name is not None else ""
        if section in SECTIONS and name is not None and name.slugs[0] == section:
            forces.kind = (section, nodes[end - 1].end)
            return


def keep_section(section: str, start: int, forces: Forces) -> None:
    """Keep that sizes from a place on are those of saxophones or recorders, whose ensemble is named before them."""
    if section in SECTIONS:
        forces.kind = (section, start)


def lettered(node: Node | None, kind: str, size: int) -> tuple[str, ...]:
    """Return the instruments of a quartet by their letters, ``(AATB)``; nothing where they are not as many."""
    nodes: Nodes = node.nodes if isinstance(node, Bracket) else (node,) if node is not None else ()
    letters = letters_in(nodes) if kind in BY_LETTER and nodes else ""
    slugs = [in_section(letter.lower(), kind) for letter in letters]
    return tuple(slug for slug in slugs if slug) if len(slugs) == size and all(slugs) else ()


def fill(bracket: Bracket, slug: str, size: int, forces: Forces) -> bool:
    """Whether a bracket lists as many sizes as there are players, ``clarinet trio (2 B flat, bass)``."""
    members = [member_of(piece, slug, forces) for piece in entries(bracket.nodes, ",;+/")]
    sized = slug in SECTIONS and all(one is not None and instrument(one[1]).section == slug for one in members)
    return sized and sum(one[0] or 1 for one in members if one is not None) == size


def name_sizes(forces: Forces) -> None:
    """Give the sizes in the list of an ensemble of one instrument their instruments."""
    section, start = forces.kind
    for draft in forces.drafts if section else ():
        name = draft.name
        if draft.start < start or name is None or not any(family_of(slug) in SIZED for slug in name.slugs):
            continue
        draft.slug = size_of(key_of(name.written), section, forces) or draft.slug


def carry_sizes(forces: Forces) -> None:
    """Read ``tenor`` after ``alto sax and`` as the saxophone, where nobody sings in the text."""
    for before, draft in pairwise(forces.drafts):
        if draft.separator not in (",", "&", ",&", "+", "/") or draft.name is None or draft.family not in ("voice", ""):
            continue
        section = instrument(before.slug).section if before.slug else ""
        if section not in BY_LETTER:
            continue
        singers = [one for one in forces.drafts if one.family == "voice" and one.start < before.start]
        size = in_section(key_of(draft.name.written), section) if len(draft.name.written) > 1 else None
        if size is not None and not singers and any(family_of(slug) == "voice" for slug in draft.name.slugs):
            draft.slug = size
            message = f"“{draft.name.written}” was read as the {size.replace('-', ' ')}."
            forces.remark("size", message, draft.start, draft.end, "a singer")


def keyed_at(nodes: Nodes, at: int, forces: Forces) -> tuple[Draft, int] | None:
    """Read a key that stands for a clarinet in the list of a choir of them, ``E flat``, ``3 B flat``."""
    section, start = forces.kind
    if section != "clarinet" or nodes[at].start < start:
        return None
    counted = count_at(nodes, at)
    first = counted.end if counted is not None else at
    end = pitch_end(nodes, first)
    if end is None or not (end == len(nodes) or nodes[end].kind == "mark"):
        return None
    key = "".join(node.key for node in nodes[first:end])
    return Draft(KEYED.get((section, key), section), nodes[at].start, nodes[end - 1].end, count=counted), end


def suspended_at(nodes: Nodes, at: int) -> tuple[Draft, int] | None:
    """Read the first of two sizes that share one noun, the ``Sopran-`` of ``Sopran- und Altsaxophon``."""
    counted = count_at(nodes, at) if nodes[at].kind == "number" else None
    first = counted.end if counted is not None else at
    row = nodes[first : first + 3]
    if len(row) < 3 or not row[1].is_mark("-") or row[1].spaced or not row[2].spaced or not is_key(row[2], AND):
        return None
    further = count_at(nodes, first + 3)
    name = name_at(nodes, further.end if further is not None else first + 3)
    section = instrument(name.slugs[0]).section if name is not None else ""
    slug = in_section(row[0].key, section) if section else None
    return None if slug is None else (Draft(slug, nodes[at].start, row[1].end, count=counted), first + 2)


def size_of(key: str, section: str, forces: Forces) -> str | None:
    """Return what a size means among instruments of one kind; the ``B`` of German clarinets is their usual one."""
    if key == "b" and section == "clarinet" and forces.language == "de":
        return section
    return in_section(key, section) or (section if key in PLAIN else None)
