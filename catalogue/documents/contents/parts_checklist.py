"""The parts checklist: what is in the box, to be ticked when it leaves and when it comes back.

Parts stand in score order with the numbers that their files and covers bear. String strengths come from the
performance, else from the work, else from what the composer usually reckons with, and the list says from where.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from datetime import date
from itertools import groupby, starmap

from catalogue.documents.contents.dates import day_text, span_text
from catalogue.documents.contents.line_notes import note_told
from catalogue.documents.contents.titles import short_title, work_title
from catalogue.documents.labels import Labels, labels
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
from catalogue.facts import ComposerFacts, PerformanceFacts, WorkFacts
from catalogue.instrumentation import Instrumentation, called
from catalogue.instrumentation.parts import SECTIONS, Kind, Part, PartsError, PartSet, part_list
from catalogue.rules.strengths import Strengths, strengths_of
from catalogue.terms import Category

HEADS = {
    "woodwind": "Woodwind",
    "brass": "Brass",
    "percussion": "Timpani and percussion",
    "plucked": "Plucked instruments and keyboards",
    "keyboard": "Plucked instruments and keyboards",
    "other": "Other instruments",
    "voice": "Voices",
    "strings": "Strings",
    "electronics": "Electronics",
}
CONDUCTED = (
    Category.STAGE,
    Category.ORCHESTRA,
    Category.SOLOIST_AND_ORCHESTRA,
    Category.LARGE_ENSEMBLE,
    Category.CHOIR,
)
SOURCES = {
    "set": "{strengths} (set), {copies}",
    "performance": "{strengths} (performance), {copies}",
    "work": "{strengths} (score), {copies}",
    "default": "{strengths} (default), {copies}",
}


@dataclass(frozen=True, slots=True)
class Hire:
    """What is known of the loan: who has the set, which set it is, when it goes and is due; ``carrier`` brings it.

    ``strings`` are those that the set was made up for, ``besides`` what else is sent, with how many of it.
    """

    hirer: str = ""
    set_number: str = ""
    out: date | None = None
    due_back: date | None = None
    carrier: str = ""
    strings: tuple[int, ...] = ()
    besides: tuple[tuple[str, int], ...] = ()


@dataclass(frozen=True, slots=True)
class Setting:
    """How the house makes up a set: usual string strengths, sections reading alone, spare copies a string part."""

    strings: tuple[int, ...] = ()
    alone: frozenset[str] = frozenset()
    extra: int = 0


def parts_checklist(
    work: WorkFacts,
    composer: ComposerFacts,
    *,
    performances: tuple[PerformanceFacts, ...] = (),
    hire: Hire = Hire(),
    setting: Setting = Setting(),
    made_up: PartSet | None = None,
    language: str,
    paper: Paper,
    printed_on: date,
) -> Document:
    """List the set of a work, for performances or in general; ``made_up`` is a set that has been made up already.

    Raises DocumentNeeds where the instrumentation cannot be read or the string strengths are known from nowhere.
    """
    says = labels(language)
    if work.instrumentation is None:
        reason = f"The parts of “{work.title.title}” cannot be listed: its instrumentation is not readable."
        raise DocumentNeeds(reason, ("instrumentation",))
    strengths = strengths_of(work, performances, of_set=hire.strings, usual=setting.strings)
    parts = made_up or parts_of(work, work.instrumentation, strengths, setting)
    kind = kind_of_list(hire, says)
    title = joined((value(composer.name), value(plain(short_title(work.title)))), ", ")
    return Document(
        kind="parts-checklist",
        title=f"{work.title.title}: {says.word('Parts checklist')}",
        author=composer.name,
        language=says.language,
        paper=paper,
        blocks=(
            Opening(work_title(work), value(composer.name), kind),
            facts(parts, strengths, performances, hire, printed_on, says),
            table(parts, hire.besides, work, says),
            Paragraph(wording(note(parts, says)), Voice.NOTE),
            signatures(says),
        ),
        running=(title, kind),
        dated=wording(says.word("Condition: G good, M marked, D damaged, X missing")),
    )


def kind_of_list(hire: Hire, says: Labels) -> Text:
    set_number = says.say("hire set {number}", number=hire.set_number) if hire.set_number else ()
    return joined((says.say("Parts checklist"), set_number), ", ")


def parts_of(work: WorkFacts, forces: Instrumentation, strengths: Strengths, setting: Setting) -> PartSet:
    try:
        return part_list(forces, strengths.players, alone=setting.alone, extra=setting.extra)
    except PartsError as error:
        reason = f"The parts of “{work.title.title}” cannot be listed. {error.reason}"
        raise DocumentNeeds(reason, ("string strengths",)) from error


# ---- facts


def facts(
    parts: PartSet,
    strengths: Strengths,
    performances: tuple[PerformanceFacts, ...],
    hire: Hire,
    printed_on: date,
    says: Labels,
) -> Block:
    dates = tuple(sorted(one.date for one in performances if one.date))
    played = span_text(dates, says.language, says.word("to"), says.word("and")) if dates else ""
    hirer = hire.hirer or next((one.presenter for one in performances if one.presenter), "")
    out = joined((value(day(hire.out, says)), value(hire.carrier)), ", ")
    groups = (
        (
            ("Hirer", value(hirer)),
            ("Performances" if len(dates) > 1 else "Performance", value(played)),
            ("Strings", strings_text(parts, strengths, says)),
        ),
        (
            ("Out", out) if out else ("List made", value(day(printed_on, says))),
            ("Due back", value(day(hire.due_back, says))),
            ("Contents", wording(contents(parts, says))),
        ),
    )
    return Pairs(
        tuple(tuple(Pair(wording(says.word(label)), text) for label, text in group if text) for group in groups)
    )


def day(when: date | None, says: Labels) -> str:
    return day_text(when, says.language) if when else ""


def strings_text(parts: PartSet, strengths: Strengths, says: Labels) -> Text:
    """The players of each section, where the numbers are from, and how many read from one copy."""
    sections = [part for part in parts.parts if part.kind is Kind.SECTION]
    if not sections:
        return ()
    by_section = {part.instrument: part.players or 0 for part in sections}
    numbers = ".".join(str(by_section.get(slug, 0)) for slug in SECTIONS)
    copies = says.word("one copy a desk")
    if any(part.copies == part.players and (part.players or 0) > 1 for part in sections):
        copies = says.word("one copy a desk, some alone")
    return says.say(SOURCES[strengths.source], strengths=numbers, copies=wording(copies))


def contents(parts: PartSet, says: Labels) -> str:
    """1 score, 29 single parts, 25 string copies: what the total is made of."""
    single = parts.total - parts.scores - parts.string_copies
    counted = (
        (parts.scores, "{n} score", "{n} scores"),
        (single, "{n} single part", "{n} single parts"),
        (parts.string_copies, "{n} string copy", "{n} string copies"),
    )
    told = [says.count(one, many, number) for number, one, many in counted if number]
    if any(part.kind is Kind.CHOIR and part.copies is None for part in parts.parts):
        told.append(says.word("choir copies by the number of singers"))
    return ", ".join(told)


# ---- the table


def table(parts: PartSet, besides: tuple[tuple[str, int], ...], work: WorkFacts, says: Labels) -> Table:
    columns = (
        Column("number", wording(says.word("No."))),
        Column("part", wording(says.word("Part"))),
        Column("copies", wording(says.word("Copies"))),
        Column("out", wording(says.word("Out"))),
        Column("back", wording(says.word("Back"))),
        Column("remarks", wording(says.word("Condition and remarks"))),
    )
    number = str(parts.total + sum(copies for _name, copies in besides))
    total = says.say("of {total}", total=number)
    last = (Group(wording(says.word("Besides")), tuple(starmap(row_of_thing, besides))),) if besides else ()
    return Table(
        columns,
        (*groups(parts, work, says), *last),
        total=(
            Cell(),
            Cell((wording(says.word("Total")),)),
            Cell((wording(number),)),
            Cell((total,), blank=True),
            Cell((total,), blank=True),
            Cell(),
        ),
    )


def groups(parts: PartSet, work: WorkFacts, says: Labels) -> Iterator[Group]:
    """The families, spare copies after the strings they belong to."""
    for (head, body), found in groupby(parts.parts, key=lambda part: (family_head(part), part.group)):
        family = tuple(found)
        rows = [row(part, work, says) for part in family]
        if head == HEADS["strings"]:
            rows += [row(part, work, says, extra=True) for part in parts.extra]
        said = says.word(narrowed(head, family)) if head else ""
        yield Group(joined((wording(said), value(body or "")), ", "), tuple(rows))


def family_head(part: Part) -> str:
    """The family under which a part stands; the score stands above them all."""
    if part.kind is Kind.SCORE:
        return ""
    return "Soloists" if part.kind is Kind.SOLOIST else HEADS[part.family]


def narrowed(head: str, family: tuple[Part, ...]) -> str:
    """The head without what none of the parts under it is: no timpani, no harp, no keyboards."""
    instruments = {part.instrument for part in family}
    families = {part.family for part in family}
    if head == HEADS["percussion"]:
        return "Timpani" if instruments == {"timpani"} else head if "timpani" in instruments else "Percussion"
    if head == HEADS["plucked"]:
        harps = {part.instrument for part in family if part.family == "plucked"} == {"harp"}
        if families == {"plucked"}:
            return "Harp" if harps else "Plucked instruments"
        return "Keyboards" if families == {"keyboard"} else "Harp and keyboards" if harps else head
    return head


def row(part: Part, work: WorkFacts, says: Labels, *, extra: bool = False) -> tuple[Cell, ...]:
    boxes = boxes_of(part)
    copies = "" if part.copies is None else str(part.copies)
    remark = (says.word("extra"),) if extra else tuple(remarks(part, says))
    aside = wording(", ".join(remark), Style.EMPHASIS)
    name = joined((value(part_name(part, work, says)), aside), "\N{EN SPACE}")
    number = wording(part.label)
    return (Cell((number,)), Cell((name,)), Cell((wording(copies),)), Cell(boxes=boxes), Cell(boxes=boxes), Cell())


def row_of_thing(name: str, copies: int) -> tuple[Cell, ...]:
    """What is sent besides the parts; several of it are ticked as one."""
    return (Cell(), Cell((value(name),)), Cell((wording(str(copies)),)), Cell(boxes=("",)), Cell(boxes=("",)), Cell())


def boxes_of(part: Part) -> tuple[str, ...]:
    """A box a copy, numbered where there are several; a choir's copies are ticked as one."""
    if part.copies is None or part.kind is Kind.CHOIR or part.copies == 1:
        return ("",)
    return tuple(str(number) for number in range(1, part.copies + 1))


def part_name(part: Part, work: WorkFacts, says: Labels) -> str:
    """The instrument with the number of its chair, in the language's own letters."""
    score = "Conductor’s score" if work.category in CONDUCTED else "Score"
    fixed = {Kind.SCORE: score, Kind.CUE_SCORE: "Score with cues", Kind.MEDIA: "Media and programs"}
    if part.kind in fixed:
        return says.word(fixed[part.kind])
    name = called(part.instrument, says.language).singular.replace("'", "’")
    return name[:1].upper() + name[1:] + (f" {part.chair}" if part.chair else "")


def remarks(part: Part, says: Labels) -> Iterator[str]:
    """What else a part's player plays, how many read from it, and where and whether it is needed."""
    others = [called(slug, says.language).singular for slug in part.plays if slug != part.instrument]
    if others:
        listed = ", ".join(others)
        yield (
            says.word("also {instruments}").replace("{instruments}", listed)
            if part.instrument in part.plays
            else listed
        )
    if part.note:
        yield note_told(part.note, says)
    if part.kind is Kind.SECTION and part.players:
        yield says.count("{n} player", "{n} players", part.players)
        yield says.count("{n} desk", "{n} desks", part.desks or 0)
    if part.kind is Kind.CHOIR and part.copies is None:
        yield says.word("one copy a singer")
    if part.off_stage:
        yield says.word("off-stage")
    if part.optional:
        yield says.word("may be left out")


# ---- what is said below


def note(parts: PartSet, says: Labels) -> str:
    sentences = [] if parts.extra else [says.word("No extra copies are in this set.")]
    if parts.string_copies:
        sentences.append(says.word("Each string copy bears its number on the cover and keeps it."))
    sentences += [
        says.word("Mark in soft pencil only, and erase the markings before return."),
        says.word("Compare the set with this list when it arrives; report what is missing before the first rehearsal."),
    ]
    return " ".join(sentences)


def signatures(says: Labels) -> Signatures:
    attested = ("Packed by", "Received complete by", "Returned by", "Checked in by")
    return Signatures(tuple(wording(says.word(line)) for line in attested), wording(says.word("name, signature, date")))
