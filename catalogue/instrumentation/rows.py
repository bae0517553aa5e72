"""A row of nodes that remembers what was found at its places, so that no place is looked at twice for one thing."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from functools import wraps
from typing import Concatenate, ParamSpec, TypeVar, cast

from catalogue.instrumentation.tokens import Node, Row

Wanted = ParamSpec("Wanted")
Found = TypeVar("Found")


def remembered(
    find: Callable[Concatenate[Sequence[Node], Wanted], Found],
) -> Callable[Concatenate[Sequence[Node], Wanted], Found]:
    """Let a function of a row and a place answer from the row's memory the second time.

    What it returns must depend on nothing but its arguments, and nobody may change it.
    """

    @wraps(find)
    def answer(nodes: Sequence[Node], /, *args: Wanted.args, **wanted: Wanted.kwargs) -> Found:
        if type(nodes) is not Row or wanted:
            return find(nodes, *args, **wanted)
        memory, what = nodes.memory, (find, args)
        if what in memory:
            return cast(Found, memory[what])
        found = memory[what] = find(nodes, *args, **wanted)
        return found

    return answer
