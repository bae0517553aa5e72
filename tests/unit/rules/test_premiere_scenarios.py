"""Histories in which it is easy to err, each with what a librarian makes of them by the rules of premieres.

Worked out by hand, event by event, from the rules that :mod:`catalogue.rules.premieres` states.
"""

from __future__ import annotations

from datetime import date, time
from typing import Any

import pytest

from catalogue.facts import PerformanceFacts, ProgrammedFacts, WorkFacts
from catalogue.rules.premieres import claims_by_programmed
from catalogue.terms import Audience, Extent, PerformanceKind, PerformanceStatus
from tests.fact_makers import make_catalogue, make_event, make_work

WHOLE = ("world", "national", "city")
LINZ, GRAZ = {"city": "Linz", "country": "AT"}, {"city": "Graz", "country": "AT"}
BERLIN, BERGEN = {"city": "Berlin", "country": "DE"}, {"city": "Bergen", "country": "NO"}
PRAGUE_THEN = {"city": "Prague", "country": "CZ", "country_then": "Austria-Hungary"}
VIENNA_THEN = {"city": "Vienna", "country": "AT", "country_then": "Austria-Hungary"}
VIENNA = {"city": "Vienna", "country": "AT"}

Told = tuple[str, dict[str, Any]]  # when, and what else there is to say of the event


def of(part: str, extent: Extent = Extent.PARTIAL) -> dict[str, Any]:
    return {"extent": extent, "part": part}


SCENARIOS: dict[str, tuple[list[Told], list[tuple[str, ...]], list[tuple[str, ...]]]] = {
    # imprecise dates are intervals
    "a month and a day in it": (
        [("1901-05", LINZ), ("1901-05-14", LINZ)],
        [(), ()],
        [WHOLE, WHOLE],
    ),
    "a month and a day after it": ([("1901-05", LINZ), ("1901-06-01", LINZ)], [WHOLE, ()], [(), ()]),
    "a year, its last day elsewhere, the next year's first day abroad": (
        [("1901", VIENNA), ("1901-12-31", GRAZ), ("1902-01-01", BERLIN)],
        [("city",), ("city",), ("national", "city")],
        [("world", "national"), ("world", "national"), ()],
    ),
    "about a year reaches into the years beside it": (
        [("c. 1901", LINZ), ("1902-06-01", BERLIN)],
        [("national", "city"), ("national", "city")],
        [("world",), ("world",)],
    ),
    "about a year, and a day beyond it": ([("c. 1901", LINZ), ("1903-01-01", LINZ)], [WHOLE, ()], [(), ()]),
    "a vague one between two exact ones takes nothing": (
        [("1901-03-02", LINZ), ("1901-04", LINZ), ("1901-05-02", BERLIN)],
        [WHOLE, (), ("national", "city")],
        [(), (), ()],
    ),
    # one day
    "one day in two countries": ([("1901-05-14", LINZ), ("1901-05-14", BERLIN)], [WHOLE, WHOLE], [(), ()]),
    "one day in two cities of a country": ([("1901-05-14", LINZ), ("1901-05-14", GRAZ)], [WHOLE, WHOLE], [(), ()]),
    "one evening twice in a city": (
        [("1901-05-14", LINZ | {"time": time(20, 30)}), ("1901-05-14", LINZ | {"time": time(18)})],
        [(), WHOLE],
        [(), ()],
    ),
    "one evening twice in a city, one time unknown": (
        [("1901-05-14", LINZ | {"time": time(20, 30)}), ("1901-05-14", LINZ)],
        [WHOLE, WHOLE],
        [(), ()],
    ),
    # what counts for nothing
    "cancelled, and again cancelled, then given": (
        [
            ("1901-01-01", LINZ | {"status": PerformanceStatus.CANCELLED}),
            ("1901-02-01", LINZ | {"status": PerformanceStatus.CANCELLED}),
            ("1901-03-01", LINZ),
        ],
        [(), (), WHOLE],
        [(), (), ()],
    ),
    "an open rehearsal and a private evening before": (
        [
            ("1901-01-01", LINZ | {"audience": Audience.PUBLIC_REHEARSAL}),
            ("1901-01-01", BERLIN | {"audience": Audience.PRIVATE}),
            ("1901-01-02", BERLIN),
            ("1901-01-03", LINZ),
        ],
        [(), (), WHOLE, ("national", "city")],
        [(), (), (), ()],
    ),
    "the old-style date of the same evening": (
        [("1901-01-01", LINZ | {"status": PerformanceStatus.OLD_STYLE_DATE}), ("1901-01-14", LINZ)],
        [(), WHOLE],
        [(), ()],
    ),
    "planned long ago and never reported": (
        [("1901-01-01", LINZ | {"status": PerformanceStatus.PLANNED}), ("1902-01-01", GRAZ)],
        [(), WHOLE],
        [(), ()],
    ),
    # parts
    "an excerpt, the same excerpt abroad, then the whole": (
        [("1901-01-01", LINZ | of("Finale")), ("1901-02-01", BERLIN | of("Finale")), ("1901-03-01", BERLIN)],
        [("part",), (), WHOLE],
        [(), (), ()],
    ),
    "a suite before the stage work": (
        [("1901-01-01", LINZ | of("", Extent.SUITE)), ("1901-03-01", LINZ | {"kind": PerformanceKind.STAGE})],
        [("part",), WHOLE],
        [(), ()],
    ),
    "movements after the whole are first of nothing": (
        [("1901-01-01", LINZ), ("1901-02-01", BERLIN | of("I, II")), ("1901-03-01", BERLIN)],
        [WHOLE, (), ("national", "city")],
        [(), (), ()],
    ),
    # states and places
    "the state of the time, and the state today": (
        [("1905-01-01", PRAGUE_THEN), ("1906-01-01", VIENNA_THEN), ("1930-01-01", VIENNA)],
        [WHOLE, ("city",), ("national",)],
        [(), (), ()],
    ),
    "nowhere known, then somewhere": (
        [("1901-01-01", {"city": "", "country": ""}), ("1902-01-01", LINZ)],
        [("world",), ("national", "city")],
        [(), ()],
    ),
    "a broadcast before the first concert": (
        [("1901-01-01", LINZ | {"kind": PerformanceKind.BROADCAST}), ("1902-01-01", LINZ), ("1903-01-01", BERGEN)],
        [WHOLE, (), ("national", "city")],
        [(), (), ()],
    ),
}


def event_of(number: int, when: str, told: dict[str, Any], work: int = 1) -> PerformanceFacts:
    item = {name: told[name] for name in ("extent", "part") if name in told}
    event = {name: value for name, value in told.items() if name not in item}
    return make_event(number, when, ProgrammedFacts(id=number, work_id=work, **item), **event)


@pytest.mark.parametrize("name", SCENARIOS)
def test_history_is_reckoned_by_the_rules(name: str) -> None:
    told, reckoned, undecided = SCENARIOS[name]
    events = [event_of(number, when, more) for number, (when, more) in enumerate(told, start=1)]

    claims = claims_by_programmed(make_catalogue(*events), today=date(2026, 6, 1))

    in_order = [claims[number] for number in range(1, len(events) + 1)]
    assert [one.reckoned for one in in_order] == reckoned
    assert [one.undecided for one in in_order] == undecided


ORIGINAL, REVISED = make_work(version_label="original version"), {"version_of": 1, "version_label": "revised version"}


@pytest.mark.parametrize(
    ("playings", "reckoned"),
    [
        # the revision after the original, at home and abroad
        ([(1, "1901-01-01", LINZ), (2, "1910-01-01", LINZ)], [WHOLE, ("version",)]),
        ([(1, "1901-01-01", LINZ), (2, "1910-01-01", BERLIN)], [WHOLE, ("national", "city", "version")]),
        # the revision heard first: the original has a premiere of its own later
        ([(2, "1901-01-01", LINZ), (1, "1910-01-01", LINZ)], [WHOLE, ("version",)]),
        # both on one day in two countries share the premiere of the work
        ([(1, "1901-01-01", LINZ), (2, "1901-01-01", BERLIN)], [WHOLE, WHOLE]),
        # each version is first once
        (
            [(1, "1901-01-01", LINZ), (2, "1910-01-01", LINZ), (2, "1911-01-01", LINZ), (1, "1912-01-01", GRAZ)],
            [WHOLE, ("version",), (), ("city",)],
        ),
    ],
)
def test_versions_are_reckoned_beside_each_other(
    playings: list[tuple[int, str, dict[str, Any]]], reckoned: list[tuple[str, ...]]
) -> None:
    works: tuple[WorkFacts, ...] = (ORIGINAL, make_work(2, **REVISED))
    events = [event_of(number, when, told, work) for number, (work, when, told) in enumerate(playings, start=1)]

    claims = claims_by_programmed(make_catalogue(*events, works=works), today=date(2026, 6, 1))

    assert [claims[number].reckoned for number in range(1, len(events) + 1)] == reckoned
