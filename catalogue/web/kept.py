"""What somebody typed while their session ran out: kept in the sign-in form itself, signed, and offered again."""

from __future__ import annotations

from dataclasses import dataclass

from django.core import signing
from django.http import HttpRequest, HttpResponse
from django.shortcuts import render

from catalogue.web.forms.sign import SignInForm

SALT = "catalogue.kept"
KEPT_FOR = 24 * 3600  # seconds
NOT_TYPED = "csrfmiddlewaretoken"


@dataclass(frozen=True, slots=True)
class Typed:
    """The fields of a form that was sent, and the address it was sent to."""

    address: str
    fields: tuple[tuple[str, str], ...]


def typed_in(request: HttpRequest) -> Typed:
    """Return what was typed, without any password."""
    sent = ((name, values) for name, values in request.POST.lists() if name != NOT_TYPED and "password" not in name)
    fields = [(name, value) for name, values in sent for value in values]
    return Typed(request.get_full_path(), tuple(fields))


def keep(typed: Typed) -> str:
    return signing.dumps([typed.address, typed.fields], salt=SALT, compress=True)


def take_up(kept: str) -> Typed | None:
    """Return what was kept, or None where the text is not ours or older than a day."""
    try:
        address, fields = signing.loads(kept, salt=SALT, max_age=KEPT_FOR)
    except signing.BadSignature:
        return None
    return Typed(address, tuple((name, value) for name, value in fields))


def sign_in_again(request: HttpRequest) -> HttpResponse:
    """Answer a form that was sent without a session: sign in, then send it again."""
    context = {"form": SignInForm(), "kept": keep(typed_in(request)), "next": request.get_full_path()}
    return render(request, "sign/sign_in.html", context, status=403)
