"""What every secret address keeps that is sent to somebody without an account."""

from __future__ import annotations

from django.db import models


class SecretAddress(models.Model):
    """An address that is shown once and runs out; of its token, 256 random bits, only the SHA-256 is kept.

    ``withdrawn_at`` is when it was shut; ``first_read_at``, ``last_read_at`` and ``times_read`` say how it was opened.
    """

    sent_at = models.DateTimeField()
    token_sha256 = models.CharField(max_length=64, unique=True)
    expires_at = models.DateTimeField()
    withdrawn_at = models.DateTimeField(null=True)
    first_read_at = models.DateTimeField(null=True)
    last_read_at = models.DateTimeField(null=True)
    times_read = models.PositiveIntegerField(default=0)

    class Meta:
        abstract = True
