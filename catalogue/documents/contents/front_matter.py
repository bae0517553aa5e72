"""The front matter of a score: cover, title page, instruments, what is needed, notation, notes, programme note, words.

The order is that of orchestral librarians (MOLA, *Guidelines for Music Preparation*): cover, instruments, staging,
departures from usual notation; then what new music adds: notes for players and for whoever runs the electronics, the
programme note with its credits, the words that are sung. What has not been entered is not printed; what librarians
expect and the records lack is told beside the document (``lacking``).
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass, replace
from datetime import date
from itertools import chain

from catalogue.documents.contents import front_lacks
from catalogue.documents.contents.credits import commission_line, first_performance
from catalogue.documents.contents.dates import year_text
from catalogue.documents.contents.forces import described, strip_of
from catalogue.documents.contents.front_forces import forces_section, movement_title, whole_duration
from catalogue.documents.contents.front_signs import sign_sections
from catalogue.documents.contents.front_technical import technical_sections
from catalogue.documents.contents.history import Hearing, premiere
from catalogue.documents.contents.movements import numeral_beside
from catalogue.documents.contents.programme_entry import initials
from catalogue.documents.contents.prose import Prose, blocks_of, chosen, distance, paragraphs
from catalogue.documents.contents.sung_text import text_sections
from catalogue.documents.contents.titles import short_title, work_title
from catalogue.documents.contents.works_list import dedication_line, text_line
from catalogue.documents.labels import Labels, labels
from catalogue.documents.model import (
    Block,
    Document,
    Leaf,
    Line,
    Opening,
    Pair,
    Pairs,
    Paper,
    Paragraph,
    Section,
    Style,
    Text,
    Voice,
    joined,
    plain,
    value,
    wording,
)
from catalogue.documents.needs import DocumentNeeds
from catalogue.facts import ComposerFacts, WorkFacts
from catalogue.record_facts import EditionFacts, PerformanceNoteFacts, WorkRecords
from catalogue.rules.clearances import words_may_be_printed
from catalogue.rules.front_matter import lacking, score_of, transposes
from catalogue.rules.technical.terms import Setup
from catalogue.terms import EditionKind, NotePurpose, PerformanceStatus, ScorePitch
from catalogue.timing import write_duration

KINDS = {
    EditionKind.FULL_SCORE: "Score",
    EditionKind.STUDY_SCORE: "Study score",
    EditionKind.VOCAL_SCORE: "Vocal score",
    EditionKind.PLAYING_SCORE: "Playing score",
    EditionKind.SCORE_AND_PARTS: "Score and parts",
}
NOT_NAMED = 2
"""How far from a language a text is of which nobody has said in which language it is."""
PITCHES = {ScorePitch.IN_C: "Score in C", ScorePitch.TRANSPOSED: "Transposed score"}
PURPOSES = {
    NotePurpose.PLAYING: "Performance notes",
    NotePurpose.PRACTISING: "On practising",
    NotePurpose.OPERATING: "For the sound operator",
}


@dataclass(frozen=True, slots=True)
class Front:
    """All that front matter is told, in its language."""

    work: WorkFacts
    composer: ComposerFacts
    records: WorkRecords
    setups: tuple[Setup, ...]
    heard: tuple[Hearing, ...]
    today: date
    says: Labels

    @property
    def score(self) -> EditionFacts | None:
        return score_of(self.records.editions)

    @property
    def publisher(self) -> str:
        return (self.score.published_by if self.score else "") or self.work.publisher


def front_matter(
    work: WorkFacts,
    composer: ComposerFacts,
    *,
    records: WorkRecords,
    setups: tuple[Setup, ...] = (),
    heard: tuple[Hearing, ...] = (),
    has_cover: bool = True,
    is_anonymous: bool = False,
    language: str,
    paper: Paper,
    printed_on: date,
) -> Document:
    """What stands in front of the music, for an anonymous call without all that names the composer.

    Raises DocumentNeeds without forces, or without the pitch of the score.
    """
    says = labels(language)
    told = Front(work, composer, records, setups, heard, printed_on, says)
    refuse_unknown(told)
    front = without_names(told) if is_anonymous else told
    setup = setups[0] if setups else None
    is_performed = any(one.performance.status is PerformanceStatus.GIVEN for one in heard)
    lacks = lacking(
        work, records, setup, printed_on, is_performed=is_performed, has_premiere=premiere(heard) is not None
    )
    return Document(
        kind="front-matter",
        title=f"{work.title.title}: {says.word('Front matter')}",
        author=front.composer.name,
        language=says.language,
        paper=paper,
        blocks=(*((cover(front),) if has_cover else ()), title_page(front), *sections(front)),
        running=(value(front.composer.name), value(plain(short_title(work.title)))),
        lacking=front_lacks.told(lacks),
    )


def refuse_unknown(front: Front) -> None:
    """Refuse what would mislead: a score without its forces, or one that does not say at which pitch it is."""
    work = front.work
    if work.instrumentation is None and not work.instrumentation_typed:
        reason = f"A score of “{work.title.title}” cannot say who plays: its instrumentation is not known."
        raise DocumentNeeds(reason, ("instrumentation",))
    if transposes(work.instrumentation) and not (front.score and front.score.pitch):
        reason = f"Say in an edition of “{work.title.title}” whether its score is in C or transposed."
        raise DocumentNeeds(reason, ("edition",))


def without_names(front: Front) -> Front:
    """The same without composer, publisher, numbers and dedication, and without who asked for it or played it.

    A call that is judged blind wants no name anywhere (score guidelines of the Society for the Promotion of New Music);
    texts are printed as they were written.
    """
    own, records = front.composer.name, front.records
    return replace(
        front,
        work=replace(
            front.work, commissions=(), dedication="", publisher="", ismn="", parts_on_hire=False,
            text_author="" if front.work.text_author == own else front.work.text_author,
        ),
        composer=replace(front.composer, name="", website=""),
        records=replace(
            records,
            editions=tuple(EditionFacts(one.id, one.kind, one.pitch, one.accidentals) for one in records.editions),
            programme_notes=tuple(replace(one, author="") for one in records.programme_notes),
            text_sources=tuple(replace(one, author="") if one.author == own else one for one in records.text_sources),
        ),
        heard=(),
    )  # fmt: skip


def sections(front: Front) -> Iterator[Section]:
    """The pages after the title page, each only if there is something on it."""
    work, records, says = front.work, front.records, front.says
    yield forces_section(work, records, says)
    yield from technical_sections(work, records, front.setups, says)
    yield from sign_sections(records, says)
    yield from note_sections(front)
    yield from programme_sections(front)
    yield from text_sections(records.text_sources, front.today, says)


# ---- cover and title page


def cover(front: Front) -> Opening:
    says = front.says
    kind = says.word(KINDS[front.score.kind] if front.score else "Score")
    return Opening(
        work_title(front.work),
        value(front.composer.name),
        described(front.work, says),
        leaf=Leaf.COVER,
        forces=strip_of(front.work, says),
        foot=(wording(kind), value(front.publisher)),
    )


def title_page(front: Front) -> Opening:
    work, says = front.work, front.says
    several = work.movements if len(work.movements) > 1 else ()
    parts = tuple(
        Line(numeral_beside(one.number, one.title), movement_title(one.title, says, attacca=one.attacca))
        for one in several
        if one.title
    )
    return Opening(
        work_title(work),
        value(front.composer.name),
        described(work, says),
        life=value(year_text(work, "")),
        leaf=Leaf.TITLE_PAGE,
        parts=parts,
        facts=tuple(text for text in title_facts(front) if text),
        foot=tuple(text for text in imprint(front) if text),
    )


def title_facts(front: Front) -> Iterator[Text]:
    """Whose words, to whom, at which pitch, how long."""
    work, says, score = front.work, front.says, front.score
    yield text_line(work, says)
    yield dedication_line(work, says)
    if score and score.pitch and transposes(work.instrumentation):
        yield wording(says.word(PITCHES[score.pitch]))
    duration = whole_duration(work)
    if duration:
        yield says.say("Duration {duration}", duration=write_duration(duration, "words", says.language))


def imprint(front: Front) -> Iterator[Text]:
    """Who publishes, numbers, where parts are hired, which printing, whose it is, where more is to be read."""
    score = front.score
    yield value(front.publisher)
    if score:
        yield from (value(line.strip()) for line in score.publisher_address.splitlines())
        yield value(score.publisher_website)
        yield value(score.number)
    ismn = (score.ismn if score else "") or front.work.ismn
    yield value(f"ISMN {ismn.removeprefix('ISMN').strip()}" if ismn else "")
    yield hire_line(front)
    if score:
        yield value(score.printing)
        yield value(score.copyright_line)
    if front.composer.website:
        yield value(front.composer.website)


def hire_line(front: Front) -> Text:
    """That parts are on hire, and from where."""
    hired = [one for one in front.records.editions if one.on_hire]
    if not hired and not front.work.parts_on_hire:
        return ()
    email = next((one.publisher_email for one in (*hired, *front.records.editions) if one.publisher_email), "")
    if not email:
        return wording(front.says.word("Parts on hire"))
    return front.says.say("Parts on hire from the publisher: {email}", email=email)


# ---- notes


def note_sections(front: Front) -> Iterator[Section]:
    """Notes for those who play, on practising, and for whoever runs the electronics; the second goes on below."""
    notes = in_language(front.records.performance_notes, front.says.language)
    runs_on = False
    for purpose, head in PURPOSES.items():
        pairs = tuple(pair for one in notes if one.purpose is purpose for pair in note_pairs(one, front.says))
        if pairs:
            yield Section(wording(front.says.word(head)), (Pairs((pairs,)),), runs_on=runs_on)
            runs_on = purpose is NotePurpose.PLAYING


def in_language(notes: tuple[PerformanceNoteFacts, ...], language: str) -> tuple[PerformanceNoteFacts, ...]:
    """The notes in the language and those in none that is named; without any such, all of them."""
    return tuple(one for one in notes if distance(one.language, language) <= NOT_NAMED) or notes


def note_pairs(note: PerformanceNoteFacts, says: Labels) -> Iterator[Pair]:
    """A paragraph a pair, the first with the heading; whom it concerns before it, where it first matters after it."""
    label = note.heading or note.concerns
    parts = paragraphs(note.body)
    for place, part in enumerate(parts):
        concerns = value(note.concerns, Style.EMPHASIS) if note.heading and note.concerns and not place else ()
        text = joined((concerns, value(part, language=note.language)), says.colon)
        if place == len(parts) - 1 and note.first_at:
            text = joined((text, says.say("First needed at {place}.", place=note.first_at)), " ")
        yield Pair(value(label) if not place else (), text)


def programme_sections(front: Front) -> Iterator[Section]:
    """The programme note, then who commissioned the work and first played it, and the request to print that."""
    says = front.says
    notes = (
        Prose(one.body, one.language or own_language(front, one.id), one.author)
        for one in front.records.programme_notes
    )
    note = chosen(notes, says.language)
    blocks = tuple(chain(note_blocks(note, front.composer), credit_blocks(front)))
    if blocks:
        yield Section(wording(says.word("Programme note" if note else "Credits")), blocks)


def own_language(front: Front, id: int | None) -> str:
    """The language of a note that stands with the work itself: the catalogue's."""
    return front.composer.language if id is None else ""


def note_blocks(note: Prose | None, composer: ComposerFacts) -> Iterable[Block]:
    if note is None:
        return ()
    signed = note.author if note.author not in ("", composer.name) else initials(composer.name)
    told = blocks_of(paragraphs(note.body), Voice.PROSE, language=note.language)
    return (*told, *((Paragraph(value(signed), Voice.SIGNED),) if signed else ()))


def credit_blocks(front: Front) -> Iterator[Block]:
    work, says = front.work, front.says
    lines = (commission_line(work, says), first_performance(work, front.heard, says))
    told = joined((*((*line, *wording(".")) for line in lines if line), *credits_apart(front)), " ")
    if told:
        yield Paragraph(told, Voice.CREDIT)
    if work.commissions:
        request = "The commission credit and the first performance are to be printed in every programme."
        yield Paragraph(wording(says.word(request), Style.EMPHASIS), Voice.NOTE)


def credits_apart(front: Front) -> Iterator[Text]:
    """The lines that holders of rights want printed, of texts that are not printed themselves."""
    for one in front.records.text_sources:
        if one.credit and not words_may_be_printed(one, front.today):
            yield value(one.credit)
