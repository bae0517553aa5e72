"""The list of hires of all composers together: what is due when, who has it, whose it is, and how far it has come."""

from __future__ import annotations

import datetime
from collections.abc import Mapping, Sequence
from typing import Any, ClassVar

from django.db.models import F, QuerySet
from django.urls import reverse
from django.utils.functional import Promise
from django.utils.html import format_html
from django.utils.safestring import SafeString
from django.utils.translation import gettext_lazy

from catalogue.gathering.hires import ALONG, facts_of_hire, items_of, with_due
from catalogue.models import Composer, Hire
from catalogue.rules.hires.reckoning import state_of
from catalogue.terms.hires import HireState
from catalogue.web.hires import how_late
from catalogue.web.records.of_materials import HIRES
from catalogue.web.records.tables import sorted_by
from catalogue.web.tables.house import link_to
from catalogue.web.tables.lists import ListColumn, ListTable, Ordered, ordered_by
from catalogue.web.wording import day_text

SECOND, LATE = '<span class="second">{}</span>', '<span class="due late">{}</span>'
WORDS: Mapping[HireState, Promise] = {
    HireState.PLANNED: gettext_lazy("not sent yet"),
    HireState.OUT: gettext_lazy("out"),
    HireState.OVERDUE: gettext_lazy("overdue"),
    HireState.BACK: gettext_lazy("back"),
    HireState.INCOMPLETE: gettext_lazy("back, not all of it"),
    HireState.KEPT: gettext_lazy("sold"),
}


class HouseHireTable(ListTable):
    """One row a hire, the longest overdue first, what has no day last."""

    caption = gettext_lazy("Hires of all composers")
    on_request: ClassVar[tuple[str, ...]] = ("purpose", "number", "their_number", "attention", "back_on")

    due = ListColumn(gettext_lazy("Due back"), look="num")
    holder = ListColumn(gettext_lazy("Who has it"), look="title", names_row=True)
    composer = ListColumn(gettext_lazy("Composer"))
    work = ListColumn(gettext_lazy("Work"))
    material_set = ListColumn(gettext_lazy("Set"), ordered=False)
    out_on = ListColumn(gettext_lazy("Went out"), look="num")
    standing = ListColumn(gettext_lazy("How far it has come"), ordered=False)
    purpose = ListColumn(gettext_lazy("For"))
    number = ListColumn(gettext_lazy("Number of the note"))
    their_number = ListColumn(gettext_lazy("Their order number"))
    attention = ListColumn(gettext_lazy("For the attention of"))
    back_on = ListColumn(gettext_lazy("Back on"), look="num")

    class Meta(ListTable.Meta):
        order_by = "due"

    def __init__(
        self,
        hires: QuerySet[Hire],
        *,
        composers: Sequence[Composer],
        today: datetime.date,
        language: str,
        **options: Any,
    ) -> None:
        self.composers, self.today, self.language = composers, today, language
        self.whose = {composer.pk: composer for composer in composers}
        self.states: dict[int, HireState] = {}
        super().__init__(with_due(hires).select_related(*ALONG), **options)

    def look_up(self, records: Sequence[Hire]) -> None:
        """Say how far each has come; what is missing is counted part by part, with one query for all."""
        items = items_of(records) if records else {}
        facts = ((one.pk, facts_of_hire(one, (), items.get(one.pk, ()))) for one in records)
        self.states = {key: state_of(each, self.today) for key, each in facts}

    # ---- cells

    def render_due(self, record: Hire) -> SafeString | str:
        if record.due is None:
            return "–"
        written = day_text(record.due, self.language)
        if self.states[record.pk] not in {HireState.OUT, HireState.OVERDUE}:
            return written
        return format_html("{}" + SECOND, written, how_late(record.due, self.today))

    def told_due(self, record: Hire) -> str:
        """Return the day as spreadsheets sort it."""
        return str(record.due or "")

    def render_holder(self, record: Hire) -> SafeString:
        address = reverse("record-detail", args=[self.whose[record.composer_id].slug, "hires", record.pk])
        return format_html('<a href="{}"><bdi>{}</bdi></a>', address, record.holder)

    def told_holder(self, record: Hire) -> str:
        return record.holder

    def render_composer(self, record: Hire) -> SafeString:
        return link_to(self.whose[record.composer_id])

    def told_composer(self, record: Hire) -> str:
        return self.whose[record.composer_id].name

    def render_work(self, record: Hire) -> SafeString:
        return format_html("<bdi>{}</bdi>", record.work.title)

    def told_work(self, record: Hire) -> str:
        return record.work.title

    def render_material_set(self, record: Hire) -> str:
        return record.material_set.number if record.material_set else ""

    def render_out_on(self, record: Hire) -> str:
        return day_text(record.out_on, self.language)

    def told_out_on(self, record: Hire) -> str:
        return str(record.out_on or "")

    def render_standing(self, record: Hire) -> SafeString | str:
        state = self.states[record.pk]
        return format_html(LATE, WORDS[state]) if state is HireState.OVERDUE else str(WORDS[state])

    def told_standing(self, record: Hire) -> str:
        return str(WORDS[self.states[record.pk]])

    def render_purpose(self, record: Hire) -> str:
        return str(record.get_purpose_display())

    def render_number(self, record: Hire) -> str:
        return record.number

    def render_their_number(self, record: Hire) -> str:
        return record.order_number

    def render_attention(self, record: Hire) -> str:
        return record.attention

    def render_back_on(self, record: Hire) -> str:
        return day_text(record.back_on, self.language)

    def told_back_on(self, record: Hire) -> str:
        return str(record.back_on or "")

    # ---- order

    def order_due(self, queryset: QuerySet[Hire], is_descending: bool) -> Ordered:
        return ordered_by(queryset, is_descending, F("due_day"))

    def order_holder(self, queryset: QuerySet[Hire], is_descending: bool) -> Ordered:
        return ordered_by(queryset, is_descending, sorted_by(HIRES, "holder"), F("due_day"))

    def order_composer(self, queryset: QuerySet[Hire], is_descending: bool) -> Ordered:
        return ordered_by(queryset, is_descending, F("composer__sort_name"), F("due_day"))

    def order_work(self, queryset: QuerySet[Hire], is_descending: bool) -> Ordered:
        return ordered_by(queryset, is_descending, F("work__search_text"), F("due_day"))

    def order_out_on(self, queryset: QuerySet[Hire], is_descending: bool) -> Ordered:
        return ordered_by(queryset, is_descending, F("out_on"))

    def order_back_on(self, queryset: QuerySet[Hire], is_descending: bool) -> Ordered:
        return ordered_by(queryset, is_descending, F("back_on"))

    def order_purpose(self, queryset: QuerySet[Hire], is_descending: bool) -> Ordered:
        return ordered_by(queryset, is_descending, F("purpose"), F("due_day"))

    def order_number(self, queryset: QuerySet[Hire], is_descending: bool) -> Ordered:
        return ordered_by(queryset, is_descending, F("number"))

    def order_their_number(self, queryset: QuerySet[Hire], is_descending: bool) -> Ordered:
        return ordered_by(queryset, is_descending, F("order_number"))

    def order_attention(self, queryset: QuerySet[Hire], is_descending: bool) -> Ordered:
        return ordered_by(queryset, is_descending, F("attention"))
