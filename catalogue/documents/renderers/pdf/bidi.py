"""In which order the characters of a line are set: Unicode Standard Annex 9, each value of a record an isolate.

Levels come from python-bidi, part by part: it has no isolates, so that the sentence is levelled with one neutral sign
in the place of each value, and each value by itself (first strong character, rule P2), raised to its surroundings.
"""

from __future__ import annotations

import unicodedata
from collections.abc import Sequence
from operator import attrgetter
from typing import Protocol, TypeVar

from bidi import algorithm

from catalogue.documents.model import Text

PLACE = "\N{OBJECT REPLACEMENT CHARACTER}"
LEVEL = attrgetter("level")
RIGHT_TO_LEFT = frozenset(("R", "AL", "AN"))


class Levelled(Protocol):
    @property
    def level(self) -> int: ...


Item = TypeVar("Item", bound=Levelled)


def text_levels(text: Text) -> list[int]:
    """The embedding level of every character of a text, in reading order; the sentence itself reads left to right."""
    if not any(turns(run.text) for run in text):
        return [0] * sum(len(run.text) for run in text)
    outer = levels("".join(PLACE if run.value else run.text for run in text), 0)
    found: list[int] = []
    place = 0
    for run in text:
        if run.value:
            raised = outer[place] + outer[place] % 2
            found += [raised + level for level in levels(run.text, int(run.right_to_left))]
            place += 1
        else:
            found += outer[place : place + len(run.text)]
            place += len(run.text)
    return found


def turns(text: str) -> bool:
    """Whether any character reads from right to left."""
    return any(unicodedata.bidirectional(character) in RIGHT_TO_LEFT for character in text)


def levels(text: str, base: int) -> list[int]:
    """The resolved levels of a text on its own, its paragraph level being ``base``."""
    storage = algorithm.get_empty_storage()
    storage["base_level"], storage["base_dir"] = base, "LR"[base]
    algorithm.get_embedding_levels("".join(map(stand_in, text)), storage)
    for place, character in enumerate(storage["chars"]):
        character["place"] = place
    algorithm.explicit_embed_and_overrides(storage)
    algorithm.resolve_weak_types(storage)
    algorithm.resolve_neutral_types(storage, False)
    algorithm.resolve_implicit_levels(storage, False)
    found = [base] * len(text)
    for character in storage["chars"]:
        found[character["place"]] = character["level"]
    return found


def stand_in(character: str) -> str:
    """A character of a type that python-bidi knows: its isolates count as neutral, what is unassigned as Latin."""
    kind = unicodedata.bidirectional(character)
    if kind in ("LRI", "RLI", "FSI", "PDI"):
        return PLACE
    return character if kind else "a"


def in_visual_order(items: Sequence[Item]) -> list[Item]:
    """The items of one line as they stand from left to right (rule L2)."""
    found = list(items)
    for level in range(max(map(LEVEL, found), default=0), 0, -1):
        start = 0
        while start < len(found):
            end = start
            while end < len(found) and found[end].level >= level:
                end += 1
            found[start:end] = found[start:end][::-1]
            start = max(end, start + 1)
    return found
