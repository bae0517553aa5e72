"""The list of performances."""

from __future__ import annotations

import datetime
from collections.abc import Iterator, Mapping, Sequence
from typing import Any, ClassVar

from django.db.models import CharField, F, QuerySet, Value
from django.db.models.functions import Coalesce, NullIf
from django.utils.functional import cached_property
from django.utils.safestring import SafeString
from django.utils.translation import gettext_lazy as _

from catalogue.gathering.claims_kept import claims_in_list
from catalogue.gathering.families import gather_claims
from catalogue.gathering.listed import ListedPerformance, gather_listed
from catalogue.models import Composer, Performance
from catalogue.models.conditions import choices_of
from catalogue.models.ordering import Folded
from catalogue.models.performances import LATEST_FIRST
from catalogue.rules.premieres import Claim
from catalogue.terms import PerformanceKind, PerformanceStatus
from catalogue.timing import PartialDate, write_date
from catalogue.web.claims import briefly, is_doubted
from catalogue.web.days import how_far
from catalogue.web.markup import escaped
from catalogue.web.places import write_country
from catalogue.web.programmes import city_of, titles_html
from catalogue.web.row_addresses import RowAddresses
from catalogue.web.tables.lists import AT_ONCE, ListColumn, ListTable, Ordered, ordered_by
from catalogue.web.tables.performance_orders import EARLIEST_FIRST
from catalogue.web.wording import page_language

KINDS, STATUSES = (dict(choices_of(terms)) for terms in (PerformanceKind, PerformanceStatus))
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

    def rows_of(self, keys: Sequence[int]) -> Sequence[ListedPerformance]:
        return gather_listed(keys)

    def all_rows(self) -> list[ListedPerformance]:
        keys = list(self.data.data.values_list("pk", flat=True))
        return [row for start in range(0, len(keys), AT_ONCE) for row in gather_listed(keys[start : start + AT_ONCE])]

    def look_up(self, records: Sequence[ListedPerformance]) -> None:
        """Reckon what the works of these performances were the first of, where that is shown."""
        if self.columns["first"].visible:
            shown = frozenset(performance.pk for performance in records)
            whose = [self.whose[one] for one in sorted({performance.composer_id for performance in records})]
            if len(self.composers) == 1 and whose:
                self.claims = claims_in_list(self.state, whose[0], shown, self.today)
                return
            works = {work.pk for performance in records for work in performance.works}
            self.claims = gather_claims(whose, works, today=self.today, shown=shown, state=self.state)

    @cached_property
    def addresses(self) -> RowAddresses:
        return RowAddresses("performance-detail", self.composers)

    def render_date(self, record: ListedPerformance) -> SafeString | str:
        if not isinstance(record.date, PartialDate):
            return str(record.date or _("no date"))
        written = write_date(record.date, self.language, style="short")
        far = how_far(record.date, self.today) if record.date.last >= self.today else ""
        return SafeString(f"{escaped(written)}{second(far)}") if far else written

    def told_date(self, record: ListedPerformance) -> str:
        """Return the date as spreadsheets sort it: 2026-03-09, 2026-03 or 2026."""
        return str(record.date or "")

    def render_works(self, record: ListedPerformance) -> SafeString:
        address = self.addresses.of(record.composer_id, record.pk)
        what = titles_html(record.works) or escaped(record.event_title or _("Performance"))
        below = " · ".join(second_line(record))
        return SafeString(f'<a href="{address}">{what}</a>{second(below) if below else ""}')

    def told_works(self, record: ListedPerformance) -> str:
        return "; ".join(work.title for work in record.works) or record.event_title

    def render_performers(self, record: ListedPerformance) -> SafeString:
        names = [f"<bdi>{escaped(name)}</bdi>" for name in record.performers[:MOST_PERFORMERS]]
        more = ["<bdi>…</bdi>"] if len(record.performers) > MOST_PERFORMERS else []
        return SafeString(", ".join([*names, *more]))

    def told_performers(self, record: ListedPerformance) -> str:
        return ", ".join(record.performers)

    def render_place(self, record: ListedPerformance) -> SafeString | str:
        hall, town = hall_and_town(record)
        return SafeString(f"<bdi>{escaped(hall)}</bdi>{second(town)}") if hall and town else hall or town

    def told_place(self, record: ListedPerformance) -> str:
        return ", ".join(part for part in hall_and_town(record) if part)

    def render_first(self, record: ListedPerformance) -> str:
        found = [self.claims[key] for key in record.played if key in self.claims]
        words = list(dict.fromkeys(words for claim in found for words in briefly(claim)))
        doubted = [str(_("billing contradicted"))] if any(is_doubted(claim) for claim in found) else []
        return "; ".join([*words, *doubted])

    def render_kind(self, record: ListedPerformance) -> str:
        return str(KINDS.get(record.kind, record.kind))

    def render_status(self, record: ListedPerformance) -> str:
        return str(STATUSES.get(record.status, record.status))

    def render_presenter(self, record: ListedPerformance) -> str:
        return record.presenter

    def order_kind(self, queryset: QuerySet[Performance], is_descending: bool) -> Ordered:
        return queryset.order_by("-kind" if is_descending else "kind", *LATEST_FIRST), True

    def order_status(self, queryset: QuerySet[Performance], is_descending: bool) -> Ordered:
        return queryset.order_by("-status" if is_descending else "status", *LATEST_FIRST), True

    def order_date(self, queryset: Any, is_descending: bool) -> Ordered:
        if is_descending:
            return queryset.latest_first(), True
        return queryset.order_by(F("first_day").asc(nulls_last=True), *EARLIEST_FIRST[1:]), True

    def order_place(self, queryset: QuerySet[Performance], is_descending: bool) -> Ordered:
        city = Coalesce(NullIf("venue__city", Value("")), NullIf("city", Value("")), output_field=CharField())
        named = queryset.annotate(city_of=Folded(city))
        return ordered_by(named, is_descending, F("city_of"), *LATEST_FIRST[:-1], last="-pk")


def second(text: str) -> str:
    """Return what stands on the second line of a cell."""
    return f'<span class="second">{escaped(text)}</span>'


def hall_and_town(performance: Performance | ListedPerformance) -> tuple[str, str]:
    venue = performance.venue
    country = write_country((venue.country if venue else "") or performance.country)
    town = ", ".join(part for part in (city_of(performance), country) if part)
    return venue.name if venue else "", town


def second_line(performance: ListedPerformance) -> Iterator[str]:
    """Give what stands under the works: the event's title, a kind that is not usual, and what has become of it."""
    if performance.event_title and performance.works:
        yield performance.event_title
    if performance.kind != PerformanceKind.CONCERT:
        yield performance.kind
    if performance.status not in {PerformanceStatus.GIVEN, PerformanceStatus.CONFIRMED}:
        yield str(STATUSES.get(performance.status, performance.status)).lower()
