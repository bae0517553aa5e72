"""What the page of a choice shows: up to three sets of works, each explained, and the works to pin or leave out."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, fields, replace
from typing import Any

from catalogue.facts import CatalogueFacts
from catalogue.models import Call
from catalogue.optimiser import best_sets, is_installed
from catalogue.rules.calls.choosing import Marks, Weights, explained, items_of, wish_of
from catalogue.rules.calls.screening import screen
from catalogue.rules.portfolio import Item, may_be_in


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
    unmeasured: tuple[str, ...]
    """What must be in and cannot be, as the minutes count and no duration of it is recorded."""
    lacks_solver: bool
    """Whether a set is not proven and a solver would prove it, but none is installed."""

    @property
    def is_bound(self) -> bool:
        """Whether a work must be in or is left out."""
        return any(one.is_pinned or one.is_banned for one in self.candidates)


WEIGHTS = tuple(one.name for one in fields(Weights))


def choice_page(
    call: Call,
    catalogue: CatalogueFacts,
    marks: Marks,
    asked: Mapping[str, Any],
    *,
    pinned: frozenset[int],
    banned: frozenset[int],
) -> ChoicePage:
    """Choose by what was asked; ``asked`` are the clean values of the form, empty for the usual weights."""
    weights = Weights(**{name: asked[name] or 0 for name in WEIGHTS if name in asked})
    found = screen(call.asks, catalogue)
    items = items_of(found, catalogue, weights, marks, also_doubtful=bool(asked.get("doubtful")))
    wish = wish_of(found.call, items, weights, pinned=pinned, banned=banned)
    if asked.get("works"):
        wish = replace(wish, least=asked["works"], most=asked["works"])
    if asked.get("minutes"):
        wish = replace(wish, total_max=asked["minutes"] * 60)
    choices = best_sets(items, wish)
    return ChoicePage(
        answers=tuple(Answer(one.items, explained(one, wish, choices[0])) for one in choices),
        candidates=tuple(Candidate(one, one.id in pinned, one.id in banned) for one in items),
        unmeasured=tuple(one.title for one in items if one.id in pinned and not may_be_in(one, wish)),
        lacks_solver=not all(one.proven for one in choices) and not is_installed(),
    )
