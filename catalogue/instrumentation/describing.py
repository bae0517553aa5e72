"""Keeps the words that say how a player plays or on what, ``muted trumpet``, ``baroque violin``, as notes."""

from __future__ import annotations

from catalogue.instrumentation.drafts import Draft
from catalogue.instrumentation.lexicon import ARTICLES, DESCRIBING, REMARKS
from catalogue.instrumentation.phrases import is_key, is_small
from catalogue.instrumentation.tokens import Nodes, Token

SAID = DESCRIBING | REMARKS | ARTICLES


def describe(nodes: Nodes, at: int, end: int, drafts: list[Draft]) -> None:
    """Give the describing words from ``at`` up to ``end``, before a name, to the drafts that they are said of."""
    while at < end and (is_key(nodes[at], SAID) or nodes[at].kind == "number"):
        node = nodes[at]
        if isinstance(node, Token) and is_small(node, DESCRIBING):
            for draft in drafts:
                draft.notes.append(node.text)
        at += 1
