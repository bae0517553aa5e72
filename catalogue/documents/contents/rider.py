"""The technical rider: whom to ask, what is needed and who provides it, the stage, the channels, the cautions.

It says what is needed before a model for reference, numbers its revision, and tells what is different since the last
one that was sent. What has not been entered is not printed.
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator
from dataclasses import dataclass, replace
from datetime import date, time
from itertools import groupby

from catalogue.documents.contents.cautions import setup_cautions
from catalogue.documents.contents.credits import performers, places
from catalogue.documents.contents.dates import date_text, day_text
from catalogue.documents.contents.forces import described
from catalogue.documents.contents.letterhead import letterhead
from catalogue.documents.contents.rider_channels import (
    Heads,
    cue_blocks,
    input_table,
    layout_blocks,
    lines_of,
    output_table,
    playback_blocks,
    provider_text,
    table_of,
)
from catalogue.documents.contents.rider_items import rider_items
from catalogue.documents.contents.rider_stage import stage_blocks
from catalogue.documents.contents.titles import short_title, work_title
from catalogue.documents.labels import SOURCE, Labels, labels
from catalogue.documents.model import (
    Block,
    Cell,
    Column,
    Document,
    Group,
    Opening,
    Pair,
    Pairs,
    Paper,
    Paragraph,
    Section,
    Signatures,
    Style,
    Table,
    Text,
    Voice,
    joined,
    plain,
    value,
    wording,
)
from catalogue.documents.needs import DocumentNeeds
from catalogue.facts import ComposerFacts, PerformanceFacts, TimingFacts, WorkFacts
from catalogue.rules.technical.halls import held_against
from catalogue.rules.technical.items import Item
from catalogue.rules.technical.revisions import Difference, differences
from catalogue.rules.technical.riders import RiderFacts, Sent
from catalogue.rules.technical.terms import Setup, Slot
from catalogue.timing import print_clock_time, write_duration

CLOCK = re.compile(r"\b([01]?\d|2[0-3]):([0-5]\d)\b")
CLOCKS = re.compile(rf"{CLOCK.pattern}(?:\s*[\N{{EN DASH}}-]\s*{CLOCK.pattern})?")
NUMBERED = re.compile(r"^\d+\N{EM SPACE}")
COMPARED = (
    "What is needed",
    "Stage plan",
    "Input list",
    "Output list",
    "Loudspeakers",
    "Playback and synchronisation",
    "Cues",
    "Schedule",
)
"""Sections whose lines the next revision is compared with."""
HALVES = (("Output list", "Loudspeakers"), ("Schedule", "Setting up"))
"""Sections that stand side by side, where there are both."""


@dataclass(frozen=True, slots=True)
class Told:
    """All that a rider is told, in its language; ``plain_items`` are the items as a hall's list is held against."""

    work: WorkFacts
    timing: TimingFacts
    facts: RiderFacts
    composer: ComposerFacts
    performance: PerformanceFacts | None
    items: tuple[Item, ...]
    plain_items: tuple[Item, ...]
    says: Labels

    def called(self, item: Item) -> str:
        """What one of the plain items is called in the language of the rider."""
        return dict(zip(self.plain_items, self.items, strict=False)).get(item, item).name

    @property
    def setup(self) -> Setup | None:
        return self.facts.setup


def rider(
    work: WorkFacts,
    timing: TimingFacts,
    facts: RiderFacts,
    composer: ComposerFacts,
    *,
    performance: PerformanceFacts | None = None,
    language: str,
    paper: Paper,
    printed_on: date,
    motto: str | None = None,
) -> Document:
    """The rider of a work, under a ``motto`` where the composer is not to be named.

    Raises DocumentNeeds where nothing is known that it needs.
    """
    says = labels(language)
    if motto is not None:
        composer, facts = nameless(composer, motto), without_contact(facts)
    items = rider_items(work, facts, says)
    if not items and facts.setup is None:
        reason = f"Nothing is noted yet that “{work.title.title}” needs besides its players."
        raise DocumentNeeds(reason, ("technical setup",))
    plain_items = rider_items(work, facts, labels(SOURCE))
    told = Told(work, timing, facts, composer, performance, items, plain_items, says)
    running = says.say("Technical rider, revision {number}", number=str(facts.revision))
    whose = joined((value(composer.name), value(plain(short_title(work.title)))), ", ")
    day = day_text(printed_on, says.language)
    return Document(
        kind="rider",
        title=f"{work.title.title}: {says.word('Technical rider')}",
        author=composer.name,
        language=says.language,
        paper=paper,
        blocks=blocks(told, running, day),
        running=(whose, running),
        dated=says.say("Revision {number}, {day}; replaces all earlier", number=str(facts.revision), day=day),
    )


def nameless(composer: ComposerFacts, motto: str) -> ComposerFacts:
    """The composer under a motto, without house and addresses."""
    return replace(composer, name=motto, email="", telephone="", website="", address="", house=None)


def without_contact(facts: RiderFacts) -> RiderFacts:
    return replace(facts, contact_name="", contact_email="", contact_telephone="", contact_hours="")


def blocks(told: Told, running: Text, day: str) -> tuple[Block, ...]:
    found = [(head, tuple(inner)) for head, inner in sections(told)]
    compared = lines_by_head(found, told.says)
    change = difference_blocks(told.facts.sent, compared, told.says)
    if change:
        found.insert(1, ("Different since the last revision", change))
    heads = [(head, inner) for head, inner in found if inner]
    halved = {head for pair in HALVES if set(pair) <= {head for head, _inner in heads} for head in pair}
    numbered = (
        Section((*wording(f"{place}\N{EM SPACE}"), *wording(told.says.word(head))), inner, half=head in halved)
        for place, (head, inner) in enumerate(heads, start=1)
    )
    return (opening(told, running, day), *summary(told), *numbered, signatures(told.says))


def sections(told: Told) -> Iterator[tuple[str, Iterable[Block]]]:
    """Each head with what stands under it, in the order in which a house works through a rider."""
    says, setup, facts = told.says, told.setup, told.facts
    yield "Contact", contact_blocks(told)
    yield "What is needed", (needs_table(told.items, says),) if told.items else ()
    yield "Not on the list of the hall", lack_blocks(told)
    yield "Stage plan", stage_blocks(told.work.instrumentation, setup, says)
    yield "Input list", input_table(setup, says) if setup else ()
    yield "Output list", output_table(setup, says) if setup else ()
    yield "Loudspeakers", layout_blocks(setup, says) if setup else ()
    yield "Playback and synchronisation", playback_blocks(setup, says) if setup else ()
    yield "Cues", cue_blocks(told.timing, says)
    yield "Schedule", schedule_blocks(facts.schedule, says)
    yield "Setting up", text_blocks(setup.setting_up) if setup else ()
    yield "Cautions", caution_blocks(told)
    yield "With less, and when something fails", other_blocks(told)
    yield "Who brings what", brought_blocks(told.items, says)


def rider_lines(document: Document) -> dict[str, tuple[str, ...]]:
    """The lines of a rider by their heads, as the next revision is compared with them."""
    says = labels(document.language)
    found = [(NUMBERED.sub("", plain(one.head)), one.blocks) for one in document.blocks if isinstance(one, Section)]
    compared = {says.word(head) for head in COMPARED}
    return {head: table_lines(inner) for head, inner in found if head in compared}


def lines_by_head(found: list[tuple[str, tuple[Block, ...]]], says: Labels) -> dict[str, tuple[str, ...]]:
    return {says.word(head): table_lines(inner) for head, inner in found if head in COMPARED and inner}


def table_lines(inner: tuple[Block, ...]) -> tuple[str, ...]:
    return tuple(line for block in inner if isinstance(block, Table) for line in lines_of(block))


# ---- the opening


def opening(told: Told, running: Text, day: str) -> Opening:
    """What, for whom, for which performance; revision and day stand above."""
    says, work = told.says, told.work
    duration = write_duration(work.duration, "primes", says.language) if work.duration else work.duration_typed
    return Opening(
        work_title(work),
        value(told.composer.name),
        joined((running, value(day)), ", "),
        aside=joined((described(work, says), value(duration)), ", "),
        letterhead=letterhead(told.composer),
    )


def occasion(told: Told) -> Text:
    """Who plays, where and when, for one performance."""
    one = told.performance
    if one is None:
        return ()
    when = value(date_text(one.date, told.says.language)) if one.date else ()
    at = value(print_clock_time(one.time, told.says.language)) if one.time else ()
    return joined((performers(one, told.says, sentence=False), *places(one), when, at), ", ")


def summary(told: Told) -> Iterator[Block]:
    played = plain(occasion(told))
    if played:
        yield Paragraph(value(played, Style.STRONG))
    text = told.facts.summary or (told.setup.description if told.setup else "") or told.work.electronics_note
    yield from text_blocks(text)


def text_blocks(text: str) -> tuple[Block, ...]:
    """A typed text, an empty line between paragraphs."""
    parts = (" ".join(part.split()) for part in re.split(r"\n\s*\n", text))
    return tuple(Paragraph(value(part)) for part in parts if part)


def contact_blocks(told: Told) -> tuple[Block, ...]:
    """The one person to ask: of the rider, else the composer."""
    facts, composer, says = told.facts, told.composer, told.says
    own = bool(facts.contact_name)
    hours = f" ({facts.contact_hours})" if facts.contact_hours else ""
    telephone = facts.contact_telephone + hours if own else composer.telephone
    left = (
        ("One contact", facts.contact_name or composer.name),
        ("Telephone", telephone),
        ("E-mail", facts.contact_email if own else composer.email),
    )
    one = told.performance
    dated = date_text(told.setup.documented, says.language) if told.setup and told.setup.documented else ""
    tested = date_text(told.setup.tested, says.language) if told.setup and told.setup.tested else ""
    right = (
        ("Presenter", one.presenter if one else ""),
        ("Documented", dated),
        ("Last tested", tested),
        ("Travel", " ".join(facts.travel.split())),
    )
    groups = tuple(
        tuple(Pair(wording(says.word(label)), value(text)) for label, text in group if text) for group in (left, right)
    )
    return (Pairs(tuple(group for group in groups if group)),)


# ---- what is needed


def needs_table(items: tuple[Item, ...], says: Labels) -> Table:
    """Everything under its head, with a box to tick once it is agreed."""
    columns = (
        Column("item", wording(says.word("Need"))),
        Column("what", wording(says.word("What it has to be"))),
        Column("from", wording(says.word("Brought by"))),
        Column("agreed", wording(says.word("Agreed"))),
    )
    groups = tuple(
        Group(value(head), tuple(need_row(one, says) for one in found))
        for head, found in groupby(items, key=lambda item: item.group)
    )
    return Table(columns, groups)


def need_row(item: Item, says: Labels) -> tuple[Cell, ...]:
    reference = says.say("such as {model}", model=item.such_as) if item.such_as else ()
    what = tuple(text for text in (value(item.detail), italic(reference)) if text)
    return (
        Cell((value(item.title, Style.STRONG),)),
        Cell(what),
        Cell((provider_text(item.provider, says),)),
        Cell(boxes=("",)),
    )


def italic(text: Text) -> Text:
    return wording(plain(text), Style.EMPHASIS)


LACK_HEADS: Heads = (("lack", "Need"), ("wanted", "Wanted"), ("there", "On the list"))


def lack_blocks(told: Told) -> tuple[Block, ...]:
    """What the hall's own list does not name, or names in a smaller number."""
    if not told.facts.stock:
        return ()
    short = [one for one in held_against(told.plain_items, told.facts.stock) if one.lacking]
    if not short:
        return ()
    rows = (
        (value(told.called(one.item)), wording(str(one.number)), value(str(one.on_the_list or "\N{EN DASH}")))
        for one in short
    )
    note = told.says.say(
        "Compared by kind and number with the equipment list of {hall}; what is not on a list may still be there.",
        hall=told.facts.hall,
    )
    return (table_of(LACK_HEADS, rows, told.says), Paragraph(note, Voice.NOTE))


def brought_blocks(items: tuple[Item, ...], says: Labels) -> tuple[Block, ...]:
    """Each provider with all that they bring."""
    providers = dict.fromkeys(item.provider for item in items)
    rows = (
        (provider_text(one, says), value(says.parted(item.title for item in items if item.provider == one)))
        for one in sorted(providers, key=lambda word: (not word, word))
    )
    return (table_of((("who", "Brought by"), ("things", "What")), rows, says),) if items else ()


# ---- time, cautions, other ways


def schedule_blocks(schedule: tuple[Slot, ...], says: Labels) -> Iterator[Block]:
    if schedule:
        heads: Heads = (("when", "When"), ("then", "What"))
        rows = ((value(clock_printed(slot.when, says.language)), value(slot.what)) for slot in schedule)
        yield table_of(heads, rows, says)


def clock_printed(typed: str, language: str) -> str:
    """A time of day or a span of them as the language prints it; anything else as it was typed.

    >>> clock_printed("14:00", "de"), clock_printed("14:00", "en-US").replace(chr(160), " ")
    ('14:00', '2:00 p.m.')
    """
    if not CLOCKS.fullmatch(typed.strip()):
        return typed
    return CLOCK.sub(lambda found: print_clock_time(time(int(found[1]), int(found[2])), language), typed)


def caution_blocks(told: Told) -> tuple[Block, ...]:
    powered = any(one.needs_power for one in told.facts.records.percussion)
    return setup_cautions(told.setup, told.says, has_powered=powered)


def other_blocks(told: Told) -> tuple[Block, ...]:
    """Setups with less and for when something fails, each with what is different in it, and what to do."""
    says, setup = told.says, told.setup
    found = [
        Pair(value(one.name), value(" ".join((one.differs or one.description).split()))) for one in told.facts.others
    ]
    if setup and setup.when_it_fails:
        text = " ".join(setup.when_it_fails.split())
        found.append(Pair(wording(says.word("When something fails")), value(text)))
    return (Pairs((tuple(found),)),) if found else ()


def difference_blocks(sent: Sent | None, now: dict[str, tuple[str, ...]], says: Labels) -> tuple[Block, ...]:
    """What is different since the revision that was sent last, if that was in this language."""
    if sent is None or sent.language != says.language:
        return ()
    since = says.say(
        "Since revision {number}, sent {day}.", number=str(sent.revision), day=day_text(sent.day, says.language)
    )
    found = differences(sent.lists, now)
    if not found:
        return (Paragraph((*since, *wording(f" {says.word('Nothing is different in lists, plan and schedule.')}"))),)
    heads: Heads = (("change", "Change"), ("change-line", "Line"))
    groups = tuple(Group(value(one.head), tuple(change_rows(one, says))) for one in found)
    columns = tuple(Column(key, wording(says.word(head))) for key, head in heads)
    return (Paragraph(since), Table(columns, groups))


def change_rows(one: Difference, says: Labels) -> Iterator[tuple[Cell, ...]]:
    for word, lines in ((says.word("new"), one.new), (says.word("no longer"), one.gone)):
        for line in lines:
            yield (Cell((wording(word, Style.STRONG),)), Cell((value(line),)))


def signatures(says: Labels) -> Signatures:
    attested = (says.say("Agreed for the presenter"), says.say("For the composer"))
    return Signatures(attested, says.say("name, signature, date"))
