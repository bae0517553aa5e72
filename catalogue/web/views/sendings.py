"""Papers that are sent: recorded from the page on which they are made, and taken along again as they were."""

from __future__ import annotations

from typing import cast

from django.core.exceptions import ValidationError
from django.http import Http404, HttpResponse
from django.shortcuts import get_object_or_404, redirect, render
from django.urls import reverse
from django.utils import timezone
from django.utils.http import content_disposition_header
from django.utils.translation import gettext as _
from django.views.decorators.http import require_http_methods, require_safe

from catalogue.documents.model import Document
from catalogue.documents.registry import FORMATS, DocumentNeeds
from catalogue.making import make_document
from catalogue.models import Sending
from catalogue.web.access import CatalogueRequest, material_editor_page, material_page
from catalogue.web.forms.document_base import DocumentForm
from catalogue.web.forms.errors import add_errors
from catalogue.web.forms.sendings import NewSendingForm
from catalogue.web.forms.uploads import made_of
from catalogue.web.notices import say
from catalogue.web.records.asked import records_for
from catalogue.web.records.of_sendings import SENDINGS
from catalogue.web.sent_papers import begin, keep_paper, paper_of
from catalogue.web.views.documents import bench, file_name, form_of, unless_known
from catalogue.web.views.records import record_sent_before

FORM = cast("type[NewSendingForm]", made_of(SENDINGS, NewSendingForm))


@material_editor_page
@require_http_methods(["GET", "POST"])
def document_send(request: CatalogueRequest, kind: str) -> HttpResponse:
    """/c/<composer>/documents/<kind>/send/ — keeps the document as it stands for whoever it goes to.

    Where it cannot be made, the page on which it is asked for says why.
    """
    before = record_sent_before(request, SENDINGS)
    if before is not None:
        return redirect("record-detail", request.composer.slug, SENDINGS.slug, before.pk)
    asked = form_of(request, kind)
    if not asked.is_valid():
        return bench(request, asked)
    try:
        made = make_document(request.composer, asked.wish())
    except DocumentNeeds:
        return bench(request, asked)
    return sending_page(request, asked, made)


def sending_page(request: CatalogueRequest, asked: DocumentForm, made: Document) -> HttpResponse:
    """Ask to whom it goes, or keep it and go on to its page."""
    form = FORM(
        request.POST if request.method == "POST" else None,
        instance=begin(asked),
        composer=request.composer,
        kind_of_paper=asked.kind,
        format=asked.cleaned_data["format"],
    )
    if form.is_bound and form.is_valid():
        name = file_name(request.composer, asked)
        try:
            form.keep_with(lambda sending, format: keep_paper(sending, made, format, name), timezone.now())
        except ValidationError as refused:
            add_errors(form, refused)
        else:
            say(request, _("“%(name)s” is kept as it was sent.") % {"name": form.instance})
            return redirect("record-detail", request.composer.slug, SENDINGS.slug, form.instance.pk)
    back = f"{reverse('document', args=[request.composer.slug, asked.word])}?{request.GET.urlencode()}"
    return render(request, "sendings/sending_new.html", {"form": form, "paper": asked, "back": back})


@material_page
@require_safe
def sent_paper(request: CatalogueRequest, sending: int) -> HttpResponse:
    """/c/<composer>/records/papers-sent/<sending>/file/ — the very bytes that were sent, to members only."""
    found: Sending = get_object_or_404(records_for(request, SENDINGS), pk=sending)
    content = paper_of(found)
    if content is None:
        raise Http404
    response = HttpResponse(content, content_type=FORMATS[found.suffix].content_type)
    response.headers["Content-Disposition"] = content_disposition_header(True, found.file_name)
    return unless_known(request, response)
