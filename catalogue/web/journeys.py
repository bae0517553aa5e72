"""The steps around a performance in words, with the way to say how each stands."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from datetime import date

from django.urls import reverse
from django.utils.functional import Promise
from django.utils.http import urlencode
from django.utils.translation import gettext as _
from django.utils.translation import gettext_lazy, ngettext

from catalogue.gathering.readings import readable
from catalogue.models import Performance, Session
from catalogue.rules.filing import Filing
from catalogue.rules.journey import Around as Known
from catalogue.rules.journey import Stage, Standing, usual_leads
from catalogue.terms import StepKind, StepState
from catalogue.timing import PartialDate
from catalogue.web.days import hours_text, how_far, long_day
from catalogue.web.records.of_catalogue import REVIEWS
from catalogue.web.records.of_performances import RETURNS
from catalogue.web.records.of_works import RECORDINGS
from catalogue.web.records.page import Around, around
from catalogue.web.wording import date_text

SOON = 7  # days within which something is due soon

STEPS: dict[StepKind, Promise] = {
    StepKind.CONTRACT: gettext_lazy("Contract signed"),
    StepKind.RIDER: gettext_lazy("Technical rider sent"),
    StepKind.PARTS: gettext_lazy("Parts delivered"),
    StepKind.TEXTS: gettext_lazy("Programme note and biography sent"),
    StepKind.STREAM: gettext_lazy("Permission to stream settled"),
    StepKind.RECORDING_REQUEST: gettext_lazy("Recording asked for"),
    StepKind.TRAVEL: gettext_lazy("Travel booked"),
    StepKind.ELECTRONICS: gettext_lazy("Electronics tested"),
    StepKind.LASTED: gettext_lazy("Duration as played noted"),
    StepKind.THANKS: gettext_lazy("Thanks sent"),
    StepKind.SET_BACK: gettext_lazy("Set of parts back"),
    StepKind.RECORDING: gettext_lazy("Recording received"),
    StepKind.REVIEW: gettext_lazy("Reviews noted"),
    StepKind.RETURN: gettext_lazy("Return filed with the society"),
}
NAMED = ("performance",)
SILENT = (Standing.MISSED, Standing.NOT_NEEDED)
STATES: dict[StepState, Promise] = {
    StepState.OPEN: gettext_lazy("%(step)s: open again."),
    StepState.DONE: gettext_lazy("%(step)s: done."),
    StepState.NOT_NEEDED: gettext_lazy("%(step)s: not needed here."),
}
SHOWN_BY: dict[StepKind, Promise] = {
    StepKind.PARTS: gettext_lazy("a set has gone out"),
    StepKind.SET_BACK: gettext_lazy("its hire says so"),
    StepKind.RIDER: gettext_lazy("a rider was sent"),
    StepKind.LASTED: gettext_lazy("each work has its duration here"),
    StepKind.RECORDING: gettext_lazy("a recording is kept"),
    StepKind.REVIEW: gettext_lazy("a review is kept"),
    StepKind.RETURN: gettext_lazy("a return is kept"),
}


@dataclass(frozen=True, slots=True)
class StepRow:
    """A step as a page tells it; ``slug`` is empty for a step of the composer's own, ``edit`` its form.

    ``due`` is the day, ``far`` how it stands to today, ``look`` late or soon.
    """

    words: str
    slug: str
    edit: str
    standing: Standing
    due: str
    far: str
    look: str
    said: str
    note: str

    @property
    def is_open(self) -> bool:
        return self.standing in {Standing.OPEN, Standing.LATE, Standing.MISSED}


@dataclass(frozen=True, slots=True)
class LeadRow:
    """By when a step is due as each says it, as far as they say anything, and what holds."""

    words: str
    theirs: str
    ours: str
    usual: str
    holds: str


@dataclass(frozen=True, slots=True)
class SessionRow:
    """A session in words: what it is, on which day and at which hours, and where it is not in the hall."""

    key: int
    name: str
    when: str
    place: str


@dataclass(frozen=True, slots=True)
class Journey:
    """Everything around one performance; ``sums`` says in a line what is done, late and open."""

    sums: str
    before: tuple[StepRow, ...]
    after: tuple[StepRow, ...]
    sessions: tuple[SessionRow, ...]
    kept: tuple[Around, ...]


def journey_shown(
    performance: Performance, stages: Iterable[Stage], *, is_to_come: bool, today: date, slug: str, language: str
) -> Journey:
    """Return what a performance's page shows; four queries.

    Once it is over, what nobody noted and what nothing asked for is left out.
    """
    told = [one for one in stages if is_to_come or one.step or one.standing not in SILENT]
    found = sorted(told, key=lambda stage: stage.standing is Standing.NOT_NEEDED)
    rows = [(one, step_row(one, performance.pk, today=today, slug=slug, language=language)) for one in found]
    kept = (
        around(kind, kind.of(performance.composer).filter(performance=performance), slug, language, without=NAMED)
        for kind in (RECORDINGS, REVIEWS, RETURNS)
    )
    return Journey(
        sums=summed(found),
        before=tuple(row for stage, row in rows if not stage.is_after),
        after=tuple(row for stage, row in rows if stage.is_after),
        sessions=tuple(session_row(one, language) for one in sessions_of(performance)),
        kept=tuple(kept),
    )


def sessions_of(performance: Performance) -> Iterable[Session]:
    """Return the sessions of a performance in the order in which they are held."""
    found: Iterable[Session] = Session.objects.filter(performance=performance).order_by("date", "time", "pk")
    return found


def session_row(session: Session, language: str) -> SessionRow:
    day = readable(session.date, None)
    hours = hours_text(session.time, session.until, language) if session.time else ""
    when = (long_day(day, language) if day else "", hours)
    name = session.title or str(session.get_kind_display())
    return SessionRow(session.pk, name, ", ".join(part for part in when if part), session.place)


def step_row(stage: Stage, performance: int, *, today: date, slug: str, language: str) -> StepRow:
    due = PartialDate.of(stage.due) if stage.due else None
    is_asked = stage.is_open and due is not None
    return StepRow(
        words=name_of_step(stage),
        slug="" if stage.kind is StepKind.OTHER else stage.kind.name.lower(),
        edit=edit_address(stage, performance, slug),
        standing=stage.standing,
        due=date_text(due, language) if due and stage.is_open else "",
        far=far_text(stage.due, today) if is_asked and stage.due else "",
        look=look_of(stage, today),
        said=said_of(stage, language),
        note=note_of(stage, language),
    )


def leads_compared(around: Known) -> tuple[LeadRow, ...]:
    """Return the lead times of the presenter beside the composer's and the usual ones, of the steps that either names.

    What the presenter says holds, else what the composer says.
    """
    said = [kind for kind in STEPS if kind in around.of_presenter or kind in around.of_composer]
    return tuple(
        LeadRow(
            words=str(STEPS[kind]),
            theirs=str(around.of_presenter.get(kind, "")),
            ours=str(around.of_composer.get(kind, "")),
            usual=str(usual_leads()[kind]),
            holds=str(around.leads[kind]),
        )
        for kind in said
    )


def name_of_step(stage: Stage) -> str:
    if stage.is_open and stage.filings:
        return filed_with(stage.filings[0].society)
    return stage.step.label if stage.kind is StepKind.OTHER and stage.step else str(STEPS[stage.kind])


def filed_with(society: str) -> str:
    return _("Return filed with %(society)s") % {"society": society}


def note_of(stage: Stage, language: str) -> str:
    """Return what was noted of a step, and by which rules of which societies a return is due."""
    noted = [stage.step.note] if stage.step and stage.step.note else []
    return " ".join([*noted, *(filing_text(one, language) for one in stage.filings if stage.is_open)])


def filing_text(filing: Filing, language: str) -> str:
    """Return until when a society takes a return, and where and when that was read."""
    said = {"society": filing.society, "day": date_text(PartialDate.of(filing.due), language)}
    term = filing.term
    if term is None:
        return _("%(society)s takes it until %(day)s.") % said
    read = date_text(PartialDate.of(term.read_on), language) if term.read_on else ""
    told = said | {"rule": str(term.rule), "source": term.source, "read": read}
    return _("%(society)s takes it until %(day)s (%(rule)s: %(source)s, read on %(read)s).") % told


def edit_address(stage: Stage, performance: int, slug: str) -> str:
    """Return the form of a step, or an empty one where nothing has been said of it."""
    if stage.step is not None:
        return reverse("record-edit", args=[slug, "steps", stage.step.id])
    asked = urlencode({"performance": performance, "kind": stage.kind.value})
    return f"{reverse('record-new', args=[slug, 'steps'])}?{asked}"


def far_text(due: date, today: date) -> str:
    days = (due - today).days
    if days < 0:
        return ngettext("late by %d day", "late by %d days", -days) % -days
    return how_far(PartialDate.of(due), today)


def look_of(stage: Stage, today: date) -> str:
    if stage.standing is Standing.LATE:
        return "late"
    return "soon" if stage.is_open and stage.due and (stage.due - today).days <= SOON else ""


def said_of(stage: Stage, language: str) -> str:
    """Return in words how a step stands that is not open."""
    if stage.standing is Standing.DONE:
        if stage.step and stage.step.done_on:
            return _("done on %(day)s") % {"day": date_text(PartialDate.of(stage.step.done_on), language)}
        if stage.is_shown:
            return _("done: %(because)s") % {"because": SHOWN_BY[stage.kind]}
        return _("done")
    return {Standing.NOT_NEEDED: _("not needed"), Standing.MISSED: _("nothing is noted")}.get(stage.standing, "")


def summed(stages: Iterable[Stage]) -> str:
    numbers = dict.fromkeys(Standing, 0)
    for stage in stages:
        numbers[stage.standing] += 1
    told = (
        (Standing.LATE, _("%d late")),
        (Standing.OPEN, _("%d to do")),
        (Standing.DONE, _("%d done")),
    )
    return ", ".join(words % numbers[standing] for standing, words in told if numbers[standing])
