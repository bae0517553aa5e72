"""Adding many new performances at once, with their programmes and performers: a few queries for hundreds of them.

What is stored is what ``save_performance`` stores of each, its history included.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import datetime
from typing import Any, TypeVar

from django.db import models, transaction

from catalogue.actions.performances import reckon_days
from catalogue.actions.saving import check
from catalogue.models import Performance, PerformanceCredit, ProgrammedWork

AT_ONCE = 200  # records in one statement

M = TypeVar("M", bound=models.Model)


Part = TypeVar("Part", ProgrammedWork, PerformanceCredit)


@dataclass(frozen=True, slots=True)
class Addition:
    """A performance that is not stored yet, with the works and the performers in their order."""

    performance: Performance
    programme: Sequence[ProgrammedWork]
    credits: Sequence[PerformanceCredit]


def prepared(
    *,
    performance: Performance,
    programme: Sequence[ProgrammedWork],
    credits: Sequence[PerformanceCredit],
    now: datetime,
) -> Addition:
    """Return a new performance reckoned, counted, dated and checked. Raises ValidationError."""
    reckon_days(performance)
    performance.saves, performance.changed_at = 1, now
    check(performance)
    for parts in (numbered(programme, performance), numbered(credits, performance)):
        for part in parts:
            check(part)
    return Addition(performance, programme, credits)


def numbered(parts: Sequence[Part], performance: Performance) -> Sequence[Part]:
    """Say which performance the parts belong to, and number them in their order."""
    for position, part in enumerate(parts, start=1):
        part.performance, part.order = performance, position
    return parts


@transaction.atomic
def add_performances(additions: Sequence[Addition]) -> None:
    """Store new performances that have been prepared; their numbers are known afterwards."""
    add(Performance, [one.performance for one in additions])
    # Numbered once more: only now do the parts learn the number of their performance.
    add(ProgrammedWork, [part for one in additions for part in numbered(one.programme, one.performance)])
    add(PerformanceCredit, [part for one in additions for part in numbered(one.credits, one.performance)])


def add(model: type[M], records: list[M]) -> None:
    """Store new records, and of each the first line of its history."""
    model._default_manager.bulk_create(records, batch_size=AT_ONCE)
    history: Any = model.history  # type: ignore[attr-defined]
    history.bulk_history_create(records, batch_size=AT_ONCE, default_change_reason=None)
