"""Every order of the list of works: all pages together hold each row once, in the order that the database gives."""

from __future__ import annotations

from array import array
from datetime import date
from random import Random
from typing import Any

import pytest
from django.test import RequestFactory

from catalogue.gathering.once import forget_all
from catalogue.gathering.tallies import Tally
from catalogue.models import Composer, Performance, Work
from catalogue.web.asked import asked_works
from catalogue.web.tables import lists, works_by_tally
from catalogue.web.tables.works_by_tally import moved, placed_anew
from tests.makers import NOW, make_performance, make_work

pytestmark = pytest.mark.django_db
WORDS = ("title", "players", "year", "duration", "performances", "last", "category", "status", "publisher")
ORDERS = [f"{sign}{word}" for word in WORDS for sign in ("", "-")]


@pytest.fixture
def many(composer: Composer) -> Composer:
    """Twenty works, of which many agree in title, in how often and in when they were performed; some never were."""
    forget_all()
    chance = Random(5)  # noqa: S311 - no secret hangs on it
    works = [make_work(chance.choice(("Weirs", "weirs", "Éclat", "Tides")), composer=composer) for _time in range(20)]
    for _time in range(25):
        date = chance.choice(("2024-05-16", "2024-05-16", "2025", "2023-01-01", ""))
        status = chance.choice(("given", "given", "cancelled"))
        make_performance(*chance.sample(works[:12], 2), date=date, status=status)
    return composer


def asked(composer: Composer, query: str) -> Any:
    request: Any = RequestFactory().get(f"/?{query}")
    request.composer = composer
    return asked_works(request)


def pages_of(table: Any) -> list[int]:
    return [row.pk for number in table.pages().page_range for row in table.pages().page(number)]


@pytest.mark.parametrize("order", ORDERS)
@pytest.mark.parametrize("question", ["", "&q=weirs"])
def test_pages_together_are_the_whole_list_in_its_order(
    order: str, question: str, many: Composer, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(lists, "PER_PAGE", 3)
    table = asked(many, f"sort={order}{question}").table

    assert pages_of(table) == list(table.data.data.values_list("pk", flat=True))
    assert len(pages_of(table)) == len(set(pages_of(table))) > 3


@pytest.mark.parametrize("order", ["-performances", "-last"])
def test_order_follows_what_is_saved(order: str, many: Composer) -> None:
    rarely = asked(many, f"sort={order}").table.data.data.last()
    for day in range(1, 29):
        make_performance(rarely, date=f"2026-01-{day:02}", now=NOW)

    table = asked(many, f"sort={order}").table
    table.turn_to("1")

    assert table.page.object_list[0] == rarely
    assert int(table.render_performances(rarely)) >= 28


@pytest.mark.parametrize("most_moved", [1_000, 1])
@pytest.mark.parametrize("order", ["performances", "-performances", "last", "-last"])
def test_orders_stay_those_of_the_database_whatever_is_saved(
    order: str, most_moved: int, many: Composer, monkeypatch: pytest.MonkeyPatch, clock: Any
) -> None:
    monkeypatch.setattr(works_by_tally, "MOST_MOVED", most_moved)
    chance = Random(order + str(most_moved))  # noqa: S311 - no secret hangs on it
    for _time in range(25):
        clock.goes_on(seconds=1)
        works = list(Work.objects.filter(composer=many))
        evening = chance.choice(list(Performance.with_deleted.filter(composer=many).order_by("pk")))
        match chance.randrange(5):
            case 0:
                make_performance(*chance.sample(works, 2), date=chance.choice(("2024-05-16", "2026-02-03", "")))
            case 1:
                evening.deleted_at = None if evening.deleted_at else NOW
                evening.save()
            case 2:
                evening.delete()
            case 3:
                chance.choice(works).save()
                make_performance(make_work("Tides", composer=many), date="2024-05-16")
            case _:
                work = chance.choice(works)
                work.deleted_at = NOW
                work.save()
        table = asked(many, f"sort={order}").table
        assert pages_of(table) == list(table.data.data.values_list("pk", flat=True))


@pytest.mark.parametrize("seed", range(20))
@pytest.mark.parametrize("order", ["performances", "-performances", "last", "-last"])
def test_works_that_moved_come_where_sorting_anew_puts_them(seed: int, order: str) -> None:
    chance = Random(seed)  # noqa: S311 - no secret hangs on it
    works = array("q", chance.sample(range(1, 100), 30))
    tallies: dict[int, Tally] = {}
    placed = placed_anew(works.tobytes(), tallies, order)
    for _time in range(20):
        tallies = dict(tallies)
        for work in chance.sample(range(1, 100), chance.randrange(4)):
            day = chance.choice((None, date(1, 1, 1), date.max, date(2024, 5, chance.randrange(1, 5))))
            tallies[work] = Tally(chance.randrange(4), day)
        for work in chance.sample(sorted(tallies), min(len(tallies), chance.randrange(2))):
            del tallies[work]
        placed = moved(placed, tallies, order) or pytest.fail("too many have moved")
        times = {work: tallies.get(work, Tally()).times for work in works}
        days = {work: tallies[work].last for work in works if work in tallies and tallies[work].last}
        is_falling = order.startswith("-")
        if order.endswith("last"):
            right = sorted((work for work in works if work in days), key=days.__getitem__, reverse=is_falling)
            right += [work for work in works if work not in days]
        else:
            right = sorted(works, key=times.__getitem__, reverse=is_falling)
        assert list(placed.keys) == right
        assert placed == placed_anew(works.tobytes(), tallies, order)
