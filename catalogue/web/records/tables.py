"""The lists of records, made from the description of their kind: each field is a column that can be asked for."""

from __future__ import annotations

from collections.abc import Collection, Iterable, Sequence
from functools import cache
from typing import Any, cast

from django.db import models
from django.db.models import Case, CharField, F, Func, QuerySet, TextField, When
from django.db.models.functions import Coalesce, NullIf
from django.urls import reverse
from django.utils.html import format_html
from django.utils.safestring import SafeString

from catalogue.models import Edition, NotationSign, Performance
from catalogue.models.kept import Somebody
from catalogue.models.ordering import Folded
from catalogue.models.writings import first_words
from catalogue.web.forms.records import NAMED_WITH
from catalogue.web.records.kinds import BESIDES, Kind
from catalogue.web.records.registry import KINDS
from catalogue.web.records.shown import shown, sign_svg, told
from catalogue.web.tables.lists import ListColumn, ListTable, Ordered, ordered_by

ROW = "row"
MOST_ON_A_PAGE = 7  # columns
LONGEST = 120  # characters of prose in a cell
PRINTED_NAMES = {
    "given_by": ("body_name", "body__name"), "published_by": ("publisher_name", "publisher__name"),
}  # fmt: skip


class RecordTable(ListTable):
    """One row a record, in the order of its kind unless another is asked for."""

    listed: Kind

    def __init__(
        self, records: QuerySet[Any], *, slug: str, language: str, opens: Collection[Kind] | None = None, **options: Any
    ) -> None:
        self.slug, self.language, self.opens = slug, language, opens
        super().__init__(records, **options)

    def show_columns(self, asked: Iterable[str]) -> None:
        """Show the columns that are asked for, and fetch along what they name."""
        super().show_columns(asked)
        along = along_with(self.listed, [column.name for column in self.columns])
        if along:
            self.data.data = self.data.data.select_related(*along)

    @property
    def is_wide(self) -> bool:
        """Whether it may be wider than its page."""
        return len(list(self.columns)) > MOST_ON_A_PAGE

    def look_up(self, records: Sequence[Any]) -> None:
        if self.listed.look_up is not None:
            self.listed.look_up(records)

    def render_row(self, record: Any) -> SafeString:
        address = reverse("record-detail", args=[self.slug, self.listed.slug, record.pk])
        name = shown(record, self.listed.columns[0], self.slug, self.language)
        sign = sign_svg(record) if isinstance(record, NotationSign) else ""
        return format_html('{}<a href="{}"><bdi>{}</bdi></a>', sign, address, name or str(record))

    def cell(self, record: Any, name: str) -> SafeString | str:
        """Return what a cell shows: of prose the beginning."""
        if isinstance(columns_by_name(self.listed).get(name), TextField):
            return first_words(getattr(record, name), LONGEST)
        return shown(record, name, self.slug, self.language, self.opens)

    def told_row(self, record: Any) -> str:
        return told(record, self.listed.columns[0], self.language) or str(record)

    def order_row(self, queryset: QuerySet[Any], is_descending: bool) -> Ordered:
        first = self.listed.columns[0]
        return ordered_by(queryset, is_descending, sorted_by(self.listed, first) or F("search_text"))


@cache
def table_for(slug: str) -> type[RecordTable]:
    """Return the table of a kind, made once."""
    kind = KINDS[slug]
    first, *usual = kind.columns
    named = (*kind.names, "uid") if "uid" in columns_by_name(kind) else kind.names
    further = tuple(name for name in named if name not in {*BESIDES, *kind.columns})
    parts: dict[str, Any] = {
        "listed": kind, "caption": kind.many, "on_request": further, "__module__": __name__,
        ROW: ListColumn(kind.label(first) if first in kind.fields else kind.one, names_row=True),
    }  # fmt: skip
    for name in (*usual, *further):
        parts |= column_of(kind, name, is_usual=name in usual)
    return type(f"{kind.model.__name__}Table", (RecordTable,), parts)


def column_of(kind: Kind, name: str, *, is_usual: bool) -> dict[str, Any]:
    """Return a column with what its cells show, what they tell where they are taken along, and its order."""
    value = sorted_by(kind, name)
    look = kind.looks.get(name, "") if is_usual else f"{kind.looks.get(name, '')} full".strip()
    made = {
        name: ListColumn(kind.label(name), look=look, ordered=value is not None),
        f"render_{name}": lambda table, record: table.cell(record, name),
        f"told_{name}": lambda table, record: told(record, name, table.language),
    }
    return made if value is None else made | {f"order_{name}": orderer(value)}


def orderer(value: Any) -> Any:
    def order(_table: Any, queryset: QuerySet[Any], is_descending: bool) -> Ordered:
        return ordered_by(queryset, is_descending, value)

    return order


def columns_by_name(kind: Kind) -> dict[str, Any]:
    return {column.name: column for column in kind.model._meta.concrete_fields}


def sorted_by(kind: Kind, name: str) -> Any:
    """Return what a list is ordered by where it is ordered by a column; nothing where that cannot be said.

    Texts that a search looks through first are taken as folded there, so that marks and case make no difference.
    """
    if name in PRINTED_NAMES:
        return first_of(*PRINTED_NAMES[name])
    if issubclass(kind.model, Somebody) and name in {"billed_name", "body", "holder", "recipient"}:
        somebody = Coalesce("person__search_text", "organisation__search_text")
        return Case(When(name="", then=somebody), default=F("search_text"))
    column = columns_by_name(kind).get(name)
    if column is None:
        return None
    if column.is_relation:
        return related_name(name, cast(Any, column).related_model)
    if name == columns_by_name(kind)["search_text"].of[0]:
        return F("search_text")
    is_text = isinstance(column, CharField | TextField) and not column.choices
    return Folded(name) if is_text else F(name)


def related_name(name: str, other: type[models.Model]) -> F:
    if other is Performance:
        return F(f"{name}__first_day")
    return F(f"{name}__number" if other is Edition else f"{name}__search_text")


def first_of(*names: str) -> Func:
    """Return the first of several names that is filled."""
    return Folded(Coalesce(*(NullIf(F(name), models.Value("")) for name in names)))


def along_with(kind: Kind, shown_names: list[str]) -> tuple[str, ...]:
    """Return the other records that the columns shown name, with what these are named with."""
    columns = columns_by_name(kind)
    found = [name for name in shown_names if name in columns and columns[name].is_relation]
    deeper = [f"{name}__{one}" for name in found for one in NAMED_WITH.get(columns[name].related_model, ())]
    return tuple(dict.fromkeys((*found, *deeper)))
