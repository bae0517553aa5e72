"""What is said of an ensemble whose bracket lists its players, ``organ with optional brass quartet (2 tpt, 2 tbn)``."""

from __future__ import annotations

from dataclasses import replace

from catalogue.instrumentation.lexicon import OPTIONAL
from catalogue.instrumentation.phrases import phrase_end
from catalogue.instrumentation.qualities import qualities_at
from catalogue.instrumentation.scope import Scope
from catalogue.instrumentation.tokens import Bracket, Nodes

APART = "§"
"""Stands in a separator where a bracket is a list of its own and says nothing of the item before it."""


def opened(nodes: Nodes, at: int, end: int, scope: Scope) -> tuple[Scope, str]:
    """Return the scope and the separator in which a list after the words from ``at`` to ``end`` is read."""
    if end >= len(nodes) or not isinstance(nodes[end], Bracket):
        return scope, "."
    said = qualities_at(nodes, at)[0]
    if any(phrase_end(nodes, one, OPTIONAL) is not None for one in range(at, end)):
        scope = replace(scope, optional=True, role_ends=f"{scope.role_ends}[")
    if said.offstage:
        scope = replace(scope, role="offstage", role_ends=f"{scope.role_ends}[")
    return scope, APART
