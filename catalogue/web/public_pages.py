"""What the public pages of a catalogue show, gathered in a fixed number of queries: only what is meant for all."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from datetime import date, datetime
from itertools import groupby

from django.conf import settings
from django.templatetags.static import static
from django.urls import reverse
from django.utils.html import format_html
from django.utils.safestring import SafeString
from django.utils.translation import get_language, to_locale

from catalogue.documents.contents.credits import commission_line, performers, places
from catalogue.documents.contents.forces import described
from catalogue.documents.labels import Labels, labels
from catalogue.documents.model import Text, joined, plain, value
from catalogue.facts import PerformanceFacts, WorkFacts
from catalogue.feeds.linked_data import Addresses, Node, composition, event, person, script_text
from catalogue.feeds.news import NEVER, Item, News
from catalogue.gathering.published import (
    coming_in_public,
    gather_public,
    performances_of_the_site,
    public_performances,
    public_works,
    works_of_the_site,
)
from catalogue.gathering.works import gather_work
from catalogue.instrumentation.page import PageLine, page_lines
from catalogue.models import Composer, Performance, Work
from catalogue.models.performances import PerformanceQuerySet
from catalogue.models.works import WorkQuerySet
from catalogue.rules.playings import is_to_come
from catalogue.terms import Category, PerformanceStatus
from catalogue.web.days import clock_text, long_day
from catalogue.web.wording import date_text, duration_text, year_text

MOST_NEWS = 50
HERE = "public-composer"


@dataclass(frozen=True, slots=True)
class Head:
    """What the head of a public page tells machines; ``graph`` is a finished script element."""

    title: str
    description: str
    address: str
    graph: SafeString

    @property
    def picture(self) -> str:
        """The address of what is shown where the page is named elsewhere, 1200 × 630 pixels."""
        return settings.SITE_URL + static("catalogue/card.png")

    @property
    def locale(self) -> str:
        """The language of the page as the Open Graph protocol names it, ``en_GB``."""
        return to_locale(get_language() or settings.LANGUAGE_CODE)


@dataclass(frozen=True, slots=True)
class Event:
    """One performance as a line: when, what of ours, where, by whom."""

    id: int
    day: str
    works: tuple[tuple[int, str], ...]
    where: Text
    who: Text
    became: PerformanceStatus


@dataclass(frozen=True, slots=True)
class Listed:
    """One work as a line of the list."""

    work: WorkFacts
    described: Text
    duration: str
    year: str


@dataclass(frozen=True, slots=True)
class ComposerPage:
    head: Head
    works: tuple[tuple[Category, tuple[Listed, ...]], ...]
    coming: tuple[Event, ...]


@dataclass(frozen=True, slots=True)
class PublicWork:
    head: Head
    work: WorkFacts
    described: Text
    commission: Text
    duration: str
    year: str
    chairs: tuple[PageLine, ...]
    coming: tuple[Event, ...]
    past: tuple[Event, ...]


@dataclass(frozen=True, slots=True)
class PublicEvent:
    head: Head
    performance: PerformanceFacts
    event: Event
    when: str


def addresses_of(composer: Composer) -> Addresses:
    slug = composer.slug

    def absolute(name: str, *parts: object) -> str:
        return settings.SITE_URL + reverse(name, args=[slug, *parts])

    return Addresses(
        absolute(HERE), lambda key: absolute("public-work", key), lambda key: absolute("public-performance", key)
    )


def graph_of(nodes: list[Node]) -> SafeString:
    """The script element of linked data; its text holds no sign that could end it."""
    return format_html('<script type="application/ld+json">{}</script>', SafeString(script_text(nodes)))


def composer_page(composer: Composer, *, today: date, language: str) -> ComposerPage:
    facts = gather_public(composer, performances=coming_in_public(composer, today))
    says, addresses = labels(language), addresses_of(composer)
    works = {work.id: work for work in facts.works}
    nodes = [person(facts.composer, addresses)]
    nodes += [composition(work, addresses, description=plain(described(work, says))) for work in facts.works]
    nodes += [event(one, works, addresses, name=name_of(one, works, says)) for one in facts.performances]
    head = Head(composer.name, facts.composer.short_biography, addresses.composer, graph_of(nodes))
    return ComposerPage(head, by_category(facts.works, says), events_of(facts.performances, works, says))


def work_page(composer: Composer, work: Work, *, today: date, language: str) -> PublicWork:
    """Gather the page of a work that is public."""
    events = public_performances(composer).of_work(work)
    facts = gather_public(composer, works=public_works(composer).filter(pk=work.pk), performances=events)
    (shown,), says, addresses = facts.works, labels(language), addresses_of(composer)
    about = described(shown, says)
    nodes = [person(facts.composer, addresses), composition(shown, addresses, description=plain(about))]
    coming = [one for one in facts.performances if is_to_come(one, today=today)]
    past = [one for one in reversed(facts.performances) if not is_to_come(one, today=today)]
    known = {shown.id: shown}
    return PublicWork(
        head=Head(f"{shown.title.title}, {composer.name}", plain(about), addresses.work(shown.id), graph_of(nodes)),
        work=shown,
        described=about,
        commission=commission_line(shown, says),
        duration=duration_text(shown.duration, shown.duration_typed, language),
        year=year_text(shown.completed, language),
        chairs=tuple(page_lines(shown.instrumentation, language)) if shown.instrumentation else (),
        coming=events_of(coming, known, says),
        past=events_of(past, known, says),
    )


def event_page(composer: Composer, performance: Performance, *, language: str) -> PublicEvent:
    """Gather the page of a performance that is public."""
    facts = gather_public(composer, performances=public_performances(composer).filter(pk=performance.pk))
    (shown,), says, addresses = facts.performances, labels(language), addresses_of(composer)
    works = {work.id: work for work in facts.works}
    name = name_of(shown, works, says)
    nodes = [person(facts.composer, addresses), event(shown, works, addresses, name=name)]
    day = long_day(shown.date, language) if shown.date else ""
    at = clock_text(shown.time, shown.zone, language) if shown.time else ""
    (line,) = events_of([shown], works, says)
    when = ", ".join(part for part in (day, at) if part)
    where = plain(joined(places(shown), ", "))
    head = Head(
        name, ", ".join(part for part in (when, where) if part), addresses.performance(shown.id), graph_of(nodes)
    )
    return PublicEvent(head, shown, line, when)


def name_of(performance: PerformanceFacts, works: Mapping[int, WorkFacts], says: Labels) -> str:
    titles = [works[item.work_id].title.title for item in performance.programme if item.work_id in works]
    return performance.event_title or plain(says.listed(tuple(map(value, dict.fromkeys(titles)))))


def by_category(works: Iterable[WorkFacts], says: Labels) -> tuple[tuple[Category, tuple[Listed, ...]], ...]:
    order = list(Category)
    grouped = groupby(sorted(works, key=lambda work: order.index(work.category)), lambda work: work.category)
    return tuple((category, tuple(listed(work, says) for work in group)) for category, group in grouped)


def listed(work: WorkFacts, says: Labels) -> Listed:
    duration = duration_text(work.duration, work.duration_typed, says.language)
    return Listed(work, described(work, says), duration, year_text(work.completed, says.language))


def events_of(
    performances: Iterable[PerformanceFacts], works: Mapping[int, WorkFacts], says: Labels
) -> tuple[Event, ...]:
    return tuple(
        Event(
            id=one.id,
            day=date_text(one.date, says.language),
            works=titles_of(one, works),
            where=joined(places(one), ", "),
            who=performers(one, says, sentence=False),
            became=one.status,
        )
        for one in performances
    )


def titles_of(performance: PerformanceFacts, works: Mapping[int, WorkFacts]) -> tuple[tuple[int, str], ...]:
    """The works of a programme that are known here, each once, with their titles."""
    keys = dict.fromkeys(item.work_id for item in performance.programme)
    return tuple((key, works[key].title.title) for key in keys if key in works)


# ---- for readers of feeds and for search engines


def works_news(composer: Composer, own: str, language: str) -> News:
    """The works that were made public or changed last."""
    records = list(public_works(composer).with_everything_printed().order_by("-changed_at", "-pk")[:MOST_NEWS])
    says, addresses = labels(language), addresses_of(composer)
    items = tuple(
        Item(
            uid=str(record.uid),
            title=record.title,
            summary=plain(described(gather_work(record), says)),
            address=addresses.work(record.pk),
            changed=record.changed_at or NEVER,
        )
        for record in records
    )
    return News(says.word("Works") + f": {composer.name}", composer.name, addresses.composer, own, items)


def performances_news(composer: Composer, own: str, today: date, language: str) -> News:
    """The performances to come."""
    facts = gather_public(composer, performances=coming_in_public(composer, today))
    works, says, addresses = {work.id: work for work in facts.works}, labels(language), addresses_of(composer)
    items = tuple(
        Item(
            uid=str(one.uid),
            title=name_of(one, works, says),
            summary=", ".join(
                part for part in (date_text(one.date, language), plain(joined(places(one), ", "))) if part
            ),
            address=addresses.performance(one.id),
            changed=one.changed_at or NEVER,
        )
        for one in facts.performances[:MOST_NEWS]
    )
    return News(says.word("Performances") + f": {composer.name}", composer.name, addresses.composer, own, items)


@dataclass(frozen=True, slots=True)
class Place:
    """An address of the site map, with the day on which what it shows last changed."""

    address: str
    changed: datetime | None


def places_of_the_site() -> list[Place]:
    """Every public page of the house; three queries."""
    works, events = by_composer(works_of_the_site()), by_composer(performances_of_the_site())
    found = []
    for composer in Composer.objects.filter(is_public=True).in_name_order():
        addresses, of_works, of_events = addresses_of(composer), works[composer.pk], events[composer.pk]
        days = [day for _key, day in (*of_works, *of_events) if day]
        found.append(Place(addresses.composer, max(days, default=None)))
        found += [Place(addresses.work(key), day) for key, day in of_works]
        found += [Place(addresses.performance(key), day) for key, day in of_events]
    return found


def by_composer(records: WorkQuerySet | PerformanceQuerySet) -> defaultdict[int, list[tuple[int, datetime | None]]]:
    """Return the numbers of records with when they were changed, by their composers."""
    found: defaultdict[int, list[tuple[int, datetime | None]]] = defaultdict(list)
    for composer, key, changed in records.order_by("pk").values_list("composer_id", "pk", "changed_at"):
        found[composer].append((key, changed))
    return found
