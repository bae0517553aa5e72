"""What the electronics of a work need, in front of its score: in short, with the plan of the stage and the cautions.

The rider has it channel by channel. Models are named for reference only (course on the documentation of mixed music,
Manhattan School of Music).
"""

from __future__ import annotations

from collections.abc import Iterator
from itertools import groupby

from catalogue.documents.contents.cautions import setup_cautions
from catalogue.documents.contents.dates import date_text
from catalogue.documents.contents.prose import blocks_of, paragraphs
from catalogue.documents.contents.rider_channels import layout_blocks, playback_facts
from catalogue.documents.contents.rider_items import of_setup, of_staff
from catalogue.documents.contents.rider_stage import stage_blocks
from catalogue.documents.labels import Labels
from catalogue.documents.model import (
    Block,
    Figure,
    Pair,
    Pairs,
    Paragraph,
    Section,
    Style,
    Table,
    Text,
    Voice,
    joined,
    plain,
    value,
    wording,
)
from catalogue.facts import WorkFacts
from catalogue.record_facts import WorkRecords
from catalogue.rules.technical.items import Item, together
from catalogue.rules.technical.terms import Setup


def technical_sections(
    work: WorkFacts, records: WorkRecords, setups: tuple[Setup, ...], says: Labels
) -> Iterator[Section]:
    """The requirements of the first setup, and the plan of its stage where somebody has said who stands where."""
    setup = setups[0] if setups else None
    if setup is None:
        if work.electronics_note.strip():
            head = wording(says.word("Technical requirements"))
            yield Section(head, blocks_of(paragraphs(work.electronics_note), Voice.PROSE))
        return
    blocks = tuple(technical_blocks(setup, setups[1:], records, says))
    if blocks:
        yield Section(wording(says.word("Technical requirements")), blocks)
    if setup.places:
        plan = [one for one in stage_blocks(work.instrumentation, setup, says) if not isinstance(one, Table)]
        yield Section(wording(says.word("Stage plan")), tuple(plan))


def technical_blocks(setup: Setup, others: tuple[Setup, ...], records: WorkRecords, says: Labels) -> Iterator[Block]:
    yield from blocks_of(paragraphs(setup.description), Voice.PROSE)
    facts = tuple(Pair(label, text) for label, text in technical_facts(setup, others, says) if text)
    if facts:
        yield Pairs((facts,))
    yield from (one for one in layout_blocks(setup, says) if isinstance(one, Figure))
    powered = any(one.needs_power for one in records.percussion)
    for one in (pair for found in setup_cautions(setup, says, has_powered=powered) for pair in found.groups[0]):
        yield Paragraph((*wording(f"{plain(one.label)}. ", Style.STRONG), *one.value), Voice.NOTE)


def technical_facts(setup: Setup, others: tuple[Setup, ...], says: Labels) -> Iterator[tuple[Text, Text]]:
    """Each head of what is needed with its items, how all keep together, what can be done with less, and the date."""
    items = together([*of_setup(setup, says), *of_staff(setup, says)])
    for head, found in groupby(items, key=lambda item: item.group):
        yield value(head), joined(tuple(item_text(one, says) for one in found), says.semicolon)
    for label, text in playback_facts(setup, says):
        yield wording(says.word(label)), text
    for other in others:
        yield value(other.name), value(" ".join((other.differs or other.description).split()))
    yield wording(says.word("When something fails")), value(" ".join(setup.when_it_fails.split()))
    yield wording(says.word("Documented")), value(dated(setup, says))


def dated(setup: Setup, says: Labels) -> str:
    return date_text(setup.documented, says.language) if setup.documented else ""


def item_text(item: Item, says: Labels) -> Text:
    """What is needed, its details in brackets."""
    reference = says.say("such as {model}", model=item.such_as) if item.such_as else ()
    details = joined((value(item.detail), reference), says.semicolon)
    return (*value(item.title), *wording(" ("), *details, *wording(")")) if details else value(item.title)
