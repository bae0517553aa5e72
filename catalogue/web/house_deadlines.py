"""Every day by which something is due, of some composers together: steps, returns, sets that come back, calls.

What is due around a performance is reckoned, so that no database can sort by it: all of it until a day is reckoned
of each composer, again after something of theirs was saved, and put in order once for each state of all catalogues. A
page shows a part.
"""

from __future__ import annotations

from bisect import bisect_left, bisect_right
from collections.abc import Collection, Iterator, Sequence
from dataclasses import dataclass
from datetime import date, datetime, timedelta
from itertools import chain, islice
from operator import attrgetter

from django.db.models import Q
from django.urls import reverse
from django.utils.translation import gettext as _

from catalogue.gathering.among import among
from catalogue.gathering.hires import still_out
from catalogue.gathering.journeys import ASKED_BACK, asked_back, gather_around, gather_leads
from catalogue.gathering.of_composers import OfComposers
from catalogue.gathering.once import once_for_each_state
from catalogue.gathering.versions import HELD_BY_DUES, State, state_of_dues
from catalogue.models import Call, Composer, Step
from catalogue.rules.journey import Stage, usual_leads
from catalogue.rules.needs import weeks_before
from catalogue.terms import DeadlineKind, StepKind, StepState
from catalogue.web.coming_events import Event, coming_performances, event_of, performances_over
from catalogue.web.journeys import SOON, far_text, filed_with, name_of_step
from catalogue.web.programmes import name_of
from catalogue.web.records.of_materials import HIRES
from catalogue.web.tables.lists import AT_ONCE
from catalogue.web.today_page import NEEDS
from catalogue.web.wording import date_text, day_text

KIND_OF_STEP = {StepKind.RETURN: DeadlineKind.RETURN, StepKind.SET_BACK: DeadlineKind.SET}
IN_ORDER = {kind: place for place, kind in enumerate(DeadlineKind)}
DAY = attrgetter("day")
REMEMBERED, MOST_COMPOSERS = 8, 20_000


@dataclass(frozen=True, slots=True)
class Deadline:
    """A day, what is due by then and of what; ``view`` and ``record`` are its page, ``place`` where on it.

    ``moment`` is when a call closes where it names an hour.
    """

    day: date
    kind: DeadlineKind
    composer: int
    what: str
    about: str
    view: str
    record: int
    place: str = ""
    moment: datetime | None = None


@dataclass(frozen=True, slots=True)
class DeadlineRow:
    """A deadline ready to print; ``look`` is late or soon."""

    day: str
    far: str
    look: str
    kind: DeadlineKind
    what: str
    about: str
    address: str
    whose: Composer


@dataclass(frozen=True, slots=True)
class Span:
    """The days that are asked for, both counted in; without a first one all that is late and still asked for."""

    since: date | None
    until: date

    def among(self, found: Sequence[Deadline]) -> Sequence[Deadline]:
        """Return those of some deadlines, which are in the order of their days, that are asked for."""
        first = 0 if self.since is None else bisect_left(found, self.since, key=DAY)
        return found[first : bisect_right(found, self.until, key=DAY)]


def deadlines_of(
    composers: Sequence[Composer],
    of_material: Collection[int],
    span: Span,
    *,
    now: datetime,
    today: date,
    language: str,
) -> list[Deadline]:
    """Return what is due in some days, of composers in the order of their names.

    ``of_material`` are the keys of those of whom nothing else is told than when sets are due back. Sixteen queries,
    however many composers and however much is due, up to ``AT_ONCE`` performances; after something was saved they are
    asked of its composer alone.
    """
    keys, material = tuple(one.pk for one in composers), frozenset(of_material)
    found = deadlines_at(state_of_dues(), keys, material, span.until, today, language)
    return [one for one in span.among(found) if one.moment is None or one.moment > now]


@once_for_each_state(REMEMBERED)
def deadlines_at(
    state: State, composers: tuple[int, ...], of_material: frozenset[int], until: date, today: date, language: str
) -> tuple[Deadline, ...]:
    """Return all that is due until a day, by day, then by composer, kind and name."""
    owners = {key: key for key in composers}
    told = (until, today, language)
    theirs = _theirs.to(state, owners, told, lambda keys: due_of_each(keys, until, today, language))
    by_name = {key: number for number, key in enumerate(composers)}
    due = (one for key, found in theirs.items() for one in found if one.view == HIRES.slug or key not in of_material)
    return tuple(sorted(due, key=lambda one: (one.day, by_name[one.composer], IN_ORDER[one.kind], one.about)))


def due_of_each(composers: Collection[int], until: date, today: date, language: str) -> dict[int, tuple[Deadline, ...]]:
    """Return all that is due until a day, of each composer."""
    found: dict[int, list[Deadline]] = {key: [] for key in composers}
    around = (one for event in events_until(composers, until, today) for one in around_event(event, language))
    for one in chain(around, sets_back(composers), calls_that_close(composers, until, today)):
        if one.day <= until:
            found[one.composer].append(one)
    return {key: tuple(some) for key, some in found.items()}


_theirs: OfComposers[int, tuple[Deadline, ...]] = OfComposers(
    HELD_BY_DUES, most_askings=REMEMBERED, most=MOST_COMPOSERS
)


# ---- around performances


def events_until(composers: Collection[int], until: date, today: date) -> Iterator[Event]:
    """Give the performances of which something may be due until a day, with what is known around them.

    How long after one something may be due is each composer's own.
    """
    last, back = until + timedelta(days=longest_lead(composers)), asked_back(composers)
    named = Step.objects.filter(state=StepState.OPEN.value, due__isnull=False).values("performance")
    coming = coming_performances(composers, today).filter(Q(first_day__lte=last) | Q(pk__in=named))
    over = performances_over(composers, today, max(back.values(), default=ASKED_BACK))
    rows = (coming | over).with_everything_printed().order_by("pk").iterator(chunk_size=AT_ONCE)
    while some := list(islice(rows, AT_ONCE)):
        asked = [one for one in some if one.last_day and one.last_day >= today - back[one.composer_id]]
        around = gather_around(asked)
        yield from (event_of(one, around[one.pk], today) for one in asked)


def longest_lead(composers: Collection[int]) -> int:
    """Return how many days before a performance something can be due at most, by any composer's lead times."""
    kept = [*gather_leads(composers).values(), usual_leads()]
    leads = [lead.days for said in kept for lead in said.values() if lead.days is not None]
    return max(*leads, *(7 * weeks for weeks in weeks_before().values()))


def around_event(event: Event, language: str) -> Iterator[Deadline]:
    """Give what is due of a performance: what its record lacks, and its steps; of returns each society's."""
    record = event.record
    about = ", ".join(part for part in (name_of(record), date_text(record.date, language)) if part)
    for due in event.dues:
        words, field = NEEDS[due.need]
        yield Deadline(
            due.day, DeadlineKind.RECORD, record.composer_id, str(words), about, "performance-edit", record.pk, field
        )
    for day, kind, told in (one for stage in event.stages for one in days_of(stage)):
        yield Deadline(day, kind, record.composer_id, told, about, "performance-detail", record.pk, "journey")


def days_of(stage: Stage) -> Iterator[tuple[date, DeadlineKind, str]]:
    """Give the days of a step with what is due: of a return one for each society that is still to be told."""
    if stage.filings:
        for one in stage.filings:
            yield one.due, DeadlineKind.RETURN, filed_with(one.society)
    elif stage.due is not None:
        yield stage.due, KIND_OF_STEP.get(stage.kind, DeadlineKind.STEP), name_of_step(stage)


# ---- sets and calls


def sets_back(composers: Collection[int]) -> Iterator[Deadline]:
    """Give when each set that is out is to be back; one query."""
    for hire in still_out(*composers):
        if hire.due is not None:
            number = _("set %(number)s") % {"number": hire.material_set.number} if hire.material_set else ""
            about = ", ".join(part for part in (hire.work.title, number, hire.holder) if part)
            yield Deadline(hire.due, DeadlineKind.SET, hire.composer_id, _("Set back"), about, "hires", hire.pk)


def calls_that_close(composers: Collection[int], until: date, today: date) -> Iterator[Deadline]:
    """Give when each call closes that is neither over nor answered; one query."""
    found = Call.objects.filter(among("composer_id", composers)).filter(
        closes_on__range=(today - timedelta(days=1), until)
    )
    for call in found.undecided().only("title", "composer", "closes_on", "closes_at"):
        day = call.closes_on
        if day is not None and (call.closes_at is not None or day >= today):
            yield Deadline(
                day, DeadlineKind.CALL, call.composer_id, _("Call closes"), call.title, "call-detail", call.pk,
                moment=call.closes_at,
            )  # fmt: skip


# ---- rows


def row_of(one: Deadline, whose: Composer, *, can_edit: bool, today: date, language: str) -> DeadlineRow:
    days = (one.day - today).days
    return DeadlineRow(
        day=day_text(one.day, language),
        far=far_text(one.day, today),
        look="late" if days < 0 else "soon" if days <= SOON else "",
        kind=one.kind,
        what=one.what,
        about=one.about,
        address=address_of(one, whose, can_edit=can_edit),
        whose=whose,
    )


def address_of(one: Deadline, whose: Composer, *, can_edit: bool) -> str:
    """Return where it is seen to: in the form of a record that lacks something, for whoever may edit it."""
    if one.view == HIRES.slug:
        return reverse("record-detail", args=[whose.slug, HIRES.slug, one.record])
    if one.view == "performance-edit" and not can_edit:
        return reverse("performance-detail", args=[whose.slug, one.record])
    return reverse(one.view, args=[whose.slug, one.record]) + (f"#{one.place}" if one.place else "")
