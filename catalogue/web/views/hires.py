"""Material on its way: the list of a hire counted as it is packed, as it arrives and as it comes back."""

from __future__ import annotations

from django.core.exceptions import ValidationError
from django.http import HttpResponse
from django.shortcuts import get_object_or_404, redirect, render
from django.utils import timezone
from django.utils.translation import gettext as _
from django.utils.translation import gettext_lazy
from django.views.decorators.http import require_http_methods, require_POST

from catalogue.actions.hires import NoList, Stage, count_list, make_up_list
from catalogue.actions.saving import Overtaken
from catalogue.gathering.hires import ALONG, gather_hire
from catalogue.gathering.works import gather_work
from catalogue.models import Hire, Performance
from catalogue.rules.phrases import listed
from catalogue.web.access import CatalogueRequest, material_editor_page
from catalogue.web.forms.errors import add_errors
from catalogue.web.forms.hires import CountForm
from catalogue.web.hire_counts import count_groups
from catalogue.web.hires import list_rows
from catalogue.web.notices import say

HEADS = {
    Stage.SENT: gettext_lazy("Pack and send"),
    Stage.RECEIVED: gettext_lazy("What arrived"),
    Stage.BACK: gettext_lazy("What came back"),
}


def hire_of(request: CatalogueRequest, hire: int) -> Hire:
    return get_object_or_404(Hire.objects.filter(composer=request.composer).select_related(*ALONG), pk=hire)


@material_editor_page
@require_http_methods(["GET", "POST"])
def hire_sent(request: CatalogueRequest, hire: int) -> HttpResponse:
    """/c/<composer>/hires/<hire>/sent/ — the set is packed: how many copies of each part go out, and when."""
    return counting(request, hire_of(request, hire), Stage.SENT)


@material_editor_page
@require_http_methods(["GET", "POST"])
def hire_received(request: CatalogueRequest, hire: int) -> HttpResponse:
    """/c/<composer>/hires/<hire>/received/ — what the hirer has found in the parcel."""
    return counting(request, hire_of(request, hire), Stage.RECEIVED)


@material_editor_page
@require_http_methods(["GET", "POST"])
def hire_back(request: CatalogueRequest, hire: int) -> HttpResponse:
    """/c/<composer>/hires/<hire>/back/ — what came back, in which condition, what is to be done and charged."""
    return counting(request, hire_of(request, hire), Stage.BACK)


def counting(request: CatalogueRequest, hire: Hire, stage: Stage) -> HttpResponse:
    """Show the list to be counted, or keep what was counted and go back to the hire."""
    items, now = list(hire.items.all()), timezone.now()
    sent = request.POST if request.method == "POST" else None
    form = CountForm(sent, hire=hire, stage=stage, items=items)
    if form.is_bound and form.is_valid():
        hire.saves = form.cleaned_data["saves"]
        try:
            done = count_list(
                hire=hire, stage=stage, counted=form.counted(), more=form.more(), now=now, **form.columns()
            )
        except Overtaken as overtaken:
            form.add_error(None, overtaken.reason)
        except ValidationError as refused:
            add_errors(form, refused)
        else:
            say(request, told(done))
            return redirect("record-detail", request.composer.slug, "hires", hire.pk)
    listed = {row.item.id: row for row in list_rows(gather_hire(hire), gather_work(hire.work))}
    groups = count_groups([(listed[row.item.pk], row) for row in form.rows()])
    context = {"form": form, "hire": hire, "groups": groups, "stage": stage, "head": HEADS[stage]}
    return render(request, "hires/hire_count.html", context)


def told(done: list[Performance]) -> str:
    """Say that a list is counted, and of which performances the parts are delivered by it."""
    if not done:
        return _("The list is counted.")
    names = listed([str(one) for one in done])
    return _(
        "The list is counted. “Parts delivered” is done for %(names)s; open it again on its page if it is not."
    ) % {"names": names}


@material_editor_page
@require_POST
def hire_list(request: CatalogueRequest, hire: int) -> HttpResponse:
    """/c/<composer>/hires/<hire>/list/ — makes the list of the set up anew, from the forces of the work."""
    found = hire_of(request, hire)
    try:
        make_up_list(found)
    except NoList as refused:
        say(request, refused.reason)
    else:
        say(request, _("The list is made up."))
    return redirect("record-detail", request.composer.slug, "hires", found.pk)
