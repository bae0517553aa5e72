"""The pages of the records around works: what kinds there are, the list of one, one record, its form, its way back."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from datetime import date
from typing import Any
from uuid import UUID

from django.core.exceptions import ValidationError
from django.core.files.storage import default_storage
from django.http import FileResponse, Http404, HttpResponse, HttpResponseBase
from django.shortcuts import get_object_or_404, redirect, render
from django.urls import reverse
from django.utils import timezone
from django.utils.http import urlencode
from django.utils.translation import gettext as _
from django.views.decorators.http import require_http_methods, require_POST, require_safe

from catalogue.actions.deletion import delete_record
from catalogue.actions.saving import Overtaken
from catalogue.exchange.file_formats import FORMATS
from catalogue.exchange.pictures import MEDIA_TYPES, stored_name
from catalogue.exchange.stored_files import name_to_take_away
from catalogue.gathering.files import held_against_requirements
from catalogue.models import Edition, Hire, MaterialSet, Performance, Picture, Rider, Sending, StoredFile, Work
from catalogue.models.fields import LINE
from catalogue.web.access import CatalogueRequest, material_editor_page, material_page, member_page
from catalogue.web.byte_ranges import sent_file_response
from catalogue.web.conflicts import Conflict
from catalogue.web.first_steps import before_record
from catalogue.web.forms.errors import add_errors
from catalogue.web.forms.hires import HireForm
from catalogue.web.forms.records import RecordForm, alike_for
from catalogue.web.forms.uploads import UploadForm, form_for
from catalogue.web.hires import held_editions, hire_page, loan_rows
from catalogue.web.notices import say
from catalogue.web.records.asked import asked_records, kind_or_404, opened_by, records_for
from catalogue.web.records.files import upload_for
from catalogue.web.records.kinds import Kind, Shelf
from catalogue.web.records.of_files import FILES
from catalogue.web.records.page import Around, around, record_page
from catalogue.web.records.registry import FILES_OF_MATERIAL, MATERIAL, SHELVES
from catalogue.web.saved_views import views_of
from catalogue.web.sent_papers import paper_page
from catalogue.web.sent_riders import sendings_of
from catalogue.web.wording import page_language


def record_or_404(request: CatalogueRequest, sort: str, record: int) -> tuple[Kind, Any]:
    kind = kind_or_404(request, sort)
    return kind, get_object_or_404(records_for(request, kind), pk=record)


@material_page
@require_safe
def record_index(request: CatalogueRequest) -> HttpResponse:
    """/c/<composer>/records/ — every kind of record, with how many there are."""
    shelves = (Shelf(_("Scores and parts"), MATERIAL),) if request.is_librarian else SHELVES
    counted = [(shelf.heading, [(kind, records_for(request, kind).count()) for kind in shelf]) for shelf in shelves]
    return render(request, "records/record_index.html", {"shelves": counted})


@material_page
@require_safe
def record_list(request: CatalogueRequest, sort: str) -> HttpResponse:
    """/c/<composer>/records/<sort>/ — the records of one kind, searched, filtered and ordered."""
    kind = kind_or_404(request, sort)
    asked = asked_records(request, kind)
    asked.table.turn_to(request.GET.get("page"))
    work = asked_work(request) if kind.names_work else None
    context = {"kind": kind, "filter": asked.filter, "table": asked.table, "is_asked": asked.is_asked, "work": work}
    context["views"] = None if request.is_librarian else views_of(request, kind.slug)
    is_empty = not asked.is_asked and not asked.table.page.paginator.count
    context["first"] = before_record(kind, request.composer) if is_empty else None
    return render(request, "records/record_list.html", context)


def asked_work(request: CatalogueRequest) -> Work | None:
    """Return the work that the address names, if it is one of this catalogue."""
    return named_in_address(request, "work", Work)


def named_in_address(request: CatalogueRequest, name: str, model: Any) -> Any:
    number = request.GET.get(name, "")
    if not number.isdecimal() or len(number) > 18:
        return None
    return model.objects.filter(composer=request.composer, pk=int(number)).first()


@material_page
@require_safe
def record_detail(request: CatalogueRequest, sort: str, record: int) -> HttpResponse:
    """/c/<composer>/records/<sort>/<record>/ — one record: what is known of it and what has happened to it."""
    kind, found = record_or_404(request, sort, record)
    today, slug = timezone.localdate(), request.composer.slug
    page = record_page(found, kind, today=today, slug=slug, opens=opened_by(request), language=page_language())
    if request.is_librarian:
        page = replace(page, around=tuple(files_of_material(found, request)))
    context = {"page": page, "kind": kind, "record": found, **beside(found, today)}
    return render(request, "records/record_detail.html", context)


def files_of_material(record: Any, request: CatalogueRequest) -> Iterator[Around]:
    """Give the files of an edition that a librarian sees."""
    if isinstance(record, Edition):
        files = FILES.around(record.work).filter(edition=record, kind__in=FILES_OF_MATERIAL)
        yield replace(around(FILES, files, request.composer.slug, page_language()), upload=upload_for(record))


def beside(record: Any, today: date) -> dict[str, Any]:
    """Return what the page of some kinds shows besides the record itself."""
    return {
        "sendings": sendings_of(record, timezone.now()) if isinstance(record, Rider) else None,
        "hire": hire_page(record, today) if isinstance(record, Hire) else None,
        "held": list(held_against_requirements(record)) if isinstance(record, StoredFile) else None,
        "editions": held_editions(record, page_language(), today) if isinstance(record, Edition) else None,
        "paper": paper_page(record) if isinstance(record, Sending) else None,
        "loans": loan_rows(record, today) if isinstance(record, MaterialSet) else None,
    }


# ---- the form


@material_editor_page
@require_http_methods(["GET", "POST"])
def record_new(request: CatalogueRequest, sort: str) -> HttpResponse:
    """/c/<composer>/records/<sort>/new/ — a new record, of the work that the address names or of one to be chosen."""
    kind = kind_or_404(request, sort)
    if kind.begins_at:
        return redirect(kind.begins_at, request.composer.slug)
    sent_before = record_sent_before(request, kind)
    if sent_before is not None:
        return redirect("record-detail", request.composer.slug, sort, sent_before.pk)
    work = asked_work(request) if kind.names_work else None
    record = kind.new(request.composer, work)
    performance = named_in_address(request, "performance", Performance) if kind.names_performance else None
    if performance is not None:
        record.performance = performance
    return form_of(request, kind, record)


def record_sent_before(request: CatalogueRequest, kind: Kind) -> Any:
    """Return the record that this very form has made already: a form that is sent twice makes one."""
    if not hasattr(kind.model, "uid"):
        return None
    try:
        uid = UUID(request.POST.get("uid", ""))
    except ValueError:
        return None
    return kind.of(request.composer).filter(uid=uid).first()


@material_editor_page
@require_http_methods(["GET", "POST"])
def record_edit(request: CatalogueRequest, sort: str, record: int) -> HttpResponse:
    """/c/<composer>/records/<sort>/<record>/edit/ — a record, to be changed."""
    kind, found = record_or_404(request, sort, record)
    return form_of(request, kind, found)


def form_of(request: CatalogueRequest, kind: Kind, record: Any) -> HttpResponse:
    """Show the form, or save it and go on to the record, or to the next one of the kind."""
    name = str(record) if record.pk else ""
    form, conflict = made_form(request, kind, record), None
    if form.is_bound and form.is_valid():
        try:
            form.keep(timezone.now())
        except Overtaken as overtaken:
            stored = form_for(kind.slug)(instance=overtaken.latest, composer=request.composer)
            conflict = Conflict.between(overtaken, form, stored)
            form = made_form(request, kind, record, saves=overtaken.latest.saves)
        except ValidationError as refused:
            add_errors(form, refused)
        else:
            say(request, saved_message(form, is_new=not name))
            return redirect(next_address(request, kind, record))
    context = {"form": form, "kind": kind, "record": record, "name": name, "conflict": conflict}
    context["work"] = record.work if kind.is_of_work and record.work_id and not form.asks_work else None
    context["first"] = None if record.pk or form.is_bound else before_record(kind, request.composer)
    return render(request, "records/record_form.html", context)


def saved_message(form: RecordForm, *, is_new: bool) -> str:
    """Say that a record is saved, and of a new one which it looks like."""
    saved = _("“%(name)s” is saved.") % {"name": form.instance}
    alike = form.alike if is_new else []
    if not alike:
        return saved
    other = _("It looks like “%(other)s”, which was here already.") % {"other": alike[0]}
    return f"{saved} {other}"


def made_form(request: CatalogueRequest, kind: Kind, record: Any, *, saves: int | None = None) -> RecordForm:
    """Return the form as it was sent, with the number of saves that it is now up to, or an empty one."""
    options: dict[str, Any] = {"instance": record, "composer": request.composer}
    if issubclass(form_for(kind.slug), UploadForm):
        options["request"] = request
    if request.method != "POST":
        carried = {name: request.GET[name][:LINE] for name in kind.again if name in request.GET}
        form = form_for(kind.slug)(**options)
        form.initial.update(carried)
        played = named_in_address(request, "performance", Performance) if isinstance(form, HireForm) else None
        if isinstance(form, HireForm) and played is not None:
            form.begin_for(played)
        return form
    typed = request.POST.copy()
    if saves is not None:
        typed["saves"] = str(saves)
    return form_for(kind.slug)(typed, request.FILES, **options)


def next_address(request: CatalogueRequest, kind: Kind, record: Any) -> str:
    """Return where to go once a record is saved: to its page, or to an empty form with what is the same again."""
    if "another" not in request.POST and kind.is_of_performance:
        return reverse("performance-detail", args=[request.composer.slug, record.performance_id]) + "#journey"
    if "another" not in request.POST:
        return reverse("record-detail", args=[request.composer.slug, kind.slug, record.pk])
    same = {name: request.POST[name] for name in kind.again if request.POST.get(name)}
    for name in ("work", "performance"):
        if getattr(kind, f"names_{name}") and getattr(record, f"{name}_id"):
            same[name] = str(getattr(record, f"{name}_id"))
    address = reverse("record-new", args=[request.composer.slug, kind.slug])
    return f"{address}?{urlencode(same)}" if same else address


@member_page
@require_POST
def record_alike(request: CatalogueRequest, sort: str) -> HttpResponse:
    """/c/<composer>/records/<sort>/alike/ — which people, bodies or halls are here already and look like a name."""
    kind = kind_or_404(request, sort)
    besides = request.GET.get("besides", "")
    key = int(besides) if besides.isdecimal() and len(besides) < 19 else None
    alike = alike_for(kind, request.composer, request.POST.get("name", "")[:LINE], besides=key)
    return render(request, "records/parts/alike.html", {"alike": alike})


# ---- deleting, and the files themselves


@material_editor_page
@require_POST
def record_delete(request: CatalogueRequest, sort: str, record: int) -> HttpResponse:
    """/c/<composer>/records/<sort>/<record>/delete/ — takes a record out of every list, with a way back."""
    kind, found = record_or_404(request, sort, record)
    delete_record(record=found, by=request.user, now=timezone.now())
    undo = reverse("deleted-restore", args=[request.composer.slug, kind.word, found.pk])
    say(request, _("“%(name)s” is deleted.") % {"name": found}, undo=undo)
    return redirect("record-list", request.composer.slug, sort)


@member_page
@require_safe
def picture_file(request: CatalogueRequest, picture: int) -> HttpResponse | FileResponse:
    """/c/<composer>/records/pictures/<picture>/file/ — the picture itself, to members only."""
    found = get_object_or_404(Picture.objects.filter(composer=request.composer), pk=picture)
    name = stored_name(found.sha256, found.suffix)
    if not default_storage.exists(name):
        raise Http404
    response = FileResponse(default_storage.open(name), content_type=MEDIA_TYPES[found.suffix])
    response.headers["Cross-Origin-Resource-Policy"] = "same-origin"
    return response


@material_page
@require_safe
def stored_file(request: CatalogueRequest, storedfile: int) -> HttpResponseBase:
    """/c/<composer>/records/files/<file>/file/ — a file to take away, whole or a range of it, to members only."""
    found = get_object_or_404(records_for(request, FILES), pk=storedfile)
    stored = stored_name(found.sha256, found.suffix)
    if not default_storage.exists(stored):
        raise Http404
    return sent_file_response(
        request,
        storage=default_storage,
        stored=stored,
        etag=found.sha256,
        media_type=FORMATS[found.suffix].media_type,
        name=name_to_take_away(found.original_name, found.suffix),
    )
