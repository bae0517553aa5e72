"""A whole catalogue as facts, and the part of it that is to come; the number of queries does not grow with it."""

from __future__ import annotations

from collections.abc import Callable, Hashable, Iterator
from contextlib import contextmanager
from contextvars import ContextVar
from dataclasses import replace
from datetime import date
from typing import Any, TypeVar

from django.db.models import Q, QuerySet

from catalogue.facts import CatalogueFacts, TextFacts
from catalogue.gathering.columns import facts_of
from catalogue.gathering.people import gather_composer
from catalogue.gathering.performances import gather_performance
from catalogue.gathering.works import gather_recording, gather_work
from catalogue.models import Composer, Performance, Recording, TextSource, Work
from catalogue.terms import RecordingForm

ROWS_AT_ONCE = 2_000
_held: ContextVar[dict[Hashable, Any] | None] = ContextVar("held", default=None)
Found = TypeVar("Found")


@contextmanager
def gathered_once() -> Iterator[None]:
    """Have each catalogue gathered once while several papers are made of it as it stands at one moment.

    What is reckoned from it (:func:`once`) is reckoned once.
    """
    token = _held.set({})
    try:
        yield
    finally:
        _held.reset(token)


def gather_catalogue(composer: Composer) -> CatalogueFacts:
    """Return every work and performance of a composer that has not been deleted: works by title, performances by date.

    Of recordings those that are released. Seven queries, and two more for each further few thousand performances,
    whose rows are let go of as soon as they are facts.
    """
    return once(("catalogue", composer.pk), lambda: gather_anew(composer))


def once(key: Hashable, find: Callable[[], Found]) -> Found:
    """What is found under a key, while catalogues are gathered once the same each time."""
    held = _held.get()
    if held is None:
        return find()
    if key not in held:
        held[key] = find()
    found: Found = held[key]
    return found


def gather_anew(composer: Composer) -> CatalogueFacts:
    works = Work.objects.filter(composer=composer).with_everything_printed().in_title_order()
    performances = Performance.objects.filter(composer=composer).with_everything_printed().in_date_order()
    releases = Recording.objects.filter(work__composer=composer, form=RecordingForm.RELEASE)
    return CatalogueFacts(
        composer=gather_composer(composer),
        works=tuple(gather_work(work) for work in works),
        performances=tuple(map(gather_performance, performances.iterator(chunk_size=ROWS_AT_ONCE))),
        recordings=tuple(gather_recording(recording) for recording in releases.order_by("pk")),
    )


def gather_for_calls(composer: Composer) -> CatalogueFacts:
    """Return a whole catalogue with the texts that its works set. One query more than ``gather_catalogue``."""
    sources = TextSource.objects.filter(work__composer=composer).order_by("pk")
    texts = tuple(facts_of(TextFacts, source) for source in sources.defer("body", "translation", "search_text"))
    return replace(gather_catalogue(composer), texts=texts)


def gather_upcoming(
    composer: Composer,
    *,
    since: date,
    among: QuerySet[Performance] | None = None,
    nearest: tuple[date, int] | None = None,
) -> CatalogueFacts:
    """Return the performances that may take place on that day or later, and the works on their programmes.

    ``among`` narrows them; ``nearest`` is a day and a number: at most so many from that day on, and so many before it.
    Premieres cannot be reckoned from these, since what came before is left out. Six queries.
    """
    found = Performance.objects.filter(composer=composer).from_day(since)
    performances = found if among is None else found.filter(pk__in=among.order_by().values("pk"))
    if nearest is not None:
        performances = Performance.objects.filter(nearest_to(*nearest, performances))
    works = Work.objects.filter(pk__in=performances.values("programme__work")).with_everything_printed()
    return CatalogueFacts(
        composer=gather_composer(composer),
        works=tuple(gather_work(work) for work in works.in_title_order()),
        performances=tuple(
            gather_performance(performance) for performance in performances.with_everything_printed().in_date_order()
        ),
    )


def nearest_to(day: date, most: int, performances: QuerySet[Performance]) -> Q:
    coming = performances.filter(first_day__gte=day).order_by("first_day", "pk").values("pk")
    past = performances.filter(first_day__lt=day).order_by("-first_day", "-pk").values("pk")
    return Q(pk__in=coming[:most]) | Q(pk__in=past[:most])
