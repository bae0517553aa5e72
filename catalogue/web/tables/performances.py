"""The list of performances."""

from __future__ import annotations

import datetime
from collections.abc import Iterator, Mapping, Sequence
from typing import Any, ClassVar

from django.db.models import CharField, F, QuerySet, Value
from django.db.models.functions import Coalesce, Lower, NullIf
from django.urls import reverse
from django.utils.html import format_html, format_html_join
from django.utils.safestring import SafeString
from django.utils.translation import gettext_lazy as _

from catalogue.gathering.families import gather_claims
from catalogue.models import Composer, Performance
from catalogue.rules.premieres import Claim
from catalogue.terms import PerformanceKind, PerformanceStatus, PerformerRole
from catalogue.timing import PartialDate, write_date
from catalogue.web.claims import briefly, is_doubted
from catalogue.web.days import how_far
from catalogue.web.places import write_country
from catalogue.web.programmes import city_of, titles_html, works_of
from catalogue.web.tables.lists import ListColumn, ListTable, Ordered, ordered_by
from catalogue.web.wording import page_language

TO_COME = (PerformanceStatus.PLANNED, PerformanceStatus.CONFIRMED)
SECOND = '<span class="second">{}</span>'
MOST_PERFORMERS = 3


class PerformanceTable(ListTable):
    """One row a performance, the latest first unless another order is asked for."""

    caption = _("Performances")
    on_request: ClassVar[tuple[str, ...]] = ("kind", "status", "presenter")

    date = ListColumn(_("Date"), look="num", falling=True)
    works = ListColumn(_("Works"), look="title", names_row=True, ordered=False)
    performers = ListColumn(_("Performers"), ordered=False)
    place = ListColumn(_("Place"))
    first = ListColumn(_("By these records"), ordered=False)
    kind = ListColumn(_("Kind"))
    status = ListColumn(_("What has become of it"))
    presenter = ListColumn(_("Presented by"), ordered=False)

    class Meta(ListTable.Meta):
        order_by = "-date"

    def __init__(
        self,
        performances: QuerySet[Performance],
        *,
        composers: Sequence[Composer],
        today: datetime.date,
        **options: Any,
    ) -> None:
        self.composers, self.today, self.language = composers, today, page_language()
        self.whose = {composer.pk: composer for composer in composers}
        self.claims: Mapping[int, Claim] = {}
        super().__init__(performances, **options)

    def only_shown(self, found: Any) -> QuerySet[Performance]:
        shown: QuerySet[Performance] = found.with_what_lists_show()
        return shown

    def look_up(self, records: Sequence[Performance]) -> None:
        """Reckon what the works of these performances were the first of, where that is shown."""
        if self.columns["first"].visible:
            works = {row.work_id for performance in records for row in performance.programme.all()}
            shown = [performance.pk for performance in records]
            self.claims = gather_claims(self.composers, works, today=self.today, shown=shown, state=self.state)

    def render_date(self, record: Performance) -> SafeString | str:
        if not isinstance(record.date, PartialDate):
            return str(record.date or _("no date"))
        written = write_date(record.date, self.language, style="short")
        far = how_far(record.date, self.today) if record.date.last >= self.today else ""
        return format_html("{}" + SECOND, written, far) if far else written

    def told_date(self, record: Performance) -> str:
        """Return the date as spreadsheets sort it: 2026-03-09, 2026-03 or 2026."""
        return str(record.date or "")

    def render_works(self, record: Performance) -> SafeString:
        address = reverse("performance-detail", args=[self.whose[record.composer_id].slug, record.pk])
        what = titles_html(works_of(record)) or record.event_title or _("Performance")
        second = " · ".join(second_line(record))
        below = format_html(SECOND, second) if second else ""
        return format_html('<a href="{}">{}</a>{}', address, what, below)

    def told_works(self, record: Performance) -> str:
        return "; ".join(work.title for work in works_of(record)) or record.event_title

    def render_performers(self, record: Performance) -> SafeString:
        names = names_of(record)
        shown = names[:MOST_PERFORMERS] + (["…"] if len(names) > MOST_PERFORMERS else [])
        return format_html_join(", ", "<bdi>{}</bdi>", ((name,) for name in shown))

    def told_performers(self, record: Performance) -> str:
        return ", ".join(names_of(record))

    def render_place(self, record: Performance) -> SafeString | str:
        hall, town = hall_and_town(record)
        return format_html("<bdi>{}</bdi>" + SECOND, hall, town) if hall and town else hall or town

    def told_place(self, record: Performance) -> str:
        return ", ".join(part for part in hall_and_town(record) if part)

    def render_first(self, record: Performance) -> str:
        rows = sorted(record.programme.all(), key=lambda row: row.order)
        found = [self.claims[row.pk] for row in rows if row.pk in self.claims]
        words = list(dict.fromkeys(words for claim in found for words in briefly(claim)))
        doubted = [str(_("billing contradicted"))] if any(is_doubted(claim) for claim in found) else []
        return "; ".join([*words, *doubted])

    def render_kind(self, record: Performance) -> str:
        return record.get_kind_display()

    def render_status(self, record: Performance) -> str:
        return record.get_status_display()

    def render_presenter(self, record: Performance) -> str:
        return record.presenter_name or (record.presenter.name if record.presenter else "")

    def order_kind(self, queryset: QuerySet[Performance], is_descending: bool) -> Ordered:
        return ordered_by(queryset, is_descending, F("kind"), "-first_day")

    def order_status(self, queryset: QuerySet[Performance], is_descending: bool) -> Ordered:
        return ordered_by(queryset, is_descending, F("status"), "-first_day")

    def order_date(self, queryset: Any, is_descending: bool) -> Ordered:
        return (queryset.latest_first() if is_descending else queryset.in_date_order()), True

    def order_place(self, queryset: QuerySet[Performance], is_descending: bool) -> Ordered:
        city = Coalesce(NullIf("venue__city", Value("")), NullIf("city", Value("")), output_field=CharField())
        named = queryset.annotate(city_of=Lower(city))
        return ordered_by(named, is_descending, F("city_of"), "-first_day")


def names_of(performance: Performance) -> list[str]:
    """Return who performed, as billed and in order; whoever looked after the electronics is left out."""
    in_order = sorted(performance.credits.all(), key=lambda credit: credit.order)
    return [credit.billed_name for credit in in_order if credit.role != PerformerRole.ELECTRONICS]


def hall_and_town(performance: Performance) -> tuple[str, str]:
    venue = performance.venue
    country = write_country((venue.country if venue else "") or performance.country)
    town = ", ".join(part for part in (city_of(performance), country) if part)
    return venue.name if venue else "", town


def second_line(performance: Performance) -> Iterator[str]:
    """Give what stands under the works: the event's title, a kind that is not usual, and what has become of it."""
    if performance.event_title and works_of(performance):
        yield performance.event_title
    if performance.kind != PerformanceKind.CONCERT:
        yield performance.kind
    if performance.status not in {PerformanceStatus.GIVEN, PerformanceStatus.CONFIRMED}:
        yield str(performance.get_status_display()).lower()
