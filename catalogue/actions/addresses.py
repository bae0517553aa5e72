"""What all secret addresses have in common: a token that is shown once, being shut, being read."""

from __future__ import annotations

import secrets
from datetime import datetime
from typing import Any

from django.db import models
from django.db.models import F

TOKEN_BYTES = 32


def new_token() -> str:
    """Return a token of 256 random bits, for an address."""
    return secrets.token_urlsafe(TOKEN_BYTES)


def check_typed(record: models.Model, *columns: str) -> None:
    """Raise ValidationError where what somebody typed into these columns must not be stored."""
    record.clean_fields(exclude={one.name for one in record._meta.concrete_fields} - set(columns))


def shut(record: Any, now: datetime) -> None:
    """Shut an address; what is known of its reading stays."""
    type(record).objects.filter(pk=record.pk, withdrawn_at__isnull=True).update(withdrawn_at=now)


def note_reading(record: Any, now: datetime) -> None:
    """Note that an address was opened."""
    rows = type(record).objects.filter(pk=record.pk)
    rows.filter(first_read_at__isnull=True).update(first_read_at=now)
    rows.update(last_read_at=now, times_read=F("times_read") + 1)
