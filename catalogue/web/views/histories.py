"""The history of a record with the way back, and the records that were deleted."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import datetime, timedelta
from typing import Any

from django.core.exceptions import PermissionDenied, ValidationError
from django.http import Http404, HttpResponse
from django.shortcuts import get_object_or_404, redirect, render
from django.urls import reverse
from django.utils import timezone
from django.utils.translation import gettext as _
from django.views.decorators.http import require_POST, require_safe

from catalogue.actions.reverting import bring_back, bring_row_back, bring_rows_back, restore
from catalogue.gathering.row_lists import RowList, lists_of, rows_changes
from catalogue.models import Composer
from catalogue.models.records import Deletable
from catalogue.web.access import CatalogueRequest, editor_page, material_editor_page, member_page
from catalogue.web.histories import history_of
from catalogue.web.notices import say
from catalogue.web.record_kinds import RecordKind, kind_named, record_kinds
from catalogue.web.records.asked import for_librarian
from catalogue.web.records.registry import MATERIAL
from catalogue.web.wording import page_language

KEPT = timedelta(days=90)  # how long what is deleted is offered


@dataclass(frozen=True, slots=True)
class Deleted:
    """A record that was deleted: its kind's word and name, what it is called, since when, by whom, until when."""

    word: str
    kind: str
    key: int
    name: str
    moment: datetime
    who: str
    until: datetime


@member_page
@require_safe
def history(request: CatalogueRequest, kind: str, record: int) -> HttpResponse:
    """/c/<composer>/changes/<kind>/<record>/ — who changed what and when, each field with its way back."""
    sort = kind_named(kind)
    found = get_object_or_404(sort.of(request.composer), pk=record)
    asked = request.GET.get("page", "")
    page = int(asked) if asked.isdecimal() and 0 < len(asked) < 6 and int(asked) else 1
    context = {
        "kind": sort,
        "record": found,
        "history": history_of(sort, found, page_language(), page),
        "number": page,
        "address": sort.address(found, request.composer),
        "is_deleted": getattr(found, "deleted_at", None) is not None,
    }
    return render(request, "histories/history.html", context)


@editor_page
@require_POST
def history_back(request: CatalogueRequest, kind: str, record: int) -> HttpResponse:
    """/c/<composer>/changes/<kind>/<record>/back/ — gives a field, or all, what an entry of the history holds."""
    sort = kind_named(kind)
    found = get_object_or_404(sort.of(request.composer), pk=record)
    here = redirect("history", request.composer.slug, kind, record)
    entry, column = request.POST.get("entry", ""), request.POST.get("column", "")
    state = found.history.filter(pk=int(entry)).first() if is_number(entry) else None
    if state is None or (column and column not in sort.columns):
        say(request, _("There is nothing to bring back there."))
        return here
    try:
        bring_back(record=found, state=state, columns=[column] if column else sort.columns, now=timezone.now())
    except ValidationError as refused:
        say(request, " ".join(refused.messages))
        return here
    what = sort.label(column) if column else _("Everything")
    say(request, _("%(what)s is back as it was.") % {"what": what})
    return here


@editor_page
@require_POST
def rows_back(request: CatalogueRequest, kind: str, record: int) -> HttpResponse:
    """/c/<composer>/changes/<kind>/<record>/rows/ — makes a list in a record what it was, or one row."""
    sort = kind_named(kind)
    found = get_object_or_404(sort.of(request.composer), pk=record)
    rows = next((one for one in lists_of(found) if one.word == request.POST.get("list")), None)
    entry, is_one = request.POST.get("entry", ""), "row" in request.POST
    former = former_rows(rows, found, int(entry), is_one=is_one) if rows and is_number(entry) else None
    try:
        if rows is None or former is None:
            raise ValidationError(_("There is nothing to bring back there."))
        if is_one:
            state = next(row for row in former if row.history_id == int(entry))
            bring_row_back(record=found, rows=rows, state=state, among=former, now=timezone.now())
        else:
            bring_rows_back(record=found, rows=rows, states=former, now=timezone.now())
    except ValidationError as refused:
        say(request, " ".join(refused.messages))
    else:
        say(request, _("%(what)s is back as it was.") % {"what": _("The row") if is_one else _("The list")})
    return redirect("history", request.composer.slug, kind, record)


def former_rows(rows: RowList, record: Any, entry: int, *, is_one: bool) -> tuple[Any, ...] | None:
    """Return what a list held before the change that an entry names, or when it last held the one row that it names."""
    changes = reversed(rows_changes(rows, record))
    if is_one:
        return next((one.before for one in changes if entry in {row.history_id for row in one.before}), None)
    return next((one.before for one in changes if one.entry == entry), None)


def is_number(text: str) -> bool:
    return text.isdecimal() and len(text) < 19


@editor_page
@require_safe
def deleted_list(request: CatalogueRequest) -> HttpResponse:
    """/c/<composer>/deleted/ — what was deleted in the last ninety days, to be brought back."""
    since = timezone.now() - KEPT
    found = [one for kind in record_kinds().values() for one in deleted_of(kind, request.composer, since)]
    records = sorted(found, key=lambda one: one.moment, reverse=True)
    return render(request, "histories/deleted_list.html", {"records": records, "days": KEPT.days})


def deleted_of(kind: RecordKind, composer: Composer, since: datetime) -> list[Deleted]:
    """Return the records of a kind that were deleted since a moment; one query."""
    if not issubclass(kind.model, Deletable):
        return []
    named = [field.name for field in kind.model._meta.concrete_fields if field.is_relation]
    gone = kind.of(composer).filter(deleted_at__gte=since).select_related(*named)
    return [deleted(kind, one) for one in gone]


def deleted(kind: RecordKind, record: Any) -> Deleted:
    by = record.deleted_by
    who = by.get_full_name() or by.get_username() if by else ""
    return Deleted(kind.word, kind.name, record.pk, str(record), record.deleted_at, who, record.deleted_at + KEPT)


@material_editor_page
@require_POST
def deleted_restore(request: CatalogueRequest, kind: str, record: int) -> HttpResponse:
    """/c/<composer>/deleted/<kind>/<record>/restore/ — brings a deleted record of any kind back."""
    sort = kind_named(kind)
    if not issubclass(sort.model, Deletable):
        raise Http404
    if request.is_librarian and sort.model not in {kind.model for kind in MATERIAL}:
        raise PermissionDenied
    ours = sort.of(request.composer)
    if request.is_librarian:
        ours = for_librarian(sort.model, ours)
    found = get_object_or_404(ours, pk=record)
    try:
        restore(record=found, now=timezone.now())
    except ValidationError as refused:
        say(request, " ".join(refused.messages))
        return redirect("record-index" if request.is_librarian else "deleted-list", request.composer.slug)
    say(request, _("“%(name)s” is back.") % {"name": found})
    return redirect(sort.address(found, request.composer) or reverse("deleted-list", args=[request.composer.slug]))
