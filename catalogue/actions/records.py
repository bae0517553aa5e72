"""Writing the records around works: saved with the people and bodies that they are the first to name."""

from __future__ import annotations

from collections.abc import Iterable
from datetime import datetime
from typing import Any

from django.db import transaction

from catalogue.actions.performances import save_venue
from catalogue.actions.saving import check, latest_of, refuse_overtaken, store
from catalogue.models import Venue
from catalogue.models.records import Guarded


@transaction.atomic
def save_record(*, record: Guarded, now: datetime, with_new: Iterable[str] = ()) -> None:
    """Save a record; ``with_new`` are the columns that name people or bodies of the catalogue to be stored before it.

    What hangs on the record follows it, as performances do their hall.
    Raises ValidationError for what must not be stored, Overtaken where somebody saved it in between.
    """
    if isinstance(record, Venue):
        save_venue(venue=record, now=now)
        return
    refuse_overtaken(record, latest_of(record))
    for column in with_new:
        named: Any = getattr(record, column)
        check(named)
        named.save()
        setattr(record, column, named)
    store(record, now)
