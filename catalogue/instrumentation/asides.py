"""Takes players who are elsewhere out of the bracket they are told in, ``str (offstage: fl, ob)``.

Such a bracket says nothing of what stands before it: it is a list under a heading of its own, and is read after all
that stands outside it.
"""

from __future__ import annotations

from catalogue.instrumentation.headings import items_in
from catalogue.instrumentation.lexicon import OFFSTAGE, ONSTAGE
from catalogue.instrumentation.phrases import phrase_end
from catalogue.instrumentation.rows import has_bracket
from catalogue.instrumentation.tokens import Bracket, Node, Nodes, Row, Token

PLACES = OFFSTAGE | ONSTAGE


def beside(nodes: tuple[Node, ...]) -> tuple[Node, ...]:
    """Return the nodes with the lists of players who are elsewhere at the end, each after a semicolon."""
    if not has_bracket(nodes):
        return nodes
    asides = [node for node in nodes if isinstance(node, Bracket) and is_aside(node)]
    if not asides or len(nodes) == len(asides):
        return nodes
    found = [node for node in nodes if node not in asides]
    for one in asides:
        found += [Token("mark", ";", one.start, one.start + 1, False, ";"), *one.nodes]
    return Row(found)


def is_aside(bracket: Bracket) -> bool:
    """Whether a bracket begins with a place and a colon, and names players after it."""
    end = phrase_end(bracket.nodes, 0, PLACES)
    return end is not None and has_colon(bracket.nodes, end) and items_in(bracket) > 0


def has_colon(nodes: Nodes, at: int) -> bool:
    return at < len(nodes) and nodes[at].is_mark(":")
