"""Who may open a page: an address names the composer, and the membership of whoever asks decides.

A librarian comes to the pages of the material alone; where such a page is everybody's, its view shows them less.
A stranger to a catalogue is told the same as about an address that does not exist. A viewer who asks for a page that
changes something is told that it is not theirs to change.
"""

from __future__ import annotations

from collections.abc import Callable
from functools import wraps
from typing import Any

from django.contrib.auth.models import User
from django.contrib.auth.views import redirect_to_login
from django.core.exceptions import PermissionDenied
from django.http import HttpRequest, HttpResponseBase
from django.shortcuts import redirect
from django_htmx.middleware import HtmxDetails

from catalogue.models import Composer
from catalogue.models.records import EDITING_ROLES, READING_ROLES
from catalogue.terms import Role
from catalogue.web.kept import sign_in_again
from catalogue.web.seats import Seat, seat_of, seats_of
from catalogue.web.second_step import lacks_second_step

View = Callable[..., HttpResponseBase]
EDITORS = EDITING_ROLES
READERS = READING_ROLES
KEEPERS_OF_MATERIAL = (*EDITORS, Role.LIBRARIAN)
READERS_OF_MATERIAL = (*READERS, Role.LIBRARIAN)


class SignedInRequest(HttpRequest):
    """A request of somebody who is signed in."""

    user: User
    htmx: HtmxDetails


class CatalogueRequest(SignedInRequest):
    """A request of a member, in the catalogue that the address names."""

    composer: Composer
    role: Role
    can_edit: bool
    is_librarian: bool
    has_several: bool


class HouseRequest(SignedInRequest):
    """A request of somebody who looks at all the catalogues that they are a member of; ``seats`` are in name order."""

    seats: tuple[Seat, ...]


def signed_in_page(view: View) -> View:
    """Let everybody in who is signed in, but no owner without the second step where the house asks for it."""

    @wraps(view)
    def guarded(request: HttpRequest, **rest: Any) -> HttpResponseBase:
        return redirect("second-step") if lacks_second_step(request) else view(request, **rest)

    return known_page(guarded)


def known_page(view: View) -> View:
    """Let everybody in who is signed in; who is not is asked to, and what was typed is kept meanwhile."""

    @wraps(view)
    def guarded(request: HttpRequest, **rest: Any) -> HttpResponseBase:
        if request.user.is_authenticated:
            return view(request, **rest)
        if request.method == "POST":
            return sign_in_again(request)
        return redirect_to_login(request.get_full_path())

    return guarded


def page_for(*roles: Role) -> Callable[[View], View]:
    """Let members with one of the roles in; the view gets the composer with the request, not as an argument."""

    def guard(view: View) -> View:
        @wraps(view)
        def guarded(request: CatalogueRequest, composer: str, **rest: Any) -> HttpResponseBase:
            seat, of_user = seat_of(request.user, composer)
            request.composer, request.role = seat.composer, seat.role
            request.can_edit = seat.role in KEEPERS_OF_MATERIAL
            request.is_librarian = seat.role == Role.LIBRARIAN
            request.has_several = of_user > 1
            if seat.role not in roles:
                raise PermissionDenied
            return view(request, **rest)

        return signed_in_page(guarded)

    return guard


member_page = page_for(*READERS)
material_page = page_for(*READERS_OF_MATERIAL)
editor_page = page_for(*EDITORS)
material_editor_page = page_for(*KEEPERS_OF_MATERIAL)
owner_page = page_for(Role.OWNER)


def house_page(view: View) -> View:
    """Let everybody in who is signed in; the view shows what their memberships allow, of all composers together."""

    @wraps(view)
    def guarded(request: HouseRequest, **rest: Any) -> HttpResponseBase:
        request.seats = seats_of(request.user)
        return view(request, **rest)

    return signed_in_page(guarded)
