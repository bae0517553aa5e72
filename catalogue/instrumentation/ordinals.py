"""Reads the ordinals that a point makes of a number, ``1. Flöte, 2. Flöte (auch Picc.)``.

A number with a point before a name numbers the player where the numbers of one instrument run from one; elsewhere the
point parts a figure from what follows, as in ``2. Picc. 2.``
"""

from __future__ import annotations

from collections import defaultdict

from catalogue.instrumentation.names import name_at
from catalogue.instrumentation.tokens import Node, Row, Token

FEWEST = 2


def pointed_ordinals(nodes: tuple[Node, ...]) -> tuple[Node, ...]:
    """Return the nodes with the point of each such number as the ending of an ordinal."""
    if sum(is_pointed(nodes, at) for at in range(len(nodes) - 2)) < FEWEST:
        return nodes
    found: dict[str, list[int]] = defaultdict(list)
    for at in range(len(nodes) - 2):
        name = name_at(nodes, at + 2) if is_pointed(nodes, at) else None
        if name is not None:
            found[name.slugs[0]].append(at)
    numbered = {at + 1 for places in found.values() if run_from_one(nodes, places) for at in places}
    return Row(ending(node) if at in numbered else node for at, node in enumerate(nodes)) if numbered else nodes


def is_pointed(nodes: tuple[Node, ...], at: int) -> bool:
    """Whether a small number with its point stands here and a word after a blank."""
    number, point, word = nodes[at : at + 3]
    return (
        type(number) is type(point) is type(word) is Token
        and number.kind == "number"
        and len(number.text) == 1
        and point.is_mark(".")
        and not point.spaced
        and word.kind == "word"
        and word.spaced
    )


def run_from_one(nodes: tuple[Node, ...], places: list[int]) -> bool:
    numbers = [int(node.text) for node in (nodes[at] for at in places) if isinstance(node, Token)]
    return len(numbers) >= FEWEST and numbers == list(range(1, len(numbers) + 1))


def ending(node: Node) -> Node:
    return node._replace(kind="word", text="st", lower="st", key="st") if isinstance(node, Token) else node
