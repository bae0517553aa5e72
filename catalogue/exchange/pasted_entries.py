"""One work of a pasted list, read from its words: title, year, forces, duration and what else is known by its looks.

The title is what stands before the first of these, or behind its own label; what is left over becomes a note.
"""

from __future__ import annotations

import re
from collections.abc import Callable
from dataclasses import dataclass, field

from catalogue.exchange.columns import Kind, bare, headers_of
from catalogue.instrumentation import InstrumentationError, read
from catalogue.timing import DateError, DurationError, read_date, read_duration

COLUMNS = (
    "title", "subtitle", "original_title", "translated_title", "catalogue_number", "year", "revised", "category",
    "instrumentation", "duration", "text_author", "text_language", "commissioned_by", "dedication", "publisher", "iswc",
    "ismn", "movements", "notes",
)  # fmt: skip
YEAR = r"(?:1[4-9]|20)[0-9]{2}"
YEARS = rf"(?:c\. ?|ca\.? ?)?{YEAR}(?:[-–/][0-9]{{2,4}})?"
ABOUT = r"(?:(?:c|ca|approx|about|circa)\.? ?)?"
BULLET = re.compile(r"^\s*(?:[•·*‣▪–—-]|[0-9]{1,3}[.)])\s+")
LABEL = re.compile(r"(?P<label>[^\W\d_][\w .]{0,30}?)\s*:\s+(?P<said>\S.*)")
IN_BRACKETS = re.compile(r"[(\[](?P<said>[^()\[\]]*)[)\]]")
REVISED = re.compile(rf"\b(?:rev(?:ised|id\.|\.)?|revidiert)(?: in)? (?P<said>{YEARS})", re.IGNORECASE)
LASTING = r"(?:(?:duration|dur\.|(?:spiel)?dauer|durée|durata|duración|length|lasting)[: ]\s*)?"
MINUTES = (
    r"(?:(?:minute[ns]?|minuti|minutos|seconds|hours?|stunden?)\b|(?:mins?|sec|hrs?|h|std)\b\.?|['′’´](?![^\W\d]))"
)
LENGTH = re.compile(
    rf"{LASTING}(?P<said>{ABOUT}[0-9][0-9½¼¾.,:]*\s?{MINUTES}"
    r"(?:\s?[0-9]{1,2}\s?(?:(?:sec(?:onds)?|s|min)\b\.?|[\"″”]|''|′′|’’)?)?)",
    re.IGNORECASE,
)
CLOCK = re.compile(r"(?<=[,;–—\s\0])(?P<said>(?:[0-9]{1,2}:)?[0-9]{1,3}:[0-9]{2})(?=\s*$|\s*[,;–—\0]|\.\s)")
OPUS = re.compile(r"\b(?:op|opus)\.? ?[0-9]{1,4}[a-z]?(?:[,/]? ?(?:no|nr)\.? ?[0-9]{1,3})?", re.IGNORECASE)
FIRST_YEAR = re.compile(rf"^(?P<said>{YEARS})(?=\s*[:,.|–—-]?\s)[\s:,.|–—-]*")
LATER_YEAR = re.compile(rf"(?:^|(?<=[,;–—\s\0]))(?P<said>{YEARS})(?=\s*(?:[,;–—\0]|\.(?:\s|$)|$))")
NAME = r"(?:[^.;,()\n\0]|(?<=\b[A-Z])\.)+"  # a full stop belongs to an initial only
NAMES = NAME.replace(",", "")
PHRASES = {
    "commissioned_by": re.compile(
        r"\b(?:commissioned (?:by|for)|commission of|auftragswerk (?:von|des|der)|im auftrag (?:von|des|der)"
        rf"|commande de|commissionato da|encargo de)\s+(?P<said>{NAMES})",
        re.IGNORECASE,
    ),
    "dedication": re.compile(rf"\b(?:dedicated to|gewidmet|dédié à)\s+(?P<said>{NAMES})", re.IGNORECASE),
    "text_author": re.compile(
        rf"\b(?:(?:after|to|on|nach|auf|über|sur|d’après|su|da|con|sobre) )?(?:(?:des|de|einem|einer|a|un|una) )?"
        rf"(?:texts?|words|poems?|libretto|gedicht(?:en?)?|texten?|worten|poèmes?|textes?|test[io]|poesie|textos?|poemas?)"
        rf" (?:by|of|von|de|di) (?P<said>{NAME})",
        re.IGNORECASE,
    ),
}
FOR = re.compile(r"(?:^|[\s,])(?:for|für|pour|per|para)\s+", re.IGNORECASE)
GENRE = (
    r"(?:(?:an? )?(?:[a-z-]+ ){0,2}(?:opera|cantata|oratorio|ballet|cycle|melodrama|ritual)"
    r"|(?:[a-zäöüß]+ )?\w*(?:[Oo]per|kantate|zyklus|ballett|[Oo]ratorium)|opéra|cantate|opera|cantata|oratorio|ballet)"
    r"(?: (?:in|en|di|à|of) [\w ]+)?"
)
SUBTITLED = re.compile(rf"(?P<title>.+?)[,:] (?P<said>{GENRE})")
BETWEEN = re.compile(r"[,:]\s+|\s[–—-]\s")
BARS = re.compile(r"\s*\|\s*")
LEADERS = re.compile(r"\s*(?:\.{3,}|…+|(?:\. ){3,}\.?|_{3,})\s*|;\s+")
QUOTED = re.compile(r"[“\"„«‘](?P<said>[^“”\"„«»]+)[”\"“»’]")
# Bodies of which only the size is named; their players are asked of the composer.
BODIES = re.compile(r"(?:(?:large|small|mixed|variable|open) )?(?:ensemble|sextet|septet|octet|nonet)", re.IGNORECASE)
EDGES = " \t\n,;:.–—-|"


@dataclass(slots=True)
class Entry:
    """One work while it is read: its cells, and what no cell takes."""

    cells: dict[str, str] = field(default_factory=dict)
    notes: list[str] = field(default_factory=list)

    def read(self, lines: list[str]) -> dict[str, str]:
        first, *others = lines
        first = BULLET.sub("", first)
        if labelled_column(first) != "title":
            self.read_title(first)
        else:
            self.read_detail(first)
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
        subtitled = SUBTITLED.fullmatch(title)
        if subtitled and self.take("subtitle", subtitled["said"]):
            title = subtitled["title"]
        quoted = QUOTED.fullmatch(title)
        self.cells["title"] = quoted["said"] if quoted else title
        for piece in [forces, *pieces[1:]]:
            self.read_piece(piece)

    def read_detail(self, line: str) -> None:
        """Read a further line of a paragraph: labelled, or made of the things that are known by their looks."""
        column = labelled_column(line)
        if column and self.take(column, line.partition(":")[2]):
            return
        for piece in self.pieces_left(line):
            self.read_piece(piece)

    def read_piece(self, piece: str) -> None:
        if re.fullmatch(GENRE, piece) and self.take("subtitle", piece):
            return
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
        line = IN_BRACKETS.sub(self.brackets, BARS.sub("\0", line))
        line = LEADERS.sub("\0", line)
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
        return "\0" if is_duration(match["said"]) and self.take("duration", match["said"]) else match[0]

    def brackets(self, match: re.Match[str]) -> str:
        """Take years, revisions, lengths and forces out of brackets; any other brackets stay as they are."""
        parts = [part.strip() for part in re.split(r"[,;/]\s+|[,;]|/(?=\s*rev)", match["said"]) if part.strip()]
        told = {column: part for part in parts if (column := column_of(part))}
        others = [part for part in parts if part not in told.values()]
        if not told or len(told) + len(others) < len(parts):
            return "\0" if is_forces(match) and self.take("instrumentation", match["said"]) else match[0]
        for column, part in told.items():
            revised = REVISED.fullmatch(part)
            if not self.take(column, revised["said"] if revised else part):
                self.notes.append(part)
        return f"\0{', '.join(others)}\0"


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
    places = [match for match in (*FOR.finditer(text), *BETWEEN.finditer(text)) if match.start()]
    fitting = [match for match in places if is_instrumentation(text[match.end() :])]
    clean = [match for match in fitting if is_instrumentation(text[match.end() :], every=True)]
    for match in clean or fitting:
        return text[: match.start()].strip(EDGES), text[match.end() :]
    return text, ""


def is_instrumentation(text: str, *, every: bool = False) -> bool:
    """Say whether a text names players; ``every`` one of them known."""
    if BODIES.fullmatch(text):
        return True
    if re.fullmatch(YEARS, text.strip()):
        return False
    try:
        found = read(text)
    except InstrumentationError:
        return False
    return bool(found.lines) and not (every and any(remark.code == "unknown-instrument" for remark in found.warnings))


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
