"""Noting that a catalogue was handed over, or taken over."""

from __future__ import annotations

from datetime import datetime

from django.contrib.auth.models import User

from catalogue.models import Composer, HandOver
from catalogue.terms import HandOverWay


def note_given(*, composer: Composer, to: str, sha256: str, records: int, by: User | None, now: datetime) -> HandOver:
    columns = {"party": to, "sha256": sha256, "records": records, "by": by, "made_at": now}
    return HandOver.objects.create(composer=composer, way=HandOverWay.GIVEN.value, **columns)


def note_taken(*, composer: Composer, sha256: str, records: int, by: User | None, now: datetime) -> HandOver:
    columns = {"sha256": sha256, "records": records, "by": by, "made_at": now}
    return HandOver.objects.create(composer=composer, way=HandOverWay.TAKEN.value, **columns)
