"""Signing in and out."""

from __future__ import annotations

from django.conf import settings
from django.contrib.auth import login, logout
from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect, render, resolve_url
from django.utils.http import url_has_allowed_host_and_scheme
from django.views.decorators.debug import sensitive_post_parameters
from django.views.decorators.http import require_http_methods, require_POST

from catalogue.actions.second_factors import factor_of
from catalogue.web.forms.sign import CodeForm, SignInForm
from catalogue.web.kept import take_up
from catalogue.web.second_step import let_wait


@sensitive_post_parameters("password")
@require_http_methods(["GET", "POST"])
def sign_in(request: HttpRequest) -> HttpResponse:
    """/sign-in/ — name and password; then on to where one wanted to go, or to send again what was typed.

    What was typed is taken from the form alone: an address could offer what somebody else has typed.
    """
    asked = request.POST if request.method == "POST" else request.GET
    form = SignInForm(request, request.POST if request.method == "POST" else None)
    if not form.is_bound or not form.is_valid():
        context = {"form": form, "next": asked.get("next", ""), "kept": request.POST.get("kept", "")}
        return render(request, "sign/sign_in.html", context)
    if factor_of(form.get_user()):
        let_wait(request, form.get_user())
        context = {"form": CodeForm(), "next": asked.get("next", ""), "kept": request.POST.get("kept", "")}
        return render(request, "sign/code.html", context)
    login(request, form.get_user())
    return go_on(request)


def go_on(request: HttpRequest) -> HttpResponse:
    """Lead somebody who has just signed in to where they wanted to go, or let them send again what they typed."""
    typed = take_up(request.POST.get("kept", ""))
    if typed:
        return render(request, "sign/send_again.html", {"typed": typed.fields, "address": typed.address})
    return redirect(local_address(request, request.POST.get("next", "")))


def local_address(request: HttpRequest, wanted: str) -> str:
    """Return the wanted address where it stays on this site, else the catalogue's first page."""
    hosts = {request.get_host()}
    if wanted.startswith("/") and url_has_allowed_host_and_scheme(
        wanted, allowed_hosts=hosts, require_https=request.is_secure()
    ):
        return wanted
    return resolve_url(settings.LOGIN_REDIRECT_URL)


@require_POST
def sign_out(request: HttpRequest) -> HttpResponse:
    """/sign-out/ — ends the session, and has the browser forget the pages that it kept."""
    logout(request)
    response = redirect(settings.LOGOUT_REDIRECT_URL)
    response.headers["Clear-Site-Data"] = '"cache"'
    return response
