"""The recordings of a work."""

from __future__ import annotations

from django.core.exceptions import ValidationError
from django.http import HttpResponse
from django.shortcuts import redirect, render
from django.utils import timezone
from django.utils.translation import gettext as _
from django.views.decorators.http import require_http_methods

from catalogue.actions.saving import Overtaken
from catalogue.actions.works import save_work
from catalogue.gathering.works import gather_work
from catalogue.models import Recording
from catalogue.web.access import CatalogueRequest, editor_page
from catalogue.web.forms.recordings import MOST, PREFIX, SavesForm, recording_rows
from catalogue.web.forms.rows import with_another_row
from catalogue.web.notices import say
from catalogue.web.views.timing import work_of


@editor_page
@require_http_methods(["GET", "POST"])
def recordings_edit(request: CatalogueRequest, work: int) -> HttpResponse:
    """/c/<composer>/works/<work>/recordings/ — who has recorded a work, and how long each recording lasts."""
    found = work_of(request, work)
    facts, stored = gather_work(found), list(Recording.objects.filter(work=found).order_by("pk"))
    typed = request.POST if request.method == "POST" else None
    another = typed is not None and "another" in typed
    if another:
        typed = with_another_row(typed, PREFIX, MOST)
    form, rows = SavesForm(typed, initial={"saves": found.saves}), recording_rows(stored, typed)
    if typed is not None and not another and all([form.is_valid(), rows.is_valid()]):
        found.saves = form.cleaned_data["saves"] or 0
        try:
            save_work(work=found, now=timezone.now(), recordings=rows.rows(stored))
        except Overtaken as overtaken:
            form = SavesForm({"saves": overtaken.latest.saves})
            form.is_valid()
            form.add_error(None, overtaken.reason)
        except ValidationError as refused:
            form.add_error(None, ValidationError(refused.messages))
        else:
            say(request, _("The recordings of “%(title)s” are saved.") % {"title": found.title})
            return redirect("timing-detail", request.composer.slug, found.pk)
    return render(request, "timing/recordings.html", {"form": form, "rows": rows, "work": facts})
