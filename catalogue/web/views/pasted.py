"""A list pasted from a word processor: read, corrected work by work beside its words, looked over, stored."""

from __future__ import annotations

from typing import Any

from django.core.paginator import Paginator
from django.http import HttpResponse
from django.shortcuts import get_object_or_404, redirect, render
from django.urls import reverse
from django.utils import timezone
from django.utils.translation import gettext as _
from django.views.decorators.http import require_http_methods

from catalogue.exchange.batches import Told, bring_in, look_over, look_over_and_keep, table_of
from catalogue.exchange.drafts import Draft, as_content, drafts_in, drafts_of, table_of_drafts
from catalogue.exchange.pasted import copied_cells
from catalogue.exchange.tables import TableError
from catalogue.models import ImportBatch, ImportSource, ImportState
from catalogue.web.access import CatalogueRequest, editor_page
from catalogue.web.following import followed
from catalogue.web.forms.pasted import PER_PAGE, DraftForm, PasteForm, forms_of
from catalogue.web.views.imports import address_of, dates_of, looked_over, printable

CELLS = Told(encoding="utf-8", delimiter="\t")


@editor_page
@require_http_methods(["GET", "POST"])
def pasted_new(request: CatalogueRequest) -> HttpResponse:
    """/c/<composer>/import/pasted/ — a works list is pasted, or sent as a text."""
    if request.method != "POST":
        return render(request, "imports/pasted_new.html", {"form": PasteForm(request=request)})
    form = PasteForm(request.POST, request.FILES, request=request)
    if form.is_valid():
        try:
            return taken_in(request, form)
        except TableError as fault:
            form.add_error("file" if form.cleaned_data["file"] else "text", fault.reason)
    return render(request, "imports/pasted_new.html", {"form": form})


def taken_in(request: CatalogueRequest, form: PasteForm) -> HttpResponse:
    """Store what was read of the text and go on to its works; copied cells are a table. Raises TableError."""
    text, sent = form.cleaned_data["text"], form.cleaned_data["file"]
    name = printable(sent.name) if sent else _("Pasted list")
    columns: dict[str, Any] = {"composer": request.composer, "by": request.user, "now": timezone.now(), "name": name}
    if copied_cells(text) is not None:
        table = table_of(text.encode(), CELLS)
        return looked_over(request, bring_in(content=text.encode(), reading=CELLS.as_json(), **columns), table)
    told = Told(kind="works", dates=dates_of(request))
    content = as_content(drafts_of(text))
    batch = bring_in(content=content, source=ImportSource.PASTED.value, reading=told.as_json(), **columns)
    return redirect("pasted-review", request.composer.slug, batch.pk)


@editor_page
@require_http_methods(["GET", "POST"])
def pasted_review(request: CatalogueRequest, batch: int) -> HttpResponse:
    """/c/<composer>/import/<batch>/words/ — the works of a pasted list, each field beside the words it came from."""
    ours = ImportBatch.objects.filter(composer=request.composer, source=ImportSource.PASTED)
    found = get_object_or_404(ours.select_related("composer"), pk=batch)
    if found.state != ImportState.READ:
        return redirect(address_of(found))
    drafts = drafts_in(bytes(found.content))
    page = Paginator(drafts, PER_PAGE).get_page(request.GET.get("page"))
    first = page.start_index() - 1
    if request.method != "POST":
        return review(request, found, page, forms_of(drafts, first))
    forms = forms_of(drafts, first, request.POST)
    if not all(form.is_valid() for form in forms):
        return review(request, found, page, forms)
    corrected = (*drafts[:first], *(form.corrected() for form in forms), *drafts[first + len(forms) :])
    found.content = as_content(corrected)
    found.save(update_fields=["content"])
    return gone_on(request, found, corrected, page)


def review(request: CatalogueRequest, batch: ImportBatch, page: object, forms: list[DraftForm]) -> HttpResponse:
    mistaken = [(form.draft, field) for form in forms for field in form if field.errors]
    context = {"batch": batch, "page": page, "forms": forms, "mistaken": mistaken}
    return render(request, "imports/pasted_review.html", context)


def gone_on(request: CatalogueRequest, batch: ImportBatch, drafts: tuple[Draft, ...], page: object) -> HttpResponse:
    """Go where the button leads: to another page of works, to what would happen, or to storing all of it."""
    wanted = request.POST.get("go", "look")
    if wanted.isdecimal() and len(wanted) < 6:
        return redirect(reverse("pasted-review", args=[batch.composer.slug, batch.pk]) + f"?page={wanted}")
    table, now = table_of_drafts(drafts), timezone.now()
    total = sum(not draft.left_out for draft in drafts)
    if wanted != "store":
        steps, what = look_over(batch=batch, table=table, now=now), _("Reading %(name)s")
        return followed(request, steps, total=total, what=what % {"name": batch.name}, then=address_of(batch))
    steps, what = look_over_and_keep(batch=batch, table=table, now=now), _("Storing %(name)s")
    return followed(request, steps, total=2 * total, what=what % {"name": batch.name}, then=address_of(batch))
