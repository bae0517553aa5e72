"""The large invented house: believable rows, the same from the same seed, and only in an empty database."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date
from typing import Any

import pytest
from django.core.management import call_command
from django.db import transaction

from catalogue.benches.large import IN_HISTORY, KINDS, Size, make_large
from catalogue.gathering.checks import find_faults
from catalogue.management.base import UnusableInput
from catalogue.models import Composer, Performance, ProgrammedWork, Work
from tests.makers import make_composer, make_work

DAY = date(2026, 3, 9)
SMALL = Size(composers=3, works=40, performances=60)

pytestmark = pytest.mark.django_db


def made(seed: int) -> list[list[tuple[Any, ...]]]:
    """Return all rows that a seed makes, and take them away again."""
    with transaction.atomic():
        make_large(SMALL, seed=seed, today=DAY)
        left_out = {"password", "id"}  # of nobody: made anew each time; PostgreSQL gives no number twice
        rows = [list(model._base_manager.order_by("pk").values_list(*names_of(model, left_out))) for model in KINDS]
        transaction.set_rollback(True)
    return rows


def names_of(model: Any, but: set[str]) -> Iterator[str]:
    return (field.attname for field in model._meta.concrete_fields if field.name not in but)


@pytest.mark.usefixtures("no_files")
def test_house_passes_every_check_and_every_record_has_its_history() -> None:
    stored = make_large(SMALL, seed=1, today=DAY)

    assert stored["performances"] == 60
    assert [len(composer.performances.all()) for composer in Composer.objects.order_by("pk")] == [6, 27, 27]
    assert [composer.works.count() for composer in Composer.objects.order_by("pk")] == [40, 3, 3]
    assert list(find_faults()) == []
    assert all(model.history.count() == model._base_manager.count() > 0 for model in IN_HISTORY)
    assert ProgrammedWork.objects.filter(performance__isnull=False).values("performance").distinct().count() == 60
    assert Performance.objects.filter(last_day__gte=DAY).exists()


def test_same_seed_makes_the_same_rows_and_another_seed_others() -> None:
    first = made(1)

    assert made(1) == first
    assert made(2) != first


def test_next_record_is_numbered_after_those_that_were_made() -> None:
    make_large(SMALL, seed=1, today=DAY)

    work = make_work("Tides", composer=make_composer())

    assert work.pk > max(Work.objects.exclude(pk=work.pk).values_list("pk", flat=True))


def test_catalogue_that_holds_something_is_left_alone() -> None:
    make_composer()

    with pytest.raises(UnusableInput, match="name an empty one"):
        call_command("make_large_catalogue", "--performances=10")

    assert Performance.objects.count() == 0
