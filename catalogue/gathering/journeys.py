"""What is known around performances: lead times, what was said of each step, and what the records show of it."""

from __future__ import annotations

from collections.abc import Callable, Collection, Iterable, Iterator
from dataclasses import replace
from datetime import date, datetime, time, timedelta
from typing import Any
from uuid import uuid5

from django.db.models import Max, QuerySet, Sum

from catalogue.facts import DueFacts, SessionFacts
from catalogue.gathering.among import among
from catalogue.gathering.performances import gather_performance
from catalogue.gathering.readings import readable, reading_of
from catalogue.instrumentation import Instrumentation
from catalogue.models import (
    Composer,
    HiredPerformance,
    LeadTimes,
    Performance,
    Recording,
    Return,
    Review,
    Rider,
    RiderSending,
    Sending,
    Session,
    SocietyDeadline,
    Step,
    TechnicalSetup,
    Work,
)
from catalogue.models.performances import PerformanceQuerySet
from catalogue.rules.filing import Filing, FilingRule, FilingScope, FilingTerm, filings_of
from catalogue.rules.journey import Around, Leads, Lent, Stage, StepFacts, is_told_by_its_set, journey_of, leads_of
from catalogue.rules.playings import is_to_come
from catalogue.terms import Audience, PerformanceStatus, StepKind, StepState
from catalogue.terms.hires import Purpose
from catalogue.timing import MomentError, PartialDate, moment_at

ASKED_BACK, ASKED_AHEAD = timedelta(days=500), timedelta(days=500)  # around today: how far off steps can be due
STILL_LOOKED_AT = timedelta(
    days=100
)  # how long after the latest deadline of a society its performance is still looked at


def gather_around(performances: Collection[Performance]) -> dict[int, Around]:
    """Return what is known around performances that come from ``with_everything_printed``, by their key; eight queries.

    They may be of several composers. No query where there are none.
    """
    if not performances:
        return {}
    keys = [one.pk for one in performances]
    composers = {one.composer_id for one in performances}
    leads, terms, steps, returns = gather_leads(composers), gather_terms(composers), steps_of(keys), returns_of(keys)
    shown = {
        **shown_by_records(keys),
        StepKind.RETURN: {key for key, one in returns.items() if any(map(is_filed, one))},
    }
    needs_sound, lent = with_sound(performances), lent_for(keys)
    return {
        one.pk: replace(
            led(one, leads),
            steps=tuple(steps.get(one.pk, ())),
            shown=frozenset(kind for kind, found in shown.items() if one.pk in found) | lasted(one),
            needless=frozenset(needless_for(one, needs_sound, lent.get(one.pk, ()))),
            with_parts=frozenset(row.work_id for row in living_programme(one) if not is_for_one(forces_of(row.work))),
            lent=tuple(lent.get(one.pk, ())),
            filings=filings_for(one, terms.get(one.composer_id, ()), returns.get(one.pk, ())),
        )
        for one in performances
    }


def led(performance: Performance, leads: dict[tuple[int, int | None], Leads]) -> Around:
    """Return the lead times of a performance: its presenter's, the composer's, and what they come to."""
    composer, presenter = performance.composer_id, performance.presenter_id
    theirs = leads.get((composer, presenter), {}) if presenter else {}
    ours = leads.get((composer, None), {})
    return Around(leads_of(theirs, ours), of_presenter=theirs, of_composer=ours)


def gather_leads(composers: Collection[int]) -> dict[tuple[int, int | None], Leads]:
    """Return the lead times that are kept, by the composer and the presenter for whom they are; one query."""
    kept = LeadTimes.objects.filter(among("composer_id", composers)).order_by("pk")
    return {(one.composer_id, one.organisation_id): one.said() for one in kept}


def gather_terms(composers: Collection[int]) -> dict[int, list[FilingTerm]]:
    """Return the deadlines of societies that are kept, by the composer; one query."""
    found: dict[int, list[FilingTerm]] = {}
    for one in SocietyDeadline.objects.filter(among("composer_id", composers)).order_by("pk"):
        rule: FilingRule | None = readable(one.rule, None)
        if rule is not None:
            term = FilingTerm(
                one.society, rule, FilingScope(one.scope), one.country, one.what, one.source, day_of(one.read_on)
            )
            found.setdefault(one.composer_id, []).append(term)
    return found


def asked_back(composers: Collection[int]) -> dict[int, timedelta]:
    """Return how far back performances may still ask for something, by the composer; one query."""
    found = dict.fromkeys(composers, ASKED_BACK)
    kept = SocietyDeadline.objects.filter(among("composer_id", composers)).values_list("composer", "rule")
    for composer, one in kept:
        rule: FilingRule | None = readable(one, None)
        if rule is not None:
            found[composer] = max(found[composer], timedelta(days=rule.longest) + STILL_LOOKED_AT)
    return found


def returns_of(keys: Collection[int]) -> dict[int, list[Return]]:
    """Return what societies were told of some performances, or are to be told; one query."""
    found: dict[int, list[Return]] = {}
    for one in Return.objects.filter(performance__in=keys).order_by("pk"):
        found.setdefault(one.performance_id, []).append(one)
    return found


def is_filed(told: Return) -> bool:
    return told.filed is not None


def filings_for(performance: Performance, terms: Iterable[FilingTerm], returns: Iterable[Return]) -> tuple[Filing, ...]:
    """Return which societies are still to be told of a performance; a day typed with a return goes before the rules."""
    first, told = performance.first_day, {one.society.casefold(): one for one in returns}
    if first is None:
        return ()
    by_rule = filings_of(terms, day=first, country=performance.country)
    typed = [Filing(one.society, day) for one in told.values() if not is_filed(one) and (day := day_of(one.until))]
    ruled = [one for one in by_rule if one.society.casefold() not in told or waits(told[one.society.casefold()])]
    return tuple(sorted([*typed, *ruled], key=lambda one: (one.due, one.society)))


def waits(told: Return) -> bool:
    """Whether a return is not filed yet, and nobody typed until when it is taken."""
    return not is_filed(told) and day_of(told.until) is None


def steps_of(keys: Collection[int]) -> dict[int, list[StepFacts]]:
    found: dict[int, list[StepFacts]] = {}
    for step in Step.objects.filter(performance__in=keys).order_by("pk"):
        found.setdefault(step.performance_id, []).append(gather_step(step))
    return found


def gather_step(step: Step) -> StepFacts:
    return StepFacts(
        kind=StepKind(step.kind),
        state=StepState(step.state),
        due=day_of(step.due),
        done_on=day_of(step.done_on),
        note=step.notes,
        label=step.label,
        id=step.pk,
        uid=step.uid,
        changed_at=step.changed_at,
        saves=step.saves,
    )


def day_of(value: Any) -> date | None:
    when: PartialDate | None = readable(value, None)
    return when.exact if when else None


def shown_by_records(keys: Collection[int]) -> dict[StepKind, set[int]]:
    """Return for which performances the records show a step as done; three queries."""
    riders = RiderSending.objects.filter(rider__performance__in=keys, rider__deleted_at__isnull=True).order_by()
    papers = Sending.objects.filter(performance__in=keys, document="rider").order_by()
    sent = riders.values_list("rider__performance").union(papers.values_list("performance"))
    return {
        StepKind.RIDER: {performance for (performance,) in sent},
        StepKind.RECORDING: performances_of(Recording, keys),
        StepKind.REVIEW: performances_of(Review, keys),
    }


def lent_for(keys: Collection[int]) -> dict[int, list[Lent]]:
    """Return the sets that go out for each performance, those for perusal left out; one query."""
    rows = HiredPerformance.objects.filter(performance__in=keys, hire__deleted_at__isnull=True).order_by("pk")
    found: dict[int, list[Lent]] = {}
    for row in rows.exclude(hire__purpose=Purpose.PERUSAL.value).select_related("hire"):
        hire, is_sold = row.hire, row.hire.purpose == Purpose.SALE
        lent = Lent(hire.work_id, hire.out_on, hire.due, hire.back_on, is_for_good=is_sold)
        found.setdefault(row.performance_id, []).append(lent)
    return found


def performances_of(model: Any, keys: Collection[int]) -> set[int]:
    return set(model.objects.filter(performance__in=keys).values_list("performance", flat=True))


def lasted(performance: Performance) -> set[StepKind]:
    """Say whether it is known how long each work lasted."""
    rows = living_programme(performance)
    return {StepKind.LASTED} if rows and all(row.duration is not None for row in rows) else set()


def living_programme(performance: Performance) -> list[Any]:
    return [row for row in performance.programme.all() if row.work.deleted_at is None]


def with_sound(performances: Iterable[Performance]) -> set[int]:
    """Return the works among those on the programmes that have a technical setup or a rider; one query."""
    works = {row.work_id for one in performances for row in one.programme.all()}
    setups = TechnicalSetup.objects.filter(work__in=works).order_by().values_list("work")
    riders = Rider.objects.filter(work__in=works).order_by().values_list("work")
    return {work for (work,) in setups.union(riders)}


def needless_for(performance: Performance, sounding: set[int], lent: Collection[Lent]) -> Iterator[StepKind]:
    """Give the steps that nothing on the programme, or nobody in the hall, asks for."""
    works = [row.work for row in living_programme(performance)]
    forces = [forces_of(work) for work in works]
    if not any(work.pk in sounding for work in works):
        yield StepKind.RIDER
        if not any(is_with_electronics(one) for one in forces):
            yield StepKind.ELECTRONICS
    if works and all(is_for_one(one) for one in forces):
        yield StepKind.PARTS
    if not any(is_on_hire(work) for work in works) and all(one.is_for_good for one in lent):
        yield StepKind.SET_BACK
    if performance.audience != Audience.PUBLIC:
        yield StepKind.RETURN


def forces_of(work: Work) -> Instrumentation | None:
    return reading_of(work.instrumentation)


def is_with_electronics(forces: Instrumentation | None) -> bool:
    return forces is not None and forces.electronics != "none"


def is_for_one(forces: Instrumentation | None) -> bool:
    """Whether one player is all there is, who plays from the score."""
    return forces is not None and forces.players == (1, 1) and forces.singers == (0, 0)


def is_on_hire(work: Work) -> bool:
    return work.parts_on_hire


# ---- for calendars


def gather_sessions(performances: QuerySet[Performance]) -> tuple[SessionFacts, ...]:
    """Return the sessions of some performances; one query."""
    found = Session.objects.filter(performance__in=performances.order_by().values("pk"))
    rows = found.select_related("performance__venue").order_by("date", "time", "pk")
    return tuple(facts for one in rows if (facts := gather_session(one)) is not None)


def gather_session(session: Session) -> SessionFacts | None:
    """Return the facts of a session; nothing where its day can no longer be read."""
    day = day_of(session.date)
    if day is None:
        return None
    starts, ends = (moment_of(session, day, at) for at in (session.time, session.until))
    if starts is not None and ends is not None and ends <= starts:
        ends += timedelta(days=1)
    hours = " to ".join(f"{at:%H:%M}" for at in (session.time, session.until) if at)
    return SessionFacts(
        uid=session.uid,
        performance_id=session.performance_id,
        name=session.title or session.get_kind_display(),
        day=day,
        starts_at=starts,
        ends_at=ends if starts else None,
        place=session.place,
        local=f"{hours} {session.local_zone}".strip() if hours else "",
        changed_at=session.changed_at,
        sequence=session.saves,
    )


def moment_of(session: Session, day: date, at: time | None) -> datetime | None:
    if at is None or not session.local_zone:
        return None
    try:
        return moment_at(day, at, session.local_zone, second=False)
    except MomentError:
        return None


def gather_dues(
    composer: Composer, performances: PerformanceQuerySet, *, today: date, words: Callable[[Stage], str]
) -> tuple[DueFacts, ...]:
    """Return what is open around some performances, with its day; fifteen queries. ``words`` names a step.

    Before a performance what comes before it, afterwards the rest.
    """
    near = performances.from_day(today - asked_back([composer.pk])[composer.pk]).filter(
        first_day__lte=today + ASKED_AHEAD
    )
    records = list(near.with_everything_printed())
    around, said = gather_around(records), lead_times_said(composer)
    return tuple(
        due_of(stage, record, said, words(stage))
        for record in records
        for stage in stages_asked(record, around[record.pk], today=today)
        if stage.due is not None
    )


def stages_asked(record: Performance, around: Around, *, today: date) -> list[Stage]:
    """Return the steps that are still to be taken: before a performance those before it, afterwards the rest.

    Of a set that is out its own record reminds, once.
    """
    facts = gather_performance(record)
    is_over = not is_to_come(facts, today=today)
    if is_over and facts.status is not PerformanceStatus.GIVEN:
        return []
    asked = [one for one in journey_of(facts, around, today=today) if one.is_open and one.is_after == is_over]
    return [one for one in asked if not is_told_by_its_set(one, around)]


def lead_times_said(composer: Composer) -> tuple[int, datetime | None]:
    """Return how often lead times and deadlines were saved, and when last: a day that they move is an entry revised."""
    kept: tuple[Any, ...] = (LeadTimes, SocietyDeadline)
    every = [model.with_deleted.filter(composer=composer) for model in kept]
    told = [rows.aggregate(saves=Sum("saves"), last=Max("changed_at")) for rows in every]
    moments = [one["last"] for one in told if one["last"] is not None]
    return sum(one["saves"] or 0 for one in told), max(moments, default=None)


def due_of(stage: Stage, record: Performance, said: tuple[int, datetime | None], words: str) -> DueFacts:
    step = stage.step
    own = step.uid if step is not None and stage.kind is StepKind.OTHER else None
    moments = [moment for moment in (said[1], step.changed_at if step else None) if moment is not None]
    return DueFacts(
        uid=own or uuid5(record.uid, stage.kind.value),
        performance_id=record.pk,
        name=words,
        day=stage.due or date.max,
        changed_at=max(moments, default=None),
        sequence=said[0] + (step.saves if step else 0),
    )
