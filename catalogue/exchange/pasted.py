"""A works list pasted from a word processor, one work a line or a paragraph, as a table that can be looked over.

Found are years, revisions, durations, opus numbers, forces ("for flute and piano"), commissions, dedications, authors
of texts, and lines with a label ("Duration: 12 min"). A line that is only a category or only a year heads the works
below it; a line that is only the name of the list ("Selected works") is passed over. Nothing is stored here.
"""

from __future__ import annotations

import re
from collections import Counter
from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, field
from functools import lru_cache

from catalogue.exchange.cell_words import choose
from catalogue.exchange.columns import Kind, bare, find_heading
from catalogue.exchange.entry_looks import BULLET, CODE, FOR, LABEL, MOVEMENT, YEARS
from catalogue.exchange.pasted_entries import COLUMNS, Entry, is_made_of_known_things, labelled_column, says_more
from catalogue.exchange.tables import MOST_ROWS, Dress, Table, TableError, read_csv

MOST_CHARACTERS = 2_000_000
# How a line ends that was broken in the middle.
BROKEN = re.compile(r"(?:[,–—]|\s(?:and|with|for|by|of|und|mit|für|von|et|avec|pour|de|e|con|per|di|y|para))$")
MOST_LINES_KEPT = 4096
LINES_BEFORE_MOVEMENTS = 6  # in which a work tells its year, players or length
TELLING = ("year", "duration", "instrumentation")
# What a line says that is the name of the whole list: one of the nouns, and nothing but these words.
LIST_NOUNS = {
    "works", "worklist", "compositions", "werke", "werkliste", "werkverzeichnis", "kompositionen", "oeuvres", "opere",
    "composizioni", "obras", "composiciones",
}  # fmt: skip
LIST_WORDS = LIST_NOUNS | {
    "list", "of", "the", "my", "all", "selected", "selection", "complete", "chronological", "recent", "principal",
    "catalogue", "verzeichnis", "der", "meine", "meiner", "ausgewahlte", "auswahl", "liste", "des", "mes", "choisies",
    "elenco", "delle", "scelte", "catalogo", "lista", "de", "las", "seleccion",
}  # fmt: skip


@dataclass(frozen=True, slots=True)
class Proposal:
    """A work as it is read: its lines, the cells read from them, and the headings above that hold for it."""

    lines: tuple[str, ...]
    cells: Mapping[str, str]
    headings: Mapping[str, str] = field(default_factory=dict)

    @property
    def work(self) -> dict[str, str]:
        return {**self.headings, **self.cells}


def pasted_table(text: str) -> Table:
    """Return the table that a pasted text proposes: its first row names the columns. Raises TableError.

    >>> pasted_table("Slack Rope (1998) for flute and piano, 12'").rows[1]
    ('Slack Rope', '1998', 'flute and piano', "12'")
    """
    refuse_unusable(text)
    cells = copied_cells(text)
    return cells if cells is not None else table_of_works([one.work for one in proposals(text)])


def table_of_works(works: Sequence[Mapping[str, str]]) -> Table:
    """Return works as a table with the columns that any of them has."""
    used = [column for column in COLUMNS if any(work.get(column) for work in works)]
    return Table((tuple(used), *(tuple(work.get(column, "") for column in used) for work in works)))


def proposals(text: str) -> tuple[Proposal, ...]:
    """Return the works that a pasted text is read as. Raises TableError."""
    refuse_unusable(text)
    entries = entries_in(text)
    found = tuple(proposals_in(entries, loud_headings(entries), coded=has_codes(entries)))
    if not found:
        raise TableError("No work has been found in this text.")
    if len(found) > MOST_ROWS:
        raise TableError(f"This text has more than {MOST_ROWS:,} works; paste it in parts.")
    return found


def refuse_unusable(text: str) -> None:
    if len(text) > MOST_CHARACTERS:
        raise TableError("This text is too long; paste it in parts.")
    if not text.strip():
        raise TableError("Nothing has been pasted.")


def copied_cells(text: str) -> Table | None:
    """Return cells that were copied from a spreadsheet, header and all, or None where the text is none."""
    if "\t" not in text:
        return None
    try:
        table = read_csv(text.encode(), Dress("utf-8", "\t"))
        find_heading(table, Kind.WORKS)
    except TableError:
        return None
    return table


# ---- lines, paragraphs, headings


def entries_in(text: str) -> list[list[str]]:
    """Return the lines of each work: a paragraph where most of them have several lines, else a line with its details.

    A paragraph in which most lines are works themselves stands under a common heading and is taken line by line.
    """
    text = "".join("\n" if mark in "\v\f" else mark for mark in text if mark >= " " or mark in "\t\n\r\v\f")
    blocks = [block.splitlines() for block in re.split(r"\n\s*\n", text.replace("\t", " – ")) if block.strip()]
    paragraphs = [unwrapped([line.strip() for line in lines if line.strip()]) for lines in blocks]
    long = [lines for lines in paragraphs if len(lines) > 1]
    if not (len(paragraphs) > 1 and 2 * len(long) >= len(paragraphs)):
        return line_by_line([line for lines in paragraphs for line in lines])
    return [entry for lines in paragraphs for entry in (line_by_line(lines) if is_list(lines) else [lines])]


def unwrapped(lines: Sequence[str]) -> list[str]:
    """Return lines with those joined that were broken in the middle: after a comma, a dash, an "and" or a "for"."""
    whole: list[str] = []
    for line in lines:
        if whole and BROKEN.search(whole[-1]) and not BULLET.match(line):
            whole[-1] = f"{whole[-1]} {line}"
        else:
            whole.append(line)
    return whole


def line_by_line(lines: Iterable[str]) -> list[list[str]]:
    """Return the lines of each work where a line without a title of its own belongs to the one above."""
    entries: list[list[str]] = []
    for line in lines:
        if entries and not heading_in(line) and not heading_in(entries[-1][-1]) and is_detail(line, entries[-1]):
            entries[-1].append(line)
        else:
            entries.append([line])
    return entries


def is_list(lines: Sequence[str]) -> bool:
    """Say whether the lines of a paragraph are works, not details of one."""
    rest = [line for line in lines if not heading_in(line)]
    rest = [line for line in rest[1:] if not is_detail(line, rest[:1])]
    return bool(rest) and 2 * sum(map(is_work, rest)) > len(rest)


def is_work(line: str) -> bool:
    """Say whether a line is a work by itself: it is numbered, or has a title and two things more."""
    return bool(BULLET.match(line)) or (not (LABEL.fullmatch(line) or FOR.match(line)) and tells_much(line))


def tells_much(line: str) -> bool:
    cells = read_alone(line)
    return bool(cells["title"]) and sum(name in cells for name in TELLING) > 1


@lru_cache(maxsize=MOST_LINES_KEPT)
def read_alone(line: str) -> Mapping[str, str]:
    """Return the cells of a line as if it were a work by itself; a line is asked about several times."""
    return Entry().read([line])


def is_detail(line: str, above: Sequence[str]) -> bool:
    """Say whether a line says more of the work above it, and is no work itself."""
    if MOVEMENT.fullmatch(line):
        return is_movement(line, above)
    if BULLET.match(line):
        return False
    return is_made_of_known_things(line) or (says_more(line) and (bool(labelled_column(line)) or not tells_much(line)))


def is_movement(line: str, above: Sequence[str]) -> bool:
    """Say whether a numbered line is a movement; plain figures number works as well, so the work above must not."""
    if not any(tells(one) for one in above[:LINES_BEFORE_MOVEMENTS]):
        return False
    if line[0].isdigit():
        return not BULLET.match(above[0]) and not read_alone(line).keys() & {"year", "instrumentation"}
    return "year" not in read_alone(line)


def heading_in(line: str) -> tuple[str, str] | None:
    """Return what a heading is of, a category or a year, and what it says; None where a line is none."""
    said = line.strip(": ")
    if choose("category", said).word:
        return "category", said
    return ("year", said) if re.fullmatch(YEARS, said) else None


def is_name_of_list(line: str) -> bool:
    """
    >>> is_name_of_list("List of works (selection)"), is_name_of_list("Works for Nobody")
    (True, False)
    """
    words = set(bare(line).split())
    return bool(words & LIST_NOUNS) and words <= LIST_WORDS


def loud_headings(entries: Sequence[Sequence[str]]) -> frozenset[str]:
    """Return the lines in capitals that tell nothing, where most other works tell their year, players or length."""
    single = [lines[0] for lines in entries if len(lines) == 1]
    loud = frozenset(line for line in single if line.isupper() and " " in line and not tells(line))
    others = [lines for lines in entries if lines[0] not in loud]
    return loud if 2 * sum(len(lines) > 1 or tells(lines[0]) for lines in others) > len(others) else frozenset()


def tells(line: str) -> bool:
    return any(name in read_alone(line) for name in TELLING)


def has_codes(entries: Sequence[Sequence[str]]) -> bool:
    """Say whether most works, and three at least, begin with a number of the list's own, by the same letters."""
    codes = Counter(code["letters"] for lines in entries if (code := CODE.match(BULLET.sub("", lines[0]))))
    most = max(codes.values(), default=0)
    return most > 2 and 2 * most > len(entries)


def proposals_in(
    entries: Iterable[list[str]], loud: frozenset[str] = frozenset(), *, coded: bool = False
) -> Iterator[Proposal]:
    """Give each work, with the category and the year of the headings above it, those among them that are only ``loud``.

    The kind of heading that comes first divides the text: a new one of it ends the other that works have stood under.
    """
    above: dict[str, str] = {}
    used: set[str] = set()
    outer = ""
    for lines in entries:
        rest = [line for line in lines if not is_name_of_list(line)]
        while rest and (heading := ("category", rest[0].strip(": ")) if rest[0] in loud else heading_in(rest[0])):
            name, said = heading
            outer = outer or name
            if name == outer:
                above = {other: text for other, text in above.items() if other not in used}
            above[name] = said
            used.discard(name)
            rest = rest[1:]
        if rest:
            used |= above.keys()
            cells = read_alone(rest[0]) if len(rest) == 1 and not coded else Entry(coded=coded).read(rest)
            inherited = {name: said for name, said in sorted(above.items()) if name not in cells}
            yield Proposal(tuple(rest), cells, inherited)
