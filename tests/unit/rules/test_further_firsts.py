from __future__ import annotations

from datetime import date
from typing import Any

import pytest

from catalogue.facts import PerformanceFacts, ProgrammedFacts
from catalogue.rules.continents import CONTINENT_OF, CONTINENTS, continent_of
from catalogue.rules.countries import COUNTRIES
from catalogue.rules.further_firsts import further_firsts
from catalogue.rules.premiere_terms import premiere_term, terms
from catalogue.terms import Audience, PerformanceKind, PerformanceStatus
from tests.fact_makers import make_catalogue, make_event

TODAY = date(2026, 6, 1)


def told(*events: PerformanceFacts, language: str = "en") -> dict[int, list[str]]:
    found = further_firsts(make_catalogue(*events), today=TODAY)
    return {id_: [one.in_words(language) for one in firsts] for id_, firsts in found.items()}


def test_second_performance_and_first_on_another_continent_are_told() -> None:
    assert told(
        make_event(1, "2020-03-12"),
        make_event(2, "2021-01-01", city="Kyoto", country="JP"),
        make_event(3, "2022-01-01", city="Osaka", country="JP"),
    ) == {2: ["first performance in these records (Asia)", "second performance in these records"]}


def test_first_performance_alone_is_told_elsewhere() -> None:
    assert told(make_event(1, "2020-03-12", kind=PerformanceKind.BROADCAST)) == {}


def in_britain(id_: int, when: str, **fields: Any) -> PerformanceFacts:
    return make_event(id_, when, **{"country": "GB", **fields})


def test_first_performance_in_a_region_is_told_where_its_country_has_heard_it() -> None:
    assert told(
        in_britain(1, "2020-03-12", city="Bath"),
        in_britain(2, "2021-01-01", city="Leith", region="Scotland"),
        in_britain(3, "2022-01-01", city="Oban", region="Scotland"),
    ) == {2: ["first performance in these records (Scotland)", "second performance in these records"]}


def test_first_performance_in_a_country_is_not_told_as_that_of_its_region_too() -> None:
    assert told(
        make_event(1, "2020-03-12"),
        make_event(2, "2020-06-01", city="Graz"),
        in_britain(3, "2021-01-01", city="Leith", region="Scotland"),
    ) == {2: ["second performance in these records"]}


def test_hall_without_a_region_lies_in_that_of_its_city() -> None:
    assert told(
        in_britain(1, "2020-03-12", city="Bath"),
        in_britain(2, "2021-01-01", city="Leith"),
        in_britain(3, "2022-01-01", city="Leith", region="Scotland"),
    ) == {2: ["first performance in these records (Scotland)", "second performance in these records"]}


@pytest.mark.parametrize(
    ("billing", "language", "words"),
    [
        ("Scottish premiere", "en", "regional premiere (Scotland)"),
        ("first performance in Scotland", "de", "Erstaufführung (Scotland)"),
        ("Scottish premiere", "fr", "création régionale (Scotland)"),
        ("Welsh premiere", "en", "first performance in these records (Scotland)"),
        ("", "it", "prima esecuzione secondo questo catalogo (Scotland)"),
    ],
)
def test_first_in_a_region_is_worded_as_it_was_billed(billing: str, language: str, words: str) -> None:
    programme = ProgrammedFacts(id=3, work_id=1, billing=billing)
    events = (
        in_britain(1, "2020-03-12", city="Bath"),
        in_britain(2, "2020-06-01", city="Bath"),
        make_event(3, "2021-01-01", programme, city="Leith", country="GB", region="Scotland"),
    )

    assert told(*events, language=language)[3] == [words]


def test_first_broadcast_after_the_premiere_is_told() -> None:
    assert told(
        make_event(1, "2020-03-12"),
        make_event(2, "2020-06-01"),
        make_event(3, "2020-07-01", kind=PerformanceKind.BROADCAST),
    ) == {2: ["second performance in these records"], 3: ["first broadcast"]}


@pytest.mark.parametrize(
    "second",
    [
        {"audience": Audience.PRIVATE},
        {"status": PerformanceStatus.CANCELLED},
        {"kind": PerformanceKind.READING},
    ],
)
def test_what_does_not_count_is_no_second_performance(second: dict[str, object]) -> None:
    assert told(make_event(1, "2020-03-12"), make_event(2, "2021-01-01", **second)) == {}


@pytest.mark.parametrize("dates", [("2020", "2020-05-01"), ("2020-05-01", "2020-05-01")])
def test_second_is_not_told_where_the_first_is_not_settled(dates: tuple[str, str]) -> None:
    later = make_event(3, "2022-01-01")

    assert 3 not in told(make_event(1, dates[0]), make_event(2, dates[1]), later)


@pytest.mark.parametrize(
    ("language", "words"),
    [
        ("en-GB", "world premiere"),
        ("de", "Uraufführung"),
        ("fr-CA", "création mondiale"),
        ("it", "prima esecuzione assoluta"),
        ("es", "estreno absoluto"),
        ("nl", "world premiere"),
    ],
)
def test_world_premiere_is_called_as_the_language_calls_it(language: str, words: str) -> None:
    # Uraufführung, création, prima assoluta, estreno absoluto: usual terms of publishers (common practice).
    assert premiere_term("world", language) == words


def test_german_tells_the_first_anywhere_from_the_first_at_a_place() -> None:
    assert premiere_term("national", "de", place="Norwegen") == "Erstaufführung (Norwegen)"


def test_every_language_has_the_same_terms() -> None:
    assert {tuple(words) for words in terms().values()} == {tuple(terms()["en"])}


def test_every_country_lies_on_one_continent_but_those_on_two_or_none() -> None:
    # Egypt, Türkiye, Russia, Kazakhstan, Azerbaijan, Georgia, Cyprus lie or are told on two; the rest has no concerts.
    left_out = {"EG", "TR", "RU", "KZ", "AZ", "GE", "CY", "AQ", "BV", "HM", "IO", "TF", "GS", "CC", "CX", "UM", "EH"}
    listed = [country for countries in CONTINENTS.values() for country in countries.split()]

    assert len(listed) == len(CONTINENT_OF)
    assert COUNTRIES - set(listed) == left_out
    assert continent_of("") == ""
