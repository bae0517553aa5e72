"""List pages, from rows to bytes: beside plain templates of the same rows, and beside the same page of a small list."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from contextlib import contextmanager
from datetime import timedelta
from enum import Enum, auto
from functools import partial
from itertools import cycle
from typing import Any

from django.core.paginator import Paginator
from django.http import HttpResponse
from django.template import engines
from django.utils import timezone

from catalogue.actions.additions import begin_history
from catalogue.actions.performances import save_performance
from catalogue.benches.catalogues import catalogue_of, request_of
from catalogue.benches.invented import NOW
from catalogue.benches.measuring import Bench, Heading, Pair
from catalogue.gathering.kept_counts import let_go
from catalogue.gathering.once import forget_all
from catalogue.gathering.versions import state_of_lists
from catalogue.models import Composer, Performance, ProgrammedWork, Work
from catalogue.terms import PerformanceStatus
from catalogue.timing import PartialDate
from catalogue.web.access import CatalogueRequest, View, member_page
from catalogue.web.filters.performances import PerformanceFilter
from catalogue.web.filters.works import WorkFilter
from catalogue.web.kept_for_members import forget_pages
from catalogue.web.tables.lists import PER_PAGE
from catalogue.web.tables.works import last_performed, times_performed
from catalogue.web.views.performances import counted_at, performance_list, performance_years
from catalogue.web.views.statistics import statistics
from catalogue.web.views.today import today
from catalogue.web.views.works import counted_at as works_counted_at
from catalogue.web.views.works import work_list

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
    numbers = counted_at(state_of_lists([request.composer.pk]), request.composer, NOW.date())
    return HttpResponse(template.render({"filter": asked, "page": page, "counted": numbers}, request))


@member_page
def plain_list(request: CatalogueRequest) -> HttpResponse:
    template = engines["django"].from_string(PLAIN)
    asked = WorkFilter(request.GET, Work.objects.filter(composer=request.composer))
    works = asked.qs.newest_first().annotate(times_performed=times_performed(), last_performed=last_performed())
    page = Paginator(works, PER_PAGE).get_page(request.GET.get("page"))
    numbers = works_counted_at(state_of_lists([request.composer.pk]), request.composer)
    return HttpResponse(template.render({"filter": asked, "page": page, "counted": numbers}, request))


def asking(view: View, composer: Composer, **asked: str) -> Any:
    return partial(view, request_of(composer, **asked), composer=composer.slug)


@contextmanager
def beside_plain(size: int, *, ours: View, plain: View) -> Iterator[Pair]:
    composer = catalogue_of(size)
    yield Pair(ours=asking(ours, composer), bare=asking(plain, composer), before=forget_pages)


class When(Enum):
    """What is known of a catalogue as a page of it is asked for; pages themselves are set anew each time.

    All of it; what a process finds that starts; what is left once a performance was saved; or nothing.
    """

    REMEMBERED = auto()
    STARTED = auto()
    SAVED = auto()
    FIRST = auto()


@contextmanager
def beside_small(size: int, *, view: View, asked: dict[str, str], when: When) -> Iterator[Pair]:
    """A page of a large catalogue beside the same page, asked the same, of a small one, both known as well."""
    both = [catalogue_of(size), catalogue_of(min(SMALL, size))]
    ours, bare = (asking(view, composer, **asked) for composer in both)
    saves = [saving_of(composer) for composer in both] if when is When.SAVED else []
    before = {
        When.REMEMBERED: forget_pages,
        When.STARTED: forget_all,
        When.SAVED: lambda: [save() for save in saves],
        When.FIRST: forget_everything,
    }[when]
    if when is not When.FIRST:
        ours()
        bare()
    yield Pair(ours, bare, before=before)


def forget_everything() -> None:
    forget_all()
    let_go()


def saving_of(composer: Composer) -> Callable[[], object]:
    """Return what saves one evening out of the middle of a catalogue, each time on another day."""
    given = Performance.objects.filter(composer=composer, status=PerformanceStatus.GIVEN).latest_first()
    evening = given[given.count() // 2]
    rows = list(evening.programme.values_list("pk", flat=True))
    for model, keys in ((Performance, [evening.pk]), (ProgrammedWork, rows)):
        if not model.history.filter(id__in=keys).exists():
            begin_history(model, keys, NOW)
    day = evening.first_day or NOW.date()
    days = cycle([day + timedelta(days=1), day])

    def save() -> None:
        evening.refresh_from_db()
        evening.date = PartialDate.of(next(days))
        save_performance(performance=evening, now=timezone.now())

    return save


SMALL, LARGE = 1_000, (100_000, 1_000_000)
LAST = {"page": "99999"}
OF_PERFORMANCES: dict[str, dict[str, str]] = {
    "first page": {},
    "last page": LAST,
    **{f"by {order}": {"sort": order} for order in ("date", "place", "kind", "status")},
    **{f"by {order}, falling": {"sort": f"-{order}"} for order in ("place", "kind", "status")},
    "by date, last page": {"sort": "date", **LAST},
    "by kind, last page": {"sort": "kind", **LAST},
    "by place, last page": {"sort": "place", **LAST},
    "since a year": {"since": "2015"},
    "until a year": {"until": "2015"},
    "in a country": {"country": "NO"},
    "in some years": {"since": "2012", "until": "2015"},
    "of a kind": {"kind": "broadcast"},
    "of a status": {"status": "given"},
    "with a word": {"q": "garden"},
}
OF_WORKS: dict[str, dict[str, str]] = {
    "first page": {},
    "last page": LAST,
    **{f"by {order}": {"sort": order} for order in ("title", "players", "duration", "performances", "last")},
    **{f"by {order}": {"sort": order} for order in ("category", "status", "publisher")},
    "by performances, falling": {"sort": "-performances"},
    "by last, falling": {"sort": "-last"},
    "of a category": {"category": "chamber"},
    "with an instrument": {"instrument": "flute"},
    "for few players": {"players": "10"},
    "of a length": {"length": "10-20"},
    "with a word": {"q": "lake"},
}
WHOLE: dict[str, View] = {"Today": today, "performances by year": performance_years, "statistics": statistics}


ANEW: dict[str, tuple[View, dict[str, str]]] = {
    "performances, first page": (performance_list, {}),
    "performances, last page": (performance_list, LAST),
    "performances, by place": (performance_list, {"sort": "place"}),
    "performances, by kind": (performance_list, {"sort": "kind"}),
    "performances, since a year": (performance_list, {"since": "2015"}),
    "performances, in a country": (performance_list, {"country": "NO"}),
    "performances, with a word": (performance_list, {"q": "garden"}),
    "works, first page": (work_list, {}),
    "works, last page": (work_list, LAST),
    "works, by performances, falling": (work_list, {"sort": "-performances"}),
}
"""Pages as they are where not all is remembered."""
FOR_THE_FIRST_TIME = ("performances, by place", "works, by performances, falling")


def of_a_small_one(
    name: str, view: View, asked: dict[str, str], *, aim: float | None = 1.3, when: When = When.REMEMBERED
) -> Bench:
    prepare = partial(beside_small, view=view, asked=asked, when=when)
    return Bench(name, "the same page of 1,000 performances", LARGE, prepare, aim=aim, stored=True)


HEADING = Heading.PAGES
BENCHES = (
    Bench(
        "page of performances, performances in the catalogue",
        "a hand-written template of the same 50 rows and the same form, without what was first",
        (SMALL, *LARGE),
        partial(beside_plain, ours=performance_list, plain=plain_evenings),
        aim=2,
        stored=True,
    ),
    Bench(
        "page of works, performances in the catalogue",
        "a hand-written template of the same 50 rows and the same form, without strips",
        (SMALL, *LARGE),
        partial(beside_plain, ours=work_list, plain=plain_list),
        aim=2,
        stored=True,
    ),
    *(of_a_small_one(f"performances, {which}", performance_list, asked) for which, asked in OF_PERFORMANCES.items()),
    *(of_a_small_one(f"works, {which}", work_list, asked) for which, asked in OF_WORKS.items()),
    *(
        of_a_small_one(f"{name}, {told}", view, asked, when=when)
        for told, when in (("after a start", When.STARTED), ("after a save", When.SAVED))
        for name, (view, asked) in ANEW.items()
    ),
    *(
        of_a_small_one(f"{name}, for the first time ever", *ANEW[name], aim=None, when=When.FIRST)
        for name in FOR_THE_FIRST_TIME
    ),
    *(of_a_small_one(name, view, {}, aim=None) for name, view in WHOLE.items()),
)
