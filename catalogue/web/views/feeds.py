"""What programs fetch: the calendar of a composer's performances, at an address that is secret."""

from __future__ import annotations

from datetime import timedelta
from hashlib import sha256

from django.conf import settings
from django.http import HttpRequest, HttpResponse, HttpResponseNotFound
from django.urls import reverse
from django.utils import timezone
from django.utils.cache import get_conditional_response
from django.utils.translation import gettext as _
from django.views.decorators.http import require_safe

from catalogue.facts import DeadlineFacts, PerformanceFacts
from catalogue.feeds.calendar import calendar_bytes
from catalogue.gathering.catalogues import gather_upcoming
from catalogue.gathering.deadlines import gather_deadlines
from catalogue.gathering.families import gather_families
from catalogue.models import Composer
from catalogue.rules.premieres import claims_by_programmed

BACK = timedelta(days=370)  # a little more than the calendar shows of the past
FRESH = 900  # seconds that a copy may be used without asking


@require_safe
def feed(request: HttpRequest, token: str, name: str) -> HttpResponse:
    """/feeds/<token>/<name>.ics — the calendar; nothing for a token that is not in use, or whose keepers are gone."""
    composer = Composer.objects.with_feed_token(token).filter(memberships__user__is_active=True).first()
    if composer is None:
        return shut(HttpResponseNotFound(content_type="text/plain"))
    content = calendar_of(composer)
    response = shut(HttpResponse(content, content_type="text/calendar; charset=utf-8"))
    response.headers["Content-Disposition"] = f'inline; filename="{composer.slug}.ics"'
    response.headers["ETag"] = f'"{sha256(content).hexdigest()}"'
    response.headers["Cache-Control"] = f"private, max-age={FRESH}"
    return get_conditional_response(request, etag=response.headers["ETag"], response=response) or response


def shut(response: HttpResponse) -> HttpResponse:
    """Keep an address that holds a secret out of search engines and referrers."""
    response.headers["X-Robots-Tag"] = "noindex, nofollow"
    response.headers["Referrer-Policy"] = "no-referrer"
    response.headers.setdefault("Cache-Control", "private, no-store")
    return response


def calendar_of(composer: Composer) -> bytes:
    """Return the calendar with what each performance is the first of, and the deadlines of calls; nine queries."""
    now = timezone.now()
    catalogue = gather_upcoming(composer, since=(now - BACK).date())
    family = gather_families(composer, (work.id for work in catalogue.works))

    def page_of(event: PerformanceFacts) -> str:
        return settings.SITE_URL + reverse("performance-detail", args=[composer.slug, event.id])

    def page_of_call(deadline: DeadlineFacts) -> str:
        return settings.SITE_URL + reverse("call-detail", args=[composer.slug, deadline.id])

    return calendar_bytes(
        catalogue,
        name=_("Performances of %(composer)s") % {"composer": composer.name},
        now=now,
        claims=claims_by_programmed(family, today=timezone.localdate()),
        page_of=page_of,
        deadlines=gather_deadlines(composer),
        page_of_call=page_of_call,
    )
