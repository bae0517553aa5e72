"""Alternatives among the players of a call: joined by *or* in a sentence, or marked A and B, Category 1 and 2."""

from __future__ import annotations

import re

from catalogue.rules.calls.limit_texts import reading
from catalogue.rules.calls.passages import Passage


def alternatives(run: list[tuple[str, str]]) -> list[list[str]]:
    """Return the items of a run in groups: *or* parts them; without *and*, each item is one."""
    separators = {separator for _, separator in run[:-1]}
    ors = {"or", "oder", "ou", "o", "or else"}
    if not separators & ors:
        return [[one for one, _ in run]]
    if not separators - ors - {","}:
        return [[one] for one, _ in run]
    first, *rest = run
    if first[1] in ors and rest and rest[0][1] not in ("", ",", *ors) and are_alike(first[0], rest[0][0]):
        return [[one, *(text for text, _ in rest[1:])] for one in (first[0], rest[0][0])]
    groups: list[list[str]] = [[]]
    for one, separator in run:
        groups[-1].append(one)
        if separator in ors:
            groups.append([])
    return [group for group in groups if group]


def are_alike(one: str, other: str) -> bool:
    """Whether two items are of one family, so that what follows goes with either: *soprano or mezzo and piano*."""
    families = [{line.family for line in found.lines} for text in (one, other) if (found := reading(text))]
    return len(families) == 2 and families[0] == families[1]


CATEGORY = re.compile(r"(?:category|categorie|categoria|kategorie|section|sektion|class)\s+(?P<mark>[A-D1-4])\b", re.I)


def alternative_of(passage: Passage) -> str:
    """Return the letter or number of the alternative that a passage is: ``A)`` before it, or *Category A* above it."""
    category = CATEGORY.match(passage.label)
    if category:
        return category["mark"]
    return passage.numbering if re.match(r"\(?[A-Ca-c][.)]", passage.numbering) else ""
