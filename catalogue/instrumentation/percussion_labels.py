"""Reads players of percussion who are only numbered, ``Player 1: vib; Player 2: mar``, ``I: vib; II: mar``.

    text = label , list , { mark , label , list } ;
    label = ( word for a player , numeral | ordinal , word for a player | numeral ) , [ ":" | dash ] ;

Labels that run from one and whose lists name percussion alone number percussionists; the word is put in their place.
"""

from __future__ import annotations

from collections.abc import Iterator
from typing import NamedTuple

from catalogue.instrumentation.lexicon import PLAYERS, keyed
from catalogue.instrumentation.names import name_at
from catalogue.instrumentation.phrases import ordinal_at, seat_value, token_at
from catalogue.instrumentation.rows import keys_of, marks_of
from catalogue.instrumentation.tokens import Bracket, Node, Nodes, Row, Token, spelled
from catalogue.instrumentation.vocabulary import family_of

PLAYER = PLAYERS | keyed("joueur musicien musicienne interprète intérprete músico musicista musiker performer musician")
FEWEST = 2
MOST = 30
WORD = "percussion"
PERCUSSION = keyed("percussion perc percussionist percussionniste percusionista percussionista schlagzeuger schlagzeug")
LABELLING = PLAYER | PERCUSSION


class Label(NamedTuple):
    """The label of one player: number, place, the place of its list, whether it is written as the reader needs it."""

    seat: int
    start: int
    end: int
    plain: bool


def percussion_labels(nodes: tuple[Node, ...]) -> tuple[Node, ...]:
    """Return the nodes with the labels of players who only play percussion as ``percussion 1:``."""
    if ":" not in marks_of(nodes) and keys_of(nodes).isdisjoint(LABELLING):
        return nodes
    labels = [*labels_in(nodes)]
    seats = [label.seat for label in labels]
    if len(labels) < FEWEST or seats != list(range(1, len(seats) + 1)) or all(label.plain for label in labels):
        return nodes
    if any(named_percussion(nodes, at) for at in range(labels[0].start)) or not only_percussion(nodes, labels):
        return nodes
    found: list[Node] = list(nodes[: labels[0].start])
    for label, following in zip(labels, [*labels[1:], None], strict=True):
        found += written(nodes, label)
        found += nodes[label.end : following.start if following is not None else len(nodes)]
    return Row(found)


def labels_in(nodes: Nodes) -> Iterator[Label]:
    """Return the labels of players at the beginning of the text and after marks, in order."""
    at = 0
    while at < len(nodes):
        begins = at == 0 or nodes[at - 1].is_mark("\n;:,./|")
        label = label_at(nodes, at) if begins else None
        if label is not None:
            yield label
        at = label.end if label is not None else at + 1


def label_at(nodes: Nodes, at: int) -> Label | None:
    """Return the label of a player that begins here."""
    first = token_at(nodes, at)
    if first is None or first.kind == "mark":
        return None
    named = named_percussion(nodes, at)
    if named or first.key in PLAYER:
        number = at + 1 + (at + 1 < len(nodes) and nodes[at + 1].is_mark("."))
        seat, end = seat_value(token_at(nodes, number)), number + 1
    elif (counted := ordinal_at(nodes, at)) is not None and is_player(nodes, counted[1]):
        seat, end, named = counted[0], counted[1] + 1, True
    elif is_player(nodes, at + 2) and nodes[at + 1].is_mark("."):
        seat, end = seat_value(first), at + 3
    else:
        seat, end = seat_value(first), at + 1
        named = False
        listed = at > 0 and nodes[at - 1].is_mark(":;\n") and end < len(nodes) and nodes[end].is_mark(".")
        if end >= len(nodes) or not (nodes[end].is_mark(":") or listed):
            return None
    if seat is None or not 0 < seat < MOST or end >= len(nodes):
        return None
    marked = opens_list(nodes, end)
    if not marked and not (isinstance(nodes[end], Bracket) or (named and plays_percussion(nodes, end, end + 1))):
        return None
    plain = named_percussion(nodes, at) and (marked or isinstance(nodes[end], Bracket))
    return Label(seat, at, end + marked, plain)


def is_player(nodes: Nodes, at: int) -> bool:
    return at < len(nodes) and (nodes[at].key in PLAYER or named_percussion(nodes, at))


def opens_list(nodes: Nodes, at: int) -> bool:
    """Whether a colon, a dash between blanks or the point of a number stands here."""
    dash = nodes[at].is_mark("-") and nodes[at].spaced and at + 1 < len(nodes) and nodes[at + 1].spaced
    return nodes[at].is_mark(":") or dash or (nodes[at].is_mark(".") and nodes[at - 1].kind == "number")


def named_percussion(nodes: Nodes, at: int) -> bool:
    """Whether the word for percussion stands here."""
    name = name_at(nodes, at)
    return name is not None and name.slugs[0] == "percussion"


def only_percussion(nodes: Nodes, labels: list[Label]) -> bool:
    """Whether each list names percussion and nothing else; the last reaches to the mark that ends the others."""
    mark = nodes[labels[1].start - 1]
    last = next((at for at in range(labels[-1].end, len(nodes)) if ends(nodes[at], mark)), len(nodes))
    lists = zip(labels, [label.start for label in labels[1:]] + [last], strict=True)
    return all(plays_percussion(nodes, label.end, end) for label, end in lists)


def ends(node: Node, mark: Node) -> bool:
    """Whether a node ends the last list: a new line, or a semicolon where such part the lists."""
    return node.is_mark("\n") or (node.is_mark(";") and mark.is_mark(";"))


def plays_percussion(nodes: Nodes, start: int, end: int) -> bool:
    """Whether the names from one place to another are of percussion, at least one of them."""
    families = [*families_named(nodes, start, end)]
    return bool(families) and all(family == "percussion" for family in families)


def families_named(nodes: Nodes, start: int, end: int) -> Iterator[str]:
    """Return the families of the names from one place to another, percussion where a name may mean it."""
    at = start
    while at < end:
        node = nodes[at]
        if isinstance(node, Bracket):
            yield from families_named(node.nodes, 0, len(node.nodes))
        name = name_at(nodes, at)
        if name is not None:
            families = [family_of(slug) for slug in name.slugs]
            yield "percussion" if "percussion" in families else families[0]
        at = name.end if name is not None else at + 1


def written(nodes: Nodes, label: Label) -> list[Node]:
    """Return the label as ``percussion``, its number and a colon."""
    first, following = nodes[label.start], nodes[label.end]
    places = (first.start, nodes[label.end - 1].end)
    label_of = [
        Token("word", WORD, *places, first.spaced, *spelled("word", WORD)),
        Token("number", str(label.seat), *places, True, str(label.seat)),
    ]
    colon = Token("mark", ":", places[1], places[1], False, ":")
    return [*label_of] if isinstance(following, Bracket) else [*label_of, colon]
