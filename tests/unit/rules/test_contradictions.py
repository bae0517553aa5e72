from __future__ import annotations

from datetime import date

import pytest

from catalogue.facts import PerformanceFacts, ProgrammedFacts
from catalogue.rules.premieres import claims_by_programmed
from catalogue.terms import Audience, Extent, PerformanceKind, PerformanceStatus
from tests.fact_makers import make_catalogue, make_event, make_work

TODAY = date(2026, 6, 1)


def billed(
    billing: str, *earlier: PerformanceFacts, programme: ProgrammedFacts | None = None, **fields: object
) -> str | None:
    """Return what the records say against a billing of an event in Bergen."""
    item = programme or ProgrammedFacts(id=99, work_id=1, billing=billing)
    event = make_event(99, "1930-05-01", item, **{"city": "Bergen", "country": "NO", **fields})
    works = (make_work(1), make_work(2, version_of=1, version_label="revised"))
    claims = claims_by_programmed(make_catalogue(*earlier, event, works=works), today=TODAY)
    contradiction = claims[99].contradicts
    return contradiction and contradiction.replace("\N{NO-BREAK SPACE}", " ")


LINZ = make_event(1, "1928-11-22", kind=PerformanceKind.STAGE)
OSLO = make_event(2, "1929-11-14", city="Oslo", country="NO")
BERGEN = make_event(3, "1929-12-14", city="Bergen", country="NO")


def test_world_premiere_after_another_performance_is_contradicted() -> None:
    assert billed("World premiere", LINZ) == (
        "Billed as “World premiere”, but these records have an earlier public performance: 22 November 1928, Linz."
    )


def test_national_premiere_is_weighed_against_its_country_only() -> None:
    assert billed("Norwegian premiere", LINZ) is None
    assert billed("norwegische Erstaufführung", LINZ, OSLO) == (
        "Billed as “norwegische Erstaufführung”, but these records have an earlier public performance in the same "
        "country: 14 November 1929, Oslo."
    )


def test_national_premiere_of_another_country_is_contradicted() -> None:
    assert billed("UK premiere") == "Billed as “UK premiere”, but it took place in another country."


def test_city_premiere_is_weighed_against_its_city_only() -> None:
    assert billed("Bergen premiere", LINZ, OSLO) is None
    assert billed("Bergen premiere", LINZ, BERGEN) == (
        "Billed as “Bergen premiere”, but these records have an earlier public performance in the same city: "
        "14 December 1929, Bergen."
    )


def test_regional_premiere_is_weighed_against_its_region_where_that_is_known() -> None:
    voss = make_event(4, "1929-01-05", city="Voss", country="NO", region="Vestland")

    assert billed("first performance in Vestland", LINZ, OSLO, region="Vestland") is None
    assert billed("first performance in Vestland", LINZ, voss, region="Vestland") == (
        "Billed as “first performance in Vestland”, but these records have an earlier public performance in the same "
        "region: 5 January 1929, Voss."
    )


@pytest.mark.parametrize("billing", ["premiere", "First performance", "Premiered in Bergen"])
def test_plain_premiere_is_contradicted_where_it_is_no_first_at_all(billing: str) -> None:
    assert billed(billing, LINZ, OSLO) is None
    assert billed(billing, LINZ, BERGEN) is not None


@pytest.mark.parametrize(
    "billing",
    [
        "first Bergen Wind Band performance",
        "First performance by this orchestra",
        "[WB] Premiere",
        "played again",
        "West Coast premiere",
        "",
    ],
)
def test_claims_of_another_sort_are_never_contradicted(billing: str) -> None:
    assert billed(billing, LINZ, OSLO) is None


def test_first_concert_performance_is_weighed_against_concerts_only() -> None:
    assert billed("First concert performance in Bergen", LINZ) is None
    assert billed("First Norwegian concert performance", OSLO) is not None


@pytest.mark.parametrize("billing", ["World premiere", "World premiere of the revised version"])
def test_first_of_a_version_may_be_billed_as_a_world_premiere(billing: str) -> None:
    revised = ProgrammedFacts(id=99, work_id=2, billing=billing)

    assert billed("", LINZ, programme=revised) is None


@pytest.mark.parametrize(
    ("fields", "reason"),
    [
        ({"audience": Audience.PRIVATE}, "it was private"),
        ({"audience": Audience.INVITED}, "the audience was invited"),
        ({"kind": PerformanceKind.READING}, "a reading takes no title"),
    ],
)
def test_world_premiere_of_what_can_have_no_title_is_contradicted(fields: dict[str, object], reason: str) -> None:
    assert billed("World premiere", **fields) == f"Billed as “World premiere”, but {reason}."


@pytest.mark.parametrize(
    ("item", "reason"),
    [
        (ProgrammedFacts(99, 1, Extent.PARTIAL, "Ebb", "World premiere"), "only Ebb was played"),
        (ProgrammedFacts(99, 1, Extent.EXCERPT, "", "World premiere"), "only a part of the work was played"),
    ],
)
def test_world_premiere_of_a_part_is_contradicted(item: ProgrammedFacts, reason: str) -> None:
    assert billed("", programme=item) == f"Billed as “World premiere”, but {reason}."


def test_a_billing_that_admits_it_is_not_contradicted() -> None:
    two_movements = ProgrammedFacts(99, 1, Extent.PARTIAL, "Ebb, Flood", "World premiere of two movements")

    assert billed("first performance, private", audience=Audience.PRIVATE) is None
    assert billed("", programme=two_movements) is None


def test_what_did_not_take_place_contradicts_nothing() -> None:
    assert billed("World premiere", LINZ, status=PerformanceStatus.CANCELLED) is None


def test_vague_dates_contradict_nothing() -> None:
    assert billed("World premiere", make_event(1, "1930")) is None
