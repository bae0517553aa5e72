"""The page of instruments in front of a score: movements with their durations, every chair, percussion by player.

It follows the order of the guidelines of orchestral librarians (MOLA): the title as in a programme, durations for each
movement and together, every doubling, keys, all percussion instruments and who plays them.
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator
from dataclasses import dataclass, replace
from decimal import Decimal
from itertools import groupby

from catalogue.documents.contents.forces import described, strip_of
from catalogue.documents.contents.movements import numeral_beside
from catalogue.documents.contents.titles import work_title
from catalogue.documents.labels import Labels
from catalogue.documents.model import (
    Block,
    Cell,
    Column,
    Figure,
    Group,
    Pair,
    Pairs,
    Paragraph,
    Section,
    Style,
    Table,
    Text,
    joined,
    value,
    wording,
)
from catalogue.facts import WorkFacts
from catalogue.instrumentation import Instrumentation
from catalogue.instrumentation.bodies import is_choir
from catalogue.instrumentation.grammar import Grammar, grammar
from catalogue.instrumentation.page import PageLine, capital, choir_lines, lines_of, page_lines, total_line
from catalogue.record_facts import PercussionFacts, RetuningFacts, TuningFacts, WorkRecords
from catalogue.rules.front_matter import score_of, transposes
from catalogue.terms import ScorePitch
from catalogue.timing import Duration, write_duration

PITCHES = {
    ScorePitch.IN_C: (
        "The score is in C: every instrument is written as it sounds, but for those that sound one or two octaves away."
    ),
    ScorePitch.TRANSPOSED: "The score is transposed: every instrument is written as its part is.",
}


def forces_section(work: WorkFacts, records: WorkRecords, says: Labels) -> Section:
    """The whole page."""
    number = len(work.movements)
    parts = wording(says.count("in {n} movement", "in {n} movements", number, spelled=True)) if number > 1 else ()
    blocks: tuple[Block, ...] = (
        *movement_blocks(work, says),
        *player_blocks(work, records, says),
        *strip_blocks(work, says),
        *fact_blocks(work, records, says),
    )
    return Section(work_title(work), blocks, aside=joined((described(work, says), parts), ", "))


# ---- movements


def movement_blocks(work: WorkFacts, says: Labels) -> tuple[Block, ...]:
    """Each movement with its duration, and how long they last together; nothing of a work in one movement."""
    if len(work.movements) < 2:
        return ()
    rows = tuple(
        (
            one_line(wording(numeral_beside(one.number, one.title))),
            one_line(movement_title(one.title, says, attacca=one.attacca)),
            one_line(value(lasting(one.duration, says))),
        )
        for one in work.movements
    )
    columns = (Column("numeral"), Column("movement"), Column("lasts"))
    whole = lasting(whole_duration(work), says)
    total = (Cell(), one_line(wording(says.word("together"))), one_line(value(whole))) if whole else ()
    return (Table(columns, (Group(wording(says.word("Movements")), rows),), total=total),)


def one_line(text: Text) -> Cell:
    return Cell((text,)) if text else Cell()


def movement_title(title: str, says: Labels, *, attacca: bool) -> Text:
    return joined((value(title, Style.TITLE), wording(says.word("attacca")) if attacca else ()), ", ")


def lasting(duration: Duration | None, says: Labels) -> str:
    return write_duration(duration, "primes", says.language) if duration else ""


def whole_duration(work: WorkFacts) -> Duration | None:
    """The duration of the work, else what its movements add up to where each is known."""
    parts = [one.duration for one in work.movements]
    if work.duration or not parts or None in parts:
        return work.duration
    known = [one for one in parts if one is not None]
    return Duration(sum(one.seconds for one in known), approximate=any(one.approximate for one in known))


# ---- players


AFTER_NAME = re.compile(r", |: | \(")
"""What stands between the name of a chair and what is said of it."""


@dataclass(frozen=True, slots=True)
class Seat:
    """A chair, or several that are alike, and what else is said of it."""

    family: str
    name: str
    also: Text


def player_blocks(work: WorkFacts, records: WorkRecords, says: Labels) -> tuple[Block, ...]:
    """A table of chairs by family; forces that could not be read stand as they were typed."""
    forces = work.instrumentation
    if forces is None:
        return (Paragraph(value(work.instrumentation_typed)),)
    columns = (Column("chair"), Column("also"))
    seats = together(seats_of(forces, records.percussion, says))
    groups = tuple(
        Group(value(family), tuple((one_line(value(seat.name)), one_line(seat.also)) for seat in found))
        for family, found in groupby(seats, key=lambda seat: seat.family)
    )
    return (Table(columns, groups),)


def seats_of(forces: Instrumentation, percussion: tuple[PercussionFacts, ...], says: Labels) -> Iterator[Seat]:
    """The chairs in score order, percussionists with what is listed for each."""
    speech = grammar(says.language)
    drummed = next((line for line in forces.lines if line.instrument == "percussion"), None) if percussion else None
    for sung, found in groupby(forces.lines, key=is_choir):
        lines = tuple(found)
        if sung:
            yield from (seat_of(one, says) for one in choir_lines(lines, speech))
            continue
        for line in lines:
            told = lines_of(line, forces, speech) if line.family != "electronics" else ()
            seats = (seat_of(one, says) for one in told)
            yield from drummers(tuple(seats), percussion, says) if line is drummed else seats
    if percussion and drummed is None:
        name = capital(speech.name("percussion"))
        yield from drummers((Seat(speech.words["families"]["percussion"], name, ()),), percussion, says)
    yield from (seat_of(one, says) for one in devices(forces, speech, says))


def devices(forces: Instrumentation, speech: Grammar, says: Labels) -> tuple[PageLine, ...]:
    label = speech.words["families"]["electronics"]
    return tuple(line for line in page_lines(forces, says.language) if line.family == label)


def seat_of(line: PageLine, says: Labels) -> Seat:
    """A line of the page with what follows its name set apart.

    >>> from catalogue.documents.labels import labels
    >>> seat_of(PageLine("Woodwind", "Clarinet 1 (in A), doubling E-flat clarinet", "optional"), labels("en-GB")).name
    'Clarinet 1'
    """
    name, *after = AFTER_NAME.split(line.text, maxsplit=1)
    also = "".join(after).replace(") (", "; ").replace("), ", ", ").removesuffix(")")
    told = joined((value(says.spaced(also)), value(says.spaced(line.remark))), says.semicolon)
    return Seat(line.family, name, told)


def drummers(seats: tuple[Seat, ...], percussion: tuple[PercussionFacts, ...], says: Labels) -> Iterator[Seat]:
    """Each percussionist with the instruments that are listed for that player, else with those of the text."""
    players = {number: tuple(found) for number, found in groupby(percussion, key=lambda one: one.player)}
    several = max(len(seats), max(players)) > 1
    for number in sorted({*players, *range(1, len(seats) + 1)}):
        seat = seats[number - 1] if number <= len(seats) else replace(seats[-1], also=())
        name = f"{base_name(seat.name)} {number}" if several else seat.name
        yield Seat(seat.family, name, instruments_of(players[number], says) if number in players else seat.also)


def instruments_of(found: Iterable[PercussionFacts], says: Labels) -> Text:
    return joined(tuple(instrument_text(one, says) for one in found), says.semicolon)


def instrument_text(one: PercussionFacts, says: Labels) -> Text:
    """An instrument with its number, and in brackets its size, its notes, its beaters and who shares it."""
    name = f"{one.number} {one.instrument}" if one.number > 1 else one.instrument
    details = (
        value(one.size),
        value(one.compass),
        value(one.pitches),
        value(one.beaters),
        says.say("shared with {whom}", whom=one.shared_with) if one.shared_with else (),
        wording(says.word("needs a socket")) if one.needs_power else (),
    )
    said = joined(details, ", ")
    return (*value(name), *wording(" ("), *said, *wording(")")) if said else value(name)


def together(seats: Iterable[Seat]) -> tuple[Seat, ...]:
    """Chairs that follow one another and are alike as one: Horn 1–4."""
    found: list[Seat] = []
    for (family, base, also), alike in groupby(seats, key=lambda seat: (seat.family, base_name(seat.name), seat.also)):
        run = list(alike)
        first, last = number_of(run[0].name), number_of(run[-1].name)
        if len(run) > 1 and first and last:
            found.append(Seat(family, f"{base} {first}\N{EN DASH}{last}", also))
        else:
            found += run
    return tuple(found)


def base_name(name: str) -> str:
    """A chair's name without its number."""
    base, _space, number = name.rpartition(" ")
    return base if number.isdecimal() else name


def number_of(name: str) -> str:
    number = name.rpartition(" ")[2]
    return number if number.isdecimal() else ""


# ---- what it comes to


def strip_blocks(work: WorkFacts, says: Labels) -> tuple[Block, ...]:
    """The forces as a strip over the number of people."""
    forces, strip = work.instrumentation, strip_of(work, says)
    if forces is None or strip is None:
        return ()
    people = says.parted(line.text for line in total_line(forces, grammar(says.language)))
    strings = ".".join(map(str, work.string_strengths))
    strengths = says.say("strings {strengths}", strengths=strings) if strings else ()
    caption = joined((value(people), strengths), says.semicolon)
    return (Figure(strip, caption),) if caption else ()


def fact_blocks(work: WorkFacts, records: WorkRecords, says: Labels) -> tuple[Block, ...]:
    """The duration where no movement tells it, at which pitch the score is, how instruments are tuned."""
    facts = [
        ("Duration", duration_text(work, says)),
        ("Score", pitch_text(work, records, says)),
        *(("Tuning", tuning_text(one, says)) for one in records.tunings),
        *(("Tuned otherwise", retuning_text(one, says)) for one in records.retunings),
    ]
    told: list[Pair] = []
    for label, text in facts:
        if text:
            told.append(Pair(wording(says.word(label)), text))
    return (Pairs((tuple(told),)),) if told else ()


def duration_text(work: WorkFacts, says: Labels) -> Text:
    """The duration in words; of an open form from the shortest to the longest."""
    if work.least_duration and work.most_duration and work.least_duration != work.most_duration:
        least, most = (write_duration(one, "words", says.language) for one in (work.least_duration, work.most_duration))
        return says.say("{least} to {most}", least=least, most=most)
    if len(work.movements) > 1 and whole_duration(work):
        return ()
    return value(write_duration(work.duration, "words", says.language) if work.duration else work.duration_typed)


def pitch_text(work: WorkFacts, records: WorkRecords, says: Labels) -> Text:
    score = score_of(records.editions)
    if score is None or score.pitch is None or not transposes(work.instrumentation):
        return ()
    return wording(says.word(PITCHES[score.pitch]))


def tuning_text(one: TuningFacts, says: Labels) -> Text:
    pitch = says.figure(f"{one.reference_hertz.normalize():f}") if one.reference_hertz else ""
    hertz = f"{one.reference_note or 'a′'} = {pitch} Hz" if pitch else ""
    return joined(
        (value(one.name), value(hertz), value(" ".join(one.description.split())), value(one.source)), says.semicolon
    )


def retuning_text(one: RetuningFacts, says: Labels) -> Text:
    """Which instrument, tuned to what, how it is written and what has to be prepared."""
    tuned = says.say("tuned to {notes}", notes=one.tuned_to) if one.tuned_to else ()
    cents = value(f"{says.figure(cents_text(one.cents))} {says.word('cents')}") if one.cents is not None else ()
    written = says.say("written {how}", how=one.written) if one.written else ()
    return joined((value(one.instrument), tuned, cents, written, value(one.preparation)), says.semicolon)


def cents_text(cents: Decimal) -> str:
    """A number of cents with its sign, a true minus.

    >>> cents_text(Decimal("-50.000")), cents_text(Decimal("16.5")), cents_text(Decimal(0))
    ('−50', '+16.5', '0')
    """
    figure = f"{cents:+f}".rstrip("0").rstrip(".") if "." in f"{cents:f}" else f"{cents:+f}"
    return "0" if figure in ("+0", "-0", "+", "-") else figure.replace("-", "\N{MINUS SIGN}")
