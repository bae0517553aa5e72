"""Switching the second step of signing in on and off, and taking its codes: each once, and few wrong ones in a row."""

from __future__ import annotations

import re
import secrets
from datetime import datetime, timedelta

import pyotp
from django.contrib.auth.models import User
from django.db import transaction
from django.utils.crypto import constant_time_compare

from catalogue.actions.sealed_secrets import SecretUnreadable, sealed, unsealed
from catalogue.models import RecoveryCode, SecondFactor
from catalogue.models.people import sha256_of
from catalogue.rules.refused import Refused

STEP = 30  # seconds, as RFC 6238 proposes
DRIFT = (0, -1, 1)  # steps by which a telephone's clock may be off
WRONG_IN_A_ROW, PAUSE = 5, timedelta(minutes=15)
RECOVERY_CODES, LETTERS = 10, "abcdefghjkmnpqrstuvwxyz23456789"
GROUPS, IN_GROUP = 4, 6  # 118 bits: from 112 on a plain hash is enough to keep (ASVS 5.0.0, 6.5.2)
CODE = re.compile(r"\d{6}")


class CodeRefused(Refused):
    """A code that lets nobody in; ``reason`` says why."""


def factor_of(user: User) -> SecondFactor | None:
    """Return the second step of somebody who has switched it on."""
    return SecondFactor.objects.filter(user=user, confirmed_at__isnull=False).first()


def begun_by(user: User) -> SecondFactor | None:
    """Return the second step that somebody has begun to set up and not yet confirmed."""
    return SecondFactor.objects.filter(user=user, confirmed_at__isnull=True).first()


@transaction.atomic
def begin(*, user: User, now: datetime) -> None:
    """Make a secret for a telephone to take; one that counts already stays, unless it cannot be read any more."""
    User.objects.select_for_update().get(pk=user.pk)  # so that a form sent twice makes one secret
    factor = factor_of(user)
    if factor is None or secret_of(factor) is None:
        SecondFactor.objects.filter(user=user).delete()
        SecondFactor.objects.create(user=user, sealed_secret=sealed(pyotp.random_base32()), made_at=now)


def secret_of(factor: SecondFactor) -> str | None:
    """Return what the codes are reckoned from; nothing where it was sealed under a key that this site does not have."""
    try:
        return unsealed(factor.sealed_secret)
    except SecretUnreadable:
        return None


def address_for_telephones(secret: str, *, name: str, issuer: str) -> str:
    """Return what programs that reckon codes read from a picture (the form ``otpauth://totp/…``)."""
    return pyotp.TOTP(secret).provisioning_uri(name=name, issuer_name=issuer)


def confirm(*, user: User, code: str, now: datetime) -> tuple[str, ...]:
    """Switch the second step on, where a code shows that the telephone has the secret; return the recovery codes.

    Raises CodeRefused.
    """
    take_code(user=user, code=code, now=now, begun=True)
    with transaction.atomic():
        SecondFactor.objects.filter(user=user).update(confirmed_at=now)
        return make_recovery_codes(user=user)


@transaction.atomic
def make_recovery_codes(*, user: User) -> tuple[str, ...]:
    """Return fresh recovery codes, shown this once; those before them open nothing any more."""
    factor = SecondFactor.objects.get(user=user)
    factor.codes.all().delete()
    codes = tuple("-".join(letters(IN_GROUP) for _group in range(GROUPS)) for _code in range(RECOVERY_CODES))
    RecoveryCode.objects.bulk_create(RecoveryCode(factor=factor, code_sha256=digest_of(code)) for code in codes)
    return codes


def letters(number: int) -> str:
    return "".join(secrets.choice(LETTERS) for _letter in range(number))


def digest_of(code: str) -> str:
    return sha256_of(re.sub(r"[^a-z0-9]", "", code.casefold()))


def switch_off(*, user: User) -> None:
    """Let somebody sign in with name and password alone; their secret and recovery codes are gone."""
    SecondFactor.objects.filter(user=user).delete()


def take_code(*, user: User, code: str, now: datetime, begun: bool = False) -> None:
    """Take a code of the telephone, or a recovery code, which is used up by it. Raises CodeRefused."""
    with transaction.atomic():
        factors = SecondFactor.objects.select_for_update().filter(user=user, confirmed_at__isnull=begun)
        factor = factors.first()
        if factor is None:
            raise CodeRefused("The second step is not switched on.")
        if factor.failures >= WRONG_IN_A_ROW and factor.failed_at and now - factor.failed_at < PAUSE:
            raise CodeRefused("The code was wrong too often; try again in a quarter of an hour.")
        taken = takes(factor, code, now)
        factor.failures = 0 if taken else factor.failures % WRONG_IN_A_ROW + 1
        factor.failed_at = None if taken else now
        factor.save(update_fields=["failures", "failed_at", "last_step", "sealed_secret"])
    if not taken:
        raise CodeRefused("This code is wrong, was used already, or has run out; take the one that is shown now.")


def takes(factor: SecondFactor, code: str, now: datetime) -> bool:
    digits = code.replace(" ", "")
    if CODE.fullmatch(digits):
        return takes_of_telephone(factor, digits, now)
    if factor.confirmed_at is None:
        return False
    return factor.codes.filter(code_sha256=digest_of(code), used_at__isnull=True).update(used_at=now) == 1


def takes_of_telephone(factor: SecondFactor, digits: str, now: datetime) -> bool:
    """Say whether a code is one of the last minute; the secret is then sealed anew, so that an old key may go."""
    secret, step = secret_of(factor), int(now.timestamp()) // STEP
    if secret is None:
        return False
    for near in (step + drift for drift in DRIFT):
        if near > factor.last_step and constant_time_compare(pyotp.TOTP(secret).generate_otp(near), digits):
            factor.last_step, factor.sealed_secret = near, sealed(secret)
            return True
    return False
