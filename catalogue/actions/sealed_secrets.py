"""Secrets that have to be read again, as the database holds them: covered and sealed under the site's secret key.

A database or a backup alone tells none of them; the key lies elsewhere (``LEDGERLINE_SECRET_KEY`` or ``secret.key``).
Each secret is covered once by a pad of its own, the HMAC-SHA-256 of a fresh salt under a key derived from the site's,
and sealed by another HMAC over salt and cover. No library of ciphers is needed for 32 bytes; longer ones are refused.
"""

from __future__ import annotations

import secrets
from base64 import urlsafe_b64decode, urlsafe_b64encode

from django.conf import settings
from django.utils.crypto import constant_time_compare, salted_hmac

SALT, LONGEST = 16, 32
PAD_OF, SEAL_OF = "catalogue.sealed_secrets.pad", "catalogue.sealed_secrets.seal"


class SecretUnreadable(ValueError):
    """A secret that was sealed under a key that this site does not have, or that was changed since."""


def hmac_of(purpose: str, told: bytes, key: str) -> bytes:
    return salted_hmac(purpose, told, secret=key, algorithm="sha256").digest()


def covered(text: bytes, pad: bytes) -> bytes:
    return bytes(one ^ other for one, other in zip(text, pad[: len(text)], strict=True))


def sealed(secret: str) -> str:
    """Return a secret of 32 bytes at most as it may be stored; each time differently."""
    plain, salt = secret.encode("ascii"), secrets.token_bytes(SALT)
    if len(plain) > LONGEST:
        raise ValueError("A secret longer than 32 bytes has no pad that covers it.")
    body = salt + covered(plain, hmac_of(PAD_OF, salt, settings.SECRET_KEY))
    return urlsafe_b64encode(hmac_of(SEAL_OF, body, settings.SECRET_KEY) + body).decode("ascii")


def unsealed(stored: str) -> str:
    """Return the secret, sealed under the site's key or one that it had before. Raises SecretUnreadable."""
    try:
        told = urlsafe_b64decode(stored)
    except ValueError as fault:
        raise SecretUnreadable(stored) from fault
    seal, body = told[:LONGEST], told[LONGEST:]
    salt, cover = body[:SALT], body[SALT:]
    for key in (settings.SECRET_KEY, *settings.SECRET_KEY_FALLBACKS):
        if constant_time_compare(seal, hmac_of(SEAL_OF, body, key)):
            return covered(cover, hmac_of(PAD_OF, salt, key)).decode("ascii")
    raise SecretUnreadable(stored)
