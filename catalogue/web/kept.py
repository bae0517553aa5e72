"""What somebody typed while their session ran out: kept in the sign-in form itself, signed, and offered again."""

from __future__ import annotations

import re
from collections.abc import Iterable
from dataclasses import dataclass

from django.core import signing
from django.http import HttpRequest, HttpResponse
from django.shortcuts import render

from catalogue.web.forms.sign import SignInForm

SALT = "catalogue.kept"
KEPT_FOR = 24 * 3600  # seconds
NOT_TYPED = "csrfmiddlewaretoken"
SENT_ALONG = re.compile(r"(^|-)(uid|saves|id|[A-Z]+_(FORMS|NUM)(_FORMS)?)$")


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


def typed_by_hand(fields: Iterable[tuple[str, str]]) -> list[tuple[str, str]]:
    """Return what a person typed, under what it is called; what pages send along for themselves is left out.

    >>> typed_by_hand([("saves", "3"), ("sort_name", "Brek"), ("rows-0-id", "7"), ("rows-0-part", "II"), ("place", "")])
    [('Sort name', 'Brek'), ('Rows 0 part', 'II')]
    """
    typed = ((name, value) for name, value in fields if value and not SENT_ALONG.search(name))
    return [(name.replace("_", " ").replace("-", " ").capitalize(), value) for name, value in typed]


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
