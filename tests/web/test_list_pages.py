"""Pages of long lists: every page is what lies there in the order of the list, from whichever end it is fetched."""

from __future__ import annotations

import pytest

from catalogue.gathering.versions import state_of_lists
from catalogue.models import Composer, Performance
from catalogue.web.tables.lists import DeferredPaginator, RememberingPaginator
from tests.makers import make_composer, make_performance

pytestmark = pytest.mark.django_db


@pytest.fixture
def composer() -> Composer:
    made = make_composer()
    for date in ("2024-05-16", "", "2024-05-16", "2025", "2023-01-01", "", "2026-02-02"):
        make_performance(composer=made, date=date)
    return made


def test_pages_hold_the_list_in_its_order(composer: Composer) -> None:
    found = Performance.objects.filter(composer=composer).latest_first()
    in_order = list(found.values_list("pk", flat=True))

    for pages in (DeferredPaginator(found, 2), RememberingPaginator(found, 2, state_of_lists([composer.pk]))):
        assert [row.pk for number in pages.page_range for row in pages.page(number)] == in_order


def test_page_that_is_remembered_is_another_once_something_is_saved(composer: Composer) -> None:
    found = Performance.objects.filter(composer=composer).in_date_order()
    before = list(RememberingPaginator(found, 50, state_of_lists([composer.pk])).page(1))
    earliest = make_performance(composer=composer, date="1999-01-01")

    after = list(RememberingPaginator(found, 50, state_of_lists([composer.pk])).page(1))

    assert after == [earliest, *before]


def test_question_that_finds_nothing_has_one_empty_page(composer: Composer) -> None:
    pages = RememberingPaginator(Performance.objects.none(), 50, state_of_lists([composer.pk]))

    assert (pages.count, list(pages.page(1))) == (0, [])
