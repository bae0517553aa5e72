"""Every order of the list of works: all pages together hold each row once, in the order that the database gives."""

from __future__ import annotations

from random import Random
from typing import Any

import pytest
from django.test import RequestFactory

from catalogue.gathering.once import forget_all
from catalogue.models import Composer
from catalogue.web.asked import asked_works
from catalogue.web.tables import lists
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
