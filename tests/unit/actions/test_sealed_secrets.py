"""Secrets that are stored covered and sealed"""

from __future__ import annotations

from base64 import urlsafe_b64decode, urlsafe_b64encode
from typing import Any

import pytest

from catalogue.actions.sealed_secrets import LONGEST, SALT, SecretUnreadable, sealed, unsealed

SECRET = "JBSWY3DPEHPK3PXPJBSWY3DPEHPK3PXP"


def test_what_is_sealed_is_read_again_and_never_stands_plain() -> None:
    stored = [sealed(SECRET) for _time in range(20)]

    assert {unsealed(one) for one in stored} == {SECRET}
    assert len({urlsafe_b64decode(one)[LONGEST + SALT :] for one in stored}) == 20
    assert not any(SECRET.encode() in urlsafe_b64decode(one) for one in stored)
    assert max(map(len, stored)) <= 128


def test_each_byte_that_is_changed_is_found() -> None:
    told = urlsafe_b64decode(sealed(SECRET))
    for place in range(len(told)):
        changed = bytearray(told)
        changed[place] ^= 1
        with pytest.raises(SecretUnreadable):
            unsealed(urlsafe_b64encode(changed).decode())


@pytest.mark.parametrize("stored", ["", "a", SECRET, "é", "=" * 128])
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


def test_a_secret_too_long_for_its_pad_is_refused() -> None:
    with pytest.raises(ValueError, match="no pad"):
        sealed("A" * (LONGEST + 1))
