"""What a performance is called on a page: the works that were played, and the city."""

from __future__ import annotations

from collections.abc import Sequence

from django.utils.html import conditional_escape
from django.utils.safestring import SafeString, mark_safe
from django.utils.translation import gettext as _
from django.utils.translation import ngettext

from catalogue.gathering.listed import ListedPerformance, ListedWork
from catalogue.models import Performance, Work
from catalogue.web.titles import in_language
from catalogue.web.wording import date_text

NAMED = 3  # more works than these are counted


def works_of(performance: Performance) -> list[Work]:
    """Return the works of a performance that comes from ``with_everything_printed``, each once, in their order."""
    living = [row for row in performance.programme.all() if row.work.deleted_at is None]
    return list(dict.fromkeys(row.work for row in sorted(living, key=lambda row: row.order)))


def listed(parts: Sequence[str]) -> str:
    """Join works as a sentence lists them: A; A and B; A, B and C; of more, two and how many others."""
    shown = list(parts)
    if len(shown) > NAMED:
        others = len(shown) - NAMED + 1
        shown[NAMED - 1 :] = [ngettext("%d other work", "%d other works", others) % others]
    *first, last = shown
    return _("%(some)s and %(last)s") % {"some": ", ".join(first), "last": last} if first else last


def named(what: str, city: str) -> str:
    return _("%(what)s in %(city)s") % {"what": what, "city": city} if city else what


def city_of(performance: Performance | ListedPerformance) -> str:
    return (performance.venue.city if performance.venue else "") or performance.city


def titles_html(works: Sequence[Work | ListedWork]) -> SafeString:
    """Return the titles in italics, each in its language."""
    titles = [f"<i>{in_language(one.title, one.title_language)}</i>" for one in works]
    return mark_safe(listed(titles)) if titles else SafeString()  # noqa: S308 - each title is escaped


def called(performance: Performance) -> SafeString:
    """Return the heading of a performance that comes from ``with_everything_printed``: its works and the city."""
    otherwise = conditional_escape(performance.event_title or _("Performance"))
    what = titles_html(works_of(performance)) or otherwise
    return mark_safe(named(what, conditional_escape(city_of(performance))))  # noqa: S308 - both are escaped


def name_of(performance: Performance) -> str:
    """Return the heading as plain text."""
    titles = [work.title for work in works_of(performance)]
    return named(listed(titles) if titles else performance.event_title or _("Performance"), city_of(performance))


def when_and_where(performance: Performance, language: str) -> str:
    """Return a performance as a list of other records names it: title of the event, day, hall or city."""
    place = str(performance.venue or performance.city)
    parts = (performance.event_title, date_text(performance.date, language), place)
    return ", ".join(part for part in parts if part) or _("Performance")
