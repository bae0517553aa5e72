"""Secrets that are stored covered and sealed"""

from __future__ import annotations

from base64 import urlsafe_b64decode, urlsafe_b64encode
from typing import Any

import pytest
from cryptography.hazmat.primitives.ciphers.aead import AESGCM

from catalogue.actions.sealed_secrets import MARK, NONCE, SecretUnreadable, sealed, unsealed

SECRET = "JBSWY3DPEHPK3PXPJBSWY3DPEHPK3PXP"


def test_what_is_sealed_is_read_again_and_never_stands_plain() -> None:
    stored = [sealed(SECRET) for _time in range(20)]

    assert {unsealed(one) for one in stored} == {SECRET}
    assert len({bytes_of(one)[NONCE:] for one in stored}) == 20
    assert not any(SECRET.encode() in bytes_of(one) for one in stored)
    assert max(map(len, stored)) <= 128


def test_each_byte_that_is_changed_is_found() -> None:
    told = bytes_of(sealed(SECRET))
    for place in range(len(told)):
        changed = bytearray(told)
        changed[place] ^= 1
        with pytest.raises(SecretUnreadable):
            unsealed(MARK + urlsafe_b64encode(changed).decode())


@pytest.mark.parametrize("stored", ["", "a", SECRET, "é", "=" * 128, MARK, MARK + "a", MARK + "AAAA", MARK + "é"])
def test_what_was_never_sealed_is_refused(stored: str) -> None:
    with pytest.raises(SecretUnreadable):
        unsealed(stored)


def test_another_key_reads_nothing_unless_it_is_known_as_a_former_one(settings: Any) -> None:
    stored, key = sealed(SECRET), settings.SECRET_KEY
    settings.SECRET_KEY = "another"
    with pytest.raises(SecretUnreadable):
        unsealed(stored)

    settings.SECRET_KEY_FALLBACKS = ["older still", key]

    assert unsealed(stored) == SECRET


def test_what_was_sealed_in_the_earlier_way_is_read(settings: Any) -> None:
    settings.SECRET_KEY = "seven ropes pull at once"
    earlier = "KvaMcse2Eq4AQ-2RGUduLd20wnma_WVwX4RXs6WBdyIf68NU1LqD9aW_NF6aObzUcjRDFXWem3eOfqhP"
    earlier += "PqXqsW7K2E_QKIiMKOtdvzlwVz4="

    assert unsealed(earlier) == SECRET
    for place in range(0, len(earlier), 7):
        with pytest.raises(SecretUnreadable):
            unsealed(earlier[:place] + ("B" if earlier[place] == "A" else "A") + earlier[place + 1 :])
    settings.SECRET_KEY = "another"
    with pytest.raises(SecretUnreadable):
        unsealed(earlier)


def test_cipher_gives_what_the_standard_publishes() -> None:
    """Test case 14 of the paper that proposes the mode (McGrew and Viega 2005, appendix B): AES-256, all zeros."""
    zeros = AESGCM(bytes(32)).encrypt(bytes(12), bytes(16), None)

    assert zeros.hex() == "cea7403d4d606b6e074ec5d3baf39d18d0d1c8a799996bf0265b98b5d48ab919"


def bytes_of(stored: str) -> bytes:
    return urlsafe_b64decode(stored.removeprefix(MARK))
