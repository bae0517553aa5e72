"""A list page, from rows to bytes, beside a plain hand-written template of the same rows."""

from __future__ import annotations

from collections.abc import Iterator
from contextlib import contextmanager
from functools import partial
from typing import Any

from django.contrib.auth.models import User
from django.core.paginator import Paginator
from django.http import HttpResponse
from django.template import engines
from django.test import RequestFactory

from catalogue.benches.invented import NOW
from catalogue.benches.measuring import Bench, Pair
from catalogue.benches.rows import store
from catalogue.gathering.versions import state_of_lists
from catalogue.models import Composer, Performance, Work
from catalogue.web.access import CatalogueRequest, View, member_page
from catalogue.web.filters.performances import PerformanceFilter
from catalogue.web.filters.works import WorkFilter
from catalogue.web.tables.lists import PER_PAGE
from catalogue.web.tables.works import last_performed, times_performed
from catalogue.web.views.performances import counted_at, performance_list
from catalogue.web.views.works import counted, work_list

PLAIN = """{% extends "base.html" %}{% block content %}<h1>{{ counted.all }} works</h1>
<form>{% for field in filter.form %}<div>{{ field.as_field_group }}</div>{% endfor %}</form>
<table><tr><th>Work<th>Instrumentation<th>Players<th>Year<th>Duration<th>Performances<th>Last performed</tr>
{% for work in page %}<tr><td><a href="{% url 'work-detail' composer.slug work.pk %}">{{ work.title }}</a></td>
<td>{{ work.instrumentation_typed }}</td><td>{{ work.least_players }}</td><td>{{ work.completed }}</td>
<td>{{ work.duration }}</td><td>{{ work.times_performed }}</td><td>{{ work.last_performed }}</td></tr>
{% endfor %}</table>
{{ page.start_index }} to {{ page.end_index }} of {{ page.paginator.count }}{% endblock %}"""


PLAIN_EVENINGS = """{% extends "base.html" %}{% block content %}<h1>{{ counted.all }} performances</h1>
<form>{% for field in filter.form %}<div>{{ field.as_field_group }}</div>{% endfor %}</form>
<table><tr><th>Date<th>Works<th>Performers<th>Place</tr>
{% for event in page %}<tr><td>{{ event.date }}</td>
<td><a href="{% url 'performance-detail' composer.slug event.pk %}">
{% for row in event.programme.all %}{{ row.work.title }} {% endfor %}</a></td>
<td>{% for credit in event.credits.all %}{{ credit.billed_name }} {% endfor %}</td>
<td>{{ event.venue.name }}, {{ event.venue.city }}</td></tr>
{% endfor %}</table>
{{ page.start_index }} to {{ page.end_index }} of {{ page.paginator.count }}{% endblock %}"""


@member_page
def plain_evenings(request: CatalogueRequest) -> HttpResponse:
    template = engines["django"].from_string(PLAIN_EVENINGS)
    ours = Performance.objects.filter(composer=request.composer).with_everything_printed().latest_first()
    asked = PerformanceFilter(request.GET, ours, composer=request.composer)
    page = Paginator(asked.qs, PER_PAGE).get_page(request.GET.get("page"))
    context = {
        "filter": asked,
        "page": page,
        "counted": counted_at(state_of_lists([request.composer.pk]), request.composer, NOW.date()),
    }
    return HttpResponse(template.render(context, request))


@member_page
def plain_list(request: CatalogueRequest) -> HttpResponse:
    template = engines["django"].from_string(PLAIN)
    asked = WorkFilter(request.GET, Work.objects.filter(composer=request.composer))
    works = asked.qs.newest_first().annotate(times_performed=times_performed(), last_performed=last_performed())
    page = Paginator(works, PER_PAGE).get_page(request.GET.get("page"))
    context = {"filter": asked, "page": page, "counted": counted(request.composer)}
    return HttpResponse(template.render(context, request))


def request_of(composer: Composer, **asked: str) -> Any:
    request: Any = RequestFactory().get(f"/c/{composer.slug}/works/", asked)
    request.user = User.objects.get(memberships__composer=composer)
    return request


@contextmanager
def works(size: int) -> Iterator[Pair]:
    composer = store(works=size, performances=size * 3)
    request = request_of(composer)
    yield Pair(
        ours=lambda: work_list(request, composer=composer.slug),
        bare=lambda: plain_list(request, composer=composer.slug),
    )


@contextmanager
def last_page_of_works(size: int) -> Iterator[Pair]:
    composer = store(works=size, performances=size * 3)
    first, last = request_of(composer), request_of(composer, page=str(size // PER_PAGE))
    yield Pair(
        ours=lambda: work_list(last, composer=composer.slug),
        bare=lambda: work_list(first, composer=composer.slug),
    )


@contextmanager
def evenings(size: int, *, ours: dict[str, str], bare: View, bound: dict[str, str]) -> Iterator[Pair]:
    """The list of so many performances, asked one thing, beside a view that is asked another."""
    composer = store(works=max(20, size // 10), performances=size)
    asked, beside = request_of(composer, **ours), request_of(composer, **bound)
    yield Pair(
        ours=lambda: performance_list(asked, composer=composer.slug),
        bare=lambda: bare(beside, composer=composer.slug),
    )


EVENINGS = (1_000, 10_000, 100_000)
LAST_PAGE, BY_PLACE = {"page": "99999"}, {"sort": "place"}

BENCHES = (
    Bench(
        "page of performances, performances in the catalogue",
        "a hand-written template of the same 50 rows and the same form, without what was first",
        EVENINGS,
        partial(evenings, ours={}, bare=plain_evenings, bound={}),
        aim=2,
        stored=True,
    ),
    *(
        Bench(
            f"{which} of performances, performances in the catalogue",
            "the first page of the same list",
            EVENINGS,
            partial(evenings, ours=asked, bare=performance_list, bound={}),
            aim=1.3,
            stored=True,
        )
        for which, asked in (("last page", LAST_PAGE), ("page by place", BY_PLACE))
    ),
    Bench(
        "page of works, works in the catalogue",
        "a hand-written template of the same 50 rows and the same form, without strips",
        (100, 1_000, 10_000),
        works,
        aim=2,
        stored=True,
    ),
    Bench(
        "last page of works, works in the catalogue",
        "the first page of the same list",
        (100, 1_000, 10_000),
        last_page_of_works,
        aim=1.3,
        stored=True,
    ),
)
