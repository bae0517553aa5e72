"""Questions that are put into SQL once: they answer as if they had been asked anew."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

import pytest

from catalogue.gathering.prepared import compiled, rows_about
from catalogue.models import Work
from tests.makers import make_work

pytestmark = pytest.mark.django_db


def titles(keys: Sequence[int]) -> Any:
    return Work.objects.exclude(title="Gone").filter(pk__in=keys, deleted_at__isnull=True).values_list("pk", "title")


def of_two(keys: Sequence[int]) -> Any:
    return Work.objects.filter(pk__in=keys).filter(version_of__in=keys).values_list("pk")


def test_each_number_of_keys_is_put_into_sql_once_and_answered_for_the_keys_that_are_asked() -> None:
    compiled.cache_clear()
    first, second, gone, third = (make_work(title).pk for title in ("One", "Two", "Gone", "Three"))

    assert sorted(rows_about(titles, [second, first])) == [(first, "One"), (second, "Two")]
    assert rows_about(titles, [gone, third]) == [(third, "Three")]
    assert rows_about(titles, [third]) == [(third, "Three")]
    assert rows_about(titles, []) == []
    assert (compiled.cache_info().hits, compiled.cache_info().misses) == (1, 2)


def test_question_that_names_its_keys_twice_is_refused() -> None:
    with pytest.raises(ValueError, match="names each of its keys once"):
        rows_about(of_two, [1, 2])
