"""Performances as facts."""

from __future__ import annotations

from catalogue.facts import PerformanceFacts, PerformerFacts, ProgrammedFacts, VenueFacts
from catalogue.gathering.readings import readable
from catalogue.models import Performance, PerformanceCredit, ProgrammedWork, Venue
from catalogue.terms import Audience, Extent, PerformanceKind, PerformanceStatus, PerformerRole


def gather_performance(performance: Performance) -> PerformanceFacts:
    """Return the facts of one performance; no query where it comes from ``with_everything_printed``."""
    venue = performance.venue
    return PerformanceFacts(
        id=performance.pk,
        uid=performance.uid,
        date=readable(performance.date, None),
        kind=PerformanceKind(performance.kind),
        audience=Audience(performance.audience),
        status=PerformanceStatus(performance.status),
        time=performance.time,
        zone=performance.local_zone,
        starts_at=performance.starts_at,
        event_title=performance.event_title,
        venue=None if venue is None else gather_venue(venue),
        city=(venue and venue.city) or performance.city,
        country=(venue and venue.country) or performance.country,
        country_then=performance.country_then,
        region=venue.region if venue else "",
        presenter=performance.presented_by,
        series=performance.series,
        performers=performers_of(performance),
        programme=programme_of(performance),
        string_strengths=readable(performance.string_strengths, ()),
        notes=performance.notes,
        sequence=performance.sequence,
        changed_at=performance.changed_at,
    )


def gather_venue(venue: Venue) -> VenueFacts:
    return VenueFacts(
        id=venue.pk,
        name=venue.name,
        city=venue.city,
        country=venue.country,
        zone=venue.zone,
        latitude=venue.latitude,
        longitude=venue.longitude,
    )


def performers_of(performance: Performance) -> tuple[PerformerFacts, ...]:
    in_order = sorted(performance.credits.all(), key=lambda credit: (credit.order, credit.pk))
    return tuple(gather_performer(credit) for credit in in_order)


def gather_performer(credit: PerformanceCredit) -> PerformerFacts:
    return PerformerFacts(
        name=credit.billed_name,
        role=PerformerRole(credit.role),
        plays=credit.plays,
        organisation_id=credit.organisation_id,
    )


def programme_of(performance: Performance) -> tuple[ProgrammedFacts, ...]:
    """Return what stands on the programme, in order; works that have been deleted are left out."""
    living = [programmed for programmed in performance.programme.all() if programmed.work.deleted_at is None]
    return tuple(gather_programmed(programmed) for programmed in sorted(living, key=lambda one: one.order))


def gather_programmed(programmed: ProgrammedWork) -> ProgrammedFacts:
    return ProgrammedFacts(
        id=programmed.pk,
        work_id=programmed.work_id,
        extent=Extent(programmed.extent),
        part=programmed.part,
        billing=programmed.billing,
        note=programmed.note,
        duration=readable(programmed.duration, None),
        claim_override=programmed.claim_override,
        claim_reason=programmed.claim_reason,
    )
