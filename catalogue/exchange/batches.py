"""Imports that are looked over before they are kept, and can be undone.

A table is stored as it came; it is read as somebody has said, tried, and its report shown. Keeping it stores all of it
or nothing, and not where the catalogue has changed so much that something else would happen than was shown.
"""

from __future__ import annotations

from collections.abc import Generator, Mapping, Sequence
from dataclasses import asdict, dataclass, field
from datetime import datetime, timedelta
from itertools import islice
from typing import Any, Self

from django.contrib.auth.models import User
from django.db import transaction

from catalogue.exchange.changes import Names, changes_between, label_of
from catalogue.exchange.columns import Heading, Kind, letters
from catalogue.exchange.drafts import drafts_in, table_of_drafts
from catalogue.exchange.importing import Wish, importing, rows_to_import
from catalogue.exchange.outcomes import Outcome, Report
from catalogue.exchange.owners import catalogues_open_to, names_of
from catalogue.exchange.tables import Dress, Table, read_table
from catalogue.exchange.work_rows import Reading
from catalogue.gathering.states import Key, Sort, State, newest_in, states_of
from catalogue.models import Composer, ImportBatch, ImportedRecord, ImportSource, ImportState
from catalogue.models.fields import LONG_LINE
from catalogue.rules.search import fold
from catalogue.timing.durations import Bare

MOST_WAITING = 10
KEPT_WAITING = timedelta(days=7)
AT_ONCE = 500
OWN = "own"
SORT_OF = {Kind.WORKS: Sort.WORK, Kind.PERFORMANCES: Sort.PERFORMANCE}

Steps = Generator[int, None, None]


@dataclass(frozen=True, slots=True)
class Told:
    """What somebody has said of how a table is to be read; what is empty is told from the table.

    ``dates`` is the language in whose order figures of a date stand; ``columns`` are by position. ``others`` is "own"
    where rows of other composers go to the catalogues that whoever brought the table in keeps of them.
    """

    kind: str = ""
    encoding: str = ""
    delimiter: str = ""
    dates: str = ""
    bare: str = ""
    others: str = ""
    columns: Mapping[int, str] = field(default_factory=dict)

    @classmethod
    def of(cls, batch: ImportBatch) -> Self:
        told = dict(batch.reading)
        return cls(**{**told, "columns": {int(place): column for place, column in told.get("columns", {}).items()}})

    def as_json(self) -> dict[str, Any]:
        return {**asdict(self), "columns": {str(place): column for place, column in self.columns.items()}}

    def wish(self, batch: ImportBatch, now: datetime) -> Wish:
        bare: Bare | None = "minutes" if self.bare == "minutes" else "seconds" if self.bare == "seconds" else None
        return Wish(
            composer=batch.composer,
            now=now,
            by=batch.made_by if self.others == OWN else None,
            reading=Reading(self.dates or batch.composer.language, bare),
            kind=Kind(self.kind) if self.kind else None,
            columns=self.columns,
        )


def table_of(content: bytes, told: Told) -> Table:
    """Return the table of a file as it is to be read. Raises TableError."""
    names = [told.kind] if told.kind else list(Kind)
    return read_table(content, sheet_called=names, dress=Dress(told.encoding, told.delimiter))


def table_of_batch(batch: ImportBatch, told: Told) -> Table:
    """Return the table that an import is to be read as. Raises TableError."""
    content = bytes(batch.content)
    del batch.content  # as in ``bring_in``
    return table_of_drafts(drafts_in(content)) if batch.source == ImportSource.PASTED else table_of(content, told)


def bring_in(*, composer: Composer, by: User, now: datetime, name: str, content: bytes, **columns: Any) -> ImportBatch:
    """Store a table to be looked over; what nobody has kept for a week, or beyond the ten latest, is dropped."""
    waiting = ImportBatch.objects.filter(composer=composer, state=ImportState.READ)
    waiting.abandoned(now - KEPT_WAITING).delete()
    spare = waiting.latest_first().values_list("pk", flat=True)[MOST_WAITING - 1 :]
    ImportBatch.objects.filter(pk__in=list(spare)).delete()
    made = {"made_by": by, "made_at": now, "name": name[:200], "content": content}
    batch = ImportBatch.objects.create(composer=composer, **made, **columns)
    del batch.content  # asked for again where it is needed: a large table would lie here all the while it is tried
    return batch


def rows_in(batch: ImportBatch, table: Table, now: datetime) -> int:
    """Return how many rows there are to import. Raises TableError where the table has no header."""
    _heading, rows = rows_to_import(table, Told.of(batch).wish(batch, now))
    return len(rows)


# ---- looking over and keeping


@dataclass(frozen=True, slots=True)
class Outlook:
    """What an import does: its report, the states before and after, whose catalogues it is about, those it added.

    ``names`` are what all records were called when it was done.
    """

    report: Report
    before: dict[Key, State]
    after: dict[Key, State]
    names: Names
    composers: tuple[Composer, ...]
    added: tuple[Composer, ...]


def look_over(*, batch: ImportBatch, table: Table, now: datetime) -> Steps:
    """Try an import and store its report; give the number of rows done. Raises TableError."""
    with transaction.atomic():
        outlook = yield from done(batch, table, now, is_trial=True)
        transaction.set_rollback(True)
    batch.report = report_of(outlook, table)
    del outlook, table  # SQLite lays out the whole row once more, with the file in it
    batch.save(update_fields=["report"])


def keep(*, batch: ImportBatch, table: Table, now: datetime) -> Steps:
    """Store what was shown; give the number of rows done. Where something else would happen, store the new report only.

    ``batch.state`` says which it was.
    """
    shown = batch.report
    with transaction.atomic():
        outlook = yield from done(batch, table, now)
        report = report_of(outlook, table)
        is_as_shown = not outlook.report.errors and report["done"] == shown.get("done")
        if is_as_shown:
            note(batch, outlook.before, outlook.after, rows_of_records(outlook.report), outlook.composers)
            batch.state, batch.kept_at, batch.content = ImportState.KEPT.value, now, b""
        transaction.set_rollback(not is_as_shown)
    batch.report = report
    batch.save()


def look_over_and_keep(*, batch: ImportBatch, table: Table, now: datetime) -> Steps:
    """Try an import, and keep it where nothing stands in the way or is to be asked. Raises TableError."""
    number = 0
    for number in look_over(batch=batch, table=table, now=now):
        yield number
    if not (batch.report["errors"] or batch.report["asked"]):
        for more in keep(batch=batch, table=table, now=now):
            yield number + more


def done(batch: ImportBatch, table: Table, now: datetime, *, is_trial: bool = False) -> Generator[int, None, Outlook]:
    """Import and say what was done. A trial leaves what was made out of the states after it: its rows tell of that."""
    wish = Told.of(batch).wish(batch, now)
    there = composers_meant(batch, table, wish)
    before = states_of(*there)
    going = importing(table, wish)
    number = 0
    while True:
        try:
            next(going)
        except StopIteration as end:
            meant = composers_meant(batch, table, wish)
            added = tuple(one for one in meant if one not in there)
            after = states_of(*meant, newest=newest_in(before) if is_trial else None)
            return Outlook(end.value, before, after, Names.of(meant), meant, added)
        number += 1
        yield number


def composers_meant(batch: ImportBatch, table: Table, wish: Wish) -> tuple[Composer, ...]:
    """Return the composer of an import, and the others whose rows it takes to catalogues of their own."""
    if wish.by is None:
        return (batch.composer,)
    _heading, rows = rows_to_import(table, wish)
    named = {fold(row.cells.get("composer", "")) for row in rows}
    first, *others = catalogues_open_to(batch.composer, wish.by)
    return (first, *(one for one in others if names_of(one) & named))


def note(
    batch: ImportBatch,
    before: Mapping[Key, State],
    after: Mapping[Key, State],
    rows: Mapping[Key, int],
    composers: Sequence[Composer] = (),
) -> None:
    """Store which records were made or changed, as they were and as they are left; ``rows`` they came from."""
    names = Names.of(composers or [batch.composer])
    made = (
        ImportedRecord(
            batch=batch,
            sort=key[0].value,
            record=key[1],
            row=rows.get(key, 0),
            label=label_of(key[0], state, names)[:LONG_LINE],
            before=before.get(key),
            after=state,
        )
        for key, state in after.items()
        if before.get(key) != state
    )
    while some := list(islice(made, AT_ONCE)):
        ImportedRecord.objects.bulk_create(some)


def rows_of_records(report: Report) -> dict[Key, int]:
    """Return the first row that speaks of each record."""
    return {(SORT_OF[report.kind], one.record): one.row for one in reversed(report.done)}


# ---- the report as plain JSON


def report_of(outlook: Outlook, table: Table) -> dict[str, Any]:
    """Return all that a page shows of an import."""
    report = outlook.report
    return {
        "kind": report.kind.value,
        "sheet": table.sheet,
        "encoding": table.encoding,
        "delimiter": table.delimiter,
        "header_row": report.heading.row,
        "columns": columns_shown(report.heading, table),
        "rows": report.rows,
        "asked": report.asked,
        "others": report.others,
        "catalogues": [one.pk for one in outlook.composers],
        "added": [one.name for one in outlook.added],
        "counts": {outcome.value: report.count(outcome) for outcome in Outcome},
        "done": done_shown(outlook),
        "errors": [[one.row, one.column, one.message] for one in report.errors],
        "warnings": [[one.row, one.column, one.message] for one in report.warnings],
    }


def columns_shown(heading: Heading, table: Table) -> list[dict[str, Any]]:
    """Return each column that has a header or a cell: its letter, its header, what it is taken for, and an example."""
    below = table.rows[heading.row :]
    header = table.rows[heading.row - 1]
    shown = []
    for place in range(max(map(len, table.rows))):
        written = header[place].strip() if place < len(header) else ""
        example = next((row[place].strip() for row in below if place < len(row) and row[place].strip()), "")
        if written or example:
            column = heading.known.get(place, "-" if place in heading.left_out else "")
            told = {"place": place, "letter": letters(place), "written": written, "example": example[:80]}
            shown.append({**told, "column": column})
    return shown


def done_shown(outlook: Outlook) -> list[list[Any]]:
    """Return of each row its number, title, outcome and changes; those of a record stand at its first row."""
    sort = SORT_OF[outlook.report.kind]
    told: set[int] = set()
    rows = []
    for one in outlook.report.done:
        key = (sort, one.record)
        is_first = one.record not in told and key in outlook.before and key in outlook.after
        told.add(one.record)
        changes = changes_between(sort, outlook.before[key], outlook.after[key], outlook.names) if is_first else ()
        rows.append([one.row, one.title, one.outcome.value, [[c.column, c.before, c.after] for c in changes]])
    return rows
