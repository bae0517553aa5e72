"""A family whose four figures and auxiliaries only blanks part, ``2 2 2 asx 2 –``, ``3 2 2 Bkl 2 Kfag``.

Every figure there is a place, none the number of the name after it or a part of the name before it: a name is one more
player. It is so where the family has four figures in all and begins with one. Common practice of orchestra offices.
"""

from __future__ import annotations

from catalogue.instrumentation.families import MAIN
from catalogue.instrumentation.names import name_at
from catalogue.instrumentation.rows import remembered
from catalogue.instrumentation.tokens import Nodes, Token
from catalogue.instrumentation.vocabulary import family_of

PLACES = 4
LONGEST = 24
"""Nodes from the first figure of a family to its last."""
PARTING = "-/;\n"


@remembered
def in_four_places(nodes: Nodes, at: int) -> bool:
    """Whether the figure at a place is one of four that only blanks, brackets and auxiliaries part."""
    start = at
    while start > 0 and at - start < LONGEST and not nodes[start - 1].is_mark(PARTING):
        start -= 1
    return at < len(nodes) and nodes[start].kind == "number" and fills_places(nodes, start)


@remembered
def fills_places(nodes: Nodes, start: int) -> bool:
    """Whether four figures and at least one auxiliary stand from here to the next mark between families."""
    figures, names, at = 0, 0, start
    while at < len(nodes) and figures <= PLACES and not nodes[at].is_mark(PARTING):
        node = nodes[at]
        if isinstance(node, Token) and node.kind == "number" and len(node.text) == 1 and (node.spaced or at == start):
            figures, at = figures + 1, at + 1
        elif node.kind == "bracket":
            at += 1
        else:
            name = name_at(nodes, at)
            winds = name is not None and all(
                family_of(slug) in ("woodwind", "brass") and slug not in MAIN for slug in name.slugs
            )
            if name is None or not winds or not getattr(node, "spaced", False):
                return False
            names, at = names + 1, name.end
    return figures == PLACES and names > 0
