"""Technical setups and riders, read from their typed lists."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

from catalogue.gathering.columns import facts_of
from catalogue.gathering.records import gather_records_of_work
from catalogue.models import Rider, RiderSending, TechnicalSetup, Work
from catalogue.models.typed_lists import READERS
from catalogue.rules.technical.lists import ListError
from catalogue.rules.technical.riders import RiderFacts, Sent
from catalogue.rules.technical.terms import Need, Setup
from catalogue.terms import SetupKind

LISTS = {
    "inputs": "inputs",
    "outputs": "outputs",
    "own_speakers": "speakers",
    "equipment": "equipment",
    "software": "software",
    "media": "media",
    "staff": "staff",
    "schedule": "schedule",
    "places": "places",
}


def readable_list(column: str, typed: str) -> tuple[Any, ...]:
    """Return the rows of a typed list; none where it can no longer be read."""
    reader: Callable[[str], tuple[Any, ...]] = READERS[column]
    try:
        return reader(typed)
    except ListError:
        return ()


def gather_setup(record: TechnicalSetup) -> Setup:
    """Return the facts of a technical setup; a list that cannot be read is empty."""
    lists = {name: readable_list(column, getattr(record, column)) for name, column in LISTS.items()}
    return facts_of(Setup, record, **lists)


def gather_setups(work: Work) -> tuple[Setup, ...]:
    """Return the setups of a work, those that are as meant first; one query."""
    order = {kind.value: place for place, kind in enumerate(SetupKind)}
    found = TechnicalSetup.objects.filter(work=work).order_by("position", "pk")
    return tuple(gather_setup(one) for one in sorted(found, key=lambda one: order[one.kind]))


def gather_stock(typed: str) -> tuple[Need, ...]:
    """Return what a hall has, by its typed list."""
    return readable_list("equipment", typed)


def gather_rider(work: Work, rider: Rider | None) -> RiderFacts:
    """Return what a rider of a work is made of; without a record of one, of the first setup alone."""
    setups = gather_setups(work)
    chosen = chosen_setup(setups, rider)
    records = gather_records_of_work(work)
    if rider is None:
        return RiderFacts(records, chosen, others_of(setups, chosen), schedule=chosen.schedule if chosen else ())
    venue = rider.performance.venue
    return RiderFacts(
        records=records,
        setup=chosen,
        others=others_of(setups, chosen),
        contact_name=rider.contact_name,
        contact_email=rider.contact_email,
        contact_telephone=rider.contact_telephone,
        contact_hours=rider.contact_hours,
        summary=rider.summary,
        equipment=readable_list("equipment", rider.equipment),
        schedule=readable_list("schedule", rider.schedule) or (chosen.schedule if chosen else ()),
        travel=rider.travel,
        hall=venue.name if venue else "",
        stock=gather_stock(venue.equipment) if venue else (),
        sent=gather_sent(rider),
    )


def chosen_setup(setups: tuple[Setup, ...], rider: Rider | None) -> Setup | None:
    if rider is None:
        return setups[0] if setups else None
    return next((one for one in setups if one.id == rider.setup_id), None)


def others_of(setups: tuple[Setup, ...], chosen: Setup | None) -> tuple[Setup, ...]:
    return tuple(one for one in setups if one is not chosen and one.kind is not SetupKind.FULL)


def gather_sent(rider: Rider) -> Sent | None:
    """Return the revision that was sent last."""
    last: RiderSending | None = rider.sendings.order_by("revision").last()
    if last is None:
        return None
    lists = {head: tuple(lines) for head, lines in last.lists.items()}
    return Sent(last.revision, last.sent_at.date(), last.language, lists)
