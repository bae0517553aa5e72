"""What the page of one performance shows, gathered in a fixed number of queries."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date

from django.utils.safestring import SafeString
from django.utils.translation import gettext as _
from django.utils.translation import gettext_lazy

from catalogue.documents.labels import labels
from catalogue.facts import PerformanceFacts
from catalogue.gathering import reading_of
from catalogue.gathering.families import gather_families
from catalogue.gathering.journeys import gather_around
from catalogue.gathering.performances import gather_performance
from catalogue.gathering.readings import readable
from catalogue.instrumentation import Instrumentation
from catalogue.models import Performance, ProgrammedWork
from catalogue.rules.further_firsts import further_firsts
from catalogue.rules.journey import Around, journey_of
from catalogue.rules.playings import is_to_come
from catalogue.rules.premieres import Claim, claims_by_programmed
from catalogue.terms import Extent, PerformanceStatus, PerformerRole
from catalogue.timing import write_duration
from catalogue.web.changes import Change
from catalogue.web.changes_with_rows import performance_changes
from catalogue.web.claims import in_full
from catalogue.web.days import clock_text, how_far, long_day
from catalogue.web.hires import SentRow, sent_for
from catalogue.web.journeys import Journey, LeadRow, journey_shown, leads_compared
from catalogue.web.performance_readings import part_in_words
from catalogue.web.programmes import called, name_of
from catalogue.web.records.of_sendings import SENDINGS
from catalogue.web.records.page import Around as RecordsAround
from catalogue.web.records.page import around as around_it
from catalogue.web.titles import in_language

BECAME = {
    PerformanceStatus.PLANNED: gettext_lazy("Planned, not confirmed yet."),
    PerformanceStatus.POSTPONED: gettext_lazy("Postponed: it does not take place on this date."),
    PerformanceStatus.CANCELLED: gettext_lazy("Cancelled."),
    PerformanceStatus.WITHDRAWN: gettext_lazy("This record is withdrawn."),
    PerformanceStatus.OLD_STYLE_DATE: gettext_lazy("The same event stands under its new-style date too."),
    PerformanceStatus.DUPLICATE: gettext_lazy("The same event is recorded twice."),
}
EXTENTS = {
    Extent.PARTIAL: gettext_lazy("in part"),
    Extent.EXCERPT: gettext_lazy("excerpt"),
    Extent.SUITE: gettext_lazy("suite"),
}


@dataclass(frozen=True, slots=True)
class Item:
    """A work on the programme: how much of it, as billed, what it was by the records, and what contradicts that."""

    work: int
    title: SafeString
    extent: str
    billing: str
    claims: tuple[str, ...]
    contradicts: str
    note: str
    duration: str
    instrumentation: Instrumentation | None


@dataclass(frozen=True, slots=True)
class PerformancePage:
    """Texts are ready to print; ``first`` is what the works were the first of, in the head of the page."""

    performance: PerformanceFacts
    name: str
    heading: SafeString
    when: str
    far: str
    became: str
    place: str
    country: str
    first: str
    programme: tuple[Item, ...]
    people: tuple[tuple[str, tuple[str, ...]], ...]
    sent: tuple[SentRow, ...]
    papers: RecordsAround
    journey: Journey
    leads: tuple[LeadRow, ...]
    is_to_come: bool
    changes: tuple[Change, ...]

    @property
    def works(self) -> tuple[Item, ...]:
        """The works on the programme, each once."""
        return tuple({item.work: item for item in self.programme}.values())

    @property
    def listable(self) -> tuple[Item, ...]:
        """The works whose parts can be listed, each once."""
        return tuple(item for item in self.works if item.instrumentation)


def performance_page(performance: Performance, *, today: date, language: str) -> PerformancePage:
    """Gather the page of a performance that comes from ``with_everything_printed``."""
    facts, around = gather_performance(performance), gather_around([performance])[performance.pk]
    rows = [row for row in performance.programme.all() if row.work.deleted_at is None]
    family = gather_families(performance.composer, (row.work_id for row in rows))
    claims, further = claims_by_programmed(family, today=today), further_firsts(family, today=today)
    besides = {id_: tuple(one.in_words(language) for one in firsts) for id_, firsts in further.items()}
    programme = tuple(
        item_of(row, claims.get(row.pk), besides.get(row.pk, ()), language)
        for row in sorted(rows, key=lambda row: row.order)
    )
    words = dict.fromkeys(claims[row.pk].called for row in rows if row.pk in claims and claims[row.pk].called)
    return PerformancePage(
        performance=facts,
        name=name_of(performance),
        heading=called(performance),
        when=when_of(facts, language),
        far=how_far(facts.date, today) if facts.date else "",
        became=became_of(facts, today),
        place=", ".join(part for part in (facts.venue.name if facts.venue else "", facts.city) if part),
        country=facts.country_then or (labels(language).country(facts.country) if facts.country else ""),
        first="; ".join(words),
        programme=programme,
        people=people_of(facts),
        sent=sent_for(performance, today),
        papers=papers_for(performance, language),
        journey=journey_about(performance, facts, around, today=today, language=language),
        leads=leads_compared(around),
        is_to_come=is_to_come(facts, today=today),
        changes=performance_changes(performance),
    )


def papers_for(performance: Performance, language: str) -> RecordsAround:
    """Return the papers that were sent for it."""
    sent = SENDINGS.of(performance.composer).filter(performance=performance)
    return around_it(SENDINGS, sent, performance.composer.slug, language, without=("performance",))


def journey_about(
    performance: Performance, facts: PerformanceFacts, around: Around, *, today: date, language: str
) -> Journey:
    stages = journey_of(facts, around, today=today)
    slug, coming = performance.composer.slug, is_to_come(facts, today=today)
    return journey_shown(performance, stages, is_to_come=coming, today=today, slug=slug, language=language)


def when_of(facts: PerformanceFacts, language: str) -> str:
    day = long_day(facts.date, language) if facts.date else ""
    at = clock_text(facts.time, facts.zone, language) if facts.time else ""
    return ", ".join(part for part in (day, at) if part)


def became_of(facts: PerformanceFacts, today: date) -> str:
    if facts.status is PerformanceStatus.CONFIRMED and facts.date and not is_to_come(facts, today=today):
        return _("It was confirmed; nobody has said yet that it took place.")
    return str(BECAME.get(facts.status, ""))


def item_of(row: ProgrammedWork, claim: Claim | None, besides: tuple[str, ...], language: str) -> Item:
    extent = "" if row.extent == Extent.COMPLETE else str(EXTENTS[Extent(row.extent)])
    lasted = readable(row.duration, None)
    duration = write_duration(lasted, language=language) if lasted else ""
    return Item(
        work=row.work_id,
        title=in_language(row.work.title, row.work.title_language),
        extent=": ".join(part for part in (extent, row.part) if part),
        billing=row.billing,
        claims=tuple(dict.fromkeys((*(in_full(claim) if claim else ()), *besides))),
        contradicts=(claim.contradicts or "") if claim else "",
        note=row.note,
        duration=duration,
        instrumentation=reading_of(row.work.instrumentation),
    )


def people_of(facts: PerformanceFacts) -> tuple[tuple[str, tuple[str, ...]], ...]:
    """Return each part with the names of who had it; the first ensemble with the strings that play."""
    strings = ".".join(str(number) for number in facts.string_strengths)
    first_body = next((one for one in facts.performers if one.role is PerformerRole.ENSEMBLE), None)
    named: dict[str, list[str]] = {}
    for one in facts.performers:
        name = f"{one.name}, {_('strings')} {strings}" if strings and one is first_body else one.name
        named.setdefault(part_in_words(one), []).append(name)
    if strings and first_body is None:
        named[_("strings")] = [strings]
    return tuple((part, tuple(names)) for part, names in named.items())
