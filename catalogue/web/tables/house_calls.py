"""The list of calls of all composers together: when each closes by its organiser's clock, and what was sent to it."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import datetime
from typing import Any, ClassVar

from django.db.models import F, QuerySet
from django.utils.html import format_html
from django.utils.safestring import SafeString
from django.utils.translation import gettext_lazy as _

from catalogue.models import Call, Composer
from catalogue.models.ordering import Folded
from catalogue.web.call_list import CallRow, row_of
from catalogue.web.tables.house import link_to
from catalogue.web.tables.lists import ListColumn, ListTable, Ordered, ordered_by

SECOND, SOON = '<span class="second">{}</span>', '<span class="second"><span class="due soon">{}</span></span>'


class HouseCallTable(ListTable):
    """One row a call, the next to close first, those without a deadline last."""

    caption = _("Calls of all composers")
    on_request: ClassVar[tuple[str, ...]] = ("website",)

    closes = ListColumn(_("Closes"))
    title = ListColumn(_("Call"), look="title", names_row=True)
    composer = ListColumn(_("Composer"))
    organiser = ListColumn(_("Organiser"), ordered=False)
    kind = ListColumn(_("Kind"))
    sent = ListColumn(_("What was sent to it"))
    website = ListColumn(_("Website"), ordered=False)

    class Meta(ListTable.Meta):
        order_by = "closes"

    def __init__(
        self, calls: QuerySet[Call], *, composers: Sequence[Composer], now: datetime, language: str, **options: Any
    ) -> None:
        self.composers, self.now, self.language = composers, now, language
        self.whose = {composer.pk: composer for composer in composers}
        self.rows: dict[int, CallRow] = {}
        super().__init__(calls.select_related("submission"), **options)

    def look_up(self, records: Sequence[Call]) -> None:
        """Read the terms of each call once for all its cells."""
        self.rows = {one.pk: row_of(one, self.whose[one.composer_id], self.now, self.language) for one in records}

    # ---- cells

    def render_closes(self, record: Call) -> SafeString | str:
        row = self.rows[record.pk]
        if not row.closes:
            return "–"
        here = format_html(SECOND, _("by your clock %(moment)s") % {"moment": row.here}) if row.here else ""
        return format_html("{}{}{}", row.closes, format_html(SOON if row.look else SECOND, row.far), here)

    def told_closes(self, record: Call) -> str:
        """Return the day as spreadsheets sort it."""
        return str(record.closes_on or "")

    def render_title(self, record: Call) -> SafeString:
        return format_html('<a href="{}"><bdi>{}</bdi></a>', self.rows[record.pk].address, record.title)

    def told_title(self, record: Call) -> str:
        return record.title

    def render_composer(self, record: Call) -> SafeString:
        return link_to(self.whose[record.composer_id])

    def told_composer(self, record: Call) -> str:
        return self.whose[record.composer_id].name

    def render_organiser(self, record: Call) -> SafeString:
        return format_html("<bdi>{}</bdi>", self.rows[record.pk].organiser)

    def told_organiser(self, record: Call) -> str:
        return self.rows[record.pk].organiser

    def render_kind(self, record: Call) -> str:
        return str(record.get_kind_display())

    def render_sent(self, record: Call) -> str:
        return self.rows[record.pk].state

    def render_website(self, record: Call) -> SafeString | str:
        if not record.website:
            return ""
        return format_html('<a href="{0}" rel="noreferrer">{0}</a>', record.website)

    def told_website(self, record: Call) -> str:
        return record.website

    # ---- order

    def order_closes(self, queryset: QuerySet[Call], is_descending: bool) -> Ordered:
        return ordered_by(queryset, is_descending, F("closes_on"), Folded("title"))

    def order_title(self, queryset: QuerySet[Call], is_descending: bool) -> Ordered:
        return ordered_by(queryset, is_descending, Folded("title"))

    def order_composer(self, queryset: QuerySet[Call], is_descending: bool) -> Ordered:
        return ordered_by(queryset, is_descending, Folded("composer__sort_name"), F("closes_on"))

    def order_kind(self, queryset: QuerySet[Call], is_descending: bool) -> Ordered:
        return ordered_by(queryset, is_descending, F("kind"), F("closes_on"))

    def order_sent(self, queryset: QuerySet[Call], is_descending: bool) -> Ordered:
        return ordered_by(queryset, is_descending, F("submission__status"), F("closes_on"))
