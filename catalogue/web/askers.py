"""From where a request comes: the address next to us, or, behind proxies that we were told of, the one they name."""

from __future__ import annotations

from django.conf import settings
from django.http import HttpRequest


def address_of(request: HttpRequest) -> str:
    """Return the address of whoever asks.

    Each proxy adds the address that it was asked by at the right of ``X-Forwarded-For``; of so many proxies as we were
    told of the words are believed, and whatever stands further left may be made up.
    """
    near = str(request.META.get("REMOTE_ADDR", ""))
    proxies: int = settings.PROXIES
    named = [one.strip() for one in request.headers.get("X-Forwarded-For", "").split(",") if one.strip()]
    return named[-proxies] if 0 < proxies <= len(named) else near
