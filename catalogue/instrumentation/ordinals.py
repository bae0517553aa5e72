"""Reads the ordinals that a point makes of a number, ``1. Flöte, 2. Flöte (auch Picc.)``, ``I. Vl.``.

A number with a point before a name numbers the player where the numbers of one instrument run from one; elsewhere the
point parts a figure from what follows, as in ``2. Picc. 2.``
"""

from __future__ import annotations

from collections import defaultdict
from dataclasses import replace

from catalogue.instrumentation.lexicon import AND
from catalogue.instrumentation.names import name_at
from catalogue.instrumentation.numbers import roman
from catalogue.instrumentation.phrases import is_key
from catalogue.instrumentation.rows import has_bracket, marks_of
from catalogue.instrumentation.tokens import Bracket, Node, Row, Token, spelled

FEWEST = 2
MOST = 8
THREE = 3
U = {"u"}


JOINING = AND | U


def pointed_ordinals(nodes: tuple[Node, ...]) -> tuple[Node, ...]:
    """Return the nodes with the point of each such number as the ending of an ordinal."""
    pointed: list[int] = []
    if "." in marks_of(nodes):
        nodes = both_sections(nodes)
        pointed = [at for at in range(len(nodes) - 2) if is_pointed(nodes, at)]
    if has_bracket(nodes):
        nodes = in_brackets(nodes)
    if not pointed:
        return nodes
    found: dict[str, list[int]] = defaultdict(list)
    for at in pointed:
        name = name_at(nodes, at + 2)
        if name is not None:
            found[name.slugs[0]].append(at)
    numbered = {at for places in found.values() if run_from_one(nodes, places) for at in places}
    numbered |= {at for at in pointed if is_section(nodes, at)}
    if not numbered:
        return nodes
    return Row(
        in_figures(node) if at in numbered else ending(node) if at - 1 in numbered else node
        for at, node in enumerate(nodes)
    )


def in_brackets(nodes: tuple[Node, ...]) -> tuple[Node, ...]:
    """Return the nodes with the ordinals in their brackets read too."""
    inner = {
        at: ordinals_of_violins(without_points(node))
        for at, node in enumerate(nodes)
        if type(node) is Bracket and "." in marks_of(node.nodes)
    }
    if all(bracket is nodes[at] for at, bracket in inner.items()):
        return nodes
    return Row(inner.get(at, node) for at, node in enumerate(nodes))


def without_points(bracket: Bracket) -> Bracket:
    """Return a bracket with a range of ordinals as one of numbers, ``(5.–8. auch Wagnertuben)``."""
    if "-" not in marks_of(bracket.nodes):
        return bracket
    for at in range(len(bracket.nodes) - 4):
        first, point, dash, second, last = bracket.nodes[at : at + 5]
        if first.kind == second.kind == "number" and point.is_mark(".") and last.is_mark(".") and dash.is_mark("-"):
            kept = (*bracket.nodes[: at + 1], *bracket.nodes[at + 2 : at + 4], *bracket.nodes[at + 5 :])
            return replace(bracket, nodes=Row(kept))
    return bracket


def ordinals_of_violins(bracket: Bracket) -> Bracket:
    """Return a bracket with the numerals of violins as ordinals, ``(8 I. Vl., 6 II. Vl.)``."""
    if not any(is_section(bracket.nodes, at) for at in range(len(bracket.nodes) - 2) if is_pointed(bracket.nodes, at)):
        return bracket
    found: list[Node] = []
    for node in bracket.nodes:
        found.append(node)
        if len(found) >= THREE and is_section(tuple(found[-THREE:]), 0) and is_pointed(tuple(found[-THREE:]), 0):
            numeral_of, _, name = found[-THREE:]
            found[-THREE:] = [name_from(name, numeral_of), letters_after(numeral_of, name)]
    return replace(bracket, nodes=Row(found))


def name_from(name: Node, before: Node) -> Node:
    """Return a name that reaches back to the numeral before it."""
    return name._replace(start=before.start) if isinstance(name, Token) else name


def letters_after(node: Node, name: Node) -> Node:
    """Return a numeral that stands after its name, ``Vl. I`` for ``I. Vl.``."""
    return node._replace(start=name.end, end=name.end, spaced=True) if isinstance(node, Token) else node


def is_section(nodes: tuple[Node, ...], at: int) -> bool:
    """Whether a Roman numeral numbers a section of the violins, ``II. Vl.``."""
    name = name_at(nodes, at + 2) if nodes[at].kind == "word" else None
    return name is not None and name.slugs[0].startswith("violin") and numeral(nodes[at]) in (1, 2)


def both_sections(nodes: tuple[Node, ...]) -> tuple[Node, ...]:
    """Return ``I. u. II. Vl.`` as ``I & II Vl.``."""
    for at in range(len(nodes) - 5):
        link = at + 2
        second = link + 1 + nodes[link + 1].is_mark(".")
        if not (is_key(nodes[link], JOINING) and nodes[at + 1].is_mark(".") and second + 2 < len(nodes)):
            continue
        name = name_at(nodes, second + 2) if nodes[second + 1].is_mark(".") else None
        if name is None or not name.slugs[0].startswith("violin"):
            continue
        if (numeral(nodes[at]), numeral(nodes[second])) == (1, 2):
            both = [in_letters(nodes[at]), *(nodes[link : link + 1]), in_letters(nodes[second])]
            both[1] = Token("mark", "&", nodes[link].start, nodes[link].end, True, *spelled("mark", "&"))
            return Row((*nodes[:at], *both, *nodes[second + 2 :]))
    return nodes


def in_letters(node: Node) -> Node:
    """Return a numeral of one or two in Roman letters."""
    written = "I" * (numeral(node) or 1)
    return (
        node._replace(kind="word", text=written, lower=written.lower(), key=written.lower())
        if isinstance(node, Token)
        else node
    )


def is_pointed(nodes: tuple[Node, ...], at: int) -> bool:
    """Whether a small number with its point stands here and a word after a blank."""
    if nodes[at + 1].kind != "mark":
        return False
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
