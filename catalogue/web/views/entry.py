"""The ways in without a password: founding one's own catalogue, joining one, and looking round the demo."""

from __future__ import annotations

from django.contrib.auth import login
from django.contrib.auth.models import User
from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.utils import timezone
from django.utils.translation import gettext as _
from django.views.decorators.debug import sensitive_post_parameters
from django.views.decorators.http import require_http_methods, require_safe

from catalogue.actions.entry import KeyUsed, NameTaken, find_entry_key, found_catalogue
from catalogue.actions.members import join as join_catalogue
from catalogue.models import EntryPurpose, Membership
from catalogue.web.forms.members import JoinForm
from catalogue.web.forms.sign import NAME_TAKEN, FounderForm
from catalogue.web.notices import say

MODEL_BACKEND = "django.contrib.auth.backends.ModelBackend"


def secret(response: HttpResponse) -> HttpResponse:
    """Keep an address that holds a key out of other sites' referrers, of search engines and of caches.

    Under ``no-referrer`` a browser would send the form of the first visit with the origin ``null``, which the check
    against forged requests refuses.
    """
    response.headers["Referrer-Policy"] = "same-origin"
    response.headers["X-Robots-Tag"] = "noindex, nofollow, noarchive"
    response.headers["Cache-Control"] = "private, no-store"
    return response


def no_entry(request: HttpRequest) -> HttpResponse:
    """Answer the same whether the key was never given out, is used up or ran out."""
    return secret(render(request, "sign/no_entry.html", status=404))


@sensitive_post_parameters("password")
@require_http_methods(["GET", "POST"])
def start(request: HttpRequest, token: str) -> HttpResponse:
    """/start/<token>/ — the first visit: who the composer is, and how the owner signs in."""
    now = timezone.now()
    if find_entry_key(EntryPurpose.OWNER, token, now=now) is None:
        return no_entry(request)
    form = FounderForm(request.POST if request.method == "POST" else None)
    if not form.is_bound or not form.is_valid():
        return secret(render(request, "sign/start.html", {"form": form}))
    try:
        user = found_catalogue(token, form.founder(), now=now)
    except KeyUsed:
        return no_entry(request)
    except NameTaken:  # since the form was looked at
        form.add_error("user_name", NAME_TAKEN)
        return secret(render(request, "sign/start.html", {"form": form}))
    login(request, user, MODEL_BACKEND)
    say(request, _("Your catalogue is open. Next time, sign in with your name and password."))
    return secret(redirect("home"))


@sensitive_post_parameters("password")
@require_http_methods(["GET", "POST"])
def join(request: HttpRequest, token: str) -> HttpResponse:
    """/join/<token>/ — the first visit of a member: a password of their own. Only sending the form uses the code up."""
    now = timezone.now()
    key = find_entry_key(EntryPurpose.MEMBER, token, now=now)
    if key is None or key.user is None or not key.user.is_active:
        return no_entry(request)
    form = JoinForm(request.POST if request.method == "POST" else None, user=key.user)
    if not form.is_bound or not form.is_valid():
        return secret(
            render(request, "sign/join.html", {"form": form, "member": key.user, "names": names_for(key.user)})
        )
    try:
        user = join_catalogue(token, form.cleaned_data["password"], now=now)
    except KeyUsed:
        return no_entry(request)
    login(request, user, MODEL_BACKEND)
    say(request, _("You are in. Next time, sign in with your name and password."))
    return secret(redirect("home"))


def names_for(user: User) -> list[str]:
    """Return of whom the catalogues are into which somebody is let."""
    ours = Membership.objects.filter(user=user).order_by("composer__sort_name", "composer")
    return list(ours.values_list("composer__name", flat=True))


@require_safe
def enter(request: HttpRequest, token: str) -> HttpResponse:
    """/enter/<token>/ — signs in to the demo, whose address is printed where it was started."""
    key = find_entry_key(EntryPurpose.DEMO, token, now=timezone.now())
    if key is None or key.user is None or not key.user.is_active:
        return no_entry(request)
    login(request, key.user, MODEL_BACKEND)
    return secret(redirect("home"))
