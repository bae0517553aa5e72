"""What the first room shows: the coming days with what is due, and what the records lack."""

from __future__ import annotations

from collections.abc import Collection, Iterable, Mapping, Sequence
from dataclasses import dataclass
from datetime import date, timedelta

from django.db.models import Count, Q
from django.urls import reverse
from django.utils.functional import Promise
from django.utils.safestring import SafeString
from django.utils.translation import gettext as _
from django.utils.translation import gettext_lazy

from catalogue.documents.contents.credits import performers, places
from catalogue.documents.labels import labels
from catalogue.documents.model import Text, joined
from catalogue.drawings.ninety_days import DAYS
from catalogue.gathering import reading_of
from catalogue.gathering.families import gather_claims
from catalogue.gathering.journeys import asked_back, gather_around
from catalogue.instrumentation import Instrumentation
from catalogue.models import Composer, Performance, Step
from catalogue.models.performances import PerformanceQuerySet
from catalogue.rules.journey import Stage, asked_until
from catalogue.rules.needs import Due, Need
from catalogue.rules.premieres import Claim
from catalogue.terms import PerformanceStatus, StepState
from catalogue.timing import PartialDate, write_clock_time, write_date
from catalogue.web.coming_events import (
    Event,
    Glance,
    arranged,
    coming_performances,
    counted,
    event_of,
    glance_of,
    performances_over,
    picture_of,
)
from catalogue.web.days import how_far, short_day, weekday_text
from catalogue.web.journeys import SOON, far_text, step_row
from catalogue.web.programmes import titles_html, works_of

AT_ONCE = 14  # days within which what is due is shown at once; the rest is folded
MOST_AFTER = 10  # performances that are over and still ask for something
MOST_READ = 60  # performances that are read with all their steps: the next ones, and the last ones that are over

# what is needed, as one is told to do it, and the field that mends it
NEEDS: dict[Need, tuple[Promise, str]] = {
    Need.CONFIRMATION: (gettext_lazy("To be confirmed"), "id_status"),
    Need.DAY: (gettext_lazy("Name the day"), "id_date"),
    Need.PLACE: (gettext_lazy("Name the hall and the city"), "id_venue"),
    Need.PROGRAMME: (gettext_lazy("Name the works"), "programme"),
    Need.PERFORMERS: (gettext_lazy("Say who performs"), "id_performers"),
    Need.TIME: (gettext_lazy("Say when it begins"), "id_time"),
    Need.CLOCKS: (gettext_lazy("Say by which clocks"), "id_zone"),
    Need.STRENGTHS: (gettext_lazy("State how many strings play"), "id_string_strengths"),
}


@dataclass(frozen=True, slots=True)
class Task:
    """Something due: in words, where it is mended, how far off, and whether it is late or soon.

    ``mark`` is the address that says it is done, empty for what the record itself has to tell.
    """

    words: str
    address: str
    due: str
    look: str
    day: date
    mark: str = ""


@dataclass(frozen=True, slots=True)
class Coming:
    """A performance that is to come. Texts are ready to print; ``can_edit`` where the reader may mend it."""

    whose: Composer
    can_edit: bool
    address: str
    title: SafeString | str
    day: str
    at: str
    far: str
    who: Text
    where: Text
    remarks: tuple[str, ...]
    instrumentation: Instrumentation | None
    tasks: tuple[Task, ...]
    folded: tuple[Task, ...] = ()


@dataclass(frozen=True, slots=True)
class TodayPage:
    """``summary`` counts what comes and what is due; ``later`` is how many come after the coming days.

    ``ahead`` are those after them of which something is due in these days, ``over`` those that are over.
    """

    since: str
    until: str
    summary: str
    picture: SafeString
    coming: tuple[Coming, ...]
    ahead: tuple[Coming, ...]
    over: tuple[Coming, ...]
    is_later: bool
    later: int


def today_page(composer: Composer, *, can_edit: bool, today: date, language: str) -> TodayPage:
    """Gather the coming days of a composer; nineteen queries.

    Two more where more than ``MOST_READ`` performances are to come: these are counted, not read.
    """
    last, ours = today + timedelta(days=DAYS), [composer.pk]
    to_come, back = coming_performances(ours, today), asked_back(ours)[composer.pk]
    coming, past = first_of(to_come.in_date_order()), first_of(performances_over(ours, today, back).latest_first())
    is_part = len(coming) > MOST_READ or len(past) > MOST_READ
    numbers = numbers_of(to_come, last) if len(coming) > MOST_READ else None
    if numbers:
        coming = [*coming, *with_own_days(to_come, coming)]
    around = gather_around([*coming, *past])
    events = {one.pk: event_of(one, around[one.pk], today) for one in (*coming, *past)}
    glances = {key: glance_of(one, today, language) for key, one in events.items()}
    found = arranged([glances[one.pk] for one in coming], [glances[one.pk] for one in past], last)
    shown = [one.key for one in found.shown]
    claims = gather_claims([composer], works_on([events[key] for key in shown]), today=today, shown=shown)
    telling = Telling({composer.pk: composer}, frozenset([composer] if can_edit else []), today, last, language)

    def entries(chosen: Iterable[Glance]) -> tuple[Coming, ...]:
        return tuple(coming_of(events[one.key], claims, telling) for one in chosen)

    return TodayPage(
        since=day_and_month(today, last, language),
        until=write_date(PartialDate.of(last), language),
        summary=counted(numbers.near if numbers else len(found.near), found.due, is_part=is_part),
        picture=picture_of(found.near, today, language),
        coming=entries(found.shown),
        ahead=entries(found.ahead),
        over=entries(found.over[:MOST_AFTER]),
        is_later=found.is_later,
        later=(numbers.all if numbers else found.number) - len(shown),
    )


@dataclass(frozen=True, slots=True)
class Numbers:
    """How many performances are to come, and how many of them in the coming days."""

    all: int
    near: int


def first_of(found: PerformanceQuerySet) -> list[Performance]:
    """Read the first performances, and one more where there are more; three queries."""
    return list(found.with_everything_printed()[: MOST_READ + 1])


def with_own_days(to_come: PerformanceQuerySet, read: Sequence[Performance]) -> list[Performance]:
    """Read those that come later than what was read and for which somebody has named a day of a step."""
    named = Step.objects.filter(state=StepState.OPEN.value, due__isnull=False).values("performance")
    later = to_come.filter(pk__in=named).exclude(pk__in=[one.pk for one in read])
    return first_of(later.in_date_order())[:MOST_READ]


def numbers_of(to_come: PerformanceQuerySet, last: date) -> Numbers:
    told = to_come.aggregate(all=Count("pk"), near=Count("pk", filter=Q(first_day__lte=last)))
    return Numbers(told["all"], told["near"])


def works_on(events: Sequence[Event]) -> set[int]:
    return {row.work_id for one in events for row in one.record.programme.all()}


def day_and_month(first: date, last: date, language: str) -> str:
    """Return the first of two days, without its year where the second has the same."""
    written = write_date(PartialDate.of(first), language)
    return written.removesuffix(f" {first.year}") if first.year == last.year else written


# ---- the entries


@dataclass(frozen=True, slots=True)
class Telling:
    """Of whom the entries tell, which catalogues may be edited, and from which day until which, in which language."""

    whose: Mapping[int, Composer]
    can_edit: Collection[Composer]
    today: date
    last: date
    language: str


def coming_of(event: Event, claims: Mapping[int, Claim], telling: Telling) -> Coming:
    facts, works, today, language = event.facts, works_of(event.record), telling.today, telling.language
    composer = telling.whose[event.record.composer_id]
    tasks = tasks_of(event, composer.slug, today=today, last=telling.last, language=language)
    at_once = [task for task in tasks if (task.day - today).days <= AT_ONCE]
    exact = facts.date.exact if facts.date else None
    weekday = weekday_text(exact, language) if exact else ""
    words = dict.fromkeys(claims[item.id].called for item in facts.programme if item.id in claims)
    became = _("planned") if facts.status is PerformanceStatus.PLANNED else ""
    return Coming(
        whose=composer,
        can_edit=composer in telling.can_edit,
        address=reverse("performance-detail", args=[composer.slug, facts.id]),
        title=titles_html(works) or facts.event_title or _("Performance"),
        day=short_day(facts.date, language) if facts.date else "",
        at=", ".join(part for part in (weekday, write_clock_time(facts.time, language) if facts.time else "") if part),
        far=how_far(facts.date, today) if facts.date else "",
        who=performers(facts, labels(language), sentence=False),
        where=joined(places(facts), ", "),
        remarks=tuple(word for word in (*words, became) if word),
        instrumentation=next((found for work in works if (found := reading_of(work.instrumentation))), None),
        tasks=tuple(at_once),
        folded=tuple(tasks[len(at_once) :]),
    )


def tasks_of(event: Event, slug: str, *, today: date, last: date, language: str) -> list[Task]:
    """Return what is due of a performance until the last day, the most urgent first; where it is far off, all it lacks.

    A thing is told once: what the record lacks in its form, what is to be done in its steps.
    """
    edit = reverse("performance-edit", args=[slug, event.facts.id])
    steps = asked_until(event.stages, last)
    tasks = [
        *(task_of(due, edit, today) for due in event.dues),
        *(task_of_step(stage, event, slug, today=today, language=language) for stage in steps),
    ]
    return sorted(tasks, key=lambda task: task.day)


def task_of(due: Due, edit: str, today: date) -> Task:
    words, field = NEEDS[due.need]
    days = (due.day - today).days
    look = "late" if days < 0 else "soon" if days <= SOON else ""
    return Task(str(words), f"{edit}#{field}", far_text(due.day, today), look, due.day)


def task_of_step(stage: Stage, event: Event, slug: str, *, today: date, language: str) -> Task:
    row = step_row(stage, event.facts.id, today=today, slug=slug, language=language)
    page = reverse("performance-detail", args=[slug, event.facts.id])
    mark = reverse("performance-step", args=[slug, event.facts.id, row.slug, "done"]) if row.slug else ""
    return Task(row.words, f"{page}#journey", row.far, row.look, stage.due or today, mark)
