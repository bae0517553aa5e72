"""Whether one set would be in two places on the same days."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from datetime import date, timedelta

DAY = timedelta(days=1)


@dataclass(frozen=True, slots=True)
class Loan:
    """On which days somebody has a set, both included; ``last`` is ``None`` where no end is known."""

    id: int | None
    who: str
    first: date
    last: date | None


def days_of(
    *,
    out_on: date | None,
    due: date | None,
    back_on: date | None,
    played: Sequence[date] = (),
    today: date,
) -> tuple[date, date | None] | None:
    """Return the first and the last day on which nobody else can have a set, ``None`` where no day is known at all.

    It is away from the day it goes out, or is first played from, until the day before it came back or is due, since it
    can leave again on that day; one that is overdue is away today. One that went out, with no day on which it is due,
    is away without end.

    >>> days_of(out_on=date(2026, 3, 2), due=date(2026, 6, 5), back_on=None, today=date(2026, 7, 1))
    (datetime.date(2026, 3, 2), datetime.date(2026, 7, 1))
    >>> days_of(out_on=None, due=None, back_on=None, played=(date(2026, 5, 16), date(2026, 5, 17)), today=date.min)
    (datetime.date(2026, 5, 16), datetime.date(2026, 5, 17))
    """
    known = [day for day in (out_on, *played, due) if day is not None]
    if not known:
        return None
    first = out_on if out_on is not None else min(known)
    if back_on is not None:
        return first, max(first, back_on - DAY)
    if due is None and out_on is not None:
        return first, None
    overdue = [today] if out_on is not None and due is not None and due <= today else []
    return first, max(first, *played, *overdue, *([due - DAY] if due is not None else []))


def clash(wanted: Loan, others: Iterable[Loan]) -> Loan | None:
    """Return the first loan that has the set on a day on which it is wanted elsewhere."""
    found = [one for one in others if one.id != wanted.id and overlap(wanted, one)]
    return min(found, key=lambda one: one.first, default=None)


def overlap(one: Loan, other: Loan) -> bool:
    """Whether two loans share a day."""
    return (other.last is None or one.first <= other.last) and (one.last is None or other.first <= one.last)
