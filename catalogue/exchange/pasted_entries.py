"""One work of a pasted list, read from its words: title, year, forces, duration and what else is known by its looks.

The title is what stands before the first of these, or behind its own label; what is left over becomes a note.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Sequence
from dataclasses import dataclass, field
from functools import lru_cache
from itertools import islice

from catalogue.exchange.columns import Kind, bare, headers_of
from catalogue.exchange.entry_looks import (
    ARRANGED,
    BARS,
    BETWEEN,
    BODIES,
    BULLET,
    CLOCK,
    CODE,
    DEDICATED_AFTER,
    DEDICATED_LINE,
    EDGES,
    FIRST_YEAR,
    FOR,
    GENRE,
    IN_BRACKETS,
    LABEL,
    LATER_YEAR,
    LEADERS,
    LENGTH,
    MOVEMENT,
    NUMBERS,
    OPUS,
    PHRASES,
    PREMIERE,
    PUBLISHER,
    QUOTED,
    RANGE,
    REVISED,
    SUBTITLED,
    WRITTEN_FOR,
    WRITTEN_IN,
    YEAR,
    YEARS,
)
from catalogue.instrumentation import InstrumentationError, read
from catalogue.timing import DateError, DurationError, read_date, read_duration

COLUMNS = (
    "title", "subtitle", "original_title", "translated_title", "catalogue_number", "year", "revised", "category",
    "instrumentation", "duration", "text_author", "text_language", "commissioned_by", "dedication", "publisher", "iswc",
    "ismn", "movements", "notes",
)  # fmt: skip
MOST_PLACES = 10  # at which a title may end; each is tried
DOUBTFUL = {"unknown-instrument", "spelling"}


@dataclass(slots=True)
class Entry:
    """One work while it is read: its cells, and what no cell takes."""

    cells: dict[str, str] = field(default_factory=dict)
    notes: list[str] = field(default_factory=list)
    coded: bool = False  # whether the works of the list begin with numbers of its own
    undivided: str = ""  # a title of which players have been cut off that are not all known

    def read(self, lines: Sequence[str]) -> dict[str, str]:
        first, *others = lines
        first = BULLET.sub("", first)
        if self.coded:
            first = CODE.sub(lambda match: "" if self.take("catalogue_number", match["said"]) else match[0], first)
        if labelled_column(first) != "title":
            self.read_title(first)
        else:
            self.read_detail(first)
        movements = [line for line in others if MOVEMENT.fullmatch(line)]
        listed = len(movements) > 1 and self.take("movements", "\n".join(movements))
        for line in others:
            if not (listed and line in movements):
                self.read_detail(line)
        notes = "\n".join([*filter(None, [self.cells.get("notes", "")]), *self.notes])
        return self.cells | ({"notes": notes} if notes else {})

    def take(self, column: str, said: str) -> bool:
        """Fill a cell; the second thing said of it stays in the text."""
        if column in self.cells or not said.strip():
            return False
        self.cells[column] = said.strip(EDGES if column != "duration" else " ,;")
        return True

    def read_title(self, line: str) -> None:
        """Read a line that begins with the title, or with the year before it."""
        pieces = self.pieces_left(FIRST_YEAR.sub(self.taker("year"), line, count=1), title_first=True)
        whole = pieces[0] if pieces else line.strip()
        title, forces = divided(whole)
        if forces and not is_instrumentation(forces, every=True):
            self.undivided = whole
        self.set_title(title)
        for piece in [forces, *pieces[1:]]:
            self.read_piece(piece)

    def set_title(self, title: str) -> None:
        arranged = ARRANGED.fullmatch(title)
        if arranged:
            title = arranged["title"]
            self.notes.append(arranged["said"])
        subtitled = SUBTITLED.fullmatch(title)
        if subtitled and self.take("subtitle", subtitled["said"]):
            title = subtitled["title"]
        quoted = QUOTED.fullmatch(title)
        self.cells["title"] = quoted["said"] if quoted else title

    def read_detail(self, line: str) -> None:
        """Read a further line of a paragraph: labelled, or made of the things that are known by their looks."""
        column = labelled_column(line)
        if column and self.take(column, line.partition(":")[2]):
            return
        dedicated = DEDICATED_LINE.fullmatch(line)
        if (
            dedicated
            and not is_instrumentation(dedicated["said"], every=True)
            and self.take("dedication", dedicated["said"])
        ):
            return
        for piece in self.pieces_left(line):
            self.read_piece(piece)

    def read_piece(self, piece: str) -> None:
        column = labelled_column(piece)
        if column and self.take(column, piece.partition(":")[2]):
            return
        if re.fullmatch(GENRE, piece) and self.take("subtitle", piece):
            return
        dedicated = DEDICATED_AFTER.fullmatch(piece)
        if dedicated and self.take("dedication", dedicated["said"]):
            return
        published = PUBLISHER.fullmatch(piece)
        if published and self.take("publisher", published["said"]):
            return
        bare_piece = FOR.sub("", piece, count=1) if FOR.match(piece) else piece
        if WRITTEN_FOR.match(piece) or not is_instrumentation(bare_piece):
            self.notes += [piece] if piece else []
        elif self.undivided and is_instrumentation(bare_piece, every=True):
            self.set_title(self.undivided)
            self.cells["instrumentation"], self.undivided = bare_piece, ""
        elif not self.take("instrumentation", bare_piece):
            self.notes.append(self.vaguer(bare_piece))

    def vaguer(self, forces: str) -> str:
        """Keep the forces that count players ("2.2.2.2"), and return the ones that do not ("chamber orchestra")."""
        kept = self.cells["instrumentation"]
        if any(mark.isdigit() for mark in forces) and not any(mark.isdigit() for mark in kept):
            self.cells["instrumentation"], forces = forces, kept
        return forces

    def pieces_left(self, line: str, *, title_first: bool = False) -> list[str]:
        """Take out of a line what is known by its looks, and return what stands between.

        What tells of a premiere is kept together for the notes: its day and its players are not those of the work.
        """
        if line.count(" / ") > 1:
            line = line.replace(" / ", "\0")
        line = IN_BRACKETS.sub(self.brackets, BARS.sub("\0", line))
        line = LEADERS.sub("\0", line)
        for column, pattern in NUMBERS.items():
            line = pattern.sub(self.taker(column), line)
        line = PREMIERE.sub(lambda match: match[0] if title_first and not match.start() else self.note(match[0]), line)
        line = WRITTEN_IN.sub(self.taker("year"), line)
        line = REVISED.sub(self.taker("revised"), line)
        line = OPUS.sub(self.taker("catalogue_number"), line)
        line = LENGTH.sub(self.length, line)
        line = CLOCK.sub(self.length, line)
        line = LATER_YEAR.sub(self.taker("year"), line)
        for column, pattern in PHRASES.items():
            line = pattern.sub(self.taker(column), line)
        return [piece for piece in (part.strip(EDGES) for part in line.split("\0")) if piece]

    def note(self, said: str) -> str:
        self.notes.append(said.strip(EDGES))
        return "\0"

    def taker(self, column: str) -> Callable[[re.Match[str]], str]:
        """Return a replacement that moves a match into a cell and leaves a cut in the line."""

        def move(match: re.Match[str]) -> str:
            said = match.groupdict().get("said") or match[0]
            return "\0" if self.take(column, said) else match[0]

        return move

    def length(self, match: re.Match[str]) -> str:
        return "\0" if is_duration(match["said"]) and self.take("duration", match["said"]) else match[0]

    def brackets(self, match: re.Match[str]) -> str:
        """Take years, revisions, lengths and forces out of brackets; any other brackets stay as they are."""
        parts = [part.strip() for part in re.split(r"[,;/]\s+|[,;]|/(?=\s*rev)", match["said"]) if part.strip()]
        if PREMIERE.fullmatch(match["said"]):
            return self.note(match["said"])
        told = {column: part for part in parts if (column := column_of(part))}
        others = [part for part in parts if part not in told.values()]
        if not told or len(told) + len(others) < len(parts):
            return "\0" if is_forces(match) and self.take("instrumentation", match["said"]) else match[0]
        for column, part in told.items():
            revised = REVISED.fullmatch(part)
            if not self.take(column, revised["said"] if revised else part):
                self.notes.append(part)
        return f"\0{', '.join(others)}\0"


def says_more(line: str) -> bool:
    """Say whether a line has no title: labelled, begun by a phrase, or forces as they are."""
    column = labelled_column(line)
    if column:
        return column != "title"
    if any(pattern.match(line) for pattern in (*PHRASES.values(), *NUMBERS.values(), PREMIERE, WRITTEN_FOR)):
        return True
    forces = FOR.sub("", line, count=1) if FOR.match(line) else line
    if forces != line or line[0].islower() or line[0].isdigit():
        dedicated = DEDICATED_LINE.fullmatch(line)
        return dedicated is not None or is_instrumentation(forces, every=True)
    return False


def is_made_of_known_things(line: str) -> bool:
    """Say whether nothing of a line is left over that could be a title: "2017, 15 minutes", "Commissioned by A. B."."""
    entry = Entry()
    entry.read_detail(line)
    return not entry.notes and not entry.cells.keys() & {"instrumentation", "subtitle"}


def labelled_column(line: str) -> str:
    """Return the column that the label of a line names ("Duration: 12 min"), empty where there is none."""
    labelled = LABEL.fullmatch(line)
    column = headers_of(Kind.WORKS).get(bare(labelled["label"]), "") if labelled else ""
    return column if column in COLUMNS else ""


def column_of(part: str) -> str:
    if REVISED.fullmatch(part):
        return "revised"
    if is_duration(part):
        return "duration"
    return "year" if re.search(YEAR, part) and is_date(part) else ""


def is_forces(match: re.Match[str]) -> bool:
    """Say whether brackets hold the players of the work, not what the players before them also take up."""
    before = re.split(r"[\0)\]]", match.string[: match.start()])[-1].strip(EDGES)
    before = FOR.sub("", before, count=1) if FOR.match(before) else before
    is_title = bool(before) and not is_instrumentation(before, every=True) and not divided(before)[1]
    return is_title and is_instrumentation(match["said"], every=True)


def divided(text: str) -> tuple[str, str]:
    """Divide "Title for these players" and "Title, these players" where the rest can be read as forces.

    Where several rests can, the first is meant in which every player is known, so that a title may hold a "for".
    """
    begun = (islice(pattern.finditer(text), MOST_PLACES) for pattern in (FOR, BETWEEN))
    places = [match for some in begun for match in some if text[: match.start()].strip(EDGES)]
    fitting = [match for match in places if is_instrumentation(text[match.end() :])]
    clean = [match for match in fitting if is_instrumentation(text[match.end() :], every=True)]
    for match in clean or fitting:
        return text[: match.start()].strip(EDGES), text[match.end() :]
    return text, ""


@lru_cache(maxsize=4096)
def is_instrumentation(text: str, *, every: bool = False) -> bool:
    """Say whether a text names players; ``every`` one of them known, and not by a guess at its spelling."""
    if BODIES.fullmatch(text):
        return True
    if re.fullmatch(YEARS, text.strip()):
        return False
    try:
        found = read(text)
    except InstrumentationError:
        return False
    return bool(found.lines) and not (every and any(remark.code in DOUBTFUL for remark in found.warnings))


def is_duration(text: str) -> bool:
    """Say whether a text is a duration, or a span of minutes of which one has yet to be chosen."""
    if RANGE.fullmatch(text):
        return True
    try:
        return read_duration(text).seconds > 0
    except DurationError:
        return False


def is_date(text: str) -> bool:
    try:
        return read_date(text) is not None
    except DateError:
        return False
