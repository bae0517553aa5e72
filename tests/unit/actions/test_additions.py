from __future__ import annotations

from datetime import time
from typing import Any

import pytest
from django.core.exceptions import ValidationError
from django.db import connection, models
from django.test.utils import CaptureQueriesContext

from catalogue.actions.additions import Addition, add_performances, prepared
from catalogue.actions.performances import save_performance
from catalogue.models import Composer, Performance, PerformanceCredit, ProgrammedWork, Work
from catalogue.timing import PartialDate
from tests.makers import NOW, make_composer, make_work

pytestmark = pytest.mark.django_db


def evening(composer: Composer, work: Work, *, day: int = 1, city: str = "Linz") -> dict[str, Any]:
    return {
        "performance": Performance(
            composer=composer, date=PartialDate(2024, 5, day), time=time(19, 30), zone="Europe/Vienna", city=city
        ),
        "programme": [ProgrammedWork(work=work, billing="premiere"), ProgrammedWork(work=work, extent="partial")],
        "credits": [PerformanceCredit(name="Iva Dorn", role="conductor"), PerformanceCredit(name="Zoë Lund")],
    }


def columns(record: models.Model) -> dict[str, Any]:
    own = {"id", "uid", "performance_id", "history_id", "history_date"}
    return {
        field.attname: getattr(record, field.attname)
        for field in record._meta.concrete_fields
        if field.attname not in own
    }


def stored(performance: Performance) -> list[dict[str, Any]]:
    """Return a performance with its parts and the whole history of all of them."""
    found = Performance.objects.get(pk=performance.pk)
    records: list[Any] = [found, *found.programme.order_by("order"), *found.credits.order_by("order")]
    return [columns(row) for one in records for row in (one, *one.history.all())]


def test_added_performance_is_stored_as_a_saved_one_is() -> None:
    composer = make_composer()
    work = make_work(composer=composer)
    saved = save_performance(now=NOW, **evening(composer, work))

    addition = prepared(now=NOW, **evening(composer, work))
    add_performances([addition], NOW)

    assert stored(addition.performance) == stored(saved)
    assert len(stored(saved)) == 10


def test_performance_that_must_not_be_stored_is_refused_before_anything_is() -> None:
    composer = make_composer()
    typed = evening(composer, make_work(composer=composer))
    typed["credits"][1].name = ""

    with pytest.raises(ValidationError) as refused:
        prepared(now=NOW, **typed)

    assert refused.value.message_dict == {"name": ["Name who performed."]}
    assert Performance.objects.count() == 0


def test_hundred_performances_are_added_with_a_few_questions() -> None:
    composer = make_composer()
    work = make_work(composer=composer)
    ready: list[Addition] = [prepared(now=NOW, **evening(composer, work, day=1 + n % 30)) for n in range(100)]

    with CaptureQueriesContext(connection) as asked:
        add_performances(ready, NOW)

    assert Performance.objects.count() == 100
    assert ProgrammedWork.history.count() == 200
    assert len(asked) < 40
