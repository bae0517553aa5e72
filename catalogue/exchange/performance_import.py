"""Stores the rows of a performance history: new events, changes of known ones, nothing where nothing has changed."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass

from django.core.exceptions import ValidationError
from django.db import IntegrityError

from catalogue.actions.additions import AT_ONCE, Addition, add_performances, prepared
from catalogue.actions.performances import save_performance
from catalogue.exchange.event_places import VenueShelf, city_of, country_of
from catalogue.exchange.event_shelf import Event, EventShelf, events_in, is_work
from catalogue.exchange.notes import noted
from catalogue.exchange.outcomes import Done, Outcome
from catalogue.exchange.performance_rows import PerformanceRow
from catalogue.exchange.performer_lists import Performer
from catalogue.exchange.problems import Problems
from catalogue.exchange.work_shelf import WorkShelf
from catalogue.models import Organisation, Performance, PerformanceCredit, Person, ProgrammedWork, Work
from catalogue.rules.search import fold
from catalogue.terms import PerformanceStatus, PerformerRole

COLUMN_OF = {"presenter_name": "presenter", "zone": "timezone", "name": "venue", "part": "extent", "title": "work"}
COPIED = ("date", "time", "kind", "status", "audience", "country_then", "series")


@dataclass(slots=True)
class Programme:
    """The works of an event while rows are added; ``outcomes`` by the number of the row."""

    items: list[ProgrammedWork]
    outcomes: dict[int, Outcome]


@dataclass(frozen=True, slots=True)
class Waiting:
    """A new event that is to be added together with others; ``outcomes`` by the number of the row."""

    event: Event
    addition: Addition
    outcomes: Mapping[int, Outcome]


class PerformanceImport:
    """The rows of one composer's performances."""

    def __init__(self, shelf: WorkShelf, problems: Problems) -> None:
        self.works = shelf
        self.problems = problems
        self.events = EventShelf(shelf.composer)
        self.venues = VenueShelf(shelf.composer, shelf.now)
        self.organisations = {fold(one.name): one for one in Organisation.objects.filter(composer=shelf.composer)}
        self.waiting: list[Waiting] = []
        self.people = {fold(one.name): one for one in Person.objects.filter(composer=shelf.composer)}

    def store(self, rows: Iterable[PerformanceRow]) -> Iterator[Done]:
        """Store the rows event by event, new events many at once, and give what became of each."""
        for event in events_in([(row, self.work_of(row)) for row in rows]):
            try:
                yield from self.store_event(event)
            except ValidationError as fault:
                explain(fault, event.first, self.problems)
            except IntegrityError:
                self.problems.fail(event.first.row, "work", "This row contradicts another record of the catalogue.")
            if len(self.waiting) >= AT_ONCE:
                yield from self.add_waiting()
        yield from self.add_waiting()

    def work_of(self, row: PerformanceRow) -> Work:
        """Return the work and version a row means; a title that is not known becomes a work of its own."""
        root = self.works.first_version(row.work)
        if root is None:
            self.problems.warn(row.row, "work", f"There was no work “{row.work}”; it is added with its title alone.")
            root = self.works.new(row.work)
        return self.works.version(root, row.version)

    def store_event(self, event: Event) -> Iterator[Done]:
        """Store an event that is known; one that is new waits for others."""
        performance = self.events.known(event)
        if performance is None:
            self.waiting.append(self.addition(event))
            return
        programme = self.programme_of(performance, event)
        credits = self.credits_of(performance, event)
        changed = self.set_columns(performance, event) or credits is not None
        if changed or set(programme.outcomes.values()) != {Outcome.SAME}:
            save_performance(performance=performance, now=self.works.now, programme=programme.items, credits=credits)
        whole = Outcome.CHANGED if changed else Outcome.SAME
        told = {number: whole if one is Outcome.SAME else one for number, one in programme.outcomes.items()}
        yield from done(event, told, performance)

    def addition(self, event: Event) -> Waiting:
        """Return a new event, ready to be added. Raises ValidationError."""
        performance = Performance(composer=self.works.composer, status=self.usual_status(event))
        programme = self.programme_of(performance, event)
        credits = self.credits_of(performance, event) or []
        self.set_columns(performance, event)
        ready = prepared(performance=performance, programme=programme.items, credits=credits, now=self.works.now)
        return Waiting(event, ready, programme.outcomes)

    def add_waiting(self) -> Iterator[Done]:
        waiting, self.waiting = self.waiting, []
        add_performances([one.addition for one in waiting], self.works.now)
        for one in waiting:
            yield from done(one.event, one.outcomes, one.addition.performance)

    def usual_status(self, event: Event) -> str:
        """Return what an event is that does not say: planned where it lies ahead, else given."""
        date = event.first.event.get("date")
        is_ahead = date is not None and date.first > self.works.now.date()
        return (PerformanceStatus.PLANNED if is_ahead else PerformanceStatus.GIVEN).value

    # ---- the columns of the event

    def set_columns(self, performance: Performance, event: Event) -> bool:
        """Take over what the rows say; say whether anything has changed."""
        columns = (*COPIED, "zone", "venue_id", "city", "country", "presenter_id", "presenter_name", "notes")
        before = {column: getattr(performance, column) for column in columns}
        for column in COPIED:
            if event.told(column):
                setattr(performance, column, event.told(column))
        self.set_place(performance, event)
        self.set_presenter(performance, str(event.told("presenter_name") or ""))
        cells = "\n".join(dict.fromkeys(row.notes for row, _ in event.rows if row.notes))
        remarks = [remark for row, _ in event.rows for remark in row.remarks]
        performance.notes = noted(performance.notes, cells, remarks)
        return any(getattr(performance, column) != value for column, value in before.items())

    def set_place(self, performance: Performance, event: Event) -> None:
        city, country, zone = (str(event.told(name) or "") for name in ("city", "country", "zone"))
        if event.first.venue:
            place = {"city": city or city_of(performance), "country": country or country_of(performance), "zone": zone}
            performance.venue = self.venues.venue(event.first.venue, **place)
        if city and fold(city) != fold(city_of(performance)):
            performance.city = city
        if country and country != country_of(performance):
            performance.country = country
        if zone and zone != performance.local_zone:
            performance.zone = zone

    def set_presenter(self, performance: Performance, name: str) -> None:
        if not name or fold(name) == fold(performance.presented_by):
            return
        performance.presenter = self.organisations.get(fold(name))
        performance.presenter_name = "" if performance.presenter else name

    # ---- the programme and the performers

    def programme_of(self, performance: Performance, event: Event) -> Programme:
        """Return the programme with the rows' works in it, known ones in their place and new ones behind."""
        stored = sorted(performance.programme.all(), key=lambda one: one.order) if performance.pk else []
        programme = Programme(list(stored), {})
        used: list[ProgrammedWork] = []
        for row, work in event.rows:
            item = known_item(stored, used, row, work)
            if item is None and is_repeated(programme.items, used, row, work):
                self.problems.warn(row.row, "work", "This row says the same as an earlier one and is taken once.")
                programme.outcomes[row.row.number] = Outcome.SAME
                continue
            outcome = Outcome.SAME if item is not None else Outcome.NEW
            if item is None:
                item = ProgrammedWork(work=work)
                programme.items.append(item)
            used.append(item)
            if set_item(item, row) and outcome is Outcome.SAME:
                outcome = Outcome.CHANGED
            programme.outcomes[row.row.number] = outcome
        return programme

    def credits_of(self, performance: Performance, event: Event) -> list[PerformanceCredit] | None:
        """Return the performers that the rows name together, None where they are those that there are."""
        told = list(dict.fromkeys(one for row, _ in event.rows for one in row.performers))
        stored = sorted(performance.credits.all(), key=lambda one: (one.order, one.pk)) if performance.pk else []
        if not told or told == [as_performer(one) for one in stored]:
            return None
        known = {as_performer(one): one for one in stored}
        return [known.get(one) or self.credit(one) for one in told]

    def credit(self, one: Performer) -> PerformanceCredit:
        organisation = self.organisations.get(fold(one.name))
        person = None if organisation else self.people.get(fold(one.name))
        columns = {"name": one.name, "role": one.role.value, "plays": one.plays}
        return PerformanceCredit(organisation=organisation, person=person, **columns)


def done(event: Event, outcomes: Mapping[int, Outcome], performance: Performance) -> Iterator[Done]:
    for row, work in event.rows:
        yield Done(row.row.number, work.title, outcomes[row.row.number], performance.pk)


def as_performer(credit: PerformanceCredit) -> Performer:
    return Performer(credit.billed_name, PerformerRole(credit.role), credit.plays)


def known_item(
    stored: Sequence[ProgrammedWork], used: Sequence[ProgrammedWork], row: PerformanceRow, work: Work
) -> ProgrammedWork | None:
    """Return the work in the stored programme that a row means: the same part of it, or the only one there is."""
    free = [one for one in stored if is_work(one.work, work, row.version) and not any(one is other for other in used)]
    exact = [one for one in free if says_the_same(one, row)]
    is_only_one = len(free) == 1 and all(one.work_id != free[0].work_id for one in used)
    return next(iter(exact or (free if is_only_one else [])), None)


def is_repeated(
    items: Iterable[ProgrammedWork], used: Sequence[ProgrammedWork], row: PerformanceRow, work: Work
) -> bool:
    mine = [one for one in items if any(one is other for other in used) and one.work_id == work.pk]
    return any(says_the_same(one, row) and one.billing == row.item.get("billing", "") for one in mine)


def says_the_same(item: ProgrammedWork, row: PerformanceRow) -> bool:
    return all(getattr(item, column) == row.item[column] for column in ("extent", "part") if column in row.item)


def set_item(item: ProgrammedWork, row: PerformanceRow) -> bool:
    before = {column: getattr(item, column) for column in row.item}
    for column, text in row.item.items():
        setattr(item, column, text)
    return before != row.item


def explain(fault: ValidationError, row: PerformanceRow, problems: Problems) -> None:
    """Report what a record must not hold at the column it came from."""
    by_column = fault.message_dict if hasattr(fault, "error_dict") else {"work": fault.messages}
    for column, messages in by_column.items():
        for message in messages:
            problems.fail(row.row, COLUMN_OF.get(column, column), message)
