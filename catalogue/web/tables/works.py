"""The list of works."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any, ClassVar

from django.db.models import Count, DateField, F, IntegerField, Max, OuterRef, Q, QuerySet, Subquery
from django.db.models.functions import Coalesce, Lower
from django.urls import reverse
from django.utils.html import format_html
from django.utils.safestring import SafeString
from django.utils.translation import gettext_lazy as _

from catalogue.gathering import reading_of
from catalogue.models import Composer, ProgrammedWork, Work
from catalogue.terms import PerformanceStatus
from catalogue.web.pictures import IN_A_LIST, strip_svg
from catalogue.web.tables.lists import ListColumn, ListTable, Ordered, ordered_by
from catalogue.web.titles import in_language, second_line
from catalogue.web.wording import day_text, duration_text, players_text, year_text

FORCES = '<span class="forces"><span class="short">{}</span>{}</span>'
TOOK_PLACE = (PerformanceStatus.GIVEN, PerformanceStatus.OLD_STYLE_DATE)


def with_performances(works: QuerySet[Work]) -> QuerySet[Work]:
    """Count along the performances that took place, and find the day of the last one."""
    given = Q(performance__deleted_at__isnull=True, performance__status__in=TOOK_PLACE)
    programmed = ProgrammedWork.objects.filter(given, work=OuterRef("pk")).order_by().values("work")
    times = programmed.annotate(times=Count("performance", distinct=True)).values("times")
    last = programmed.annotate(last=Max("performance__last_day")).values("last")
    return works.annotate(
        times_performed=Coalesce(Subquery(times, output_field=IntegerField()), 0),
        last_performed=Subquery(last, output_field=DateField()),
    )


class WorkTable(ListTable):
    """One row a work, the newest first unless another order is asked for."""

    caption = _("Works")
    cards_early = True
    on_request: ClassVar[tuple[str, ...]] = ("category", "status", "publisher")

    title = ListColumn(_("Work"), look="title", names_row=True)
    forces = ListColumn(_("Instrumentation"), look="forces-cell", ordered=False)
    players = ListColumn(_("Players"), look="num end", falling=True)
    year = ListColumn(_("Year"), look="num end", falling=True)
    duration = ListColumn(_("Duration"), look="num end", falling=True)
    performances = ListColumn(_("Performances"), look="num end", falling=True)
    last = ListColumn(_("Last performed"), look="num end full", falling=True)
    category = ListColumn(_("Category"), look="full")
    status = ListColumn(_("Where it stands"), look="full")
    publisher = ListColumn(_("Publisher"), look="full")

    class Meta(ListTable.Meta):
        order_by = "-year"

    def __init__(self, works: QuerySet[Work], *, composers: Sequence[Composer], language: str, **options: Any) -> None:
        self.composers, self.language = composers, language
        self.whose = {composer.pk: composer for composer in composers}
        super().__init__(works, **options)

    def render_title(self, record: Work) -> SafeString:
        address = reverse("work-detail", args=[self.whose[record.composer_id].slug, record.pk])
        second = second_line(record)
        below = format_html('<span class="second">{}</span>', second) if second else ""
        return format_html('<a href="{}">{}</a>{}', address, in_language(record.title, record.title_language), below)

    def told_title(self, record: Work) -> str:
        return f"{record.title} ({record.version_label})" if record.version_label else record.title

    def render_forces(self, record: Work) -> SafeString:
        text = record.instrumentation_typed or record.instrumentation
        found = reading_of(record.instrumentation)
        strip = strip_svg(found, IN_A_LIST) if found else ""
        return format_html(FORCES, text, strip) if text else SafeString()

    def told_forces(self, record: Work) -> str:
        return record.instrumentation_typed or record.instrumentation

    def render_players(self, record: Work) -> str:
        return players_text(reading_of(record.instrumentation))

    def render_year(self, record: Work) -> str:
        return year_text(record.completed, self.language)

    def render_duration(self, record: Work) -> str:
        return duration_text(record.duration, record.duration_typed, self.language)

    def render_performances(self, record: Any) -> str:
        return str(record.times_performed or "")

    def render_last(self, record: Any) -> str:
        return day_text(record.last_performed, self.language)

    def render_category(self, record: Work) -> str:
        return record.get_category_display()

    def render_status(self, record: Work) -> str:
        return record.get_status_display()

    def render_publisher(self, record: Work) -> str:
        return record.publisher

    def order_category(self, queryset: QuerySet[Work], is_descending: bool) -> Ordered:
        return ordered_by(queryset, is_descending, F("category"), Lower("title"))

    def order_status(self, queryset: QuerySet[Work], is_descending: bool) -> Ordered:
        return ordered_by(queryset, is_descending, F("status"), Lower("title"))

    def order_publisher(self, queryset: QuerySet[Work], is_descending: bool) -> Ordered:
        return ordered_by(queryset, is_descending, Lower("publisher"), Lower("title"))

    def order_title(self, queryset: QuerySet[Work], is_descending: bool) -> Ordered:
        return ordered_by(queryset, is_descending, Lower("title"))

    def order_players(self, queryset: QuerySet[Work], is_descending: bool) -> Ordered:
        return ordered_by(queryset, is_descending, F("least_players"), Lower("title"))

    def order_year(self, queryset: QuerySet[Work], is_descending: bool) -> Ordered:
        return ordered_by(queryset, is_descending, F("completed"), Lower("title"))

    def order_duration(self, queryset: QuerySet[Work], is_descending: bool) -> Ordered:
        return ordered_by(queryset, is_descending, F("duration"), Lower("title"))

    def order_performances(self, queryset: QuerySet[Work], is_descending: bool) -> Ordered:
        return ordered_by(queryset, is_descending, F("times_performed"), Lower("title"))

    def order_last(self, queryset: QuerySet[Work], is_descending: bool) -> Ordered:
        return ordered_by(queryset, is_descending, F("last_performed"), Lower("title"))
