from __future__ import annotations

import tomllib
from collections import Counter
from importlib.resources import files

import pytest

from catalogue.rules.billing import Billing, Scope, read_billing
from catalogue.rules.countries import COUNTRIES
from catalogue.rules.parts import named_parts
from catalogue.rules.search import fold
from catalogue.rules.states import state_name, state_named, states
from catalogue.terms import PerformanceKind


@pytest.mark.parametrize(
    ("text", "billing"),
    [
        ("World premiere", Billing(Scope.WORLD)),
        ("Uraufführung", Billing(Scope.WORLD)),
        ("UA", Billing(Scope.WORLD)),
        ("création mondiale", Billing(Scope.WORLD)),
        ("prima esecuzione assoluta", Billing(Scope.WORLD)),
        ("estreno absoluto", Billing(Scope.WORLD)),
        ("world premiere of the original score", Billing(Scope.WORLD, of_version=True)),
        ("UK premiere", Billing(Scope.NATIONAL, "GB")),
        ("U.S. première", Billing(Scope.NATIONAL, "US")),
        ("British premiere by the Tidewater Players", Billing(Scope.NATIONAL, "GB")),
        ("österreichische Erstaufführung", Billing(Scope.NATIONAL, "AT")),
        ("création française", Billing(Scope.NATIONAL, "FR")),
        ("prima esecuzione in Italia", Billing(Scope.NATIONAL, "IT")),
        ("South African premiere", Billing(Scope.NATIONAL, "ZA")),
        ("first British concert performance", Billing(Scope.NATIONAL, "GB", kind=PerformanceKind.CONCERT)),
        ("Linz premiere", Billing(Scope.CITY)),
        ("first performance in Linz", Billing(Scope.CITY)),
        ("European premiere", Billing(Scope.CONTINENT)),
        ("North American premiere", Billing(Scope.CONTINENT)),
        ("first performance on the West Coast", Billing(Scope.REGION)),
        ("Georgia premiere", Billing(Scope.REGION)),
        ("premiere", Billing(Scope.BARE)),
        ("Premiere (mvts. 1–3)", Billing(Scope.BARE, of_part=True)),
        ("first public performance", Billing(Scope.BARE)),
        ("private first performance", Billing(Scope.BARE, admits_private=True)),
        ("first performance by this choir", Billing(Scope.OWN)),
        ("First Linz Philharmonic performance", Billing(Scope.OWN)),
        ("deutschsprachige Erstaufführung", Billing(Scope.OWN)),
        ("played again", None),
        ("four performances", None),
        ("", None),
    ],
)
def test_billing_is_read(text: str, billing: Billing | None) -> None:
    assert read_billing(text, city="Linz") == billing


@pytest.mark.parametrize(
    ("text", "code"),
    [
        ("FR", "FR"),
        ("France", "FR"),
        ("Österreich", "AT"),
        ("états-unis", "US"),
        ("UK", "GB"),
        ("Czechoslovakia", "CS"),
        ("German Empire", ""),
        ("uk", ""),
        ("", ""),
    ],
)
def test_states_are_known_by_name(text: str, code: str) -> None:
    assert state_named(text) == code


def test_every_country_has_a_name_and_no_name_means_two() -> None:
    table = tomllib.loads((files("catalogue.rules") / "states.toml").read_text(encoding="utf-8"))
    words = Counter(word for row in table.values() for word in {fold(row["name"]), *row["names"], *row["of"]})

    assert set(table) - {"SU", "DD", "YU", "CS"} == COUNTRIES
    assert [word for word, times in words.items() if times > 1 or word != fold(word)] == []
    assert state_name("GB") == "United Kingdom"
    assert set(states().adjectives.values()) <= set(table)


@pytest.mark.parametrize(
    ("text", "parts"),
    [
        ("Nuages, Fêtes", {"nuages", "fetes"}),
        ("movements 1–3", {"1", "2", "3"}),
        ("mvts. 1-2, 5", {"1", "2", "5"}),
        ("No. 2", {"2"}),
        ("the Finale", {"finale"}),
        ("3-1", {"3-1"}),
        ("", set()),
    ],
)
def test_parts_are_named_in_the_words_of_a_programme(text: str, parts: set[str]) -> None:
    assert named_parts(text) == parts
