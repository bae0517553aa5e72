"""What the first room shows: the coming days with what is due, and what the records lack."""

from __future__ import annotations

from collections.abc import Collection, Mapping, Sequence
from dataclasses import dataclass
from datetime import date, timedelta

from django.db.models import Count, Q
from django.urls import reverse
from django.utils.functional import Promise
from django.utils.safestring import SafeString
from django.utils.translation import gettext as _
from django.utils.translation import gettext_lazy, ngettext

from catalogue.documents.contents.credits import performers, places
from catalogue.documents.labels import labels
from catalogue.documents.model import Text, joined
from catalogue.drawings.ninety_days import DAYS, Concert
from catalogue.facts import PerformanceFacts
from catalogue.gathering import reading_of
from catalogue.gathering.families import gather_claims
from catalogue.gathering.journeys import asked_back, gather_around, stages_asked
from catalogue.gathering.performances import gather_performance
from catalogue.instrumentation import Instrumentation
from catalogue.models import Composer, Performance, Step
from catalogue.models.performances import PerformanceQuerySet
from catalogue.rules.journey import Around, Stage, asked_until
from catalogue.rules.needs import Due, Need, has_open_strings, needs_of
from catalogue.rules.playings import DID_NOT_HAPPEN, is_to_come
from catalogue.rules.premieres import Claim
from catalogue.terms import PerformanceStatus, StepState
from catalogue.timing import PartialDate, write_clock_time, write_date
from catalogue.timing.words import words_in
from catalogue.web.days import how_far, short_day, weekday_text
from catalogue.web.journeys import SOON, far_text, step_row
from catalogue.web.pictures import line_svg
from catalogue.web.programmes import titles_html, works_of

NEXT = 3  # shown of what comes later where the coming days are empty
AT_ONCE = 14  # days within which what is due is shown at once; the rest is folded
MOST_AFTER = 10  # performances that are over and still ask for something
MOST_TOGETHER = 30  # of the coming days, and of what is due for later ones, where they are of several composers
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


@dataclass(frozen=True, slots=True)
class Event:
    """A performance with its facts, what it lacks, and the steps that are still to be taken.

    Those that come after it are told once it is over.
    """

    record: Performance
    facts: PerformanceFacts
    dues: tuple[Due, ...]
    stages: tuple[Stage, ...]

    def days_due(self, last: date) -> list[date]:
        """Return the days on which something is due, up to the last one."""
        days = (*(due.day for due in self.dues), *(stage.due for stage in self.stages))
        return [day for day in days if day is not None and day <= last]


def today_page(
    composers: Sequence[Composer], *, can_edit: Collection[Composer], today: date, language: str
) -> TodayPage:
    """Gather the coming days of some composers; nineteen queries, however many they are.

    Two more where more than ``MOST_READ`` performances are to come: these are counted, not read.
    """
    last, whose = today + timedelta(days=DAYS), {composer.pk: composer for composer in composers}
    to_come = coming_performances(composers, today)
    coming, past = first_of(to_come.in_date_order()), first_of(performances_over(composers, today).latest_first())
    is_part = len(coming) > MOST_READ or len(past) > MOST_READ
    numbers = numbers_of(to_come, last) if len(coming) > MOST_READ else None
    if numbers:
        coming = [*coming, *with_own_days(to_come, coming)]
    around = gather_around([*coming, *past])
    found = [event_of(one, around[one.pk], today) for one in coming]
    events = [event for event in found if is_to_come(event.facts, today=today)]
    near = [one for one in events if one.record.first_day and one.record.first_day <= last]
    most = MOST_TOGETHER if len(composers) > 1 else None
    shown = (near or events[:NEXT])[:most]
    first = {one.record.pk for one in (*near, *shown)}
    ahead = [one for one in events if one.record.pk not in first and one.days_due(last)]
    over = [one for one in (event_of(each, around[each.pk], today) for each in past) if one.days_due(last)]
    theirs = [whose[one] for one in sorted({each.record.composer_id for each in shown})]
    claims = gather_claims(theirs, works_on(shown), today=today, shown=(one.record.pk for one in shown))
    telling = Telling(whose, frozenset(can_edit), today, last, language)
    return TodayPage(
        since=day_and_month(today, last, language),
        until=write_date(PartialDate.of(last), language),
        summary=counted(numbers.near if numbers else len(near), [*near, *ahead, *over], last, is_part=is_part),
        picture=picture_of(near, today, language),
        coming=tuple(coming_of(one, claims, telling) for one in shown),
        ahead=tuple(coming_of(one, claims, telling) for one in ahead[:most]),
        over=tuple(coming_of(one, claims, telling) for one in over[:MOST_AFTER]),
        is_later=not near and bool(events),
        later=(numbers.all if numbers else len(events)) - len(shown),
    )


@dataclass(frozen=True, slots=True)
class Numbers:
    """How many performances are to come, and how many of them in the coming days."""

    all: int
    near: int


def coming_performances(composers: Sequence[Composer], today: date) -> PerformanceQuerySet:
    """Ask for what may be to come and takes place, as ``is_to_come`` says it of one."""
    ours: PerformanceQuerySet = Performance.objects.filter(composer__in=composers).from_day(today)
    taking_place = ours.exclude(status__in=[status.value for status in DID_NOT_HAPPEN])
    return taking_place.exclude(status=PerformanceStatus.GIVEN.value, first_day__lte=today)


def performances_over(composers: Sequence[Composer], today: date) -> PerformanceQuerySet:
    """Ask for what was given not long ago; one query, for how long ago societies still take returns."""
    ours: PerformanceQuerySet = Performance.objects.filter(composer__in=composers, status=PerformanceStatus.GIVEN.value)
    return ours.before_day(today).from_day(today - asked_back(composers))


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


def event_of(record: Performance, around: Around, today: date) -> Event:
    facts = gather_performance(record)
    stages = tuple(stages_asked(record, around, today=today))
    if not is_to_come(facts, today=today):
        return Event(record, facts, (), stages)
    is_open = any(has_open_strings(reading_of(work.instrumentation)) for work in works_of(record))
    stated = any(work.string_strengths for work in works_of(record))
    return Event(record, facts, needs_of(facts, strings_are_open=is_open and not stated), stages)


def day_and_month(first: date, last: date, language: str) -> str:
    """Return the first of two days, without its year where the second has the same."""
    written = write_date(PartialDate.of(first), language)
    return written.removesuffix(f" {first.year}") if first.year == last.year else written


def counted(number: int, events: Sequence[Event], last: date, *, is_part: bool = False) -> str:
    """Count the performances, and what is due for these events; ``is_part`` where others were not looked at."""
    due = sum(len(event.days_due(last)) for event in events)
    performances = ngettext("one performance", "%d performances", number) if number else _("no performance")
    things = ngettext("one thing due", "%d things due", due) if due else _("nothing due")
    if is_part and due:
        things = ngettext("at least one thing due", "at least %d things due", due)
    told = (
        (performances % number if "%d" in performances else performances),
        (things % due if "%d" in things else things),
    )
    return ", ".join(told)


# ---- the picture


def picture_of(events: Sequence[Event], today: date, language: str) -> SafeString:
    concerts = [concert_of(event, today, language) for event in events]
    due = [day for event in events for day in event.days_due(today + timedelta(days=DAYS))]
    said = [f"{one.day_text}{_(' in ') if one.place else ''}{one.place}" for one in concerts]
    told = counted(len(events), events, today + timedelta(days=DAYS)).capitalize()
    title = f"{told}{': ' if said else ''}{'; '.join(said)}."
    return line_svg(today, concerts, due, title=title, today_word=_("today"), months=words_in(language).months)


def concert_of(event: Event, today: date, language: str) -> Concert:
    """Return a performance as it stands on the line; of a month or a year, its first day that is not over."""
    works = works_of(event.record)
    first = works[0] if works else None
    others = f" + {len(works) - 1}" if len(works) > 1 else ""
    when = event.facts.date or PartialDate.of(today)
    return Concert(
        day=max(when.first, today),
        title=f"{first.title}{others}" if first else event.facts.event_title or _("Performance"),
        day_text=short_day(when, language),
        place=event.facts.city,
        language=first.title_language if first else "",
        certain=event.facts.status is not PerformanceStatus.PLANNED,
    )


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
