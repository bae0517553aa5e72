"""Reads bodies that are alike and written once in a bracket, ``2 x (2 tpt, hn, tbn)``: each is a group of its own.

repeated = number , ( "x" | "×" ) , bracket ;
"""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

from catalogue.instrumentation.alike import MOST_BODIES
from catalogue.instrumentation.headings import itemised
from catalogue.instrumentation.phrases import count_at, is_key, token_at
from catalogue.instrumentation.tokens import Bracket, Node

if TYPE_CHECKING:
    from catalogue.instrumentation.scanning import Scan

TIMES = {"x", "times", "mal", "fois", "volte", "veces"}


def repeated_bracket(scan: Scan, at: int) -> int | None:
    """Read the bracket as often as the number before it says and return where it ends; ``None`` elsewhere."""
    bodies = count_at(scan.nodes, at)
    end = bodies.end + 1 if bodies is not None and is_times(token_at(scan.nodes, bodies.end)) else len(scan.nodes)
    bracket = scan.nodes[end] if end < len(scan.nodes) else None
    if bodies is None or not isinstance(bracket, Bracket) or not itemised(scan.nodes, end):
        return None
    if bodies.least != bodies.most or not 1 < bodies.most <= MOST_BODIES:
        return None
    for number in range(1, bodies.most + 1):
        scan.inner(bracket.nodes, replace(scan.scope, group=f"group {number}", role_ends=""))
        scan.separator = ";"
    return end + 1


def is_times(node: Node | None) -> bool:
    return node is not None and (node.is_mark("×") or is_key(node, TIMES))
