"""The calendar's own page: who reads it at which address, a new address, and what is left out of it."""

from __future__ import annotations

from typing import Any

from django.conf import settings
from django.core.exceptions import PermissionDenied
from django.http import HttpResponse, HttpResponseNotAllowed, QueryDict
from django.shortcuts import get_object_or_404, redirect, render
from django.urls import reverse
from django.utils import timezone
from django.utils.translation import gettext as _
from django.views.decorators.http import require_POST, require_safe

from catalogue.actions.calendars import make_address, open_to_all, shut_address
from catalogue.models import CalendarAddress, Membership, Performance
from catalogue.terms import CalendarHolds, Role
from catalogue.web.access import CatalogueRequest, member_page, owner_page
from catalogue.web.calendars import BACK
from catalogue.web.forms.calendars import AddressForm
from catalogue.web.notices import say
from catalogue.web.saved_views import lasting


@member_page
@require_safe
def calendar_page(request: CatalogueRequest) -> HttpResponse:
    """/c/<composer>/calendar/ — the addresses in use, and a new one, perhaps of a list of performances as asked."""
    query = lasting(request.GET)
    holds = CalendarHolds.PERFORMANCES if query else CalendarHolds.EVERYTHING
    form = AddressForm(initial={"query": query, "holds": holds.value})
    return render(request, "calendars/calendar.html", context_of(request, form, query))


def context_of(request: CatalogueRequest, form: AddressForm, query: str) -> dict[str, Any]:
    composer, is_owner = request.composer, is_of_owner(request)
    return {
        "form": form,
        "query": query,
        "addresses": addresses_of(request, is_owner=is_owner).select_related("keeper").latest_first(),
        "is_owner": is_owner,
        "public_address": settings.SITE_URL + reverse("public-feed", args=[composer.slug]),
        "left_out": Performance.objects.filter(composer=composer)
        .from_day((timezone.now() - BACK).date())
        .without_a_day()
        .with_everything_printed()
        .in_date_order(),
    }


def is_of_owner(request: CatalogueRequest) -> bool:
    return Membership.objects.filter(composer=request.composer, user=request.user, role=Role.OWNER.value).exists()


def addresses_of(request: CatalogueRequest, *, is_owner: bool) -> Any:
    """Return the addresses that somebody may see and shut: their own, to the owner everybody's."""
    ours = CalendarAddress.objects.filter(composer=request.composer)
    return ours if is_owner else ours.filter(keeper=request.user)


@member_page
@require_POST
def calendar_make(request: CatalogueRequest) -> HttpResponse:
    """/c/<composer>/calendar/make/ — a new address, shown this once."""
    composer, form = request.composer, AddressForm(request.POST)
    if not form.is_valid():
        query = lasting(QueryDict(request.POST.get("query", "")))
        return render(request, "calendars/calendar.html", context_of(request, form, query))
    told = form.cleaned_data
    token = make_address(
        composer=composer,
        keeper=request.user,
        label=told["label"],
        holds=CalendarHolds(told["holds"]),
        query=lasting(QueryDict(told["query"])),
        now=timezone.now(),
    )
    address = settings.SITE_URL + reverse("feed", args=[token, composer.slug])
    context = {"label": told["label"], "address": address, "scheme_free": address.partition(":")[2]}
    return render(request, "calendars/address_made.html", context)


@member_page
def calendar_shut(request: CatalogueRequest, address: int) -> HttpResponse:
    """/c/<composer>/calendar/<address>/shut/ — shuts an address of one's own, or as the owner anybody's."""
    found = get_object_or_404(CalendarAddress.objects.filter(composer=request.composer), pk=address)
    if found.keeper_id != request.user.pk and not is_of_owner(request):
        raise PermissionDenied
    if request.method != "POST":
        return HttpResponseNotAllowed(["POST"])
    shut_address(address=found)
    say(request, _("“%(label)s” is shut; what subscribed to it finds nothing there any more.") % {"label": found.label})
    return redirect("calendar-page", request.composer.slug)


@owner_page
@require_POST
def calendar_public(request: CatalogueRequest) -> HttpResponse:
    """/c/<composer>/calendar/public/ — opens the calendar of what is announced to everybody, or shuts it."""
    is_open = request.POST.get("open") == "yes"
    open_to_all(composer=request.composer, is_open=is_open)
    say(request, _("The public calendar is open.") if is_open else _("The public calendar is shut."))
    return redirect("calendar-page", request.composer.slug)
