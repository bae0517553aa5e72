"""Houses: the letterheads that the papers of several composers bear, and how these look.

A house is changed by whoever owns the catalogue of every composer under its roof; an owner puts a composer there.
"""

from __future__ import annotations

from typing import Any, cast

from csp.decorators import csp_update
from django.core.exceptions import ValidationError
from django.core.files.storage import default_storage
from django.db.models import QuerySet
from django.http import Http404, HttpResponse
from django.shortcuts import get_object_or_404, redirect, render
from django.utils import timezone
from django.utils.translation import gettext as _
from django.views.decorators.http import require_http_methods, require_POST, require_safe

from catalogue.actions.houses import dissolve_house, leave_house, save_house
from catalogue.actions.saving import Overtaken
from catalogue.exchange.pictures import MEDIA_TYPES, keep_picture
from catalogue.gathering.logos import bytes_of, logo_of_house
from catalogue.models import Composer, House
from catalogue.terms import Role
from catalogue.web.access import CatalogueRequest, HouseRequest, house_page, owner_page
from catalogue.web.conflicts import Conflict
from catalogue.web.forms.errors import add_errors
from catalogue.web.forms.houses import HouseForm
from catalogue.web.house import composers_as
from catalogue.web.notices import say
from catalogue.web.views.look import SELF


def kept_houses(request: HouseRequest) -> QuerySet[House]:
    return House.objects.kept_by(request.user)


@house_page
@require_safe
def house_list(request: HouseRequest) -> HttpResponse:
    """/house/letterheads/ — the houses that one keeps, each with the composers under its roof."""
    houses = kept_houses(request).prefetch_related("composers").order_by("name", "pk")
    owned = composers_as(request, (Role.OWNER,))
    return render(request, "houses/house_list.html", {"houses": houses, "owned": owned})


@house_page
@require_http_methods(["GET", "POST"])
def house_new(request: HouseRequest) -> HttpResponse:
    """/house/letterheads/new/ — a new house, for composers whose catalogues one owns."""
    return form_of(request, House())


@csp_update({"frame-src": [SELF]})
@house_page
@require_http_methods(["GET", "POST"])
def house_edit(request: HouseRequest, house: int) -> HttpResponse:
    """/house/letterheads/<house>/ — letterhead, logo and look, and a works list that wears them."""
    return form_of(request, get_object_or_404(kept_houses(request), pk=house))


def form_of(request: HouseRequest, house: House) -> HttpResponse:
    form, conflict = made_form(request, house), None
    if form.is_bound and form.is_valid():
        keep_logo(form, house)
        try:
            save_house(house=house, composers=form.chosen(), now=timezone.now())
        except Overtaken as overtaken:
            stored = made_form(request, cast(House, overtaken.latest), is_sent=False)
            conflict = Conflict.between(overtaken, form, stored)
            form = made_form(request, house, saves=overtaken.latest.saves)
        except ValidationError as refused:
            add_errors(form, refused)
        else:
            say(request, _("The house “%(name)s” is saved.") % {"name": house})
            return redirect("house-edit", house.pk)
    context: dict[str, Any] = {"form": form, "conflict": conflict, "house": house if house.pk else None}
    context["shown"] = house.composers.order_by("own_look", "sort_name").first() if house.pk else None
    return render(request, "houses/house_form.html", context)


def made_form(request: HouseRequest, house: House, *, saves: int | None = None, is_sent: bool = True) -> HouseForm:
    """Return the form as it was sent, with the number of saves that it is now up to, or an empty one."""
    typed = request.POST.copy() if request.method == "POST" and is_sent else None
    if typed is not None and saves is not None:
        typed["saves"] = str(saves)
    files = request.FILES if typed is not None else None
    return HouseForm(typed, files, instance=house, composers=offered(request, house), request=request)


def offered(request: HouseRequest, house: House) -> list[Composer]:
    """Return the composers who may be put under this roof: those whom one owns and who are under no other."""
    owned = composers_as(request, (Role.OWNER,))
    return [one for one in owned if one.house_id is None or one.house_id == house.pk]


def keep_logo(form: HouseForm, house: House) -> None:
    """Put the logo that was sent in the storage, or take the one off that was there."""
    probed = form.cleaned_data["logo"]
    if probed is not None:
        house.logo_sha256, house.logo_suffix = keep_picture(probed, default_storage), probed.suffix
    elif form.cleaned_data.get("without_logo"):
        house.logo_sha256 = house.logo_suffix = ""


@house_page
@require_POST
def house_dissolve(request: HouseRequest, house: int) -> HttpResponse:
    """/house/letterheads/<house>/dissolve/ — the papers of its composers are their own again."""
    found = get_object_or_404(kept_houses(request), pk=house)
    dissolve_house(house=found, now=timezone.now())
    say(
        request,
        _("The house “%(name)s” is dissolved; its composers’ papers look as they did before.") % {"name": found},
    )
    return redirect("house-list")


@owner_page
@require_POST
def house_leave(request: CatalogueRequest) -> HttpResponse:
    """/c/<composer>/profile/look/leave/ — takes the composer from under the roof of their house."""
    leave_house(composer=request.composer, now=timezone.now())
    say(request, _("Papers bear no letterhead of a house any more."))
    return redirect("look", request.composer.slug)


@house_page
@require_safe
def house_logo(request: HouseRequest, house: int) -> HttpResponse:
    """/house/letterheads/<house>/logo/ — the logo itself."""
    kept = logo_of_house(get_object_or_404(kept_houses(request), pk=house))
    if kept is None:
        raise Http404
    response = HttpResponse(bytes_of(kept), content_type=MEDIA_TYPES[kept.suffix])
    response.headers["Cross-Origin-Resource-Policy"] = "same-origin"
    return response
