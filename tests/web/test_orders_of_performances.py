"""Every order of the list of performances: all pages together hold each row once, in the order of the whole."""

from __future__ import annotations

from datetime import date
from random import Random
from typing import Any

import pytest
from django.http import QueryDict
from django.test import RequestFactory

from catalogue.gathering.once import forget_all
from catalogue.models import Composer, Performance
from catalogue.terms import PerformanceKind, PerformanceStatus
from catalogue.web.asked import asked_performances
from catalogue.web.tables import lists, placed
from catalogue.web.tables.lists import DeferredPaginator, GroupedPaginator
from tests.makers import NOW, make_performance, make_venue, make_work

pytestmark = pytest.mark.django_db
ORDERS = [f"{sign}{word}" for word in ("date", "place", "kind", "status") for sign in ("", "-")]
DATES = ("2024-05-16", "2024-05-16", "2024-05-16", "2025", "2025-01-01", "", "", "2026-02")
TIMES = ("", "19:30", "19:30", "11:00", "")
TOWNS = ("", "Örebro", "orebro", "Ålesund", "Zagreb", "zagreb")


@pytest.fixture
def many(composer: Composer, other_composer: Composer) -> Composer:
    """Forty performances, of which many agree in all that they are ordered by; some deleted, some of others."""
    forget_all()
    chance = Random(7)  # noqa: S311 - no secret hangs on it
    halls = [make_venue(f"Hall {city}", composer=composer, city=city) for city in ("Lyon", "lyon", "", "Örebro")]
    work = make_work("Weirs", composer=composer)
    for number in range(40):
        made = make_performance(
            work,
            composer=composer,
            date=chance.choice(DATES),
            city=chance.choice(TOWNS),
            venue=chance.choice([None, *halls]),
            kind=chance.choice(list(PerformanceKind)[:3]).value,
            status=chance.choice(list(PerformanceStatus)[:3]).value,
        )
        time = chance.choice(TIMES)
        if time and made.first_day:
            made.time = time
        made.deleted_at = NOW if number % 9 == 0 else None
        made.save()
    make_performance(make_work("Serenade", composer=other_composer), date="2024-05-16")
    return composer


def asked(composer: Composer, query: str) -> Any:
    request: Any = RequestFactory().get(f"/?{query}")
    request.composer = composer
    request.GET = QueryDict(query)
    return asked_performances(request, today=NOW.date())


def pages_of(composer: Composer, query: str, monkeypatch: pytest.MonkeyPatch) -> list[list[int]]:
    monkeypatch.setattr(lists, "PER_PAGE", 7)
    table = asked(composer, query).table
    return [[row.pk for row in table.pages().page(number)] for number in table.pages().page_range]


@pytest.mark.parametrize("order", ORDERS)
def test_pages_together_are_the_whole_list_in_its_order(
    order: str, many: Composer, monkeypatch: pytest.MonkeyPatch
) -> None:
    whole = list(asked(many, f"sort={order}").table.data.data.values_list("pk", flat=True))
    pages = pages_of(many, f"sort={order}", monkeypatch)

    assert [key for page in pages for key in page] == whole
    assert sorted(whole) == sorted(Performance.objects.filter(composer=many).values_list("pk", flat=True))
    assert [len(page) for page in pages] == [7] * (len(whole) // 7) + [len(whole) % 7] * (len(whole) % 7 > 0)


@pytest.mark.parametrize("column", ["kind", "status"])
def test_pages_of_one_kind_are_those_of_the_kind(column: str, many: Composer, monkeypatch: pytest.MonkeyPatch) -> None:
    for value in {getattr(one, column) for one in Performance.objects.filter(composer=many)}:
        whole = Performance.objects.filter(composer=many, **{column: value}).latest_first()
        pages = pages_of(many, f"{column}={value}", monkeypatch)
        assert [key for page in pages for key in page] == list(whole.values_list("pk", flat=True))


@pytest.mark.parametrize("query", ["since=2025", "until=2025", "until=2024", "since=2025&until=2025", "since=2030"])
def test_pages_of_some_years_are_what_is_asked_for(query: str, many: Composer, monkeypatch: pytest.MonkeyPatch) -> None:
    for season in ("2024-12-31", "2024", "2025-01-01"):
        made = make_performance(make_work("Tides", composer=many), date=season)
        made.first_day = min(made.first_day or made.last_day, date(2024, 9, 1)) if season == "2024" else made.first_day
        made.last_day = date(2025, 6, 30) if season == "2024" else made.last_day
        made.save()
    whole = asked(many, query).table.data.data

    assert isinstance(asked(many, query).table.pages(), GroupedPaginator)
    assert [key for page in pages_of(many, query, monkeypatch) for key in page] == list(
        whole.values_list("pk", flat=True)
    )


def test_orders_by_few_values_are_found_by_groups_and_the_usual_one_by_its_index(many: Composer) -> None:
    found = {order: type(asked(many, f"sort={order}").table.pages()) for order in ORDERS}

    assert found == {order: DeferredPaginator if order == "-date" else GroupedPaginator for order in ORDERS}
    assert isinstance(asked(many, "kind=concert").table.pages(), GroupedPaginator)
    assert not isinstance(asked(many, "kind=concert&q=weirs").table.pages(), GroupedPaginator)


def test_groups_follow_what_is_saved(many: Composer, monkeypatch: pytest.MonkeyPatch) -> None:
    for page in pages_of(many, "sort=place", monkeypatch)[:1]:
        Performance.objects.get(pk=page[0]).delete()
    added = make_performance(make_work("Tides", composer=many), date="2024-05-16", city="Aachen")

    assert pages_of(many, "sort=place", monkeypatch)[0][0] == added.pk


def test_list_without_performances_has_one_empty_page(composer: Composer, monkeypatch: pytest.MonkeyPatch) -> None:
    for order in ORDERS:
        assert pages_of(composer, f"sort={order}", monkeypatch) == [[]]


@pytest.mark.parametrize("few", [0, 500])
@pytest.mark.parametrize("number", [1, 3])
def test_halls_of_a_country_are_merged_from_either_end(
    few: int, number: int, composer: Composer, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(placed, "FEW", few)
    halls = [make_venue(f"Hall {hall}", composer=composer, country="AT") for hall in range(number)]
    work = make_work("Weirs", composer=composer)
    chance = Random(number)  # noqa: S311 - no secret hangs on it
    for _evening in range(20):
        make_performance(work, date=chance.choice(DATES), at=None, venue=chance.choice(halls))
    whole = Performance.objects.filter(composer=composer).latest_first()

    assert isinstance(asked(composer, "country=AT").table.pages(), GroupedPaginator)
    assert [key for page in pages_of(composer, "country=AT", monkeypatch) for key in page] == list(
        whole.values_list("pk", flat=True)
    )
