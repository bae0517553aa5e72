"""One's own way in: the password."""

from __future__ import annotations

from django.contrib.auth import update_session_auth_hash
from django.http import HttpResponse
from django.shortcuts import redirect, render
from django.utils.translation import gettext as _
from django.views.decorators.debug import sensitive_post_parameters
from django.views.decorators.http import require_http_methods

from catalogue.web.access import SignedInRequest, signed_in_page
from catalogue.web.forms.sign import ChangePasswordForm
from catalogue.web.notices import say


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
