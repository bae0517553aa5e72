"""What the page of a choice shows: up to three sets of works, each explained, and the works to pin or leave out."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, replace
from typing import Any

from catalogue.facts import CatalogueFacts
from catalogue.models import Call
from catalogue.rules.calls.choosing import Weights, explained, items_of, wish_of
from catalogue.rules.calls.screening import screen
from catalogue.rules.portfolio import Choice, Item, best_choices


@dataclass(frozen=True, slots=True)
class Answer:
    """A set of works with its sentences."""

    items: tuple[Item, ...]
    sentences: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class Candidate:
    """A work that answers, and whether it must be in or is left out."""

    item: Item
    is_pinned: bool
    is_banned: bool


@dataclass(frozen=True, slots=True)
class ChoicePage:
    answers: tuple[Answer, ...]
    candidates: tuple[Candidate, ...]

    @property
    def is_bound(self) -> bool:
        """Whether a work must be in or is left out."""
        return any(one.is_pinned or one.is_banned for one in self.candidates)


def choice_page(
    call: Call, catalogue: CatalogueFacts, asked: Mapping[str, Any], pinned: frozenset[int], banned: frozenset[int]
) -> ChoicePage:
    """Choose by what was asked; ``asked`` are the clean values of the form, empty for the usual weights."""
    weights = Weights(**{name: asked[name] for name in ("recent", "played", "recorded", "contrast") if name in asked})
    found = screen(call.asks, catalogue)
    items = items_of(found, catalogue, weights, also_doubtful=bool(asked.get("doubtful")))
    wish = wish_of(found.call, items, weights, pinned=pinned, banned=banned)
    if asked.get("works"):
        wish = replace(wish, least=asked["works"], most=asked["works"])
    if asked.get("minutes"):
        wish = replace(wish, total_max=asked["minutes"] * 60)
    choices: tuple[Choice, ...] = best_choices(items, wish)
    return ChoicePage(
        answers=tuple(Answer(one.items, explained(one, wish, choices[0])) for one in choices),
        candidates=tuple(Candidate(one, one.id in pinned, one.id in banned) for one in items),
    )
