"""What the lists of all composers together can be asked: whose it is, besides what one composer's list can."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

import django_filters as filters
from django.utils.translation import gettext_lazy as _

from catalogue.models import Composer
from catalogue.web.filters.performances import EventFilter
from catalogue.web.filters.works import WorkFilter
from catalogue.web.forms.composer_field import ComposerField


class ComposerFilter(filters.Filter):
    field_class = ComposerField


def composer_filter() -> ComposerFilter:
    return ComposerFilter(field_name="composer__slug", label=_("Composer"))


def offer(asked: filters.FilterSet, composers: Sequence[Composer]) -> None:
    """Let one of these composers be chosen, right after the words that are searched for."""
    asked.filters["composer"].field.offer(composers)
    for name in ("composer", "q"):
        asked.filters.move_to_end(name, last=False)


class HouseWorkFilter(WorkFilter):
    """A composer, and what is asked of works."""

    composer = composer_filter()

    def __init__(self, *args: Any, composers: Sequence[Composer], **options: Any) -> None:
        super().__init__(*args, **options)
        offer(self, composers)


class HousePerformanceFilter(EventFilter):
    """A composer, and what is asked of performances."""

    composer = composer_filter()

    def __init__(self, *args: Any, composers: Sequence[Composer], **options: Any) -> None:
        super().__init__(*args, composers=composers, **options)
        offer(self, composers)
