"""Who keeps which of the catalogues that somebody owns: one table, and a way to let somebody into several at once."""

from __future__ import annotations

from django.http import HttpResponse
from django.shortcuts import redirect, render
from django.utils import timezone
from django.utils.translation import gettext as _
from django.views.decorators.http import require_http_methods

from catalogue.actions.members import MemberError, add_to_several
from catalogue.models import Composer
from catalogue.terms import Role
from catalogue.web.access import HouseRequest, house_page
from catalogue.web.forms.members import HouseMemberForm
from catalogue.web.house import composers_as, keepers_page
from catalogue.web.invitations import give_way_in
from catalogue.web.mails import sends_mail
from catalogue.web.notices import say


@house_page
@require_http_methods(["GET", "POST"])
def house_members(request: HouseRequest) -> HttpResponse:
    """/house/members/ — the members of the catalogues that one owns, with their roles, eight side by side."""
    ours = composers_as(request, (Role.OWNER,))
    form = HouseMemberForm(request.POST if request.method == "POST" else None, composers=ours, sends_mail=sends_mail())
    if form.is_bound and form.is_valid():
        try:
            return let_in(request, form, [one for one in ours if one.slug in form.cleaned_data["composers"]])
        except MemberError as refused:
            form.add_error("user_name", refused.reason)
    return render(request, "house/members.html", {"form": form, "kept": keepers_page(request)})


def let_in(request: HouseRequest, form: HouseMemberForm, composers: list[Composer]) -> HttpResponse:
    """Let somebody in and say so; somebody new gets one address, by mail or shown this once."""
    user_name, role, email = form.added()
    added = add_to_several(
        composers=composers, user_name=user_name, role=role, now=timezone.now(), email=email, by=request.user
    )
    member = added.membership.user
    if not added.token:
        say(request, _("“%(name)s” is let in, and signs in as usual.") % {"name": member.username})
        return redirect("house-members")
    way = give_way_in(added.token, member=member, inviter=request.user, composers=composers)
    if not way.is_sent:
        return render(request, "house/member_code.html", {"way": way})
    say(request, _("The way in is sent to %(email)s.") % {"email": member.email})
    return redirect("house-members")
