"""A composer's own marks of works and recordings, for the choice of what to send and for nothing else.

They are no part of the facts of a work, so that no paper, feed or public page can tell them.
"""

from __future__ import annotations

from django.db.models import Max

from catalogue.models import Composer, Recording, Work
from catalogue.rules.calls.choosing import Marks


def gather_marks(composer: Composer) -> Marks:
    """Return the marks of a catalogue: two queries. Of a work's recordings the best mark counts, kept or released."""
    works = Work.objects.filter(composer=composer, strength__isnull=False)
    recorded = Recording.objects.filter(work__composer=composer).values("work").order_by("work")
    return Marks(
        {pk: mark for pk, mark in works.values_list("pk", "strength") if mark is not None},
        dict(recorded.annotate(best=Max("quality")).values_list("work", "best")),
    )
