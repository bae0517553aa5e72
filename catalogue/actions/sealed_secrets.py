"""Secrets that have to be read again, as the database holds them: encrypted under the site's secret key.

A database or a backup alone tells none of them; the key lies elsewhere (``LEDGERLINE_SECRET_KEY`` or ``secret.key``).
Each is encrypted with AES-256 in Galois/counter mode (NIST SP 800-38D), with a fresh nonce of 96 bits, under a key
derived from the site's. What was sealed in an earlier way (``unsealed_as_before``) is read as well, and sealed anew
when it is used.
"""

from __future__ import annotations

import secrets
from base64 import urlsafe_b64decode, urlsafe_b64encode

from cryptography.exceptions import InvalidTag
from cryptography.hazmat.primitives.ciphers.aead import AESGCM
from django.conf import settings
from django.utils.crypto import constant_time_compare, salted_hmac

MARK = "2."
"""Stands before what is encrypted; it is no letter of Base64."""
NONCE = 12
PURPOSE = "catalogue.sealed_secrets"


class SecretUnreadable(ValueError):
    """A secret that was sealed under a key that this site does not have, or that was changed since."""


def sealed(secret: str) -> str:
    """Return a secret as it may be stored; each time differently."""
    nonce = secrets.token_bytes(NONCE)
    hidden = cipher(settings.SECRET_KEY).encrypt(nonce, secret.encode("ascii"), None)
    return MARK + urlsafe_b64encode(nonce + hidden).decode("ascii")


def cipher(key: str) -> AESGCM:
    return AESGCM(hmac_of(f"{PURPOSE}.key", b"", key))


def unsealed(stored: str) -> str:
    """Return the secret, sealed under the site's key or one that it had before. Raises SecretUnreadable."""
    if not stored.startswith(MARK):
        return unsealed_as_before(stored)
    told = bytes_of(stored.removeprefix(MARK))
    for key in keys():
        try:
            return cipher(key).decrypt(told[:NONCE], told[NONCE:], None).decode("ascii")
        except (InvalidTag, ValueError):  # another key's, or too short to be anything
            continue
    raise SecretUnreadable(stored)


def keys() -> tuple[str, ...]:
    return (settings.SECRET_KEY, *settings.SECRET_KEY_FALLBACKS)


def bytes_of(stored: str) -> bytes:
    try:
        return urlsafe_b64decode(stored)
    except ValueError as fault:
        raise SecretUnreadable(stored) from fault


def hmac_of(purpose: str, told: bytes, key: str) -> bytes:
    return salted_hmac(purpose, told, secret=key, algorithm="sha256").digest()


# ---- as it was done before: covered by an HMAC of a salt, sealed by another over both


def unsealed_as_before(stored: str) -> str:
    told = bytes_of(stored)
    seal, body = told[:32], told[32:]
    salt, cover = body[:16], body[16:]
    for key in keys():
        if constant_time_compare(seal, hmac_of(f"{PURPOSE}.seal", body, key)):
            pad = hmac_of(f"{PURPOSE}.pad", salt, key)
            return bytes(one ^ other for one, other in zip(cover, pad, strict=False)).decode("ascii")
    raise SecretUnreadable(stored)
