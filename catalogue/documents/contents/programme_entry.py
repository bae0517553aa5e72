"""The programme entry: what a programme book prints of one work, ready to be set or shortened.

Title, forces and year, movements; beside the note how long it lasts, who plays, who played it first, who publishes it;
below it who commissioned it and what this performance is the first of, then the composer's life. It is shortened from
the end: the life first, then the last paragraphs of the note; credit and first performance never (common practice). The
words that are sung stand at the end, beside their translation, as far as whoever has the rights allows it.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from datetime import date

from catalogue.documents.contents.claims import claim_of
from catalogue.documents.contents.credits import commission_line, first_performance_event
from catalogue.documents.contents.dates import year_text
from catalogue.documents.contents.forces import described
from catalogue.documents.contents.history import Hearing, premiere
from catalogue.documents.contents.movements import numeral_beside
from catalogue.documents.contents.prose import Prose, blocks_of, chosen, shortened
from catalogue.documents.contents.sung_text import text_sections
from catalogue.documents.contents.titles import short_title, work_title
from catalogue.documents.labels import Labels, labels
from catalogue.documents.model import (
    Block,
    Document,
    Line,
    Lines,
    Opening,
    Pair,
    Pairs,
    Paper,
    Paragraph,
    Style,
    Text,
    Voice,
    joined,
    plain,
    value,
    wording,
)
from catalogue.facts import ComposerFacts, WorkFacts
from catalogue.instrumentation.wording import write_words
from catalogue.record_facts import TextSourceFacts
from catalogue.timing import write_duration


@dataclass(frozen=True, slots=True)
class Written:
    """What has been written about a work and its composer, of which an entry prints one text each.

    ``credits`` are lines that holders of rights want printed, ``texts`` the words that the work sets.
    """

    notes: tuple[Prose, ...] = ()
    lives: tuple[Prose, ...] = ()
    credits: tuple[str, ...] = ()
    texts: tuple[TextSourceFacts, ...] = ()


@dataclass(frozen=True, slots=True)
class Room:
    """How many words a note and a life may have; None for as many as there are."""

    note: int | None = None
    life: int | None = 120


def programme_entry(
    work: WorkFacts,
    composer: ComposerFacts,
    *,
    written: Written,
    heard: tuple[Hearing, ...] = (),
    performance: int | None = None,
    room: Room = Room(),
    language: str,
    paper: Paper,
    printed_on: date,
) -> Document:
    """Tell one work for a programme; ``heard`` are its performances, ``performance`` the one the programme is for."""
    says = labels(language)
    note = chosen(written.notes, language, room.note)
    title = work_title(work)
    return Document(
        kind="programme-entry",
        title=f"{work.title.title}: {says.word('Programme entry')}",
        author=composer.name,
        language=says.language,
        paper=paper,
        blocks=(
            Opening(title, value(composer.name), subtitle=subtitle(work, says), life=life_dates(composer, says)),
            *movements(work),
            *beside(work, heard, performance, says),
            *note_blocks(note, composer, room),
            *credit_blocks(work, heard, performance, written, says),
            *life_blocks(chosen(written.lives, language, room.life), composer, room),
            *text_sections(written.texts, printed_on, says),
        ),
        running=(joined((value(composer.name), value(plain(short_title(work.title)))), ", "), ()),
        dated=wording(says.word("For print as it stands, or shortened from the end")),
    )


def subtitle(work: WorkFacts, says: Labels) -> Text:
    """For orchestra (2024)."""
    year = year_text(work, "")
    bracket = (*wording("("), *wording(year), *wording(")")) if year else ()
    return joined((described(work, says), bracket), " ")


def life_dates(composer: ComposerFacts, says: Labels) -> Text:
    """Born 1984, Aarhus; or both years of a life."""
    if composer.born is None:
        return ()
    year = str(composer.born.year)
    if composer.died:
        return value(f"{year}–{composer.died.year}")
    return joined((says.say("born {year}", year=year), value(composer.birthplace)), ", ")


def movements(work: WorkFacts) -> tuple[Block, ...]:
    if len(work.movements) < 2 or not any(one.title for one in work.movements):
        return ()
    lines = (Line(numeral_beside(one.number, one.title), value(one.title, Style.TITLE)) for one in work.movements)
    return (Lines(tuple(lines)),)


def beside(work: WorkFacts, heard: tuple[Hearing, ...], performance: int | None, says: Labels) -> tuple[Block, ...]:
    """The facts in the narrow column; the first performance is not told there where this is it."""
    first = premiere(heard)
    told = first_performance_event(first, says) if first and first.performance.id != performance else ()
    duration = write_duration(work.duration, "words", says.language) if work.duration else work.duration_typed
    told_forces = write_words(work.instrumentation, says.language) if work.instrumentation else ""
    forces = says.spaced(told_forces) or work.instrumentation_typed
    facts = (
        ("Duration", value(duration)),
        ("Scoring", value(forces)),
        ("Text", value(work.text_author)),
        ("First performed", told),
        ("Publisher", value(work.publisher)),
    )
    pairs = tuple(Pair(wording(says.word(label)), text) for label, text in facts if text)
    return (Pairs((pairs,)),) if pairs else ()


def note_blocks(note: Prose | None, composer: ComposerFacts, room: Room) -> tuple[Block, ...]:
    """The note, signed by whoever wrote it: by the composer with initials."""
    parts = shortened(note.body, room.note) if note else ()
    if not note or not parts:
        return ()
    signed = note.author if note.author not in ("", composer.name) else initials(composer.name)
    return (*blocks_of(parts, Voice.PROSE, language=note.language), Paragraph(value(signed), Voice.SIGNED))


def initials(name: str) -> str:
    """The first letters of a name, each with its point.

    >>> initials("Ada Mae Quill")
    'A.M.Q.'
    """
    return "".join(f"{part[0]}." for part in name.split())


def credit_blocks(
    work: WorkFacts, heard: tuple[Hearing, ...], performance: int | None, written: Written, says: Labels
) -> tuple[Block, ...]:
    """Who commissioned it, what is asked to be printed, and what this performance is the first of."""
    commissioned = commission_line(work, says)
    this = next((one for one in heard if one.performance.id == performance), None)
    claim = claim_of((this,), says) if this else ()
    first = says.say("This performance: {claim}.", claim=claim) if claim else ()
    told = (
        (*commissioned, *wording(".")) if commissioned else (),
        *(value(credit) for credit in written.credits),
        first,
    )
    line = joined(tuple(told), " ")
    return (Paragraph(line, Voice.CREDIT),) if line else ()


def life_blocks(life: Prose | None, composer: ComposerFacts, room: Room) -> Iterable[Block]:
    parts = shortened(life.body, room.life) if life else ()
    return blocks_of(parts, Voice.LIFE, language=life.language if life else "", named=composer.name)
