"""Takes a table into the catalogue: all of it or nothing.

A table of works names each work in a row, a table of performances each work at each event. All rows are stored in one
transaction; a single error, or a trial run, undoes all of it.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Generator, Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, field
from datetime import datetime

from django.contrib.auth.models import User
from django.db import transaction

from catalogue.exchange.columns import NEEDED, Heading, Kind, Row, find_heading, rearranged, rows_below
from catalogue.exchange.outcomes import Done, Report
from catalogue.exchange.owners import Owners, rows_of_others
from catalogue.exchange.performance_import import PerformanceImport
from catalogue.exchange.performance_rows import PerformanceRow, read_performance_row
from catalogue.exchange.problems import Problems
from catalogue.exchange.tables import MOST_ROWS, Table, TableError
from catalogue.exchange.work_import import WorkImport
from catalogue.exchange.work_rows import Reading, is_asked_about, read_work_row
from catalogue.exchange.work_shelf import WorkShelf
from catalogue.models import Composer

# How the last row of a table is called that adds the others up, and what it may hold beside its name.
TOTALS = re.compile(
    r"(?:grand )?(?:totals?|sum|summe|gesamt(?:dauer|zahl)?|insgesamt|totale|somme|suma)"
    r"(?: (?:duration|time|works|performances|minutes|dauer|minuten|werke|durée))?\s*:?[0-9 .,:′'″\"]*",
    re.IGNORECASE,
)
ADDED_UP = ("duration", "catalogue_number", "composer")


@dataclass(frozen=True, slots=True)
class Wish:
    """What is wanted: into whose catalogue (None: each row's composer, made where new), how cells are read, and when.

    ``kind`` is told from the headers where it is None; ``columns`` are columns chosen by hand, by position. A ``trial``
    reports what would be done and stores nothing. ``by`` is the person to whose other catalogues the rows of other
    composers go; without, such rows are errors.
    """

    composer: Composer | None
    now: datetime
    reading: Reading = field(default_factory=Reading)
    kind: Kind | None = None
    columns: Mapping[int, str] = field(default_factory=dict)
    trial: bool = False
    by: User | None = None


def import_table(table: Table, wish: Wish, *, step: Callable[[], None] = lambda: None) -> Report:
    """Store a table and report each row; ``step`` is called after each. Raises TableError where it has no header."""
    going = importing(table, wish)
    while True:
        try:
            next(going)
        except StopIteration as end:
            report: Report = end.value
            return report
        step()


def importing(table: Table, wish: Wish) -> Generator[Done, None, Report]:
    """Give each row as it is stored, and return the report; left unfinished, it stores nothing. Raises TableError."""
    heading, rows = rows_to_import(table, wish)
    problems = Problems(heading.written)
    added_up = is_refused_as_totals(rows[-1], heading.kind, problems)
    done: list[Done] = []
    with transaction.atomic():
        for one in STORE[heading.kind](rows[:-1] if added_up else rows, wish, problems):
            done.append(one)
            yield one
        asked = ask_about_durations(rows, wish.reading, problems) if heading.kind is Kind.WORKS else 0
        stored = not (problems.errors or wish.trial)
        transaction.set_rollback(not stored)
    return Report(
        kind=heading.kind,
        done=tuple(sorted(done, key=lambda one: one.row)),
        errors=tuple(sorted(problems.errors)),
        warnings=tuple(sorted(problems.warnings)),
        unknown_columns=tuple(heading.unknown.values()),
        rows=len(rows),
        asked=asked,
        stored=stored,
        heading=heading,
        others=rows_of_others(rows, wish.composer),
    )


def rows_to_import(table: Table, wish: Wish) -> tuple[Heading, list[Row]]:
    """Return the header row, with the columns that were chosen by hand, and the rows below it. Raises TableError."""
    heading = find_heading(table, wish.kind)
    if wish.columns:
        heading = rearranged(heading, table.rows[heading.row - 1], wish.columns)
    rows = list(rows_below(table, heading))
    if not rows:
        raise TableError("There is nothing below the row that names the columns.", heading.row)
    if len(rows) > MOST_ROWS:
        raise TableError(f"This table has more than {MOST_ROWS:,} rows; divide it.")
    return heading, rows


def is_refused_as_totals(last: Row, kind: Kind, problems: Problems) -> bool:
    """Report a last row that adds the others up, so that it does not become a work; say whether it does."""
    name = NEEDED[kind][0]
    added_up = bool(TOTALS.fullmatch(last.cells.get(name, ""))) and not last.cells.keys() - {name, *ADDED_UP}
    if added_up:
        problems.fail(last, name, "This looks like a row of totals, not a work; leave it out of the table.")
    return added_up


def store_works(rows: Iterable[Row], wish: Wish, problems: Problems) -> Iterator[Done]:
    owners = Owners(wish.composer, problems, wish.by)
    imports: dict[int, WorkImport] = {}
    for row in rows:
        read = read_work_row(row, wish.reading, problems)
        composer = owners.of(row) if read is not None else None
        if read is not None and composer is not None:
            if composer.pk not in imports:
                imports[composer.pk] = WorkImport(WorkShelf(composer, wish.now), problems)
            stored = imports[composer.pk].store(read)
            yield Done(row.number, read.title, *stored)


def store_performances(rows: Iterable[Row], wish: Wish, problems: Problems) -> Iterator[Done]:
    """Store the rows composer by composer, since rows of one event need not stand together."""
    owners = Owners(wish.composer, problems, wish.by)
    groups: dict[int, tuple[Composer, list[PerformanceRow]]] = {}
    for row in rows:
        read = read_performance_row(row, wish.reading, problems)
        composer = owners.of(row) if read is not None else None
        if read is not None and composer is not None:
            groups.setdefault(composer.pk, (composer, []))[1].append(read)
    for composer, theirs in groups.values():
        yield from PerformanceImport(WorkShelf(composer, wish.now), problems).store(theirs)


STORE = {Kind.WORKS: store_works, Kind.PERFORMANCES: store_performances}


def ask_about_durations(rows: Sequence[Row], reading: Reading, problems: Problems) -> int:
    """Warn once of durations that are bare numbers; return how many there are."""
    asked = [row for row in rows if is_asked_about(row.cells.get("duration", ""), reading)]
    if asked:
        others = {1: "", 2: ", as is another in this column"}.get(
            len(asked), f", as are {len(asked) - 1} others in this column"
        )
        text = asked[0].cells["duration"]
        reason = f"“{text}” is a number without a unit{others}: say whether they are minutes or seconds."
        problems.warn(asked[0], "duration", f"{reason} Kept as it is written.")
    return len(asked)
