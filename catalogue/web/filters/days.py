"""Days from and to in what a list can be asked: typed as people write them, both counted in."""

from __future__ import annotations

from typing import Any

import django_filters as filters

from catalogue.web.forms.fields import DayField


class DayFilter(filters.Filter):
    """One day of the calendar, as a list's address holds it."""

    field_class = DayField


def from_day(column: str, label: Any) -> DayFilter:
    return DayFilter(field_name=column, lookup_expr="gte", label=label)


def until_day(column: str, label: Any) -> DayFilter:
    return DayFilter(field_name=column, lookup_expr="lte", label=label)
