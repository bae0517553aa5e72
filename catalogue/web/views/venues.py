"""The page of a hall."""

from __future__ import annotations

from django.core.exceptions import ValidationError
from django.http import HttpResponse
from django.shortcuts import get_object_or_404, redirect, render
from django.utils import timezone
from django.utils.translation import gettext as _
from django.views.decorators.http import require_http_methods

from catalogue.actions.performances import save_venue
from catalogue.actions.saving import Overtaken
from catalogue.models import Performance, Venue
from catalogue.web.access import CatalogueRequest, editor_page
from catalogue.web.conflicts import Conflict
from catalogue.web.forms.venues import VenueForm
from catalogue.web.notices import say
from catalogue.web.views.work_forms import add_errors


@editor_page
@require_http_methods(["GET", "POST"])
def venue_edit(request: CatalogueRequest, venue: int) -> HttpResponse:
    """/c/<composer>/performances/halls/<venue>/ — a hall, to be corrected; its performances follow."""
    found = get_object_or_404(Venue.objects.filter(composer=request.composer), pk=venue)
    name = found.name
    form = VenueForm(request.POST if request.method == "POST" else None, instance=found)
    conflict = None
    if form.is_bound and form.is_valid():
        try:
            save_venue(venue=found, now=timezone.now())
        except Overtaken as overtaken:
            conflict = Conflict.between(overtaken, form, VenueForm(instance=overtaken.latest))
            form = VenueForm({**request.POST.dict(), "saves": overtaken.latest.saves}, instance=found)
        except ValidationError as refused:
            add_errors(form, refused)
        else:
            say(request, _("“%(hall)s” is saved.") % {"hall": found.name})
            return redirect("performance-list", request.composer.slug)
    times = Performance.objects.filter(venue=found.pk).count()
    context = {"form": form, "name": name, "times": times, "conflict": conflict}
    return render(request, "venues/venue_form.html", context)
