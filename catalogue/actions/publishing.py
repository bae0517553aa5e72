"""What of a catalogue everybody may see: whether its public pages are open, and which works stand on them."""

from __future__ import annotations

from collections.abc import Collection
from datetime import datetime

from django.db import transaction

from catalogue.models import Composer, Work


@transaction.atomic
def publish(*, composer: Composer, is_open: bool, works: Collection[int], now: datetime) -> int:
    """Open or shut the public pages and put just these works on them; return how many stand there.

    Keys that are none of the composer's works are passed over.
    """
    if composer.is_public is not is_open:
        composer.is_public = is_open
        composer.save(update_fields=["is_public"])
    chosen = set(works)
    ours = Work.objects.filter(composer=composer)
    for work in ours.filter(is_public=True).exclude(pk__in=chosen) | ours.filter(is_public=False, pk__in=chosen):
        work.is_public, work.saves, work.changed_at = work.pk in chosen, work.saves + 1, now
        work.save(update_fields=["is_public", "saves", "changed_at"])
    return ours.filter(is_public=True).count()
