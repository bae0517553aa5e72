"""Reads the number of all string players in the bracket of a body, ``strings (12 players)``, ``Streicher (15)``."""

from __future__ import annotations

from catalogue.instrumentation.drafts import Draft
from catalogue.instrumentation.lexicon import PLAYERS
from catalogue.instrumentation.phrases import count_at, phrase_end
from catalogue.instrumentation.tokens import Bracket

FEWEST = 5
"""Fewer are not all five sections."""


def counts_body(draft: Draft, bracket: Bracket) -> bool:
    """Take a number that a bracket gives of the whole body and nothing else as its count; false for another bracket."""
    counted = count_at(bracket.nodes, 0)
    if counted is None or draft.count is not None or not FEWEST <= counted.least == counted.most:
        return False
    rest = [node for node in bracket.nodes[counted.end :] if not node.is_mark(".")]
    if rest and phrase_end(rest, 0, PLAYERS) != len(rest):
        return False
    draft.count = counted
    return True
