"""What a calendar says of a performance: which ones stand in it, and their words.

In the calendar stand all events to come and those of the last twelve months, as long as their day is known. Cancelled
and postponed ones stay, marked, so that a subscriber learns of it. A public calendar leaves out what is not announced
(planned only) and what is not open to all; sessions and what is due stand in private ones alone.
Notes, addresses and other private fields never reach any.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Iterable, Iterator, Mapping
from dataclasses import dataclass
from datetime import UTC, date, datetime, timedelta

from catalogue.facts import (
    CatalogueFacts,
    DeadlineFacts,
    DueFacts,
    PerformanceFacts,
    ProgrammedFacts,
    SessionFacts,
    VenueFacts,
    WorkFacts,
)
from catalogue.rules.phrases import listed
from catalogue.rules.playings import OPEN_TO_ALL
from catalogue.rules.premieres import Claim
from catalogue.rules.states import state_name
from catalogue.terms import Extent, PerformanceStatus, WorkStatus

LONGEST_SUMMARY, LONGEST_DESCRIPTION = 200, 2000
MONTHS_BACK = 12

STATUSES = {
    PerformanceStatus.PLANNED: "TENTATIVE",
    PerformanceStatus.CONFIRMED: "CONFIRMED",
    PerformanceStatus.GIVEN: "CONFIRMED",
    PerformanceStatus.CANCELLED: "CANCELLED",
    PerformanceStatus.POSTPONED: "CANCELLED",
}
LINE_BREAK = re.compile("\r\n|[\r\u2028\u2029]")
CONTROL = re.compile("[\x00-\x08\x0b-\x1f\x7f-\x9f\ud800-\udfff]")
NEVER = datetime(1970, 1, 1, tzinfo=UTC)


@dataclass(frozen=True, slots=True)
class Entry:
    """One event as a calendar prints it; times are UTC, ``day`` stands where no moment is known.

    What ``is_moment`` has no length: a deadline.
    """

    uid: str
    day: date
    starts_at: datetime | None
    changed_at: datetime
    sequence: int
    status: str
    summary: str
    location: str
    position: tuple[float, float] | None
    description: str
    category: str
    url: str
    is_moment: bool = False
    ends_at: datetime | None = None


@dataclass(frozen=True, slots=True)
class Selection:
    """Which events, and what is known beside them; ``page_of`` gives the address of an event's page or nothing.

    ``since`` is the first day that is shown, twelve months ago where none is named.
    """

    catalogue: CatalogueFacts
    now: datetime
    public: bool
    suffix: str
    claims: Mapping[int, Claim]
    page_of: Callable[[PerformanceFacts], str]
    since: date | None = None

    @property
    def first_day(self) -> date:
        return self.since or months_before(self.now.date(), MONTHS_BACK)


def entries(selection: Selection) -> Iterator[Entry]:
    """Give the events to come in their order, then the past ones, the latest first; each is made as it is taken."""
    today, since = selection.now.date(), selection.first_day
    works = works_shown(selection)
    dated = [one for one in selection.catalogue.performances if stands_in(one, works, selection)]
    shown = [one for one in dated if day_of(one) >= since]
    coming = [one for one in shown if day_of(one) >= today]
    past = [one for one in shown if day_of(one) < today]
    in_order = [*sorted(coming, key=order), *sorted(past, key=order, reverse=True)]
    return (entry(one, works, selection) for one in in_order)


def works_shown(selection: Selection) -> dict[int, WorkFacts]:
    hidden = {WorkStatus.WITHDRAWN} if selection.public else set()
    return {work.id: work for work in selection.catalogue.works if work.status not in hidden}


def stands_in(event: PerformanceFacts, works: Mapping[int, WorkFacts], selection: Selection) -> bool:
    if event.status not in STATUSES or event.date is None or event.date.exact is None:
        return False
    if selection.public and (event.audience not in OPEN_TO_ALL or event.status is PerformanceStatus.PLANNED):
        return False
    return not event.programme or any(item.work_id in works for item in event.programme)


def day_of(event: PerformanceFacts) -> date:
    """Return the local day of an event whose day is known."""
    if event.date is None:
        raise ValueError("This event has no date.")
    return event.date.first


def order(event: PerformanceFacts) -> tuple[date, str, str]:
    return day_of(event), str(event.time or ""), str(event.uid)


def months_before(day: date, months: int) -> date:
    """Return the same day so many months earlier, or the last one that month has."""
    index = day.year * 12 + day.month - 1 - months
    first = date(index // 12, index % 12 + 1, 1)
    last = (first.replace(day=28) + timedelta(days=4)).replace(day=1) - timedelta(days=1)
    return first.replace(day=min(day.day, last.day))


def entry(event: PerformanceFacts, works: Mapping[int, WorkFacts], selection: Selection) -> Entry:
    url = selection.page_of(event)
    programme = [item for item in event.programme if item.work_id in works]
    return Entry(
        uid=f"{event.uid}@{selection.suffix}",
        day=day_of(event),
        starts_at=event.starts_at,
        changed_at=event.changed_at or NEVER,
        sequence=event.sequence,
        status=STATUSES[event.status],
        summary=summary(event, programme, works),
        location=clean(", ".join(part for part in place_of(event) if part)),
        position=position_of(event.venue),
        description=description(event, programme, works, selection, url),
        category=event.kind.value.capitalize(),
        url=url,
    )


def deadline_entries(
    deadlines: Iterable[DeadlineFacts], selection: Selection, page_of: Callable[[DeadlineFacts], str]
) -> tuple[Entry, ...]:
    """Return the deadlines of calls and hires that are to come or were in the last twelve months, the next first."""
    shown = [(one.day, one) for one in deadlines if one.day and one.day >= selection.first_day]
    return tuple(deadline_entry(day, one, selection, page_of(one)) for day, one in sorted(shown, key=by_day))


def by_day(pair: tuple[date, DeadlineFacts]) -> tuple[date, str]:
    return pair[0], str(pair[1].uid)


def deadline_entry(day: date, one: DeadlineFacts, selection: Selection, url: str) -> Entry:
    words = ": ".join(part for part in (one.organiser, one.title) if part)
    return Entry(
        uid=f"{one.uid}@{selection.suffix}",
        day=day,
        starts_at=one.closes_at,
        changed_at=one.changed_at or NEVER,
        sequence=one.sequence,
        status="CONFIRMED",
        summary=shortened(one_line(f"{what_is_due(one)}: {words}"), LONGEST_SUMMARY),
        location="",
        position=None,
        description="\n".join(part for part in (one_line(one.local), url) if part),
        category="Deadline",
        url=url,
        is_moment=one.closes_at is not None,
    )


def what_is_due(one: DeadlineFacts) -> str:
    if one.is_hire:
        return "Due back"
    return "Sent; closes" if one.is_sent else "Closes"


# ---- around performances


def session_entries(sessions: Iterable[SessionFacts], selection: Selection) -> Iterator[Entry]:
    """Give the sessions of the performances at hand, by their hours; those of a cancelled one are marked so."""
    works, events = works_shown(selection), {one.id: one for one in selection.catalogue.performances}
    held = {key for key, event in events.items() if event.status in STATUSES}
    shown = [one for one in sessions if one.performance_id in held and one.day >= selection.first_day]
    for one in sorted(shown, key=lambda one: (one.day, one.starts_at or NEVER, str(one.uid))):
        yield session_entry(one, events[one.performance_id], works, selection)


def session_entry(
    one: SessionFacts, event: PerformanceFacts, works: Mapping[int, WorkFacts], selection: Selection
) -> Entry:
    url = selection.page_of(event)
    place = one.place or ", ".join(part for part in place_of(event) if part)
    return Entry(
        uid=f"{one.uid}@{selection.suffix}",
        day=one.day,
        starts_at=one.starts_at,
        changed_at=latest(one.changed_at, event.changed_at),
        sequence=one.sequence + event.sequence,
        status=STATUSES[event.status],
        summary=shortened(one_line(f"{one.name}: {summary_of(event, works)}"), LONGEST_SUMMARY),
        location=one_line(place),
        position=None if one.place else position_of(event.venue),
        description="\n".join(part for part in (one_line(one.local), url) if part),
        category="Rehearsal",
        url=url,
        ends_at=one.ends_at,
    )


def due_entries(dues: Iterable[DueFacts], selection: Selection) -> Iterator[Entry]:
    """Give what is due for the performances at hand, each on its day, by the days."""
    works, events = works_shown(selection), {one.id: one for one in selection.catalogue.performances}
    shown = [one for one in dues if one.performance_id in events and one.day >= selection.first_day]
    for one in sorted(shown, key=lambda one: (one.day, str(one.uid))):
        event = events[one.performance_id]
        url = selection.page_of(event)
        yield Entry(
            uid=f"{one.uid}@{selection.suffix}",
            day=one.day,
            starts_at=None,
            changed_at=latest(one.changed_at, event.changed_at),
            sequence=one.sequence + event.sequence,
            status="CONFIRMED",
            summary=shortened(one_line(f"Due: {one.name}: {summary_of(event, works)}"), LONGEST_SUMMARY),
            location="",
            position=None,
            description=url,
            category="Deadline",
            url=url,
        )


def summary_of(event: PerformanceFacts, works: Mapping[int, WorkFacts]) -> str:
    return summary(event, [item for item in event.programme if item.work_id in works], works)


def latest(*moments: datetime | None) -> datetime:
    return max((moment for moment in moments if moment is not None), default=NEVER)


def position_of(venue: VenueFacts | None) -> tuple[float, float] | None:
    if venue is None or venue.latitude is None or venue.longitude is None:
        return None
    return venue.latitude, venue.longitude


def summary(event: PerformanceFacts, programme: Iterable[ProgrammedFacts], works: Mapping[int, WorkFacts]) -> str:
    titles = listed(list(dict.fromkeys(works[item.work_id].title.title for item in programme)))
    words = ": ".join(part for part in (event.event_title, titles) if part.strip()) or "Performance"
    changed = {PerformanceStatus.CANCELLED: "Cancelled: ", PerformanceStatus.POSTPONED: "Postponed: "}
    return shortened(one_line(changed.get(event.status, "") + words), LONGEST_SUMMARY)


def place_of(event: PerformanceFacts) -> tuple[str, str, str]:
    return (event.venue.name if event.venue else "", event.city, state_name(event.country))


def description(
    event: PerformanceFacts,
    programme: Iterable[ProgrammedFacts],
    works: Mapping[int, WorkFacts],
    selection: Selection,
    url: str,
) -> str:
    """Return plain lines: local time, works, performers, presenter, and the address of the page last."""
    lines = [
        local_time(event),
        *(programmed(item, works[item.work_id], selection) for item in programme),
        *(f"{one.name} ({one.plays})" if one.plays else one.name for one in event.performers),
        event.presenter,
        event.series,
    ]
    body = clean("\n".join(line for line in map(one_line, lines) if line))
    room = LONGEST_DESCRIPTION - len(url) - 1
    return "\n".join(part for part in (shortened(body, room), url) if part)


def local_time(event: PerformanceFacts) -> str:
    return f"{event.time:%H:%M} {event.zone}".strip() if event.time else ""


def programmed(item: ProgrammedFacts, work: WorkFacts, selection: Selection) -> str:
    part = f" ({item.part or item.extent})" if item.extent is not Extent.COMPLETE else ""
    claim = selection.claims.get(item.id)
    words = f" – {claim.called}" if claim and claim.called else ""
    return f"{selection.catalogue.composer.name}: {work.title.title}{part}{words}"


def one_line(text: str) -> str:
    """Return a text without control characters, its runs of white space as one blank each."""
    return " ".join(clean(text).split())


def clean(text: str) -> str:
    """Return the text without control characters and half characters; every line break is a line feed."""
    if text.isprintable():
        return text
    return CONTROL.sub("", LINE_BREAK.sub("\n", text))


def shortened(text: str, longest: int) -> str:
    return text if len(text) <= longest else text[: longest - 1].rstrip() + "…"
