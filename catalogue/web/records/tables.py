"""The lists of records, made from the description of their kind."""

from __future__ import annotations

from collections.abc import Collection
from functools import cache
from typing import Any

from django.db.models import F, QuerySet
from django.urls import reverse
from django.utils.html import format_html
from django.utils.safestring import SafeString

from catalogue.models import NotationSign
from catalogue.web.records.kinds import Kind
from catalogue.web.records.registry import KINDS
from catalogue.web.records.shown import shown, sign_svg
from catalogue.web.tables.lists import ListColumn, ListTable, Ordered, ordered_by

ROW = "row"


class RecordTable(ListTable):
    """One row a record, in the order of its kind unless another is asked for."""

    listed: Kind

    def __init__(
        self, records: QuerySet[Any], *, slug: str, language: str, opens: Collection[Kind] | None = None, **options: Any
    ) -> None:
        self.slug, self.language, self.opens = slug, language, opens
        super().__init__(records, **options)

    def render_row(self, record: Any) -> SafeString:
        address = reverse("record-detail", args=[self.slug, self.listed.slug, record.pk])
        name = shown(record, self.listed.columns[0], self.slug, self.language)
        sign = sign_svg(record) if isinstance(record, NotationSign) else ""
        return format_html('{}<a href="{}"><bdi>{}</bdi></a>', sign, address, name or str(record))


@cache
def table_for(slug: str) -> type[RecordTable]:
    """Return the table of a kind, made once."""
    kind = KINDS[slug]
    stored = {column.name for column in kind.model._meta.concrete_fields if not column.is_relation}
    first, *others = kind.columns
    parts: dict[str, Any] = {"listed": kind, "caption": kind.many, "__module__": __name__}
    parts[ROW] = ListColumn(kind.label(first) if first in kind.fields else kind.one, names_row=True, ordered=False)
    for name in others:
        parts[name] = ListColumn(kind.label(name), look=kind.looks.get(name, ""), ordered=name in stored)
        parts[f"render_{name}"] = renderer(name)
        if name in stored:
            parts[f"order_{name}"] = orderer(name)
    return type(f"{kind.model.__name__}Table", (RecordTable,), parts)


def renderer(name: str) -> Any:
    return lambda table, record: shown(record, name, table.slug, table.language, table.opens)


def orderer(name: str) -> Any:
    def order(_table: Any, queryset: QuerySet[Any], is_descending: bool) -> Ordered:
        return ordered_by(queryset, is_descending, F(name))

    return order
