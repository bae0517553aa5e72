"""Whose catalogue: the way in, and the choice for those who keep several."""

from __future__ import annotations

from typing import Any

from django.http import HttpResponse
from django.shortcuts import redirect, render
from django.views.decorators.http import require_safe

from catalogue.models import Membership
from catalogue.terms import Role
from catalogue.web.access import SignedInRequest, signed_in_page
from catalogue.web.seats import seats_of
from catalogue.web.shell import first_room, rooms_of_house


@signed_in_page
@require_safe
def home(request: SignedInRequest) -> HttpResponse:
    """/ — on to the first room of one's only catalogue, or to the choice of several."""
    slugs = Membership.objects.filter(user=request.user).values_list("composer__slug", flat=True)[:2]
    return redirect(first_room(slugs[0])) if len(slugs) == 1 else redirect("composer-list")


@signed_in_page
@require_safe
def composer_list(request: SignedInRequest) -> HttpResponse:
    """/composers/ — the composers whose catalogues one is a member of."""
    seats = seats_of(request.user)
    choices = [(first_room(seat.composer.slug), seat.composer, seat.role) for seat in seats]
    context: dict[str, Any] = {"choices": choices, "together": rooms_of_house(seats, "")}
    context["owns_one"] = any(seat.role == Role.OWNER for seat in seats)
    return render(request, "composers/composer_list.html", context)
