"""What is known of a row of nodes: what was found at its places, and what stands in it.

No place is looked at twice for one thing. Most readers look for a few words, marks or brackets that most texts do not
have: what stands in a row is gathered once and asked before a reader goes through it.
"""

from __future__ import annotations

from collections.abc import Callable, Set
from functools import wraps
from typing import Concatenate, ParamSpec, TypeVar, cast

from catalogue.instrumentation.tokens import Nodes, Row, Token

Wanted = ParamSpec("Wanted")
Found = TypeVar("Found")
UNKNOWN = object()


def remembered(find: Callable[Concatenate[Nodes, Wanted], Found]) -> Callable[Concatenate[Nodes, Wanted], Found]:
    """Let a function of a row and a place answer from the row's memory the second time.

    What it returns must depend on nothing but its arguments, which are given by place, and nobody may change it.
    """

    @wraps(find)
    def answer(nodes: Nodes, /, *args: object) -> object:
        if type(nodes) is not Row:
            return find(nodes, *args)  # type: ignore[call-arg, arg-type]
        memory = nodes.memory.get(find)
        if memory is None:
            memory = nodes.memory[find] = {}
        found = memory.get(args, UNKNOWN)
        if found is UNKNOWN:
            found = memory[args] = find(nodes, *args)  # type: ignore[call-arg, arg-type]
        return found

    return cast(Callable[Concatenate[Nodes, Wanted], Found], answer)


def kinds_of(nodes: Nodes) -> Set[str]:
    """Return the kinds of the nodes: ``word``, ``number``, ``mark``, ``note``, ``bracket``."""
    if type(nodes) is not Row:
        return {node.kind for node in nodes}
    if nodes.kinds is None:
        nodes.kinds = frozenset([node.kind for node in nodes])
    return nodes.kinds


def keys_of(nodes: Nodes) -> Set[str]:
    """Return the keys of the words, those in brackets left out."""
    if type(nodes) is not Row:
        return {node.key for node in nodes}
    if nodes.keys is None:
        nodes.keys = frozenset([node.key for node in nodes])
    return nodes.keys


def marks_of(nodes: Nodes) -> Set[str]:
    """Return the marks, those in brackets left out."""
    if type(nodes) is not Row:
        return {node.text for node in nodes if node.kind == "mark" and type(node) is Token}
    if nodes.marks is None:
        nodes.marks = frozenset([node.text for node in nodes if node.kind == "mark" and type(node) is Token])
    return nodes.marks


def has_bracket(nodes: Nodes) -> bool:
    """Whether a bracket stands among the nodes."""
    return "bracket" in kinds_of(nodes)
