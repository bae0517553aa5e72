"""Ends a bracket that is never closed where the next player begins, ``2 flutes (2nd doubling piccolo, 2 oboes``.

That is at the first comma or semicolon after which another section or family than the one before the bracket is named,
or strings or a body are; what a percussionist plays is none of another family. In figures it is where they go on,
``2(II=picc.2.2.2 – 4.2.3.1``, or where a dash leads to the next family. The bracket is told as mended where it stands.
Common practice.
"""

from __future__ import annotations

from dataclasses import replace

from catalogue.instrumentation.drafts import Forces
from catalogue.instrumentation.lexicon import BODY_OF_STRINGS
from catalogue.instrumentation.names import Name, name_at
from catalogue.instrumentation.phrases import count_at, ordinal_at, phrase_end, token_at
from catalogue.instrumentation.rows import has_bracket
from catalogue.instrumentation.tokens import Bracket, Node, Nodes, Row
from catalogue.instrumentation.vocabulary import family_of, instrument

LONGEST_NAME = 5
SECTIONS = ("percussion", "timpani")
"""Players of their own where a number stands before them, whatever the bracket before them is of."""
PLAYED = ("woodwind", "brass", "strings", "keyboard", "plucked", "percussion", "voice")


def ended(nodes: tuple[Node, ...], forces: Forces) -> tuple[Node, ...]:
    """Return the nodes with each bracket that has no end up to where the next player begins, and say so."""
    if not has_bracket(nodes):
        return nodes
    found: list[Node] = []
    rest: Nodes = nodes
    while (at := next((at for at, node in enumerate(rest) if is_unclosed(node)), None)) is not None:
        bracket = rest[at]
        assert isinstance(bracket, Bracket)  # noqa: S101 — narrows the type
        end = next_player(bracket.nodes, place_before(rest, at))
        stop = bracket.nodes[end - 1].end if end else bracket.end
        inside = bracket.nodes[:end] if end else bracket.nodes
        forces.remark("bracket", "A bracket is not closed; it was taken to end here.", bracket.start, stop)
        found += (*rest[:at], replace(bracket, nodes=Row(inside), end=stop, closed=True))
        rest = (*bracket.nodes[len(inside) :], *rest[at + 1 :])
    return Row((*found, *rest)) if found else nodes


def is_unclosed(node: Node) -> bool:
    return isinstance(node, Bracket) and not node.closed


def next_player(nodes: Nodes, place: str) -> int:
    """Return the place of the mark before the next player; 0 where the bracket may hold all that stands in it."""
    for at in range(1, len(nodes)):
        if figures_go_on(nodes, at):
            return at
        if nodes[at].is_mark(",;") and place and begins_another(nodes, at + 1, place):
            return at
    return 0


def figures_go_on(nodes: Nodes, at: int) -> bool:
    """Whether the figures of a family go on here after a name, or a dash between blanks leads to the next family."""
    node, after = nodes[at], token_at(nodes, at + 1)
    if node.is_mark("-"):
        return node.spaced and after is not None and after.spaced
    start = at if node.kind == "number" and node.spaced else at + 1 if node.is_mark(".") else None
    figure = token_at(nodes, start) if start is not None else None
    if start is None or figure is None or figure.kind != "number" or nodes[at - 1].kind != "word":
        return False
    if len(figure.text) > 1 or ordinal_at(nodes, start) is not None:
        return False
    mark, following = token_at(nodes, start + 1), token_at(nodes, start + 2)
    spaced = mark is not None and (mark.kind == "number" or (mark.is_mark("-") and mark.spaced))
    dotted = mark is not None and mark.is_mark(".,") and following is not None and following.kind == "number"
    return spaced or dotted


def begins_another(nodes: Nodes, at: int, place: str) -> bool:
    """Whether a player of another place is named here, with or without a number; an ordinal tells one of the same."""
    if phrase_end(nodes, at, BODY_OF_STRINGS) is not None:
        return place != "strings"
    if ordinal_at(nodes, at) is not None:
        return False
    counted = count_at(nodes, at)
    name = name_at(nodes, counted.end if counted is not None else at)
    if name is None or (counted is None and len(name.written) == 1):
        return False
    section = name.slugs[0] in SECTIONS and counted is not None
    return section or (place_of(name) not in ("", place) and family_of(name.slugs[0]) in PLAYED)


def place_before(nodes: Nodes, at: int) -> str:
    """Return the place of the name that ends before a bracket, over the point of an abbreviation."""
    end = at - (at > 0 and nodes[at - 1].is_mark("."))
    starts = range(max(0, end - LONGEST_NAME), end)
    if any(phrase_end(nodes, start, BODY_OF_STRINGS) == end for start in starts):
        return "strings"
    name = next((one for start in starts if (one := name_at(nodes, start)) is not None and one.end == end), None)
    return place_of(name) if name is not None else ""


def place_of(name: Name) -> str:
    """Return the section of what is named, else its family."""
    return instrument(name.slugs[0]).section or family_of(name.slugs[0])
