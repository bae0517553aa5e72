"""One's own way in: the password, the address for the way back."""

from __future__ import annotations

from django.contrib.auth import update_session_auth_hash
from django.http import HttpResponse
from django.shortcuts import redirect, render
from django.utils.translation import gettext as _
from django.views.decorators.debug import sensitive_post_parameters
from django.views.decorators.http import require_http_methods, require_safe

from catalogue.actions.second_factors import factor_of
from catalogue.web.access import SignedInRequest, signed_in_page
from catalogue.web.forms.sign import ChangePasswordForm, MailAddressForm
from catalogue.web.mails import sends_mail
from catalogue.web.notices import say


@signed_in_page
@require_safe
def account(request: SignedInRequest) -> HttpResponse:
    """/account/ — how one signs in, and where each part of it is changed."""
    return render(
        request, "account/account.html", {"sends_mail": sends_mail(), "has_second_step": bool(factor_of(request.user))}
    )


@sensitive_post_parameters("password")
@signed_in_page
@require_http_methods(["GET", "POST"])
def mail_address(request: SignedInRequest) -> HttpResponse:
    """/account/address/ — one's own e-mail address; the password is asked, for whoever has the address gets in."""
    typed = request.POST if request.method == "POST" else None
    form = MailAddressForm(request.user, typed, initial={"email": request.user.email})
    if not form.is_bound or not form.is_valid():
        return render(request, "account/mail_address.html", {"form": form})
    request.user.email = form.cleaned_data["email"]
    request.user.save(update_fields=["email"])
    say(
        request, _("Your e-mail address is noted.") if request.user.email else _("No e-mail address is noted any more.")
    )
    return redirect("account")


@sensitive_post_parameters()
@signed_in_page
@require_http_methods(["GET", "POST"])
def password_change(request: SignedInRequest) -> HttpResponse:
    """/account/password/ — a new password; other browsers in which one is signed in are signed out."""
    form = ChangePasswordForm(request.user, request.POST if request.method == "POST" else None)
    if not form.is_bound or not form.is_valid():
        return render(request, "account/password_change.html", {"form": form})
    form.save()
    update_session_auth_hash(request, form.user)
    say(request, _("Your password is changed. Other browsers in which you were signed in ask for it."))
    return redirect("home")
