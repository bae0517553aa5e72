"""What the page of an import shows: counts, the rows that were asked for, what has been made."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable
from dataclasses import dataclass
from typing import Any

from django.core.paginator import Page, Paginator
from django.db.models import BooleanField, ExpressionWrapper, Q
from django.urls import reverse
from django.utils.functional import Promise
from django.utils.translation import gettext_lazy as _

from catalogue.gathering.states import MODELS, Sort
from catalogue.models import ImportBatch

PER_PAGE = 50
WORDS: dict[str, str | Promise] = {"new": _("new"), "changed": _("changed"), "same": _("as it is")}
ASKED = (
    ("", _("All rows")),
    ("new", _("New")),
    ("changed", _("Changed")),
    ("same", _("As they are")),
    ("warnings", _("With remarks")),
    ("errors", _("With errors")),
)


@dataclass(frozen=True, slots=True)
class RowShown:
    """A row of the table: what it is about, what becomes of it, and what there is to say at which column."""

    number: int
    title: str
    outcome: str
    changes: tuple[tuple[str, str, str], ...]
    errors: tuple[tuple[str, str], ...]
    warnings: tuple[tuple[str, str], ...]

    @property
    def word(self) -> str | Promise:
        return _("error") if self.errors else WORDS.get(self.outcome, "")

    def answers(self, asked: str) -> bool:
        wanted = {"warnings": bool(self.warnings), "errors": bool(self.errors)}
        return wanted.get(asked, asked in {"", self.outcome} and not (asked and self.errors))


def rows_shown(report: dict[str, Any]) -> list[RowShown]:
    """Return every row that anything is to be said of, in the order of the table."""
    errors, warnings = by_row(report["errors"]), by_row(report["warnings"])
    done = {row[0]: row for row in report["done"]}
    return [
        RowShown(
            number=number,
            title=done[number][1] if number in done else "",
            outcome=done[number][2] if number in done else "",
            changes=tuple(tuple(change) for change in done[number][3]) if number in done else (),
            errors=errors.get(number, ()),
            warnings=warnings.get(number, ()),
        )
        for number in sorted({*done, *errors, *warnings})
    ]


def by_row(problems: list[list[Any]]) -> dict[int, tuple[tuple[str, str], ...]]:
    found: dict[int, list[tuple[str, str]]] = defaultdict(list)
    for row, column, message in problems:
        found[row].append((column, message))
    return {row: tuple(told) for row, told in found.items()}


@dataclass(frozen=True, slots=True)
class Tab:
    """A way to look at the rows: what it shows and how many."""

    asked: str
    label: str | Promise
    number: int
    is_current: bool


def tabs_of(rows: list[RowShown], asked: str) -> list[Tab]:
    """Return the ways to look at the rows that show any."""
    numbers = [(name, label, sum(row.answers(name) for row in rows)) for name, label in ASKED]
    return [Tab(name, label, number, name == asked) for name, label, number in numbers if number]


def page_of(rows: list[RowShown], asked: str, number: str | None) -> Page:
    return Paginator([row for row in rows if row.answers(asked)], PER_PAGE).get_page(number)


# ---- what has been made and changed


@dataclass(frozen=True, slots=True)
class Made:
    """A record that an import has made or changed."""

    label: str
    address: str
    is_new: bool
    is_undone: bool
    hindrance: str


ADDRESSES: dict[Sort, tuple[str, tuple[str, ...]]] = {
    Sort.WORK: ("work-detail", ()),
    Sort.PERFORMANCE: ("performance-detail", ()),
    Sort.VENUE: ("record-detail", ("halls",)),
}


def made_by(batch: ImportBatch, number: str | None) -> tuple[Page, list[Made]]:
    """Return a page of the records of an import, those first that could not be undone; two queries."""
    records = batch.records.annotate(is_new=ExpressionWrapper(Q(before__isnull=True), BooleanField()))
    in_order = records.defer("before", "after").order_by("-hindrance", "sort", "row", "pk")
    page = Paginator(in_order, PER_PAGE).get_page(number)
    slugs = slugs_of(batch, page.object_list)
    return page, [made(slugs.get((one.sort, one.record), batch.composer.slug), one) for one in page.object_list]


def slugs_of(batch: ImportBatch, records: Iterable[Any]) -> dict[tuple[str, int], str]:
    """Return whose each record is, where an import reached several catalogues."""
    if len(batch.report.get("catalogues", [])) < 2:
        return {}
    numbers: dict[str, list[int]] = defaultdict(list)
    for one in records:
        numbers[one.sort].append(one.record)
    return {
        (sort, number): slug
        for sort, some in numbers.items()
        for number, slug in MODELS[Sort(sort)]._base_manager.filter(pk__in=some).values_list("pk", "composer__slug")
    }


def made(slug: str, one: Any) -> Made:
    name, of_kind = ADDRESSES[Sort(one.sort)]
    address = reverse(name, args=[slug, *of_kind, one.record])
    is_gone = one.is_undone and one.is_new
    return Made(one.label, "" if is_gone else address, one.is_new, one.is_undone, one.hindrance)
