"""Who keeps the catalogue: its owners let others in, say what they may do, and take them out."""

from __future__ import annotations

from django.http import HttpResponse
from django.shortcuts import get_object_or_404, redirect, render
from django.utils import timezone
from django.utils.translation import gettext as _
from django.views.decorators.http import require_http_methods, require_POST

from catalogue.actions.members import (
    MemberError,
    add_member,
    change_role,
    make_member_code,
    may_have_code,
    remove_member,
)
from catalogue.models import Membership
from catalogue.terms import Role
from catalogue.web.access import CatalogueRequest, owner_page
from catalogue.web.forms.members import MemberForm, RoleForm
from catalogue.web.invitations import give_way_in
from catalogue.web.mails import sends_mail
from catalogue.web.notices import say


@owner_page
@require_http_methods(["GET", "POST"])
def member_list(request: CatalogueRequest) -> HttpResponse:
    """/c/<composer>/profile/members/ — the members, each with what they may do; and a form to let somebody in."""
    form = MemberForm(request.POST if request.method == "POST" else None, sends_mail=sends_mail())
    if form.is_bound and form.is_valid():
        user_name, role, email = form.added()
        now = timezone.now()
        try:
            added = add_member(
                composer=request.composer, user_name=user_name, role=role, now=now, email=email, by=request.user
            )
        except MemberError as refused:
            form.add_error("user_name", refused.reason)
        else:
            if added.token:
                return hand_over(request, added.membership, added.token)
            say(request, _("“%(name)s” is let in, and signs in as usual.") % {"name": added.membership.user.username})
            return redirect("member-list", request.composer.slug)
    return list_page(request, form)


def list_page(request: CatalogueRequest, form: MemberForm, *, wrong: str = "") -> HttpResponse:
    ours = Membership.objects.filter(composer=request.composer).select_related("user").order_by("pk")
    members = [(one, roles_of(one), may_have_code(one, by=request.user)) for one in ours]
    context = {"form": form, "members": members, "wrong": wrong}
    return render(request, "members/member_list.html", context, status=409 if wrong else 200)


def roles_of(membership: Membership) -> RoleForm:
    return RoleForm(initial={"role": membership.role}, prefix=prefix_of(membership.pk))


def prefix_of(member: int) -> str:
    return f"member-{member}"


def new_form() -> MemberForm:
    return MemberForm(sends_mail=sends_mail())


def hand_over(request: CatalogueRequest, membership: Membership, token: str) -> HttpResponse:
    """Send the way in and say so, or show it to be handed over."""
    member = membership.user
    way = give_way_in(token, member=member, inviter=request.user, composers=[request.composer])
    if way.is_sent:
        say(request, _("The way in is sent to %(email)s.") % {"email": member.email})
        return redirect("member-list", request.composer.slug)
    return render(request, "members/member_code.html", {"way": way})


def member_of(request: CatalogueRequest, member: int) -> Membership:
    ours = Membership.objects.filter(composer=request.composer).select_related("user")
    return get_object_or_404(ours, pk=member)


@owner_page
@require_POST
def member_change(request: CatalogueRequest, member: int) -> HttpResponse:
    """/c/<composer>/profile/members/<member>/ — says what a member may do from now on."""
    membership = member_of(request, member)
    form = RoleForm(request.POST, prefix=prefix_of(member))
    if not form.is_valid():
        return list_page(request, new_form(), wrong=_("Choose what the member may do."))
    try:
        change_role(membership=membership, role=Role(form.cleaned_data["role"]))
    except MemberError as refused:
        return list_page(request, new_form(), wrong=refused.reason)
    say(request, _("What “%(name)s” may do is changed.") % {"name": membership.user.username})
    return after_change(request, membership)


@owner_page
@require_POST
def member_remove(request: CatalogueRequest, member: int) -> HttpResponse:
    """/c/<composer>/profile/members/<member>/remove/ — takes a member out; what they have written stays."""
    membership = member_of(request, member)
    try:
        remove_member(membership=membership)
    except MemberError as refused:
        return list_page(request, new_form(), wrong=refused.reason)
    say(request, _("“%(name)s” is no member any more.") % {"name": membership.user.username})
    return after_change(request, membership)


def after_change(request: CatalogueRequest, membership: Membership) -> HttpResponse:
    """Go back to the list; whoever has just changed what they may do themselves goes on to their first page."""
    if request.POST.get("then") == "house":
        return redirect("house-members")
    if membership.user_id == request.user.pk and not (membership.pk and membership.role == Role.OWNER):
        return redirect("home")
    return redirect("member-list", request.composer.slug)


@owner_page
@require_POST
def member_code(request: CatalogueRequest, member: int) -> HttpResponse:
    """/c/<composer>/profile/members/<member>/code/ — a new code for a member who has not come in yet."""
    membership = member_of(request, member)
    try:
        token = make_member_code(membership=membership, now=timezone.now(), by=request.user)
    except MemberError as refused:
        return list_page(request, new_form(), wrong=refused.reason)
    return hand_over(request, membership, token)
