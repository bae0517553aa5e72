"""Who commissioned, who paid, who performed: how works lists and CVs phrase it (common practice)."""

from __future__ import annotations

from catalogue.documents.contents.dates import date_text, span_text
from catalogue.documents.contents.history import Hearing, first_in_public, later_firsts, premiere
from catalogue.documents.labels import Labels
from catalogue.documents.model import Text, joined, value, wording
from catalogue.facts import CommissionFacts, PerformanceFacts, WorkFacts
from catalogue.rules.overrides import Override
from catalogue.terms import Category, PerformanceKind, PerformerRole

NAMED_FIRST = (PerformerRole.SOLOIST, PerformerRole.PERFORMER, PerformerRole.ENSEMBLE)
WITH_DUTY = {
    PerformerRole.CHORUS_MASTER: "chorus master {name}",
    PerformerRole.CONDUCTOR: "conductor {name}",
    PerformerRole.NARRATOR: "narrator {name}",
    PerformerRole.DIRECTOR: "director {name}",
    PerformerRole.ELECTRONICS: "electronics by {name}",
}


def performers(performance: PerformanceFacts, labels: Labels, *, sentence: bool) -> Text:
    """Players and bodies first, joined by *and* in a sentence and by commas in a line; then those with a duty."""
    first = tuple(value(one.name) for role in NAMED_FIRST for one in performance.performers if one.role is role)
    duties = tuple(
        labels.say(message, name=one.name)
        for role, message in WITH_DUTY.items()
        for one in performance.performers
        if one.role is role
    )
    return joined((labels.listed(first) if sentence else joined(first, ", "), *duties), ", ")


def place_and_date(hearing: Hearing, labels: Labels) -> Text:
    return joined((*places(hearing.performance), value(date_text(hearing.date, labels.language))), ", ")


def places(performance: PerformanceFacts) -> tuple[Text, ...]:
    """Hall and city; of an event without a hall, its own title; a city that ends the hall's name is not repeated."""
    hall = performance.venue.name if performance.venue else performance.event_title
    city = performance.city or (performance.venue.city if performance.venue else "")
    return (value(hall), value("" if hall.endswith(city) else city))


def commission_line(work: WorkFacts, labels: Labels) -> Text:
    """Say who commissioned a work and with funds from whom; nothing where nobody is named."""
    bodies = labels.listed(tuple(body(one) for one in work.commissions))
    if not bodies:
        return ()
    message = "Commissioned by {bodies}" if len(work.commissions) == 1 else "Co-commissioned by {bodies}"
    return (*labels.say(message, bodies=bodies), *funds(work, labels))


def body(commission: CommissionFacts) -> Text:
    return joined((value(commission.body), value(commission.place)), ", ")


def funds(work: WorkFacts, labels: Labels) -> Text:
    """The funders, each once: a list of commissions that hides who paid reads as exaggeration (common practice)."""
    names = tuple(dict.fromkeys(one.funder for one in work.commissions if one.funder))
    listed = labels.listed(tuple(value(name) for name in names))
    return labels.say(", with funds from {funders}", funders=listed) if listed else ()


def history_lines(work: WorkFacts, heard: tuple[Hearing, ...], labels: Labels) -> tuple[Text, ...]:
    """Commission, first performance and later firsts, the first two joined where they are the same people's."""
    first = premiere(heard)
    if first and joins(work, first, labels):
        opening: tuple[Text, ...] = (first_line("Commissioned and first performed by {who}", first, labels),)
    else:
        opening = (commission_line(work, labels), first_performance(work, heard, labels))
    later = tuple(national_line(hearing, labels) for hearing in later_firsts(heard, first))
    return tuple(line for line in (*opening, *later) if line)


def joins(work: WorkFacts, first: Hearing, labels: Labels) -> bool:
    """Whether one sentence can say both: a single commissioner without funder who was the first to perform."""
    names = [one.name for role in NAMED_FIRST for one in first.performance.performers if one.role is role]
    same = len(work.commissions) == 1 and names == [work.commissions[0].body]
    return same and first.proved and not first.override and not work.commissions[0].funder and not broadcast(first)


def broadcast(hearing: Hearing) -> bool:
    return hearing.performance.kind is PerformanceKind.BROADCAST


def first_performance(work: WorkFacts, heard: tuple[Hearing, ...], labels: Labels) -> Text:
    first = premiere(heard)
    if first is None:
        return ()
    if first.override:
        return by_hand(first, first.override, labels)
    if broadcast(first):
        return broadcast_line(first, first_in_public(heard, first), labels)
    if not first.proved:
        return named_line("First performance in these records: {event}", first, labels)
    if any(one.role in NAMED_FIRST for one in first.performance.performers):
        return first_line("First performed by {who}", first, labels)
    shown = work.category in (Category.ELECTRONICS, Category.INSTALLATION)
    return named_line("First presented: {event}" if shown else "First performance: {event}", first, labels)


def first_performance_event(first: Hearing, labels: Labels) -> Text:
    """Who played it first, where and when, without a verb."""
    return joined((performers(first.performance, labels, sentence=False), place_and_date(first, labels)), ", ")


def first_line(message: str, first: Hearing, labels: Labels) -> Text:
    who = labels.say(message, who=performers(first.performance, labels, sentence=True))
    return joined((who, place_and_date(first, labels)), ", ")


def named_line(message: str, hearing: Hearing, labels: Labels) -> Text:
    who = performers(hearing.performance, labels, sentence=True)
    return labels.say(message, event=joined((who, place_and_date(hearing, labels)), ", "))


def by_hand(hearing: Hearing, override: Override, labels: Labels) -> Text:
    """What was set by hand, in its own words, then who, where and when."""
    who = performers(hearing.performance, labels, sentence=True)
    event = joined((who, place_and_date(hearing, labels)), ", ")
    return labels.say("{claim}: {event}", claim=override.wording[:1].upper() + override.wording[1:], event=event)


def broadcast_line(first: Hearing, public: Hearing | None, labels: Labels) -> Text:
    who = performers(first.performance, labels, sentence=True)
    day = value(date_text(first.date, labels.language))
    on_air = labels.say(
        "First broadcast by {event}" if who else "First broadcast {event}", event=joined((who, day), ", ")
    )
    if public is None or not performers(public.performance, labels, sentence=True):
        return on_air
    return joined((on_air, first_line("first performed in public by {who}", public, labels)), labels.semicolon)


def national_line(hearing: Hearing, labels: Labels) -> Text:
    if hearing.override:
        return by_hand(hearing, hearing.override, labels)
    country = labels.country(hearing.performance.country_then or hearing.performance.country)
    message = "First performance in {country}: {event}"
    if not hearing.proved:
        message = "First performance in {country} in these records: {event}"
    return labels.say(message, country=country, event=place_and_date(hearing, labels))


def run_dates(run: tuple[Hearing, ...], labels: Labels) -> Text:
    """The dates of one production: 12 to 19 June 2021, five performances."""
    days = span_text(tuple(hearing.date for hearing in run), labels.language, labels.word("to"), labels.word("and"))
    if len(run) < 3:
        return value(days)
    number = labels.count("{n} performance", "{n} performances", len(run), spelled=True)
    return (*value(days), *wording(f", {number}"))
