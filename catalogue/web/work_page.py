"""What the page of one work shows, gathered in a fixed number of queries."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import date
from itertools import groupby
from operator import attrgetter

from django.db.models import Q

from catalogue.documents.contents.credits import commission_line, performers, places
from catalogue.documents.contents.forces import described
from catalogue.documents.labels import Labels, labels
from catalogue.documents.model import Text, joined
from catalogue.facts import CatalogueFacts, PerformanceFacts, ProgrammedFacts, WorkFacts
from catalogue.gathering.people import gather_composer
from catalogue.gathering.performances import gather_performance
from catalogue.gathering.statistics import Held
from catalogue.gathering.timing import gather_recordings
from catalogue.gathering.works import gather_work, published_dates
from catalogue.instrumentation import Instrumentation
from catalogue.instrumentation.page import PageLine, page_lines
from catalogue.models import Performance, ProgrammedWork, Work
from catalogue.rules.durations import durations_of
from catalogue.rules.further_firsts import further_firsts
from catalogue.rules.identifiers import Identifier
from catalogue.rules.playings import DID_NOT_HAPPEN, is_to_come
from catalogue.rules.premieres import Claim, claims_by_programmed
from catalogue.terms import Extent
from catalogue.timing import write_duration
from catalogue.web.changes import Change
from catalogue.web.changes_with_rows import work_changes
from catalogue.web.claims import briefly
from catalogue.web.numbers import Number, numbers
from catalogue.web.readings import Reading, instrumentation_reading
from catalogue.web.records.page import Around, around_work
from catalogue.web.tallies import Tally, by_country, by_year
from catalogue.web.timing_page import Shown, reckoned_or_none, shown_durations
from catalogue.web.wording import date_text, duration_text, year_text
from catalogue.web.work_years import Heard, Life, life_of

WORTH_A_PICTURE = 3  # performances from which on they are counted by year and country


@dataclass(frozen=True, slots=True)
class Playing:
    """One performance in the list: when, who and where, what it was the first of, and whether it is to come."""

    id: int
    day: str
    who: Text
    where: Text
    remarks: tuple[str, ...]
    is_to_come: bool


@dataclass(frozen=True, slots=True)
class Chairs:
    """The players of a family, one a line."""

    family: str
    lines: tuple[PageLine, ...]


@dataclass(frozen=True, slots=True)
class Version:
    """Another version or arrangement: which it is, for whom, how long."""

    id: int
    title: str
    told: str
    described: Text
    instrumentation: Instrumentation | None
    duration: str


@dataclass(frozen=True, slots=True)
class WorkPage:
    """Texts are ready to print; ``reading`` is what the instrumentation reads as, in words."""

    work: WorkFacts
    described: Text
    commission: Text
    reading: Reading | None
    players: str
    chairs: tuple[Chairs, ...]
    year: str
    dates: tuple[tuple[str, str], ...]
    numbers: tuple[Number, ...]
    duration: str
    durations: tuple[Shown, ...]
    warnings: tuple[str, ...]
    cues: int
    coming: tuple[Playing, ...]
    past: tuple[Playing, ...]
    years: tuple[Tally, ...]
    countries: tuple[Tally, ...]
    life: Life | None
    versions: tuple[Version, ...]
    around: tuple[Around, ...]
    changes: tuple[Change, ...]


def work_page(work: Work, *, today: date, language: str) -> WorkPage:
    """Gather the page of a work that comes from ``with_everything_printed``."""
    facts, says = gather_work(work), labels(language)
    *chairs, total = chairs_of(facts.instrumentation, language) or (None,)
    family = family_of(work)
    claims = claims_by_programmed(family, today=today)
    playings = playings_of(facts, family, claims, today=today, says=says)
    held = held_of(facts, family, today=today)
    recordings = gather_recordings(work)
    reckoned = reckoned_or_none(work.tempo_map)
    durations = durations_of(
        facts,
        reckoned=reckoned.duration if reckoned else None,
        performances=family.performances,
        recordings=recordings,
    )
    return WorkPage(
        work=facts,
        described=described(facts, says),
        commission=commission_line(facts, says),
        reading=instrumentation_reading(facts.instrumentation_text or facts.instrumentation_typed, language),
        players=total.lines[0].text if total else "",
        chairs=tuple(chairs),
        year=year_text(facts.completed, language),
        dates=dates_of(facts, language),
        numbers=numbers((Identifier.ISWC, facts.iswc), (Identifier.ISMN, facts.ismn)),
        duration=duration_text(facts.duration, facts.duration_typed, language),
        durations=tuple(shown_durations(durations, facts.duration_typed, language)),
        warnings=durations.warnings,
        cues=work.cues.count(),
        coming=tuple(one for one in reversed(playings) if one.is_to_come),
        past=tuple(one for one in playings if not one.is_to_come),
        years=by_year(held, gaps=False) if len(held) >= WORTH_A_PICTURE else (),
        countries=by_country(held) if len(held) >= WORTH_A_PICTURE else (),
        life=life_of(facts, heard_of(facts, family, claims, today=today), recordings, published_dates(work), language),
        versions=tuple(version_of(one, says) for one in family.works if one.id != facts.id),
        around=around_work(work, work.composer.slug, language),
        changes=work_changes(work),
    )


def version_of(work: WorkFacts, says: Labels) -> Version:
    told = (work.version_kind or "", work.version_label, year_text(work.completed, says.language))
    return Version(
        id=work.id,
        title=work.title.title,
        told=", ".join(one for one in told if one),
        described=described(work, says),
        instrumentation=work.instrumentation,
        duration=duration_text(work.duration, work.duration_typed, says.language),
    )


def chairs_of(instrumentation: Instrumentation | None, language: str) -> list[Chairs]:
    """Return the families with their players as a score's page lists them, the total last; nothing of nothing."""
    lines = page_lines(instrumentation, language) if instrumentation else ()
    return [Chairs(family, tuple(group)) for family, group in groupby(lines, attrgetter("family"))]


def family_of(work: Work) -> CatalogueFacts:
    """Return the work with its versions and all their performances: what its premieres are reckoned from."""
    first = work.version_of_id or work.pk
    works = Work.objects.filter(Q(pk=first) | Q(version_of=first)).with_everything_printed().in_title_order()
    programmed = ProgrammedWork.objects.filter(Q(work=first) | Q(work__version_of=first)).values("performance")
    performances = Performance.objects.filter(pk__in=programmed).with_everything_printed().latest_first()
    return CatalogueFacts(
        composer=gather_composer(work.composer),
        works=tuple(gather_work(one) for one in works),
        performances=tuple(gather_performance(one) for one in performances),
    )


def playings_of(
    work: WorkFacts, family: CatalogueFacts, claims: Mapping[int, Claim], *, today: date, says: Labels
) -> tuple[Playing, ...]:
    further = further_firsts(family, today=today)
    return tuple(
        Playing(
            id=performance.id,
            day=date_text(performance.date, says.language),
            who=performers(performance, says, sentence=False),
            where=joined(places(performance), ", "),
            remarks=without_repeats(
                *remarks_on(performance, item, claims.get(item.id), says),
                *(one.in_words(says.language) for one in further.get(item.id, ())),
            ),
            is_to_come=is_to_come(performance, today=today),
        )
        for performance in family.performances
        for item in performance.programme
        if item.work_id == work.id
    )


def held_of(work: WorkFacts, family: CatalogueFacts, *, today: date) -> list[Held]:
    """Return the performances of the work that took place or are to, each once, for counting."""
    return [
        Held(one.date.first if one.date else None, one.country, is_to_come(one, today=today))
        for one in family.performances
        if one.status not in DID_NOT_HAPPEN and any(item.work_id == work.id for item in one.programme)
    ]


def heard_of(work: WorkFacts, family: CatalogueFacts, claims: Mapping[int, Claim], *, today: date) -> list[Heard]:
    """Return the dated performances of the work that took place or are to, and which of them was the first."""
    return [
        Heard(one.date, is_to_come(one, today=today), any("world" in claims[item.id].titles for item in items))
        for one in family.performances
        if one.date and one.status not in DID_NOT_HAPPEN
        if (items := [item for item in one.programme if item.work_id == work.id])
    ]


def without_repeats(*remarks: str) -> tuple[str, ...]:
    return tuple(dict.fromkeys(remarks))


def remarks_on(
    performance: PerformanceFacts, item: ProgrammedFacts, claim: Claim | None, says: Labels
) -> tuple[str, ...]:
    """Return what it was the first of, how much was played, how long it lasted, and what became of it."""
    duration = write_duration(item.duration, language=says.language) if item.duration else ""
    part = item.part or (item.extent if item.extent is not Extent.COMPLETE else "")
    first = briefly(claim)[:1] if claim else ()
    why_not = claim.why_not if claim and not claim.overridden else ""
    found = (*first, part, duration, why_not)
    return tuple(each for each in found if each)


def dates_of(work: WorkFacts, language: str) -> tuple[tuple[str, str], ...]:
    named = (
        ("begun", work.begun),
        ("completed", work.completed),
        ("revised", work.revised),
        ("published", work.published),
    )
    return tuple((name, date_text(when, language)) for name, when in named if when)
