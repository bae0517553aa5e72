"""The lists of works and performances of all composers together: those of one composer, with whose each row is."""

from __future__ import annotations

from typing import Any

from django.db.models import QuerySet
from django.urls import reverse
from django.utils.html import format_html
from django.utils.safestring import SafeString
from django.utils.translation import gettext_lazy as _

from catalogue.gathering.listed import ListedPerformance
from catalogue.models import Composer, Work
from catalogue.models.ordering import Folded
from catalogue.models.performances import LATEST_FIRST
from catalogue.web.tables.lists import ListColumn, Ordered, ordered_by
from catalogue.web.tables.performances import PerformanceTable
from catalogue.web.tables.works import WorkTable


def link_to(composer: Composer) -> SafeString:
    return format_html('<a href="{}"><bdi>{}</bdi></a>', reverse("today", args=[composer.slug]), composer.name)


class HouseWorkTable(WorkTable):
    """One row a work, with its composer."""

    caption = _("Works of all composers")
    composer = ListColumn(_("Composer"))

    class Meta(WorkTable.Meta):
        sequence = ("title", "composer", "...")

    def render_composer(self, record: Work) -> SafeString:
        return link_to(self.whose[record.composer_id])

    def told_composer(self, record: Work) -> str:
        return self.whose[record.composer_id].name

    def order_composer(self, queryset: QuerySet[Work], is_descending: bool) -> Ordered:
        return ordered_by(queryset, is_descending, Folded("composer__sort_name"), Folded("title"))


class HousePerformanceTable(PerformanceTable):
    """One row a performance, with the composer in whose catalogue it stands."""

    caption = _("Performances of all composers")
    composer = ListColumn(_("Composer"))

    class Meta(PerformanceTable.Meta):
        sequence = ("date", "composer", "...")

    def render_composer(self, record: ListedPerformance) -> SafeString:
        return link_to(self.whose[record.composer_id])

    def told_composer(self, record: ListedPerformance) -> str:
        return self.whose[record.composer_id].name

    def order_composer(self, queryset: QuerySet[Any], is_descending: bool) -> Ordered:
        return ordered_by(queryset, is_descending, Folded("composer__sort_name"), *LATEST_FIRST[:-1], last="-pk")
