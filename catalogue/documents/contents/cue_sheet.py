"""The cue sheet: what happens where, in which bar and at which time, from which file, and who acts.

Times follow the tempo map; without one the column is left out and the foot says so. The pocket version, to lie on a
stand, has large figures and no drawing. Both carry the caution about clicks and in-ear monitors.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from datetime import date
from itertools import groupby

from catalogue.documents.contents.cautions import Caution, words_of
from catalogue.documents.contents.dates import day_text
from catalogue.documents.contents.movements import numeral_beside
from catalogue.documents.contents.titles import short_title, work_title
from catalogue.documents.labels import Labels, labels
from catalogue.documents.model import (
    Block,
    Cell,
    Column,
    Document,
    Figure,
    Group,
    Opening,
    Paper,
    Paragraph,
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
from catalogue.drawings.timeline import course_of
from catalogue.facts import ComposerFacts, TimingFacts, WorkFacts
from catalogue.rules.cues import PlacedCue, placed_cues
from catalogue.timing import Duration, Reckoned, TempoError, duration_of, reckon, write_duration


@dataclass(frozen=True, slots=True)
class Sheet:
    """What a sheet is told: the cues where they come, the map if it can be read, and how much is shown."""

    says: Labels
    placed: tuple[PlacedCue, ...]
    reckoned: Reckoned | None
    is_unreadable: bool
    is_pocket: bool

    @property
    def has_times(self) -> bool:
        return self.reckoned is not None


def cue_sheet(
    work: WorkFacts,
    timing: TimingFacts,
    composer: ComposerFacts,
    *,
    language: str,
    paper: Paper,
    printed_on: date,
    pocket: bool = False,
) -> Document:
    """The sheet of a work's cues. Raises DocumentNeeds where it has none."""
    if not timing.cues:
        raise DocumentNeeds(f"“{work.title.title}” has no cues yet.", ("cues",))
    sheet = sheet_of(timing, labels(language), is_pocket=pocket)
    says = sheet.says
    kind = says.word("Cue sheet for the electronics" if has_electronics(work) else "Cue sheet")
    title = joined((value(composer.name), value(plain(short_title(work.title)))), ", ")
    return Document(
        kind="cue-sheet-pocket" if pocket else "cue-sheet",
        title=f"{work.title.title}: {says.word('Cue sheet')}",
        author=composer.name,
        language=says.language,
        paper=paper,
        blocks=tuple(blocks(work, timing, composer, kind, sheet, printed_on)),
        running=(title, wording(kind)),
        dated=wording(says.word(foot(sheet))),
    )


def sheet_of(timing: TimingFacts, says: Labels, *, is_pocket: bool) -> Sheet:
    try:
        reckoned, is_unreadable = reckon(timing.tempo_map), False
    except TempoError:
        reckoned, is_unreadable = None, True
    return Sheet(says, placed_cues(timing.cues, reckoned), reckoned, is_unreadable, is_pocket)


def has_electronics(work: WorkFacts) -> bool:
    return work.instrumentation is not None and work.instrumentation.electronics != "none"


def blocks(
    work: WorkFacts, timing: TimingFacts, composer: ComposerFacts, kind: str, sheet: Sheet, printed_on: date
) -> Iterator[Block]:
    says = sheet.says
    made = says.say("List made {day}", day=day_text(printed_on, says.language))
    yield Opening(
        work_title(work),
        value(composer.name),
        wording(kind),
        aside=value(timing.letters),
        above=of_map(timing, sheet) if sheet.has_times else made,
    )
    yield table(sheet)
    if sheet.reckoned is not None and not sheet.is_pocket:
        yield figure(sheet, sheet.reckoned)
    for one in sheet.placed:
        if one.mistake is not None:
            yield Paragraph(
                says.say("Cue {number}: {reason}", number=one.cue.number, reason=one.mistake.reason), Voice.NOTE
            )
    yield Paragraph(wording(words_of(Caution.IN_EAR, says)), Voice.NOTE)


def of_map(timing: TimingFacts, sheet: Sheet) -> Text:
    """How long the map reckons, and of when it is."""
    says = sheet.says
    duration = clock(sheet.reckoned.duration, says) if sheet.reckoned else ""
    if timing.dated is None:
        return says.say("Reckoned duration {duration}", duration=duration)
    day = day_text(timing.dated, says.language)
    return says.say("Reckoned duration {duration}, tempo map of {day}", duration=duration, day=day)


def foot(sheet: Sheet) -> str:
    if sheet.has_times:
        return "Times follow the tempo map; between free passages the bar leads, not the clock"
    if sheet.is_unreadable:
        return "The tempo map cannot be read, so that this sheet has no times"
    return "There is no tempo map, so that this sheet has no times"


# ---- the table


def table(sheet: Sheet) -> Table:
    heads = {
        "number": "Cue", "bar": "Bar", "time": "Time", "action": "What happens", "media": "Media", "length": "Length",
        "acts": "Who",
    }  # fmt: skip
    shown = tuple(key for key in heads if key in columns(sheet))
    return Table(tuple(Column(key, wording(sheet.says.word(heads[key]))) for key in shown), tuple(groups(sheet, shown)))


def columns(sheet: Sheet) -> set[str]:
    """The columns that are shown: no time without a map, no column of media where there are none or room is short."""
    without = set() if sheet.has_times else {"time"}
    cues = [one.cue for one in sheet.placed]
    told = {"media": "media", "length": "length", "acts": "who"}
    without |= {key for key, column in told.items() if not any(getattr(cue, column) for cue in cues)}
    if sheet.is_pocket:
        without |= {"media", "length"}
    return {"number", "bar", "time", "action", "media", "length", "acts"} - without


def groups(sheet: Sheet, shown: tuple[str, ...]) -> Iterator[Group]:
    """The cues under their movements; what is done before, and the cues of a work in one movement, have no head."""
    for movement, cues in groupby(by_movement(sheet), key=lambda pair: pair[0]):
        yield Group(movement_head(movement, sheet), tuple(row(one, sheet, shown) for _movement, one in cues))


def by_movement(sheet: Sheet) -> Iterator[tuple[int, PlacedCue]]:
    """Give each cue with its movement; one without a time stays where the cue before it stands."""
    several = sheet.reckoned is not None and sheet.reckoned.has_several_movements
    movement = 0
    for one in sheet.placed:
        movement = one.movement or movement
        yield (movement if several else 0), one


def movement_head(movement: int, sheet: Sheet) -> Text:
    """The numeral of a movement and its name, which may begin with the numeral itself."""
    if not movement or sheet.reckoned is None:
        return ()
    name = sheet.reckoned.tempo_map.movements[movement - 1].name
    return joined((wording(numeral_beside(movement, name)), value(name)), "\N{EN SPACE}")


def row(placed: PlacedCue, sheet: Sheet, shown: tuple[str, ...]) -> tuple[Cell, ...]:
    cue, says = placed.cue, sheet.says
    cells = {
        "number": one_line(value(cue.number, Style.STRONG)),
        "bar": one_line(value(placed.bar) or wording("\N{EN DASH}")),
        "time": time_cell(placed, says),
        "action": action_cell(placed, sheet),
        "media": one_line(media(cue.media)),
        "length": one_line(wording(clock(cue.length, says))),
        "acts": one_line(value(cue.who, Style.STRONG)),
    }
    return tuple(cells[key] for key in shown)


def one_line(text: Text) -> Cell:
    return Cell((text,)) if text else Cell()


def time_cell(placed: PlacedCue, says: Labels) -> Cell:
    """The time, and below it how long a passage lasts that goes by the clock."""
    if placed.seconds is None:
        return one_line(() if placed.mistake else wording(says.word("before"), Style.EMPHASIS))
    time = wording(clock(duration_of(placed.seconds), says))
    if placed.free is None:
        return Cell((time,))
    free = f"{duration_of(placed.free).seconds}\N{NO-BREAK SPACE}s"
    return Cell((time, wording(plain(says.say("free, {seconds}", seconds=free)), Style.EMPHASIS)))


def action_cell(placed: PlacedCue, sheet: Sheet) -> Cell:
    """What happens, and below it the remark; in the pocket the file stands here too."""
    cue = placed.cue
    length = clock(cue.length, sheet.says)
    beside = ", ".join(part for part in (cue.media, length) if part) if sheet.is_pocket else ""
    below = value(sheet.says.parted((beside, cue.notes)), Style.EMPHASIS)
    return Cell(tuple(text for text in (value(cue.action), below) if text))


def media(name: str) -> Text:
    """A file's name upright; what is no file (live, fade, off) in italics."""
    return value(name, Style.PLAIN if "." in name else Style.EMPHASIS, exact=True)


def clock(duration: Duration | None, says: Labels) -> str:
    return write_duration(duration, "clock", says.language) if duration else ""


# ---- the timeline


def figure(sheet: Sheet, reckoned: Reckoned) -> Figure:
    says = sheet.says
    cues = [(one.seconds, one.cue.number) for one in sheet.placed if one.seconds is not None]
    course = course_of(reckoned, cues, bar=says.word("bar {n}"))
    message = "Timeline: movements, cues, minutes; above them the tempo in quarter notes a minute"
    if not reckoned.has_several_movements:
        message = "Timeline: bars, cues, minutes; above them the tempo in quarter notes a minute"
    return Figure(course, wording(says.word(message)))
