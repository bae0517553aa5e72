"""A works list pasted from a word processor, one work a line or a paragraph, as a table that can be looked over.

Found are years, revisions, durations, opus numbers, forces ("for flute and piano"), commissions, dedications, authors
of texts, and lines with a label ("Duration: 12 min"). A line that is only a category or only a year heads the works
below it. The title is what stands before the first of these; what is left over becomes a note. Nothing is stored here.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Iterable, Iterator
from dataclasses import dataclass, field

from catalogue.exchange.cell_words import choose
from catalogue.exchange.columns import Kind, bare, find_heading, headers_of
from catalogue.exchange.tables import MOST_ROWS, Dress, Table, TableError, read_csv
from catalogue.instrumentation import InstrumentationError, read
from catalogue.timing import DateError, DurationError, read_date, read_duration

MOST_CHARACTERS = 2_000_000
COLUMNS = (
    "title", "catalogue_number", "year", "revised", "category", "instrumentation", "duration", "text_author",
    "commissioned_by", "dedication", "publisher", "movements", "notes",
)  # fmt: skip

YEAR = r"(?:1[4-9]|20)[0-9]{2}"
YEARS = rf"(?:c\. ?|ca\.? ?)?{YEAR}(?:[-–/][0-9]{{2,4}})?"
ABOUT = r"(?:(?:c|ca|approx|about|circa)\.? ?)?"
BULLET = re.compile(r"^\s*(?:[•·*‣▪–—-]|[0-9]{1,3}[.)])\s+")
LABEL = re.compile(r"(?P<label>[^\W\d_][\w .]{0,30}?)\s*:\s+(?P<said>\S.*)")
IN_BRACKETS = re.compile(r"[(\[](?P<said>[^()\[\]]*)[)\]]")
REVISED = re.compile(rf"\b(?:rev(?:ised|id\.|\.)?|revidiert)(?: in)? (?P<said>{YEARS})", re.IGNORECASE)
LENGTH = re.compile(
    rf"{ABOUT}[0-9][0-9½¼¾.,:]*\s?(?:(?:min(?:ute[ns]?|uten|s)?|sec(?:onds)?|hours?|hrs?|h|std)\b\.?|['′’´](?![^\W\d]))"
    r"(?:\s?[0-9]{1,2}\s?(?:(?:sec(?:onds)?|s|min)\b\.?|[\"″”]|''|′′|’’)?)?",
    re.IGNORECASE,
)
CLOCK = re.compile(r"(?<=[,;–—\s])(?:[0-9]{1,2}:)?[0-9]{1,3}:[0-9]{2}(?=\s*$|\s*[,;–—]|\.\s)")
OPUS = re.compile(r"\b(?:op|opus)\.? ?[0-9]{1,4}[a-z]?(?:[,/]? ?(?:no|nr)\.? ?[0-9]{1,3})?", re.IGNORECASE)
FIRST_YEAR = re.compile(rf"^(?P<said>{YEARS})(?=\s*[:,.–—-]?\s)[\s:,.–—-]*")
LATER_YEAR = re.compile(rf"(?<=[,;–—\s])(?P<said>{YEARS})(?=\s*(?:[,;–—]|\.(?:\s|$)|$))")
NAME = r"(?:[^.;,()\n]|(?<=\b[A-Z])\.)+"  # a full stop belongs to an initial only
NAMES = NAME.replace(",", "")
PHRASES = {
    "commissioned_by": re.compile(
        rf"\b(?:commissioned (?:by|for)|commission of|auftragswerk (?:von|des|der)|commande de)\s+(?P<said>{NAMES})",
        re.IGNORECASE,
    ),
    "dedication": re.compile(rf"\b(?:dedicated to|gewidmet|dédié à)\s+(?P<said>{NAMES})", re.IGNORECASE),
    "text_author": re.compile(rf"\b(?:texts?|words|poems?|libretto) (?:by|von|de)\s+(?P<said>{NAME})", re.IGNORECASE),
}
FOR = re.compile(r"(?:^|[\s,])(?:for|für|pour|per|para)\s+", re.IGNORECASE)
BETWEEN = re.compile(r"[,:]\s+|\s[–—-]\s")
EDGES = " \t\n,;:.–—-|"


def pasted_table(text: str) -> Table:
    """Return the table that a pasted text proposes: its first row names the columns. Raises TableError.

    >>> pasted_table("Slack Rope (1998) for flute and piano, 12'").rows[1]
    ('Slack Rope', '1998', 'flute and piano', "12'")
    """
    if len(text) > MOST_CHARACTERS:
        raise TableError("This text is too long; paste it in parts.")
    if not text.strip():
        raise TableError("Nothing has been pasted.")
    cells = copied_cells(text)
    if cells is not None:
        return cells
    works = list(works_in(entries_in(text)))
    if not works:
        raise TableError("No work has been found in this text.")
    if len(works) > MOST_ROWS:
        raise TableError(f"This text has more than {MOST_ROWS:,} works; paste it in parts.")
    used = [column for column in COLUMNS if any(column in work for work in works)]
    return Table((tuple(used), *(tuple(work.get(column, "") for column in used) for work in works)))


def copied_cells(text: str) -> Table | None:
    """Return cells that were copied from a spreadsheet, header and all, or None where the text is none."""
    if "\t" not in text:
        return None
    table = read_csv(text.encode(), Dress("utf-8", "\t"))
    try:
        find_heading(table, Kind.WORKS)
    except TableError:
        return None
    return table


def entries_in(text: str) -> list[list[str]]:
    """Return the lines of each work: a line each, or paragraphs where most of them have several lines."""
    paragraphs = [block.splitlines() for block in re.split(r"\n\s*\n", text.replace("\t", " – ")) if block.strip()]
    long = [lines for lines in paragraphs if len(lines) > 1]
    if len(paragraphs) > 1 and 2 * len(long) >= len(paragraphs):
        return [[line.strip() for line in lines if line.strip()] for lines in paragraphs]
    return [[line.strip()] for lines in paragraphs for line in lines if line.strip()]


def works_in(entries: Iterable[list[str]]) -> Iterator[dict[str, str]]:
    """Give the cells of each work, with the category and the year of the headings above it."""
    category = year = ""
    for lines in entries:
        heading, rest = (lines[0], lines[1:])
        if choose("category", heading.rstrip(": ")).word:
            category = heading.rstrip(": ")
        elif re.fullmatch(YEARS, heading.strip(": ")):
            year = heading.strip(": ")
        else:
            rest = lines
        if rest:
            work = Entry().read(rest)
            inherited = {"category": category, "year": year}
            yield {name: said for name, said in inherited.items() if said} | work


@dataclass(slots=True)
class Entry:
    """One work while it is read: its cells, and what no cell takes."""

    cells: dict[str, str] = field(default_factory=dict)
    notes: list[str] = field(default_factory=list)

    def read(self, lines: list[str]) -> dict[str, str]:
        first, *others = lines
        self.read_title(BULLET.sub("", first))
        for line in others:
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
        pieces = self.pieces_left(FIRST_YEAR.sub(self.taker("year"), line, count=1))
        title, forces = divided(pieces[0] if pieces else line.strip())
        self.cells["title"] = title
        for piece in [forces, *pieces[1:]]:
            self.read_piece(piece)

    def read_detail(self, line: str) -> None:
        """Read a further line of a paragraph: labelled, or made of the things that are known by their looks."""
        labelled = LABEL.fullmatch(line)
        column = headers_of(Kind.WORKS).get(bare(labelled["label"]), "") if labelled else ""
        if labelled and column and self.take(column, labelled["said"]):
            return
        for piece in self.pieces_left(line):
            self.read_piece(piece)

    def read_piece(self, piece: str) -> None:
        bare_piece = FOR.sub("", piece, count=1) if FOR.match(piece) else piece
        if not is_instrumentation(bare_piece):
            self.notes += [piece] if piece else []
        elif not self.take("instrumentation", bare_piece):
            self.notes.append(self.vaguer(bare_piece))

    def vaguer(self, forces: str) -> str:
        """Keep the forces that count players ("2.2.2.2"), and return the ones that do not ("chamber orchestra")."""
        kept = self.cells["instrumentation"]
        if any(mark.isdigit() for mark in forces) and not any(mark.isdigit() for mark in kept):
            self.cells["instrumentation"], forces = forces, kept
        return forces

    def pieces_left(self, line: str) -> list[str]:
        """Take out of a line what is known by its looks, and return what stands between."""
        line = IN_BRACKETS.sub(self.brackets, line)
        for column, pattern in PHRASES.items():
            line = pattern.sub(self.taker(column), line)
        line = REVISED.sub(self.taker("revised"), line)
        line = OPUS.sub(self.taker("catalogue_number"), line)
        line = LENGTH.sub(self.length, line)
        line = CLOCK.sub(self.length, line)
        line = LATER_YEAR.sub(self.taker("year"), line)
        return [piece for piece in (part.strip(EDGES) for part in line.split("\0")) if piece]

    def taker(self, column: str) -> Callable[[re.Match[str]], str]:
        """Return a replacement that moves a match into a cell and leaves a cut in the line."""

        def move(match: re.Match[str]) -> str:
            said = match.groupdict().get("said") or match[0]
            return "\0" if self.take(column, said) else match[0]

        return move

    def length(self, match: re.Match[str]) -> str:
        return "\0" if is_duration(match[0]) and self.take("duration", match[0]) else match[0]

    def brackets(self, match: re.Match[str]) -> str:
        """Take years, revisions and lengths out of brackets; any other brackets stay as they are."""
        parts = [part.strip() for part in re.split(r"[,;/]\s+|[,;]", match["said"]) if part.strip()]
        columns = [column_of(part) for part in parts]
        if not parts or not all(columns) or len(set(columns)) < len(columns):
            return match[0]
        for column, part in zip(columns, parts, strict=True):
            revised = REVISED.fullmatch(part)
            if not self.take(column, revised["said"] if revised else part):
                self.notes.append(part)
        return "\0"


def column_of(part: str) -> str:
    if REVISED.fullmatch(part):
        return "revised"
    if is_duration(part):
        return "duration"
    return "year" if re.search(YEAR, part) and is_date(part) else ""


def divided(text: str) -> tuple[str, str]:
    """Divide "Title for these players" and "Title, these players" where the rest can be read as forces."""
    for match in (*FOR.finditer(text), *BETWEEN.finditer(text)):
        if match.start() and is_instrumentation(text[match.end() :]):
            return text[: match.start()].strip(EDGES), text[match.end() :]
    return text, ""


def is_instrumentation(text: str) -> bool:
    try:
        return bool(list(read(text)))
    except InstrumentationError:
        return False


def is_duration(text: str) -> bool:
    try:
        return read_duration(text).seconds > 0
    except DurationError:
        return False


def is_date(text: str) -> bool:
    try:
        return read_date(text) is not None
    except DateError:
        return False
