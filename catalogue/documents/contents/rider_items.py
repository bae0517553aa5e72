"""What a work needs, item by item: its setup, percussion, tuning, singers, and what else is asked for."""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator

from catalogue.documents.contents.front_forces import cents_text
from catalogue.documents.contents.rider_words import usual
from catalogue.documents.contents.stage import most_of
from catalogue.documents.labels import Labels
from catalogue.documents.model import plain
from catalogue.facts import WorkFacts
from catalogue.instrumentation import Instrumentation, Line
from catalogue.instrumentation.vocabulary import called
from catalogue.record_facts import PercussionFacts, RetuningFacts, TuningFacts
from catalogue.rules.technical.items import Item, ItemKind, together
from catalogue.rules.technical.riders import RiderFacts
from catalogue.rules.technical.terms import Feed, Input, Need, Output, Send, Setup

SEVERAL = re.compile(r"(?:stereo )?pair\b|two\b|three\b", re.IGNORECASE)
PRESENTER, PLAYER = "presenter", "player"


def rider_items(work: WorkFacts, facts: RiderFacts, says: Labels) -> tuple[Item, ...]:
    """All items, head by head."""
    setup, records = facts.setup, facts.records
    found: list[Item] = [
        *(of_setup(setup, says) if setup else ()),
        *(of_percussion(one, says) for one in records.percussion),
        *(of_tuning(one, says) for one in records.tunings if one.reference_hertz),
        *(of_retuning(one, says) for one in records.retunings),
        *(of_forces(work, work.instrumentation, says) if work.instrumentation else ()),
        *(of_need(one, says.word("Also needed")) for one in facts.equipment),
        *(of_staff(setup, says) if setup else ()),
    ]
    return together(found)


# ---- the setup


def of_setup(setup: Setup, says: Labels) -> Iterator[Item]:
    yield from (of_need(one, says.word("Sound and light")) for one in setup.equipment)
    yield from microphones(setup.inputs, says)
    yield from (of_output(one, says) for one in setup.outputs if one.send in {Send.MONITOR, Send.IN_EAR})
    for program in setup.software:
        version = plain(says.say("version {version}", version=program.version)) if program.version else ""
        yield Item(
            says.word("Computer and software"), program.name, detail=says.parted((version, program.use)),
            provider=program.provider,
        )  # fmt: skip
    for name, text in ((says.word("power"), setup.power), (says.word("network"), setup.network)):
        if text:
            group = says.word("Power and network")
            yield Item(group, name, detail=one_line(text), provider=PRESENTER, kind=ItemKind.CONDITION)


def one_line(text: str) -> str:
    return " ".join(text.split())


def of_need(need: Need, group: str) -> Item:
    return Item(need.group or group, need.name, need.number, need.detail, need.such_as, need.provider)


def microphones(inputs: Iterable[Input], says: Labels) -> Iterator[Item]:
    """Microphones and DI boxes of one kind and one provider as one item, with the channels that they are for."""
    alike: dict[tuple[str, str, str], list[Input]] = {}
    for one in inputs:
        if one.feed in {Feed.MICROPHONE, Feed.DI} and one.line:
            alike.setdefault((one.line, one.stand, one.provider), []).append(one)
    for (line, stand, provider), found in alike.items():
        number, name = len(found) if SEVERAL.match(line) else sum(len(one.channels) for one in found), usual(line, says)
        yield Item(
            says.word("Microphones"),
            f"\N{MULTIPLICATION SIGN} {name}" if number > 1 else name,
            number,
            says.parted(
                (
                    plain(says.say("stand: {stand}", stand=usual(stand, says))) if stand else "",
                    plain(says.say("input {channels}", channels=", ".join(str(one.channels) for one in found))),
                    says.word("phantom power 48 V") if any(one.phantom for one in found) else "",
                )
            ),
            provider=provider,
        )


def of_output(output: Output, says: Labels) -> Item:
    detail = says.parted(
        (
            plain(says.say("output {channels}", channels=str(output.channels))),
            usual(output.signal, says),
            plain(says.say("for {whom}", whom=usual(output.heard_by, says))) if output.heard_by else "",
        )
    )
    return Item(
        says.word("Monitors and in-ears"), usual(output.destination, says), detail=detail, provider=output.provider
    )


def of_staff(setup: Setup, says: Labels) -> Iterator[Item]:
    group = says.word("People and time")
    for duty in setup.staff:
        yield Item(group, duty.role, detail=duty.task, provider=duty.provider, kind=ItemKind.PERSON)
    if setup.rehearsal:
        text = one_line(setup.rehearsal)
        yield Item(group, says.word("rehearsal"), detail=text, provider=PRESENTER, kind=ItemKind.CONDITION)


# ---- the players


def of_percussion(one: PercussionFacts, says: Labels) -> Item:
    detail = says.parted(
        (
            plain(says.say("player {number}", number=str(one.player))),
            one.size,
            one.compass,
            one.pitches,
            plain(says.say("beaters: {beaters}", beaters=one.beaters)) if one.beaters else "",
            plain(says.say("shared with {whom}", whom=one.shared_with)) if one.shared_with else "",
            says.word("needs a socket") if one.needs_power else "",
        )
    )
    return Item(says.word("Percussion"), one.instrument, one.number, detail, provider=one.provided_by)


def of_tuning(one: TuningFacts, says: Labels) -> Item:
    hertz = says.figure(f"{one.reference_hertz.normalize():f}") if one.reference_hertz else ""
    detail = says.parted((f"{one.reference_note or 'a′'} = {hertz} Hz", one_line(one.description)))
    group = says.word("Tuning and preparation")
    return Item(group, one.name, detail=detail, provider=PRESENTER, kind=ItemKind.CONDITION)


def of_retuning(one: RetuningFacts, says: Labels) -> Item:
    cents = f"{says.figure(cents_text(one.cents))} {says.word('cents')}" if one.cents is not None else ""
    tuned = plain(says.say("tuned to {notes}", notes=one.tuned_to)) if one.tuned_to else ""
    group = says.word("Tuning and preparation")
    detail = says.parted((tuned, cents, one.preparation))
    return Item(group, one.instrument, detail=detail, provider=PLAYER, kind=ItemKind.CONDITION)


def of_forces(work: WorkFacts, forces: Instrumentation, says: Labels) -> Iterator[Item]:
    """Chairs and stands for all players, singers and speakers with their language, players away from the stage."""
    seated = sum(most_of(line) for line in forces.lines if line.family not in ("electronics", "voice"))
    if seated:
        group, detail = says.word("Stage"), says.word("one for each player, percussion and basses as they ask")
        yield Item(group, says.word("chairs and music stands"), seated, detail, provider=PRESENTER)
    for line in forces.lines:
        if line.family == "voice" or line.role == "narrator":
            yield of_voice(line, work, says)
        elif line.role == "offstage":
            detail = says.word(
                "a place with stand light, and a picture of the conductor or somebody who gives the sign"
            )
            yield Item(says.word("Off stage"), name_of(line, says), max(1, most_of(line)), detail, provider=PRESENTER)


def of_voice(line: Line, work: WorkFacts, says: Labels) -> Item:
    speaks = line.role == "narrator"
    kind = says.word("spoken" if speaks else "sung")
    text = says.language_name(work.text_language) if work.text_language else ""
    group = says.word("Sung and spoken parts")
    number = most_of(line) if not line.instrument.startswith("choir") else 1
    return Item(
        group, name_of(line, says), max(1, number), says.parted((kind, text)), kind=ItemKind.PERSON, provider=PRESENTER
    )


def name_of(line: Line, says: Labels) -> str:
    names = called(line.instrument, says.language)
    return names.plural if most_of(line) > 1 and names.plural else names.singular
