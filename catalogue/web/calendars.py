"""The calendars of a catalogue as bytes: of a secret address, of everybody, of one performance."""

from __future__ import annotations

from collections.abc import Callable
from datetime import timedelta

from django.conf import settings
from django.http import QueryDict
from django.urls import reverse
from django.utils import timezone
from django.utils.translation import gettext as _

from catalogue.facts import CatalogueFacts, DeadlineFacts, PerformanceFacts
from catalogue.feeds.calendar import MOST_EVENTS, calendar_bytes
from catalogue.gathering.catalogues import gather_upcoming
from catalogue.gathering.deadlines import gather_deadlines
from catalogue.gathering.families import gather_claims
from catalogue.gathering.journeys import gather_dues, gather_sessions
from catalogue.models import CalendarAddress, Composer, Performance
from catalogue.models.performances import PerformanceQuerySet
from catalogue.rules.premieres import Claim
from catalogue.terms import CalendarHolds
from catalogue.timing import PartialDate
from catalogue.web.filters.performances import PerformanceFilter
from catalogue.web.journeys import name_of_step

AT_MOST = MOST_EVENTS + 500  # of what is to come, as of what is past: some may have no day or be no event
BACK = timedelta(days=370)  # a little more than the calendar shows of the past


def address_calendar(address: CalendarAddress) -> bytes:
    """Return what stands at an address: performances with what each is the first of and their sessions, or what is due.

    Due are the deadlines of calls, the sets that are to come back and the steps around performances.
    """
    composer, holds = address.composer, CalendarHolds(address.holds)
    now = timezone.now()
    shown = performances_asked(composer, address.query)
    in_window = shown.from_day((now - BACK).date())
    only_deadlines, no_deadlines = holds is CalendarHolds.DEADLINES, holds is CalendarHolds.PERFORMANCES
    today = timezone.localdate()
    catalogue = gather_upcoming(composer, since=(now - BACK).date(), among=shown, nearest=(now.date(), AT_MOST))
    return calendar_bytes(
        catalogue,
        name=name_of(composer, address),
        now=now,
        claims=claims_about(composer, catalogue),
        page_of=page_of_performance(composer),
        deadlines=() if no_deadlines else gather_deadlines(composer),
        dues=() if no_deadlines else gather_dues(composer, shown, today=today, words=name_of_step),
        sessions=() if only_deadlines else gather_sessions(in_window),
        with_performances=not only_deadlines,
        page_of_call=page_of_call(composer),
    )


def public_calendar(composer: Composer) -> bytes:
    """Return the performances that are announced and open to all; the only address in it is the composer's own."""
    now = timezone.now()
    catalogue = gather_upcoming(composer, since=(now - BACK).date(), nearest=(now.date(), AT_MOST))
    claims = claims_about(composer, catalogue)
    name = _("Performances of %(composer)s") % {"composer": composer.name}
    return calendar_bytes(catalogue, name=name, now=now, public=True, claims=claims)


def event_calendar(performance: Performance) -> bytes | None:
    """Return one performance as a calendar of its own, whenever it is; None where its day is not known."""
    composer = performance.composer
    day = performance.date.exact if isinstance(performance.date, PartialDate) else None
    if day is None:
        return None
    one = Performance.objects.filter(pk=performance.pk)
    catalogue = gather_upcoming(composer, since=day, among=one)
    return calendar_bytes(
        catalogue,
        name=str(performance),
        now=timezone.now(),
        since=day,
        claims=claims_about(composer, catalogue),
        page_of=page_of_performance(composer),
    )


def performances_asked(composer: Composer, query: str) -> PerformanceQuerySet:
    """Return what the list of performances shows at an address that asks this; all of them where it asks nothing.

    What can no longer be asked, as of a country in which nothing is played now, finds nothing: whoever was given a part
    of the performances is never shown more.
    """
    ours = Performance.objects.filter(composer=composer)
    if not query:
        return ours
    asked = PerformanceFilter(QueryDict(query), ours, composer=composer)
    return asked.qs if asked.form.is_valid() else ours.none()


def name_of(composer: Composer, address: CalendarAddress) -> str:
    if address.holds == CalendarHolds.DEADLINES:
        return _("Deadlines of %(composer)s") % {"composer": composer.name}
    name = _("Performances of %(composer)s") % {"composer": composer.name}
    return f"{name} ({address.label})" if address.query else name


def claims_about(composer: Composer, catalogue: CatalogueFacts) -> dict[int, Claim]:
    works, shown = (work.id for work in catalogue.works), (event.id for event in catalogue.performances)
    return gather_claims([composer], works, today=timezone.localdate(), shown=shown)


def page_of_performance(composer: Composer) -> Callable[[PerformanceFacts], str]:
    stem = settings.SITE_URL + reverse("performance-list", args=[composer.slug])
    return lambda event: f"{stem}{event.id}/"


def page_of_call(composer: Composer) -> Callable[[DeadlineFacts], str]:
    calls = settings.SITE_URL + reverse("call-list", args=[composer.slug])
    hires = settings.SITE_URL + reverse("record-list", args=[composer.slug, "hires"])
    return lambda deadline: f"{hires if deadline.is_hire else calls}{deadline.id}/"
