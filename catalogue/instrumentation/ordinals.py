"""Reads the ordinals that a point makes of a number, ``1. Flöte, 2. Flöte (auch Picc.)``, ``I. Vl.``.

A number with a point before a name numbers the player where the numbers of one instrument run from one; elsewhere the
point parts a figure from what follows, as in ``2. Picc. 2.``
"""

from __future__ import annotations

from collections import defaultdict

from catalogue.instrumentation.names import name_at
from catalogue.instrumentation.numbers import roman
from catalogue.instrumentation.tokens import Node, Row, Token

FEWEST = 2
MOST = 8


def pointed_ordinals(nodes: tuple[Node, ...]) -> tuple[Node, ...]:
    """Return the nodes with the point of each such number as the ending of an ordinal."""
    if sum(is_pointed(nodes, at) for at in range(len(nodes) - 2)) < FEWEST:
        return nodes
    found: dict[str, list[int]] = defaultdict(list)
    for at in range(len(nodes) - 2):
        name = name_at(nodes, at + 2) if is_pointed(nodes, at) else None
        if name is not None:
            found[name.slugs[0]].append(at)
    numbered = {at for places in found.values() if run_from_one(nodes, places) for at in places}
    if not numbered:
        return nodes
    return Row(
        in_figures(node) if at in numbered else ending(node) if at - 1 in numbered else node
        for at, node in enumerate(nodes)
    )


def is_pointed(nodes: tuple[Node, ...], at: int) -> bool:
    """Whether a small number with its point stands here and a word after a blank."""
    number, point, word = nodes[at : at + 3]
    return (
        type(number) is type(point) is type(word) is Token
        and numeral(number) is not None
        and point.is_mark(".")
        and not point.spaced
        and word.kind == "word"
        and word.spaced
    )


def numeral(node: Node) -> int | None:
    """Return the value of a figure of one digit or of a Roman numeral as short."""
    if type(node) is not Token:
        return None
    if node.kind == "number":
        return node.number if len(node.text) == 1 else None
    value = roman(node.text) if node.kind == "word" and node.text.isupper() else None
    return value if value is not None and value <= MOST else None


def in_figures(node: Node) -> Node:
    """Return a numeral as a number."""
    value = str(numeral(node))
    return node._replace(kind="number", text=value, lower=value, key="") if isinstance(node, Token) else node


def run_from_one(nodes: tuple[Node, ...], places: list[int]) -> bool:
    numbers = [numeral(nodes[at]) for at in places]
    return len(numbers) >= FEWEST and numbers == list(range(1, len(numbers) + 1))


def ending(node: Node) -> Node:
    return node._replace(kind="word", text="st", lower="st", key="st") if isinstance(node, Token) else node
