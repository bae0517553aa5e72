"""The second step of signing in: asked after the password, and switched on and off on pages of one's own."""

from __future__ import annotations

import segno
from django.conf import settings
from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.utils import timezone
from django.utils.translation import gettext as _
from django.views.decorators.debug import sensitive_post_parameters
from django.views.decorators.http import require_http_methods, require_POST, require_safe

from catalogue.actions.second_factors import (
    CodeRefused,
    address_for_telephones,
    begin,
    begun_by,
    confirm,
    factor_of,
    make_recovery_codes,
    secret_of,
    switch_off,
    take_code,
)
from catalogue.web.access import SignedInRequest, known_page
from catalogue.web.forms.sign import CodeForm, PasswordAskedForm
from catalogue.web.notices import say
from catalogue.web.second_step import is_owner_somewhere, let_in, note_done, who_waits
from catalogue.web.views.sign import go_on

ISSUER = "Ledgerline"


@sensitive_post_parameters("code")
@require_http_methods(["GET", "POST"])
def sign_in_code(request: HttpRequest) -> HttpResponse:
    """/sign-in/code/ — the code, after the password; what was typed before signing in waits along."""
    user = who_waits(request)
    if user is None:
        return redirect("sign-in")
    form = CodeForm(request.POST if request.method == "POST" else None)
    if form.is_bound and form.is_valid():
        try:
            take_code(user=user, code=form.cleaned_data["code"], now=timezone.now())
        except CodeRefused as refused:
            form.add_error("code", refused.reason)
        else:
            let_in(request, user)
            return go_on(request)
    asked = request.POST if request.method == "POST" else request.GET
    context = {"form": form, "next": asked.get("next", ""), "kept": request.POST.get("kept", "")}
    return render(request, "sign/code.html", context)


# ---- on and off


@known_page
@require_safe
def second_step(request: SignedInRequest) -> HttpResponse:
    """/account/second-step/ — whether it is on, and how it is switched on or off."""
    return page(request, CodeForm(), PasswordAskedForm(request.user))


def page(request: SignedInRequest, code_form: CodeForm, password_form: PasswordAskedForm) -> HttpResponse:
    factor, begun = factor_of(request.user), begun_by(request.user)
    context: dict[str, object] = {
        "factor": factor,
        "left": factor.codes.filter(used_at__isnull=True).count() if factor else 0,
        "begun": begun,
        "is_unreadable": any(one and secret_of(one) is None for one in (factor, begun)),
        "code_form": code_form,
        "password_form": password_form,
        "form": code_form if code_form.errors else password_form,
        "is_needed": is_needed(request),
    }
    if begun and (secret := secret_of(begun)):
        told = address_for_telephones(secret, name=request.user.get_username(), issuer=ISSUER)
        context["secret"], context["telephone"] = secret, told
        context["picture"] = segno.make(told, error="m", micro=False).svg_data_uri(scale=5, border=4, light="#fff")
    return render(request, "account/second_step.html", context)


def is_needed(request: SignedInRequest) -> bool:
    return settings.OWNERS_NEED_SECOND_STEP and is_owner_somewhere(request.user)


@known_page
@require_POST
def second_step_begin(request: SignedInRequest) -> HttpResponse:
    """/account/second-step/begin/ — makes the secret, which the page then shows until a code confirms it."""
    begin(user=request.user, now=timezone.now())
    return redirect("second-step")


@sensitive_post_parameters()
@known_page
@require_POST
def second_step_confirm(request: SignedInRequest) -> HttpResponse:
    """/account/second-step/confirm/ — a code and the password switch it on; then come the recovery codes."""
    if begun_by(request.user) is None:
        return redirect("second-step")
    code_form, password_form = CodeForm(request.POST), PasswordAskedForm(request.user, request.POST)
    if not (code_form.is_valid() & password_form.is_valid()):
        return page(request, code_form, password_form)
    try:
        codes = confirm(user=request.user, code=code_form.cleaned_data["code"], now=timezone.now())
    except CodeRefused as refused:
        code_form.add_error("code", refused.reason)
        return page(request, code_form, password_form)
    note_done(request)
    return render(request, "account/recovery_codes.html", {"codes": codes})


@sensitive_post_parameters()
@known_page
@require_POST
def second_step_codes(request: SignedInRequest) -> HttpResponse:
    """/account/second-step/codes/ — fresh recovery codes, for the password; the ones before are worth nothing then."""
    form = PasswordAskedForm(request.user, request.POST)
    if factor_of(request.user) is None:
        return redirect("second-step")
    if not form.is_valid():
        return page(request, CodeForm(), form)
    return render(request, "account/recovery_codes.html", {"codes": make_recovery_codes(user=request.user)})


@sensitive_post_parameters()
@known_page
@require_POST
def second_step_off(request: SignedInRequest) -> HttpResponse:
    """/account/second-step/off/ — without it from now on, for the password; not where the house asks owners for it."""
    form = PasswordAskedForm(request.user, request.POST)
    if is_needed(request) or factor_of(request.user) is None:
        return redirect("second-step")
    if not form.is_valid():
        return page(request, CodeForm(), form)
    switch_off(user=request.user)
    say(request, _("The second step is switched off; name and password are enough again."))
    return redirect("account")
