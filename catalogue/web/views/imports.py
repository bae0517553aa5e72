"""Bringing in what a composer has: a table is sent, looked over, kept, and may be undone."""

from __future__ import annotations

from typing import Any

from django.core.exceptions import ValidationError
from django.http import Http404, HttpResponse
from django.shortcuts import get_object_or_404, redirect, render
from django.urls import reverse
from django.utils import timezone
from django.utils.translation import gettext as _
from django.views.decorators.http import require_http_methods, require_POST, require_safe

from catalogue.actions.undoing import undo_import
from catalogue.exchange.batches import OWN, Told, bring_in, keep, look_over, rows_in, table_of, table_of_batch
from catalogue.exchange.tables import Table, TableError
from catalogue.models import ImportBatch, ImportSource, ImportState
from catalogue.web.access import CatalogueRequest, editor_page
from catalogue.web.following import followed
from catalogue.web.forms.imports import ReadingForm, UploadForm
from catalogue.web.import_page import made_by, page_of, rows_shown, tabs_of
from catalogue.web.notices import say


@editor_page
@require_http_methods(["GET", "POST"])
def import_new(request: CatalogueRequest) -> HttpResponse:
    """/c/<composer>/import/ — a spreadsheet is sent; below it, what was imported before."""
    if request.method != "POST":
        return upload_page(request, UploadForm(request=request))
    form = UploadForm(request.POST, request.FILES, request=request)
    if not form.is_valid():
        return upload_page(request, form)
    sent, now = form.cleaned_data["file"], timezone.now()
    told = Told(kind=form.cleaned_data["kind"], dates=dates_of(request))
    try:
        content = sent.read()
        table = table_of(content, told)
        batch = ImportBatch(composer=request.composer, reading=told.as_json())
        rows_in(batch, table, now)
    except TableError as fault:
        form.add_error("file", fault.reason)
        return upload_page(request, form)
    batch = bring_in(
        composer=request.composer, by=request.user, now=now, name=printable(sent.name), content=content,
        reading=told.as_json(),
    )  # fmt: skip
    del content
    return looked_over(request, batch, table)


def upload_page(request: CatalogueRequest, form: UploadForm) -> HttpResponse:
    imports = ImportBatch.objects.filter(composer=request.composer)
    # Those of others that reach several catalogues are theirs alone.
    hidden = imports.filter(reading__others=OWN).exclude(made_by=request.user)
    former = imports.exclude(pk__in=hidden.values("pk")).select_related("made_by").latest_first()[:20]
    return render(request, "imports/import_new.html", {"form": form, "former": former})


def dates_of(request: CatalogueRequest) -> str:
    """Return the language in whose order the composer writes figures of a date."""
    return "en-US" if request.composer.language == "en-US" else "en-GB"


def printable(name: str) -> str:
    """Return a file's name as it can be shown."""
    return "".join(letter for letter in name if letter.isprintable())[:200] or _("A file without a name")


def looked_over(request: CatalogueRequest, batch: ImportBatch, table: Table) -> HttpResponse:
    """Try an import and go on to its page."""
    now = timezone.now()
    steps = look_over(batch=batch, table=table, now=now)
    what = _("Reading %(name)s") % {"name": batch.name}
    return followed(request, steps, total=rows_in(batch, table, now), what=what, then=address_of(batch))


def address_of(batch: ImportBatch) -> str:
    return reverse("import-batch", args=[batch.composer.slug, batch.pk])


def batch_of(request: CatalogueRequest, batch: int) -> ImportBatch:
    """Return an import without its file; one that reaches other catalogues is open to whoever brought it in alone."""
    imports = ImportBatch.objects.select_related("composer").defer("content")
    found = get_object_or_404(imports, composer=request.composer, pk=batch)
    if Told.of(found).others and found.made_by_id != request.user.pk:
        raise Http404
    return found


@editor_page
@require_safe
def import_batch(request: CatalogueRequest, batch: int) -> HttpResponse:
    """/c/<composer>/import/<batch>/ — what an import would do, row by row; once kept, what it has done."""
    found = batch_of(request, batch)
    return batch_page(request, found, reading_form(found))


def reading_form(batch: ImportBatch, sent: Any = None) -> ReadingForm | None:
    if batch.state != ImportState.READ or not batch.report:
        return None
    return ReadingForm(sent, report=batch.report, told=Told.of(batch))


def batch_page(request: CatalogueRequest, batch: ImportBatch, form: ReadingForm | None) -> HttpResponse:
    if batch.state != ImportState.READ:
        return kept_page(request, batch)
    if form is None and batch.source == ImportSource.PASTED:
        return redirect("pasted-review", batch.composer.slug, batch.pk)
    if form is None:
        return render(request, "imports/import_unread.html", {"batch": batch})
    asked, rows = request.GET.get("show", ""), rows_shown(batch.report)
    context = {
        "batch": batch,
        "report": batch.report,
        "form": form,
        "tabs": tabs_of(rows, asked),
        "asked": asked,
        "page": page_of(rows, asked, request.GET.get("page")),
        "changes_something": any(batch.report["counts"][outcome] for outcome in ("new", "changed")),
        "errors": len({row[0] for row in batch.report["errors"]}),
    }
    return render(request, "imports/import_batch.html", context)


def kept_page(request: CatalogueRequest, batch: ImportBatch) -> HttpResponse:
    page, made = made_by(batch, request.GET.get("page"))
    records = batch.records.all()
    context = {
        "batch": batch,
        "page": page,
        "made": made,
        "left": records.filter(is_undone=False).count(),
        "hindered": records.exclude(hindrance="").count(),
    }
    return render(request, "imports/import_kept.html", context)


@editor_page
@require_POST
def import_read(request: CatalogueRequest, batch: int) -> HttpResponse:
    """/c/<composer>/import/<batch>/read/ — reads the table again, as somebody has said."""
    found = batch_of(request, batch)
    form = reading_form(found, request.POST)
    if form is None:
        return redirect(address_of(found))
    if not form.is_valid():
        return batch_page(request, found, form)
    told = form.newly_told()
    try:
        table = table_of_batch(found, told)
        found.reading = told.as_json()
        rows_in(found, table, timezone.now())
    except TableError as fault:
        form.add_error(None, ValidationError(fault.reason))
        return batch_page(request, found, form)
    found.save(update_fields=["reading"])
    return looked_over(request, found, table)


@editor_page
@require_POST
def import_keep(request: CatalogueRequest, batch: int) -> HttpResponse:
    """/c/<composer>/import/<batch>/keep/ — stores all of it or nothing."""
    found = batch_of(request, batch)
    if found.state != ImportState.READ or not found.report:
        return redirect(address_of(found))
    table, now = table_of_batch(found, Told.of(found)), timezone.now()
    steps = keep(batch=found, table=table, now=now)
    what = _("Storing %(name)s") % {"name": found.name}
    return followed(request, steps, total=rows_in(found, table, now), what=what, then=address_of(found))


@editor_page
@require_POST
def import_undo(request: CatalogueRequest, batch: int) -> HttpResponse:
    """/c/<composer>/import/<batch>/undo/ — takes back what the import has made and changed."""
    found = batch_of(request, batch)
    if found.state == ImportState.READ:
        return redirect(address_of(found))
    total = found.records.filter(is_undone=False).count()
    steps = undo_import(batch=found, by=request.user, now=timezone.now())
    what = _("Undoing %(name)s") % {"name": found.name}
    return followed(request, steps, total=total, what=what, then=address_of(found))


@editor_page
@require_POST
def import_drop(request: CatalogueRequest, batch: int) -> HttpResponse:
    """/c/<composer>/import/<batch>/drop/ — throws away a table that was not kept."""
    found = batch_of(request, batch)
    if found.state == ImportState.READ:
        found.delete()
        say(request, _("“%(name)s” is thrown away; nothing of it was stored.") % {"name": found.name})
    return redirect("import-new", request.composer.slug)
