"""The playings of a catalogue as plain rows to be added up; the number of queries does not grow with it."""

from __future__ import annotations

from datetime import date
from typing import Any

from django.db.models import Q

from catalogue.gathering.readings import readable
from catalogue.models import Composer, PerformanceCredit, ProgrammedWork, Work
from catalogue.rules.playings import DID_NOT_HAPPEN
from catalogue.rules.statistics import Listed, Played
from catalogue.terms import Extent, PerformanceStatus, PerformerRole, WorkStatus

COLUMNS = (
    "performance_id", "work_id", "extent", "duration", "work__duration", "performance__first_day",
    "performance__last_day", "performance__status", "performance__venue__country", "performance__country",
)  # fmt: skip


def gather_played(composer: Composer, *, today: date) -> tuple[Played, ...]:
    """Return every playing that took place or is to, of works and performances that are not deleted; two queries."""
    rows = ProgrammedWork.objects.filter(
        performance__composer=composer, performance__deleted_at__isnull=True, work__deleted_at__isnull=True
    ).exclude(performance__status__in=[one.value for one in DID_NOT_HAPPEN])
    ensembles = ensembles_of(composer)
    return tuple(
        played(row, ensembles.get(row["performance_id"], ()), today) for row in rows.order_by("pk").values(*COLUMNS)
    )


def ensembles_of(composer: Composer) -> dict[int, tuple[str, ...]]:
    """Return the ensembles of each performance as they are called now, each once."""
    is_body = Q(role=PerformerRole.ENSEMBLE.value) | Q(organisation__isnull=False)
    credits = PerformanceCredit.objects.filter(is_body, performance__composer=composer)
    found: dict[int, list[str]] = {}
    for performance, called, billed in credits.order_by("order", "pk").values_list(
        "performance_id", "organisation__name", "name"
    ):
        found.setdefault(performance, []).append(called or billed)
    return {performance: tuple(dict.fromkeys(filter(None, names))) for performance, names in found.items()}


def played(row: dict[str, Any], ensembles: tuple[str, ...], today: date) -> Played:
    first, last = row["performance__first_day"], row["performance__last_day"]
    is_given = row["performance__status"] == PerformanceStatus.GIVEN
    return Played(
        event=row["performance_id"],
        work=row["work_id"],
        day=first,
        seconds=seconds_of(row),
        country=row["performance__venue__country"] or row["performance__country"],
        ensembles=ensembles,
        is_to_come=bool(last) and (first > today if is_given else last >= today),
    )


def seconds_of(row: dict[str, Any]) -> int | None:
    lasted = readable(row["duration"], None)
    if lasted is None and row["extent"] == Extent.COMPLETE:
        lasted = readable(row["work__duration"], None)
    return lasted.seconds if lasted else None


def gather_listed(composer: Composer) -> tuple[Listed, ...]:
    """Return the works that stand in lists: finished and not withdrawn; one query."""
    works = Work.objects.filter(composer=composer, status=WorkStatus.ACTIVE.value).in_title_order()
    rows = works.values_list("pk", "title", "version_label", "completed")
    return tuple(
        Listed(pk, f"{title} ({version})" if version else title, when.year if (when := readable(done, None)) else None)
        for pk, title, version, done in rows
    )
