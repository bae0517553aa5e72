"""Reads saxophones by the letters of their size, a point after each, ``A.S., T.S.``, as German lists have them.

size = ( "S" | "A" | "T" | "B" ) , "." , "S" , "." ;

No text lists two singers so, the lower before the higher; ``S.S.`` may be two sopranos and needs a wind beside it, and
after a word for soloists all of them are voices. ``B.S.`` is the baritone, the usual one of the two with that letter.
Source: keys to abbreviations of German orchestras and publishers; common practice.
"""

from __future__ import annotations

from dataclasses import replace

from catalogue.instrumentation.drafts import Forces
from catalogue.instrumentation.families import WINDS
from catalogue.instrumentation.lexicon import HEADINGS, SOLO
from catalogue.instrumentation.names import name_at
from catalogue.instrumentation.phrases import is_key
from catalogue.instrumentation.rows import has_bracket, keys_of, marks_of
from catalogue.instrumentation.tokens import Bracket, Node, Nodes, Row, Token, spelled
from catalogue.instrumentation.vocabulary import family_of

WRITTEN = {"S": "SSax", "A": "ASax", "T": "TSax", "B": "BarSax"}
NEAR = 12
PARTING = ",;/&\n"
SUNG = SOLO | HEADINGS["voice"]


def pointed_sizes(nodes: tuple[Node, ...], forces: Forces) -> tuple[Node, ...]:
    """Return the nodes with each such abbreviation as one word that names the saxophone."""
    if has_bracket(nodes):
        nodes = in_brackets(nodes, forces)
    if "s" not in keys_of(nodes) or "." not in marks_of(nodes):
        return nodes
    ends = {at: end for at in range(len(nodes) - 2) if (end := size_end(nodes, at, forces.text)) is not None}
    if not ends:
        return nodes
    sung = after_solo(nodes)
    found: list[Node] = []
    done = 0
    for at, end in ends.items():
        letter = nodes[at]
        alone = letter.is_word("s") and not beside_winds(nodes, at, ends)
        if not isinstance(letter, Token) or alone or at in sung:
            continue
        stop = nodes[at + 2].end + 1
        found += (*nodes[done:at], saxophone(letter, stop))
        done = end
        if letter.text == "B":
            message = f"“{forces.written(letter.start, stop)}” was read as the baritone saxophone."
            forces.remark("abbreviation", message, letter.start, stop, "the bass saxophone")
    return Row((*found, *nodes[done:])) if done else nodes


def in_brackets(nodes: tuple[Node, ...], forces: Forces) -> tuple[Node, ...]:
    """Return the nodes with the sizes in the brackets read too, ``3 Sax. (A.S., T.S., B.S.)``; not of singers."""
    sung = after_solo(nodes)
    changed: dict[int, Node] = {}
    for at, node in enumerate(nodes):
        if type(node) is Bracket and at not in sung:
            inner = pointed_sizes(node.nodes, forces)
            if len(inner) < len(node.nodes):
                changed[at] = replace(node, nodes=inner)
    return Row(changed.get(at, node) for at, node in enumerate(nodes)) if changed else nodes


def size_end(nodes: Nodes, at: int, text: str) -> int | None:
    """Return the end of two letters with their points, apart from others; the last point may be the text's."""
    letter, point, second = nodes[at : at + 3]
    if type(letter) is not Token or type(second) is not Token or letter.text not in WRITTEN or second.text != "S":
        return None
    if (
        not point.is_mark(".")
        or getattr(point, "spaced", False)
        or second.spaced
        or text[second.end : second.end + 1] != "."
    ):
        return None
    before = nodes[at - 1] if at else None
    if before is not None and not (letter.spaced or before.kind == "number" or before.is_mark(PARTING + ":")):
        return None
    end = at + 3 + (at + 3 < len(nodes))
    after = nodes[end] if end < len(nodes) else None
    parts = after is None or getattr(after, "spaced", False) or after.is_mark(PARTING)
    return end if parts else None


def after_solo(nodes: Nodes) -> set[int]:
    """Return the places after a word for soloists or voices, up to the end of its line or a semicolon."""
    found: set[int] = set()
    if keys_of(nodes).isdisjoint(SUNG):
        return found
    sung = False
    for at, node in enumerate(nodes):
        sung = (sung or is_key(node, SUNG)) and not node.is_mark(";\n")
        if sung:
            found.add(at)
    return found


def beside_winds(nodes: Nodes, place: int, ends: dict[int, int]) -> bool:
    """Whether the name before or after a place is that of a wind, or another such abbreviation stands there."""
    before = next(
        (name for at in range(place - 1, max(place - NEAR, -1), -1) if (name := family_at(nodes, at, ends))), ""
    )
    after = next(
        (
            name
            for at in range(ends[place], min(ends[place] + NEAR, len(nodes)))
            if (name := family_at(nodes, at, ends))
        ),
        "",
    )
    return before in WINDS or after in WINDS


def family_at(nodes: Nodes, at: int, ends: dict[int, int]) -> str:
    """Return the family of what is named at a place, that of winds for another size; empty for no name."""
    if at in ends and not nodes[at].is_word("s"):
        return WINDS[0]
    name = name_at(nodes, at)
    return family_of(name.slugs[0]) if name is not None and len(name.written) > 1 else ""


def saxophone(letter: Token, end: int) -> Token:
    """Return the word for the saxophone of a letter."""
    written = WRITTEN[letter.text]
    return Token("word", written, letter.start, end, letter.spaced, *spelled("word", written))
