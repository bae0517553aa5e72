"""Takes a table into the catalogue: all of it or nothing.

A table of works names each work in a row, a table of performances each work at each event. Rows are read first, then
stored in one transaction; a single error, or a trial run, undoes all of it.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable
from dataclasses import dataclass, field
from datetime import datetime

from django.contrib.auth.models import User
from django.db import transaction

from catalogue.actions.composers import create_composer
from catalogue.exchange.columns import Heading, Kind, Row, find_heading, rows_below
from catalogue.exchange.outcomes import Done, Report
from catalogue.exchange.performance_import import PerformanceImport
from catalogue.exchange.performance_rows import PerformanceRow, read_performance_row
from catalogue.exchange.problems import Problems
from catalogue.exchange.tables import MOST_ROWS, Table, TableError
from catalogue.exchange.work_import import WorkImport
from catalogue.exchange.work_rows import Reading, WorkRow, is_asked_about, read_work_row
from catalogue.exchange.work_shelf import WorkShelf
from catalogue.models import Composer, Membership
from catalogue.rules.search import fold
from catalogue.terms import Role


@dataclass(frozen=True, slots=True)
class Wish:
    """What is wanted: into whose catalogue (None: each row's composer, made where new), how cells are read, and when.

    ``kind`` is told from the headers where it is None. A ``trial`` reports what would be done and stores nothing.
    """

    composer: Composer | None
    now: datetime
    reading: Reading = field(default_factory=Reading)
    kind: Kind | None = None
    trial: bool = False


def import_table(table: Table, wish: Wish, *, step: Callable[[], None] = lambda: None) -> Report:
    """Store a table and report each row; ``step`` is called after each. Raises TableError where it has no header."""
    heading = find_heading(table, wish.kind)
    rows = list(rows_below(table, heading))
    if len(rows) > MOST_ROWS:
        raise TableError(f"This table has more than {MOST_ROWS:,} rows; divide it.")
    problems = Problems(heading.written)
    with transaction.atomic():
        read = [one for one in (read_row(row, heading.kind, wish.reading, problems) for row in rows) if one is not None]
        asked = ask_about_durations(rows, heading, wish.reading, problems)
        done: list[Done] = []
        for composer, theirs in by_composer(read, wish, problems):
            for one in store(composer, theirs, heading.kind, wish, problems):
                done.append(one)
                step()
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
    )


ReadRow = WorkRow | PerformanceRow


def read_row(row: Row, kind: Kind, reading: Reading, problems: Problems) -> ReadRow | None:
    if kind is Kind.WORKS:
        return read_work_row(row, reading, problems)
    return read_performance_row(row, reading, problems)


def store(composer: Composer, rows: Iterable[ReadRow], kind: Kind, wish: Wish, problems: Problems) -> Iterable[Done]:
    shelf = WorkShelf(composer, wish.now)
    if kind is Kind.PERFORMANCES:
        return PerformanceImport(shelf, problems).store(row for row in rows if isinstance(row, PerformanceRow))
    works = WorkImport(shelf, problems)
    return (Done(row.row.number, row.title, works.store(row)) for row in rows if isinstance(row, WorkRow))


def ask_about_durations(rows: Iterable[Row], heading: Heading, reading: Reading, problems: Problems) -> int:
    """Warn once of durations that are bare numbers; return how many there are."""
    if heading.kind is not Kind.WORKS:
        return 0
    asked = [row for row in rows if is_asked_about(row.cells.get("duration", ""), reading)]
    if asked:
        others = {1: "", 2: ", as is another in this column"}.get(
            len(asked), f", as are {len(asked) - 1} others in this column"
        )
        text = asked[0].cells["duration"]
        reason = f"“{text}” is a number without a unit{others}: say whether they are minutes or seconds."
        problems.warn(asked[0], "duration", f"{reason} Kept as it is written.")
    return len(asked)


# ---- whose works they are


def by_composer(rows: Iterable[ReadRow], wish: Wish, problems: Problems) -> Iterable[tuple[Composer, list[ReadRow]]]:
    """Give each composer with the rows that are theirs, in the order in which they are first named."""
    groups: dict[int, tuple[Composer, list[ReadRow]]] = {}
    known = list(Composer.objects.order_by("pk")) if wish.composer is None else [wish.composer]
    by_name = {fold(name): one for one in reversed(known) for name in (one.name, one.sort_name, one.slug) if name}
    for row in rows:
        composer = composer_of(row, wish, known, by_name, problems)
        if composer is not None:
            groups.setdefault(composer.pk, (composer, []))[1].append(row)
    return groups.values()


def composer_of(
    row: ReadRow, wish: Wish, known: list[Composer], by_name: dict[str, Composer], problems: Problems
) -> Composer | None:
    """Return whose row it is; a composer who is not known is added where no one catalogue is meant."""
    if not row.composer:
        if len(known) == 1:
            return known[0]
        problems.fail(row.row, "composer", "Whose work is it? Name the composer in a column, or choose one catalogue.")
        return None
    if fold(row.composer) in by_name:
        return by_name[fold(row.composer)]
    if wish.composer is not None:
        reason = f"This row is by {row.composer}, and the catalogue is that of {wish.composer.name}."
        problems.fail(row.row, "composer", reason)
        return None
    composer = create_composer(name=row.composer, owner=only_owner(), sort_name=row.composer)
    reason = f"There was no composer “{row.composer}”; a catalogue of their own is added."
    problems.warn(row.row, "composer", reason)
    by_name[fold(row.composer)] = composer
    return composer


def only_owner() -> User | None:
    """Return the one person who owns every catalogue of this machine, or None where there are several or none."""
    owners = {one.user for one in Membership.objects.filter(role=Role.OWNER).select_related("user")}
    return owners.pop() if len(owners) == 1 else None
