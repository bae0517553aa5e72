"""The list of works."""

from __future__ import annotations

from array import array
from collections.abc import Sequence
from enum import Enum
from functools import lru_cache
from typing import Any, ClassVar

from django.db.models import Count, DateField, F, IntegerField, Max, OuterRef, QuerySet, Subquery
from django.db.models.functions import Coalesce
from django.utils.functional import cached_property
from django.utils.safestring import SafeString
from django.utils.translation import gettext_lazy as _

from catalogue.gathering import reading_of
from catalogue.gathering.tallies import NEVER, TOOK_PLACE, Tallies, tallies_among, tallies_at, tallies_of
from catalogue.gathering.versions import state_of_works
from catalogue.models import Composer, ProgrammedWork, Work
from catalogue.models.ordering import Folded
from catalogue.web.markup import escaped
from catalogue.web.pictures import IN_A_LIST, strip_svg
from catalogue.web.row_addresses import RowAddresses
from catalogue.web.tables import lists
from catalogue.web.tables.lists import (
    AT_ONCE,
    DeferredPaginator,
    KnownPaginator,
    ListColumn,
    ListTable,
    Ordered,
    Question,
    kept_keys_at,
    keys_at,
    ordered_by,
    question_of,
    rows_among,
)
from catalogue.web.tables.works_by_tally import BY_TALLY, keys_by_tally
from catalogue.web.titles import in_language, second_line
from catalogue.web.wording import day_text, duration_text, players_text, year_text

SHOWN = (
    "composer", "title", "title_language", "original_title", "original_language", "transliteration", "translated_title",
    "version_label", "catalogue_number", "instrumentation", "instrumentation_typed", "completed", "duration",
    "duration_typed", "category", "status", "publisher",
)  # fmt: skip
"""What the cells of a work are made of."""


class Asks(Enum):
    """What a list of works is asked beside an order: nothing, what follows from works alone, or anything."""

    NOTHING, WORKS, ANYTHING = range(3)


def times_performed() -> Coalesce:
    """Count the performances of a work that took place."""
    times = took_place().values("work").annotate(times=Count("performance", distinct=True)).values("times")
    return Coalesce(Subquery(times, output_field=IntegerField()), 0)


def last_performed() -> Subquery:
    """Find the day of the last performance of a work."""
    last = took_place().values("work").annotate(last=Max("performance__last_day")).values("last")
    return Subquery(last, output_field=DateField())


def took_place() -> QuerySet[ProgrammedWork]:
    return ProgrammedWork.objects.filter(TOOK_PLACE, work=OuterRef("pk")).order_by()


@lru_cache(maxsize=4096)
def strip_of(instrumentation: str) -> SafeString:
    """Draw the players of an instrumentation, where it can be read."""
    found = reading_of(instrumentation)
    return strip_svg(found, IN_A_LIST) if found else SafeString()


@lru_cache(maxsize=4096)
def players_of(instrumentation: str) -> str:
    return players_text(reading_of(instrumentation))


class WorkTable(ListTable):
    """One row a work, the newest first unless another order is asked for."""

    caption = _("Works")
    cards_early = True
    asks = Asks.ANYTHING

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
        self.tallies: Tallies = {}
        super().__init__(works, **options)

    def look_up(self, records: Sequence[Work]) -> None:
        """Count how often these works were performed, where that is shown."""
        if not self.tallies and (self.columns["performances"].visible or self.columns["last"].visible):
            keys = [record.pk for record in records]
            if len(self.composers) == 1:
                self.tallies = tallies_among(self.state, self.composers[0].pk, keys)
                return
            for start in range(0, len(keys), AT_ONCE):
                self.tallies = {**self.tallies, **tallies_at(self.state, frozenset(keys[start : start + AT_ONCE]))}

    def pages(self) -> DeferredPaginator:
        """Order by how often, or when last, works were performed without asking the database for each of them."""
        orders = [order for order in self.order_by if order.removeprefix("-") in BY_TALLY]
        if len(self.composers) != 1 or (orders and len(self.order_by) > 1) or not self.remembers:
            return super().pages()
        composer, found = self.composers[0].pk, self.data.data
        if not orders:
            return KnownPaginator(found, lists.PER_PAGE, self.keys_of_works(question_of(found)))
        self.tallies = tallies_of(self.state, composer)
        in_title_order = self.keys_of_works(question_of(found.in_title_order()))
        return KnownPaginator(found, lists.PER_PAGE, keys_by_tally(self.state, composer, in_title_order, orders[0]))

    def keys_of_works(self, question: Question) -> array[int]:
        """Return all keys of works in an order that follows from works alone; those of the whole list are kept."""
        composer, of_works = self.composers[0].pk, state_of_works(self.state)
        if self.asks is Asks.NOTHING:
            return kept_keys_at(of_works, composer, question)
        return keys_at(of_works if self.asks is Asks.WORKS else self.state, question)

    def rows_of(self, keys: Sequence[int]) -> Sequence[Work]:
        """Fetch the works alone: what they are ordered by, and may be reckoned for each, is not asked for again."""
        return rows_among(Work.objects.only(*SHOWN), keys)

    @cached_property
    def addresses(self) -> RowAddresses:
        return RowAddresses("work-detail", self.composers)

    def render_title(self, record: Work) -> SafeString:
        address = self.addresses.of(record.composer_id, record.pk)
        second = second_line(record)
        below = f'<span class="second">{second}</span>' if second else ""
        return SafeString(f'<a href="{address}">{in_language(record.title, record.title_language)}</a>{below}')

    def told_title(self, record: Work) -> str:
        return f"{record.title} ({record.version_label})" if record.version_label else record.title

    def render_forces(self, record: Work) -> SafeString:
        text = record.instrumentation_typed or record.instrumentation
        if not text:
            return SafeString()
        strip = strip_of(record.instrumentation)
        return SafeString(f'<span class="forces"><span class="short">{escaped(text)}</span>{strip}</span>')

    def told_forces(self, record: Work) -> str:
        return record.instrumentation_typed or record.instrumentation

    def render_players(self, record: Work) -> str:
        return players_of(record.instrumentation)

    def render_year(self, record: Work) -> str:
        return year_text(record.completed, self.language)

    def render_duration(self, record: Work) -> str:
        return duration_text(record.duration, record.duration_typed, self.language)

    def render_performances(self, record: Work) -> str:
        return str(self.tallies.get(record.pk, NEVER).times or "")

    def render_last(self, record: Work) -> str:
        return day_text(self.tallies.get(record.pk, NEVER).last, self.language)

    def render_category(self, record: Work) -> str:
        return record.get_category_display()

    def render_status(self, record: Work) -> str:
        return record.get_status_display()

    def render_publisher(self, record: Work) -> str:
        return record.publisher

    def order_category(self, queryset: QuerySet[Work], is_descending: bool) -> Ordered:
        return ordered_by(queryset, is_descending, F("category"), Folded("title"))

    def order_status(self, queryset: QuerySet[Work], is_descending: bool) -> Ordered:
        return ordered_by(queryset, is_descending, F("status"), Folded("title"))

    def order_publisher(self, queryset: QuerySet[Work], is_descending: bool) -> Ordered:
        return ordered_by(queryset, is_descending, Folded("publisher"), Folded("title"))

    def order_title(self, queryset: QuerySet[Work], is_descending: bool) -> Ordered:
        """Order by the title as it is searched, so that marks and case make no difference."""
        return ordered_by(queryset, is_descending, F("search_text"))

    def order_players(self, queryset: QuerySet[Work], is_descending: bool) -> Ordered:
        return ordered_by(queryset, is_descending, F("least_players"), Folded("title"))

    def order_year(self, queryset: QuerySet[Work], is_descending: bool) -> Ordered:
        return ordered_by(queryset, is_descending, F("completed"), Folded("title"))

    def order_duration(self, queryset: QuerySet[Work], is_descending: bool) -> Ordered:
        return ordered_by(queryset, is_descending, F("duration"), Folded("title"))

    def order_performances(self, queryset: QuerySet[Work], is_descending: bool) -> Ordered:
        counted = queryset.annotate(times_performed=times_performed())
        return ordered_by(counted, is_descending, F("times_performed"), Folded("title"))

    def order_last(self, queryset: QuerySet[Work], is_descending: bool) -> Ordered:
        dated = queryset.annotate(last_performed=last_performed())
        return ordered_by(dated, is_descending, F("last_performed"), Folded("title"))
