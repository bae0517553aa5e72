"""Documents: chosen, shown, taken along."""

from __future__ import annotations

from hashlib import sha256

from django.core.exceptions import PermissionDenied
from django.http import Http404, HttpResponse
from django.shortcuts import redirect, render
from django.urls import reverse
from django.utils import timezone
from django.utils.cache import get_conditional_response
from django.utils.http import content_disposition_header
from django.utils.safestring import SafeString, mark_safe
from django.utils.text import slugify
from django.views.decorators.http import require_safe

from catalogue.documents.model import plain
from catalogue.documents.registry import FORMATS, DocumentNeeds
from catalogue.documents.registry import render as render_document
from catalogue.documents.renderers.html import html_fragment
from catalogue.making import make_document
from catalogue.models import Composer
from catalogue.rules.search import fold
from catalogue.web.access import CatalogueRequest, material_page
from catalogue.web.first_steps import FirstStep, before_hire_is_chosen, before_work_is_chosen
from catalogue.web.forms.document_base import DocumentForm
from catalogue.web.forms.documents import FORMS, PAPERS_OF_MATERIAL

MENDS = {"string strengths": "id_string_strengths", "instrumentation": "id_instrumentation_typed"}
TOP = 2  # the level of a document's first heading, below that of the page


@material_page
@require_safe
def document_list(request: CatalogueRequest) -> HttpResponse:
    """/c/<composer>/documents/ — on to the first kind of document."""
    return redirect("document", request.composer.slug, next(iter(forms_for(request))))


@material_page
@require_safe
def document(request: CatalogueRequest, kind: str) -> HttpResponse:
    """/c/<composer>/documents/<kind>/ — what a document can be asked, and how it reads."""
    return bench(request, form_of(request, kind))


@material_page
@require_safe
def document_file(request: CatalogueRequest, kind: str) -> HttpResponse:
    """/c/<composer>/documents/<kind>/file/ — the document as a file; the page again where it cannot be made.

    A PDF that is asked for with ``shown`` opens in the browser instead of being taken along.
    """
    form = form_of(request, kind)
    if not form.is_valid():
        return bench(request, form)
    try:
        made = make_document(request.composer, form.wish())
    except DocumentNeeds:
        return bench(request, form)
    format = FORMATS[form.cleaned_data["format"]]
    content = render_document(made, format.word)
    response = HttpResponse(content, content_type=format.content_type)
    name = file_name(request.composer, form) + format.suffix
    is_taken = format.word != "pdf" or "shown" not in request.GET
    response.headers["Content-Disposition"] = content_disposition_header(is_taken, name) or "inline"
    return unless_known(request, response)


def unless_known(request: CatalogueRequest, response: HttpResponse) -> HttpResponse:
    """Give the file its ETag, and nothing more to a browser that has it already."""
    response.headers["ETag"] = f'"{sha256(response.content).hexdigest()}"'
    response.headers["Cache-Control"] = "private, no-cache"
    found = get_conditional_response(request, etag=response.headers["ETag"], response=response)
    return response if found is None else found


def form_of(request: CatalogueRequest, kind: str) -> DocumentForm:
    if kind not in FORMS:
        raise Http404
    if kind not in forms_for(request):
        raise PermissionDenied
    return FORMS[kind](request.GET, composer=request.composer, today=timezone.localdate())


def forms_for(request: CatalogueRequest) -> dict[str, type[DocumentForm]]:
    """Return the documents that whoever asks may make, by their words; a librarian those of the material."""
    return {word: form for word, form in FORMS.items() if not request.is_librarian or word in PAPERS_OF_MATERIAL}


def bench(request: CatalogueRequest, form: DocumentForm) -> HttpResponse:
    preview, needs, left_out = SafeString(), None, ""
    lacking: tuple[str, ...] = ()
    if form.is_valid():
        try:
            made = make_document(request.composer, form.wish())
            preview = sheet(html_fragment(made, top=TOP))
            left_out, lacking = plain(made.left_out), made.lacking
        except DocumentNeeds as missing:
            needs = missing
    context = {
        "form": form,
        "kinds": [(one.word, one.title) for one in forms_for(request).values()],
        "preview": preview,
        "needs": needs,
        "left_out": left_out,
        "opened": opened(request, form),
        "lacking": lacking,
        "mend": mend_of(request, form, needs) if needs else "",
        "is_unchosen": form.has_error("__all__", "unchosen"),
        "first": first_of(request, form),
    }
    return render(request, "documents/document.html", context)


def first_of(request: CatalogueRequest, form: DocumentForm) -> FirstStep | None:
    """Return what has to be added before there is anything to choose."""
    if not form.has_error("__all__", "unchosen"):
        return None
    of_hire = "hire" in form.fields
    return before_hire_is_chosen(request.composer) if of_hire else before_work_is_chosen(request.composer)


def opened(request: CatalogueRequest, form: DocumentForm) -> str:
    """Return where the document opens as a PDF, asked the same."""
    asked = request.GET.copy()
    asked["format"], asked["shown"] = "pdf", "1"
    return f"{reverse('document-file', args=[request.composer.slug, form.word])}?{asked.urlencode()}"


def sheet(fragment: str) -> SafeString:
    """Let a document into a page: the renderer that made it has escaped every text."""
    return mark_safe(fragment)  # noqa: S308 - as said above


def mend_of(request: CatalogueRequest, form: DocumentForm, needs: DocumentNeeds) -> str:
    """Return where what is missing can be told, or nothing for somebody who may only read."""
    if "edition" in needs.missing and form.work and request.can_edit:
        return f"{reverse('record-new', args=[request.composer.slug, 'editions'])}?work={form.work.pk}"
    if "cues" in needs.missing and form.work and request.can_edit:
        return f"{reverse('timing-edit', args=[request.composer.slug, form.work.pk])}#cues"
    if request.is_librarian:
        return ""
    fields = [MENDS[fact] for fact in needs.missing if fact in MENDS]
    if not (fields and form.work and request.can_edit):
        return ""
    return f"{reverse('work-edit', args=[request.composer.slug, form.work.pk])}#{fields[0]}"


def file_name(composer: Composer, form: DocumentForm) -> str:
    """Return a file's name of plain letters: whose, if that may be told, what, and of which work."""
    work = slugify(fold(form.work.title))[:60] if form.work else ""
    whose = "" if form.is_anonymous else composer.slug
    return "-".join(part for part in (whose, form.kind, work) if part)
