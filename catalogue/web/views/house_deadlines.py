"""The list of all that is due, of all composers together: a page, and the same taken along."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import timedelta

from django.conf import settings
from django.core.paginator import Paginator
from django.http import HttpResponse
from django.shortcuts import render
from django.utils import timezone
from django.views.decorators.http import require_safe

from catalogue.drawings.ninety_days import DAYS
from catalogue.exchange.exporting import Rows
from catalogue.models import Composer
from catalogue.terms import Role
from catalogue.web.access import HouseRequest, house_page
from catalogue.web.forms.deadlines import KINDS, DeadlineForm
from catalogue.web.house import HOUSE, composers_as, edited
from catalogue.web.house_deadlines import Deadline, DeadlineRow, Span, deadlines_of, row_of
from catalogue.web.tables.lists import PER_PAGE
from catalogue.web.views.exports import as_file
from catalogue.web.wording import page_language

HEADER = ("Day", "Composer", "Kind", "What is due", "Of what", "Address")


@dataclass(frozen=True, slots=True)
class AskedDeadlines:
    """The form as it was asked, and what it found."""

    form: DeadlineForm
    found: list[Deadline]
    whose: dict[int, Composer]

    @property
    def is_asked(self) -> bool:
        return any(self.form.data.get(name) for name in self.form.fields)


@house_page
@require_safe
def house_deadlines(request: HouseRequest) -> HttpResponse:
    """/house/deadlines/ — every day by which something is due, of all composers, the longest late first."""
    asked = asked_deadlines(request)
    page = Paginator(asked.found, PER_PAGE).get_page(request.GET.get("page"))
    rows = rows_of(request, asked, list(page))
    return render(request, "house/deadlines.html", {"asked": asked, "form": asked.form, "page": page, "rows": rows})


@house_page
@require_safe
def house_deadline_export(request: HouseRequest, suffix: str) -> HttpResponse:
    """/house/deadlines/export/<suffix>/ — the deadlines that are asked for, as CSV or XLSX."""
    asked = asked_deadlines(request)
    return as_file(request, grid_of(asked, rows_of(request, asked, asked.found)), "deadlines", suffix, whose=HOUSE)


def asked_deadlines(request: HouseRequest) -> AskedDeadlines:
    """Return what is asked for; where a day cannot be read the form says so, and nothing is found."""
    everybody = tuple(seat.composer for seat in request.seats)
    of_material = [one.pk for one in composers_as(request, (Role.LIBRARIAN,))]
    form, whose = DeadlineForm(request.GET, composers=everybody), {one.pk: one for one in everybody}
    if not form.is_valid():
        return AskedDeadlines(form, [], whose)
    told, today = form.cleaned_data, timezone.localdate()
    span = Span(told["since"], told["until"] or max(today, told["since"] or today) + timedelta(days=DAYS))
    found = deadlines_of(everybody, of_material, span, now=timezone.now(), today=today, language=page_language())
    if told["composer"]:
        wanted = {one.pk for one in everybody if one.slug == told["composer"]}
        found = [one for one in found if one.composer in wanted]
    if told["kind"]:
        found = [one for one in found if one.kind == told["kind"]]
    return AskedDeadlines(form, found, whose)


def rows_of(request: HouseRequest, asked: AskedDeadlines, found: list[Deadline]) -> list[DeadlineRow]:
    today, language, ours = timezone.localdate(), page_language(), {one.pk for one in edited(request)}
    return [
        row_of(one, asked.whose[one.composer], can_edit=one.composer in ours, today=today, language=language)
        for one in found
    ]


def grid_of(asked: AskedDeadlines, rows: list[DeadlineRow]) -> Rows:
    kinds = {word: str(label) for word, label in KINDS}
    pairs = zip(asked.found, rows, strict=True)
    return [
        list(HEADER),
        *(
            [str(one.day), row.whose.name, kinds[one.kind.value], row.what, row.about, settings.SITE_URL + row.address]
            for one, row in pairs
        ),
    ]
