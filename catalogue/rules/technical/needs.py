"""One list of all that has to be there for a work, whatever record it comes from, item by item to be confirmed.

An item's key is made from what it says: as long as it says the same, an answer that was given to it holds.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from decimal import Decimal
from hashlib import sha256

from catalogue.record_facts import PercussionFacts, RetuningFacts, TuningFacts, WorkRecords
from catalogue.rules.technical.terms import Feed, Input, Need, Output, Send, Setup

UNDECIDED = "to be agreed"
HIRED = "Percussion"
MICROPHONES, MONITORS, PEOPLE, POWER = "Microphones", "Monitors and in-ears", "People", "Power and network"


@dataclass(frozen=True, slots=True)
class Item:
    """Something that has to be there, under its head; ``number`` of things, ``such_as`` a model for reference."""

    group: str
    name: str
    number: int = 1
    detail: str = ""
    such_as: str = ""
    provider: str = UNDECIDED

    @property
    def key(self) -> str:
        """Sixteen hexadecimal figures that stay the same while the item says the same."""
        said = "\n".join((self.group, self.name, str(self.number), self.detail, self.such_as, self.provider))
        return sha256(said.encode()).hexdigest()[:16]

    @property
    def title(self) -> str:
        return f"{self.number} {self.name}" if self.number > 1 else self.name[:1].upper() + self.name[1:]


def items_of(setup: Setup | None, records: WorkRecords, others: Iterable[Need] = ()) -> tuple[Item, ...]:
    """All items of a work: what its setup needs, its percussion, tuning and preparation, and what else is asked for."""
    found = [
        *(of_setup(setup) if setup else ()),
        *map(of_percussion, records.percussion),
        *(of_tuning(one) for one in records.tunings if one.reference_hertz),
        *(of_retuning(one) for one in records.retunings),
        *(of_need(one, "Also needed") for one in others),
    ]
    return together(found)


def together(items: Iterable[Item]) -> tuple[Item, ...]:
    """The items head by head, in the order in which each head comes first; what is said twice stands once."""
    heads: dict[str, dict[Item, None]] = {}
    for item in items:
        heads.setdefault(item.group, {})[item] = None
    return tuple(item for found in heads.values() for item in found)


def of_setup(setup: Setup) -> Iterator[Item]:
    yield from (of_need(one, "Sound and light") for one in setup.equipment)
    yield from microphones(setup.inputs)
    yield from (of_output(one) for one in setup.outputs if one.send in {Send.MONITOR, Send.IN_EAR})
    for one in setup.software:
        detail = "; ".join(part for part in (f"version {one.version}" if one.version else "", one.use) if part)
        yield Item("Computer and software", one.name, detail=detail, provider=one.provider or UNDECIDED)
    for name, text in (("Power", setup.power), ("Network", setup.network)):
        if text:
            yield Item(POWER, name, detail=" ".join(text.split()), provider="presenter")
    for duty in setup.staff:
        yield Item(PEOPLE, duty.role, detail=duty.task, provider=duty.provider or UNDECIDED)
    if setup.rehearsal:
        yield Item(PEOPLE, "rehearsal time", detail=" ".join(setup.rehearsal.split()), provider="presenter")


def of_need(need: Need, group: str) -> Item:
    return Item(need.group or group, need.name, need.number, need.detail, need.such_as, need.provider or UNDECIDED)


def microphones(inputs: Iterable[Input]) -> Iterator[Item]:
    """Microphones and DI boxes of one kind and one provider as one item, with the channels that they are for."""
    alike: dict[tuple[str, str, str], list[Input]] = {}
    for one in inputs:
        if one.feed in {Feed.MICROPHONE, Feed.DI} and one.line:
            alike.setdefault((one.line, one.stand, one.provider), []).append(one)
    for (line, stand, provider), found in alike.items():
        channels = ", ".join(str(one.channels) for one in found)
        stands = f"stand: {stand}; " if stand else ""
        phantom = "; phantom power 48 V" if any(one.phantom for one in found) else ""
        number = sum(len(one.channels) for one in found)
        yield Item(MICROPHONES, line, number, f"{stands}for input {channels}{phantom}", provider=provider or UNDECIDED)


def of_output(output: Output) -> Item:
    for_whom = f"; for {output.heard_by}" if output.heard_by else ""
    detail = f"output {output.channels}: {output.signal or 'as rehearsed'}{for_whom}"
    return Item(MONITORS, output.destination, len(output.channels), detail, provider=output.provider or UNDECIDED)


def of_percussion(one: PercussionFacts) -> Item:
    shared = f"shared with {one.shared_with}" if one.shared_with else ""
    power = "needs power" if one.needs_power else ""
    beaters = f"beaters: {one.beaters}" if one.beaters else ""
    told = (f"player {one.player}", one.size, one.compass, one.pitches, beaters, shared, power)
    detail = "; ".join(part for part in told if part)
    return Item(HIRED, one.instrument, one.number, detail, provider=one.provided_by or UNDECIDED)


def of_tuning(one: TuningFacts) -> Item:
    hertz = f"{(one.reference_hertz or Decimal(0)).normalize():f}"
    note = one.reference_note or "a′"
    detail = "; ".join(part for part in (f"{note} = {hertz} Hz", one.description) if part)
    return Item("Tuning and preparation", f"pitch: {one.name}", detail=detail, provider="presenter")


def of_retuning(one: RetuningFacts) -> Item:
    cents = f"{one.cents.normalize():+f} cents" if one.cents is not None else ""
    tuned = f"tuned to {one.tuned_to}" if one.tuned_to else ""
    detail = "; ".join(part for part in (tuned, cents, one.preparation) if part)
    return Item("Tuning and preparation", one.instrument, detail=detail, provider="player")
