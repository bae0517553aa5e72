"""Who keeps which of the catalogues that somebody owns: one table, and a way to let somebody into several at once."""

from __future__ import annotations

from django.conf import settings
from django.http import HttpResponse
from django.shortcuts import redirect, render
from django.urls import reverse
from django.utils import timezone
from django.utils.translation import gettext as _
from django.views.decorators.http import require_http_methods

from catalogue.actions.members import MemberError, add_to_several
from catalogue.models import Composer
from catalogue.terms import Role
from catalogue.web.access import HouseRequest, house_page
from catalogue.web.forms.members import HouseMemberForm
from catalogue.web.house import composers_as, keepers_page
from catalogue.web.notices import say


@house_page
@require_http_methods(["GET", "POST"])
def house_members(request: HouseRequest) -> HttpResponse:
    """/house/members/ — the members of the catalogues that one owns, with their roles, eight side by side."""
    ours = composers_as(request, (Role.OWNER,))
    form = HouseMemberForm(request.POST if request.method == "POST" else None, composers=ours, sends_mail=False)
    if form.is_bound and form.is_valid():
        try:
            return let_in(request, form, [one for one in ours if one.slug in form.cleaned_data["composers"]])
        except MemberError as refused:
            form.add_error("user_name", refused.reason)
    return render(request, "house/members.html", {"form": form, "kept": keepers_page(request)})


def let_in(request: HouseRequest, form: HouseMemberForm, composers: list[Composer]) -> HttpResponse:
    """Let somebody in and say so; somebody new gets an address, which is shown this once."""
    user_name, role, _no_mail = form.added()
    added = add_to_several(composers=composers, user_name=user_name, role=role, now=timezone.now())
    if added.token:
        address = settings.SITE_URL + reverse("join", args=[added.token])
        return render(request, "house/member_code.html", {"member": added.membership.user, "address": address})
    say(request, _("“%(name)s” is let in, and signs in as usual.") % {"name": added.membership.user.username})
    return redirect("house-members")
