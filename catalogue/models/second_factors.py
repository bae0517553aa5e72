"""The second step of somebody's signing in: a secret that their telephone keeps too, and codes for when it is lost."""

from __future__ import annotations

from django.conf import settings
from django.db import models


class SecondFactor(models.Model):
    """What codes are reckoned from (RFC 6238); it counts once ``confirmed_at`` says that the telephone has it.

    ``last_step`` is the newest half minute whose code was taken, so that no code is taken twice; ``failures`` are the
    wrong codes in a row, the last of them at ``failed_at``. The secret is stored as ``actions/sealed_secrets.py`` seals
    it: 80 bytes at most in the letters of Base64.
    """

    user = models.OneToOneField(settings.AUTH_USER_MODEL, on_delete=models.CASCADE, related_name="second_factor")
    sealed_secret = models.CharField(max_length=128)
    made_at = models.DateTimeField()
    confirmed_at = models.DateTimeField(null=True)
    last_step = models.BigIntegerField(default=0)
    failures = models.PositiveIntegerField(default=0)
    failed_at = models.DateTimeField(null=True)

    def __str__(self) -> str:
        return f"second step of {self.user_id}"


class RecoveryCode(models.Model):
    """A code that opens once in the place of the telephone's; only its SHA-256 is kept."""

    factor = models.ForeignKey(SecondFactor, on_delete=models.CASCADE, related_name="codes")
    code_sha256 = models.CharField(max_length=64)
    used_at = models.DateTimeField(null=True)

    class Meta:
        constraints = [models.UniqueConstraint(fields=["factor", "code_sha256"], name="recovery_code_once")]

    def __str__(self) -> str:
        return f"recovery code of {self.factor_id}"
