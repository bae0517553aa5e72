"""Reads what a programme or poster claims: a world, national or city premiere, or a first of some narrower sort.

``billing.toml`` holds the words. A claim that names an ensemble, a hall or anything else the table does not know is a
claim of its own (an ensemble's first, a hall's first) and is never taken for a wider one: common practice.
"""

from __future__ import annotations

import re
import tomllib
from collections.abc import Iterable
from dataclasses import dataclass
from enum import StrEnum
from functools import cache
from importlib.resources import files

from catalogue.rules.search import fold
from catalogue.rules.states import ABBREVIATIONS, states
from catalogue.terms import PerformanceKind


class Scope(StrEnum):
    """How far a billed claim reaches; BARE claims some first without saying where, OWN is a first of another sort."""

    WORLD = "world"
    CONTINENT = "continent"
    NATIONAL = "national"
    REGION = "region"
    CITY = "city"
    BARE = "bare"
    OWN = "own"


@dataclass(frozen=True, slots=True)
class Billing:
    """What is claimed. ``state`` is ISO 3166-1 alpha-2 (SU and DD for states that are gone)."""

    scope: Scope
    state: str = ""
    kind: PerformanceKind | None = None
    of_version: bool = False
    of_part: bool = False
    admits_private: bool = False


@dataclass(frozen=True, slots=True)
class Words:
    """The table as patterns over folded text."""

    world: re.Pattern[str]
    abbreviated: frozenset[str]
    first: re.Pattern[str]
    scopes: dict[Scope, re.Pattern[str]]
    qualities: dict[str, re.Pattern[str]]
    plain: re.Pattern[str]
    states: dict[str, str]
    state: re.Pattern[str]


SHORT = {**ABBREVIATIONS, "US": "US"}
KINDS = {
    "concert": PerformanceKind.CONCERT,
    "stage": PerformanceKind.STAGE,
    "broadcast": PerformanceKind.BROADCAST,
}
FIRST_OF_SOMETHING = re.compile(
    r"\bfirst\b(?:[ -][\w’'.-]+){0,5}[ -](?:performances?|performed|hearing|staging|broadcast)\b"
)
WHO_OR_WHERE_IT_WAS = re.compile(r"\b(?:by|with|under|conducted|choreographed)\b|[,;:(\[]")


def read_billing(text: str, *, city: str = "", region: str = "") -> Billing | None:
    """Return what the billing of an event in that city and region claims, or None where it claims no first.

    >>> read_billing("UK premiere").state
    'GB'
    >>> read_billing("First performance by this orchestra").scope
    <Scope.OWN: 'own'>
    """
    folded = fold(text)
    if not claims_a_first(text, folded):
        return None
    words = billing_words()
    scope, state = scope_of(text, folded, fold(city), fold(region))
    kinds = [kind for name, kind in KINDS.items() if words.qualities[name].search(folded)]
    return Billing(
        scope=scope,
        state=state,
        kind=kinds[0] if len(kinds) == 1 else None,
        of_version=bool(words.qualities["version"].search(folded)),
        of_part=bool(words.qualities["part"].search(folded)),
        admits_private=bool(words.qualities["private"].search(folded)),
    )


def claims_a_first(text: str, folded: str) -> bool:
    words = billing_words()
    return claims_the_world(text, folded) or any(
        pattern.search(folded) for pattern in (words.first, FIRST_OF_SOMETHING)
    )


def claims_the_world(text: str, folded: str) -> bool:
    words = billing_words()
    return bool(words.world.search(folded)) or not words.abbreviated.isdisjoint(text.split())


def scope_of(text: str, folded: str, city: str, region: str) -> tuple[Scope, str]:
    """Return how far the claim reaches, and the state it names."""
    words = billing_words()
    if claims_the_world(text, folded):
        return Scope.WORLD, ""
    head = WHO_OR_WHERE_IT_WAS.split(folded)[0].strip()
    if names_a_continent(head):
        return Scope.CONTINENT, ""
    if words.scopes[Scope.REGION].search(words.state.sub(" ", head)) or (region and as_a_word(region).search(head)):
        return Scope.REGION, ""
    if not head or left_over(head, city):
        return Scope.OWN, ""
    state = state_in(text, head)
    if state:
        return Scope.NATIONAL, state
    if city and as_a_word(city).search(head):
        return Scope.CITY, ""
    return (Scope.OWN if " by " in folded[len(head) :] else Scope.BARE), ""


def names_a_continent(head: str) -> bool:
    """Say whether a continent is named otherwise than inside the name of a state ("South African")."""
    words = billing_words()
    continent, state = words.scopes[Scope.CONTINENT].search(head), words.state.search(head)
    return continent is not None and not (state and state[0] != continent[0] and continent[0] in state[0])


def state_in(text: str, head: str) -> str:
    words = billing_words()
    written = [word.strip(",;:()") for word in re.split(r"[\s-]+", text)]
    abbreviation = next((SHORT[word] for word in written if word in SHORT), "")
    named = words.state.search(head)
    return abbreviation or (words.states[named[0]] if named else "")


def left_over(head: str, city: str) -> str:
    """Return what is left of a claim when every word that the table knows is taken away."""
    words = billing_words()
    if city:
        head = as_a_word(city).sub(" ", head)
    for pattern in (words.first, words.state, *words.qualities.values(), words.plain):
        head = pattern.sub(" ", head)
    head = " ".join(word for word in re.split(r"[\s-]+", head) if word.upper() not in SHORT)
    return re.sub(r"[\W\d_]+", " ", head).strip()


@cache
def billing_words() -> Words:
    table = tomllib.loads((files("catalogue.rules") / "billing.toml").read_text(encoding="utf-8"))
    named = states().codes | states().adjectives
    of_a_state = {name: code for name, code in named.items() if name not in table["scopes"]["region"]}
    return Words(
        world=one_of(table["claims"]["world"]),
        abbreviated=frozenset(table["claims"]["abbreviated"]),
        first=one_of(table["claims"]["first"]),
        scopes={Scope(name): one_of(listed) for name, listed in table["scopes"].items()},
        qualities={name: one_of(listed) for name, listed in table["qualities"].items()},
        plain=one_of(table["plain"]["words"]),
        states=of_a_state,
        state=one_of(of_a_state),
    )


def as_a_word(text: str) -> re.Pattern[str]:
    return one_of([text])


def one_of(words: Iterable[str]) -> re.Pattern[str]:
    longest_first = sorted(words, key=len, reverse=True)
    return re.compile(rf"(?<!\w)(?:{'|'.join(re.escape(word) for word in longest_first)})(?!\w)")
