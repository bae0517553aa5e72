"""What the lists of works and performances have in common: columns, their order, and pages.

A cell is what the table's ``render_<column>(record)`` returns, called straight away: the stock way of django-tables2
asks for the signature of each function for each cell, which costs more than drawing the whole page. Taken along, a
cell holds what ``told_<column>(record)`` returns, where what is drawn is more than words.
"""

from __future__ import annotations

from array import array
from collections.abc import Callable, Iterable, Iterator, Sequence
from dataclasses import dataclass
from typing import Any, ClassVar, Protocol

import django_tables2 as tables
from django.core.exceptions import EmptyResultSet
from django.core.paginator import Page, Paginator
from django.db import connection
from django.db.models import QuerySet
from django.forms.utils import flatatt
from django.utils.functional import Promise, cached_property
from django.utils.html import format_html
from django.utils.safestring import SafeString

from catalogue.gathering.kept_counts import Keeper
from catalogue.gathering.once import once_for_each_state
from catalogue.gathering.versions import State, state_of_lists
from catalogue.models import Composer
from catalogue.web.markup import escaped

PER_PAGE = 50
FEWEST_KEPT = 1000  # keys that are kept in a file: fewer are found in no time
AT_ONCE = 2000  # rows that are fetched at once: a database takes only so many keys in a question


class ListColumn(tables.Column):
    """A column; ``look`` holds the classes of its cells. The column that names the row is its heading.

    A list can be ordered by it where the table has an ``order_<column>``; ``falling`` begins with the largest.
    """

    def __init__(
        self,
        label: str | Promise,
        *,
        look: str = "",
        names_row: bool = False,
        ordered: bool = True,
        falling: bool = False,
    ) -> None:
        super().__init__(verbose_name=label, orderable=ordered, initial_sort_descending=falling, empty_values=())
        self.label, self.look, self.names_row = label, look, names_row

    def tags(self) -> tuple[SafeString, SafeString]:
        """Return what opens and what closes each cell of the column."""
        looks = {"class": self.look} if self.look else {}
        if self.names_row:
            return format_html("<th{}>", flatatt({"scope": "row", **looks})), SafeString("</th>")
        return format_html("<td{}>", flatatt({"data-label": self.label, **looks})), SafeString("</td>")


Ordered = tuple[QuerySet[Any], bool]


def ordered_by(found: QuerySet[Any], falling: bool, value: Any, *then: Any, last: str = "pk") -> Ordered:
    """Order by a value, what has none last, then by something that no two rows share."""
    first = value.desc(nulls_last=True) if falling else value.asc(nulls_last=True)
    return found.order_by(first, *then, last), True


@dataclass(frozen=True, slots=True)
class Head:
    """A column's head: ``sorted`` is ascending, descending or empty; ``next`` the order that pressing it asks for."""

    label: str | Promise
    look: str
    sorted: str
    next: str


RowsOf = Callable[[Sequence[int]], Sequence[Any]]
"""Fetches the rows of some keys, in the order of these."""


class DeferredPaginator(Paginator):
    """Finds the keys of a page in an index first, from the nearer end, and fetches only its rows.

    So the last page is as quick as the first; no two rows share their place in the order, so both ends agree.
    """

    object_list: Any
    rows_of: RowsOf | None = None

    def page(self, number: int | str) -> Page:
        number = self.validate_number(number)
        keys = self.keys((number - 1) * self.per_page, min(number * self.per_page, self.count))
        rows = self.rows_of(keys) if self.rows_of else rows_among(self.object_list, keys)
        return Page(rows, number, self)

    def keys(self, start: int, end: int) -> Sequence[int]:
        return keys_between(self.object_list, start, end, self.count)


def keys_between(found: QuerySet[Any], start: int, end: int, number: int) -> list[int]:
    """Return the keys of the rows from ``start`` up to ``end`` of so many rows, found from the nearer end."""
    keys = found.values_list("pk", flat=True)
    if start <= number - end:
        return list(keys[start:end])
    return list(keys.reverse()[number - end : number - start])[::-1]


class KnownPaginator(DeferredPaginator):
    """For rows of which all keys are known in their order."""

    def __init__(self, found: QuerySet[Any], per_page: int, all_keys: array[int]) -> None:
        super().__init__(found, per_page)
        self.all_keys = all_keys

    @property
    def count(self) -> int:
        return len(self.all_keys)

    def keys(self, start: int, end: int) -> Sequence[int]:
        return self.all_keys[start:end]


class RememberingPaginator(KnownPaginator):
    """For orders and questions that no index answers: all keys are found once and remembered while nothing changes."""

    def __init__(self, found: QuerySet[Any], per_page: int, state: State) -> None:
        super().__init__(found, per_page, keys_at(state, question_of(found)))


class Keyed(Protocol):
    """Rows that stand together in an order: so many, and the keys of those from one place up to another."""

    @property
    def number(self) -> int: ...

    def keys(self, start: int, end: int) -> Sequence[int]: ...


@dataclass(frozen=True, slots=True)
class Group:
    """Rows that stand together in an order: their ``number``, and what asks for them in their own order.

    ``remembered`` says that no index has them in that order: all their keys are found once for each state.
    """

    number: int
    rows: Callable[[], QuerySet[Any]]
    remembered: State | None = None

    def keys(self, start: int, end: int) -> Sequence[int]:
        if self.remembered is None:
            return keys_between(self.rows(), start, end, self.number)
        return keys_at(self.remembered, question_of(self.rows()))[start:end]


class GroupedPaginator(DeferredPaginator):
    """For rows in few groups, one after the other: only those groups are asked that a page lies in."""

    def __init__(self, found: QuerySet[Any], per_page: int, groups: Sequence[Keyed]) -> None:
        super().__init__(found, per_page)
        self.groups = groups

    @cached_property
    def count(self) -> int:
        return sum(group.number for group in self.groups)

    def keys(self, start: int, end: int) -> Sequence[int]:
        found: list[int] = []
        before = 0
        for group in self.groups:
            first, last = max(start - before, 0), min(end - before, group.number)
            if first < last:
                found += group.keys(first, last)
            before += group.number
        return found


Question = tuple[str, tuple[Any, ...]]
"""A question for keys as the database is asked it, and its values; one that finds nothing is empty."""


def question_of(found: QuerySet[Any]) -> Question:
    """Return the question for the keys of all rows, in their order."""
    try:
        told, values = found.values_list("pk", flat=True).query.sql_with_params()
    except EmptyResultSet:
        return "", ()
    return told, tuple(values)


def rows_among(found: QuerySet[Any], keys: Sequence[int]) -> list[Any]:
    """Return the records of the keys, in their order."""
    rows = {row.pk: row for row in found.filter(pk__in=keys).order_by()}
    return [rows[key] for key in keys if key in rows]


@once_for_each_state(32)
def keys_at(_state: State, question: Question) -> array[int]:
    if question == ("", ()):
        return array("q")
    with connection.cursor() as cursor:
        cursor.execute(*question)
        return array("q", (key for (key,) in cursor.fetchall()))


@once_for_each_state(64)
def kept_keys_at(state: State, composer: int, question: Question) -> array[int]:
    """Return the same of all works of a composer, by a state of works: those of many are kept in a file for a start."""
    keeper = Keeper(f"keys {question}", __file__)
    found = keeper.found(composer)
    if found and found[0] == state.version:
        keys = array("q")
        keys.frombytes(found[1])
        return keys
    keys = keys_at(state, question)
    if len(keys) >= FEWEST_KEPT and state.is_settled:
        keeper.keep(composer, state.version, keys.tobytes())
    return keys


class ListTable(tables.Table):
    """A list with one page shown. ``caption`` says what it lists; ``cards_early`` where it holds strips.

    ``composers`` is whose records it lists; ``remembers`` where no index has its rows in their order, ``groups`` where
    they are known to stand in groups one after the other.

    ``on_request`` names the columns that are shown where they are asked for only.
    """

    composers: Sequence[Composer]
    remembers: bool = False
    groups: Sequence[Keyed] | None = None
    caption: ClassVar[str | Promise] = ""
    cards_early: ClassVar[bool] = False
    on_request: ClassVar[tuple[str, ...]] = ()

    class Meta:
        template_name = "table.html"

    @cached_property
    def state(self) -> State:
        """The state of what is listed, asked for once and before any row is."""
        return state_of_lists([composer.pk for composer in self.composers])

    def show_columns(self, asked: Iterable[str]) -> None:
        """Show the columns that are asked for, the usual ones where none is; the one that names the row stays."""
        wanted = set(asked) & set(self.columns.names())
        usual = set(self.columns.names()) - set(self.on_request)
        for name in self.columns.names():
            if name not in (wanted or usual) and not self.columns[name].column.names_row:
                self.columns.hide(name)

    def column_choices(self) -> Iterator[tuple[str, str | Promise, bool]]:
        """Give the columns that can be chosen: word, label, whether it is shown."""
        for column in self.columns.iterall():
            if not column.column.names_row:
                yield column.name, column.column.label, column.visible

    def turn_to(self, number: str | None, *, all_of: int | None = None) -> None:
        """Fetch the rows of a page; a number that is none gives the first page, one too large the last.

        ``all_of`` is how many there are, where nothing was asked and that is known.
        """
        pages = self.pages()
        if all_of is not None and type(pages) is DeferredPaginator:
            pages.count = all_of  # the framework counts once and keeps it there
        pages.rows_of = self.rows_of
        self.page = pages.get_page(number)
        self.look_up(list(self.page.object_list))

    def pages(self) -> DeferredPaginator:
        found: QuerySet[Any] = self.data.data
        if self.groups is not None:
            return GroupedPaginator(found, PER_PAGE, self.groups)
        return (
            RememberingPaginator(found, PER_PAGE, self.state) if self.remembers else DeferredPaginator(found, PER_PAGE)
        )

    def rows_of(self, keys: Sequence[int]) -> Sequence[Any]:
        """Fetch the rows of some keys in their order: most lists show records."""
        return rows_among(self.data.data, keys)

    def all_rows(self) -> list[Any]:
        """Fetch the rows of all pages."""
        return list(self.data.data.iterator(chunk_size=AT_ONCE))

    def heads(self) -> Iterator[Head]:
        for column in self.columns:
            sign = "" if not column.is_ordered else "descending" if column.order_by_alias.is_descending else "ascending"
            following = str(column.order_by_alias.next) if column.orderable else ""
            yield Head(column.column.label, column.column.look, sign, following)

    def light_rows(self) -> Iterator[SafeString]:
        """Return the cells of each row of the page, set here: a template takes longer."""
        drawn = [(*column.column.tags(), getattr(self, f"render_{column.name}")) for column in self.columns]
        for record in self.page.object_list:
            yield SafeString("".join([f"{opens}{escaped(render(record))}{closes}" for opens, closes, render in drawn]))

    def grid(self) -> list[list[str]]:
        """Return a header and all rows, whatever the page, with the columns that are shown, as plain words."""
        records = self.all_rows()
        self.look_up(records)
        names = [column.name for column in self.columns]
        tellers = [getattr(self, f"told_{name}", None) or getattr(self, f"render_{name}") for name in names]
        header = [str(column.column.label) for column in self.columns]
        return [header, *([str(tell(record)) for tell in tellers] for record in records)]

    def look_up(self, records: Sequence[Any]) -> None:
        """Find out, for all rows at once, what their cells need beside the records; most lists need nothing."""

    def orders(self) -> Iterator[Head]:
        """Return the heads that can be pressed, for a phone, where there is no head to press."""
        return (head for head in self.heads() if head.next)

    def page_numbers(self) -> Iterator[int | str]:
        return self.page.paginator.get_elided_page_range(self.page.number, on_each_side=1, on_ends=1)
