"""Stores the rows of a works list: new works, changes of known ones, and nothing where nothing has changed."""

from __future__ import annotations

from typing import Any

from django.core.exceptions import ValidationError
from django.db import IntegrityError

from catalogue.actions.works import save_work
from catalogue.exchange.notes import noted
from catalogue.exchange.outcomes import Outcome
from catalogue.exchange.problems import Problems
from catalogue.exchange.work_rows import NUMBERS, WorkRow
from catalogue.exchange.work_shelf import WorkShelf, same_label
from catalogue.facts import MovementFacts
from catalogue.gathering.readings import readable
from catalogue.models import Commission, Movement, Work
from catalogue.rules.identifiers import is_same_number
from catalogue.rules.search import fold

COLUMN_OF = {
    "completed": "year",
    "duration_typed": "duration",
    "instrumentation_typed": "instrumentation",
    "version_label": "version",
}
TELLING = ("catalogue_number", "completed", "subtitle", "instrumentation_typed", "duration_typed", "category")


class WorkImport:
    """The rows of one composer's works, in the order of the table."""

    def __init__(self, shelf: WorkShelf, problems: Problems) -> None:
        self.shelf = shelf
        self.problems = problems
        self.taken: dict[int, WorkRow] = {}

    def store(self, row: WorkRow) -> tuple[Outcome, int]:
        """Store one row, and return what became of it with the number of the work.

        A row that says the same as an earlier one is only reported.
        """
        work = self.known(row)
        if work is not None and work.pk in self.taken:
            first = self.taken[work.pk].row.number
            self.problems.warn(row.row, "title", f"This row says the same as row {first} and is taken once.")
            return Outcome.SAME, work.pk
        is_new = work is None
        work = work or Work(composer=self.shelf.composer, version_of=self.version_of(row))
        movements, commissions = self.movements(work, row), self.commissions(work, row)
        changed = set_columns(work, row)
        if not (changed or is_new or movements is not None or commissions is not None):
            self.taken[work.pk] = row
            return Outcome.SAME, work.pk
        try:
            save_work(work=work, now=self.shelf.now, movements=movements, commissions=commissions)
        except ValidationError as fault:
            explain(fault, row, self.problems)
            return Outcome.SAME, 0
        except IntegrityError:
            self.problems.fail(row.row, "title", "This row contradicts another record of the catalogue.")
            return Outcome.SAME, 0
        self.shelf.add(work)
        self.taken[work.pk] = row
        return (Outcome.NEW if is_new else Outcome.CHANGED), work.pk

    def known(self, row: WorkRow) -> Work | None:
        """Return the work that a row means, among those of its title and version.

        Where there are several the one with most in common is meant; a work that an earlier row has taken is meant
        only where this row says the same.
        """
        label = row.columns.get("version_label", "")
        works = self.shelf.called(row.title)
        if label:
            found = same_label(works, label)
            works = [found] if found else []
        else:
            works = [work for work in works if work.version_of_id is None or not work.version_label]
        number = row.columns.get("catalogue_number", "")
        works = [
            work for work in works if not (number and work.catalogue_number) or same(work.catalogue_number, number)
        ]
        free = [work for work in works if work.pk not in self.taken]
        if free:
            return max(free, key=lambda work: (in_common(work, row), -work.pk))
        return next((work for work in works if self.taken[work.pk].row.cells == row.row.cells), None)

    def version_of(self, row: WorkRow) -> Work | None:
        return self.shelf.first_version(row.title) if row.columns.get("version_label") else None

    def movements(self, work: Work, row: WorkRow) -> list[Movement] | None:
        """Return the movements where they differ from what there is; what the cell does not say of one stays."""
        if row.movements is None:
            return None
        stored = sorted(work.movements.all(), key=lambda one: one.number) if work.pk else []
        told = [completed(one, stored) for one in row.movements]
        kept = [as_facts(one) for one in stored]
        return None if told == kept else [rebuilt(one, stored) for one in told]

    def commissions(self, work: Work, row: WorkRow) -> list[Commission] | None:
        if row.commissions is None:
            return None
        stored = sorted(work.commissions.all(), key=lambda one: one.pk) if work.pk else []
        if [one.body for one in stored] == list(row.commissions):
            return None
        by_body = {one.body: one for one in stored}
        return [by_body.get(body) or Commission(name=body) for body in row.commissions]


def same(one: str, other: str) -> bool:
    return fold(one) == fold(other)


def in_common(work: Work, row: WorkRow) -> int:
    """Count what a work and a row both say; what they say differently counts against it."""
    pairs = [(getattr(work, column), row.columns.get(column)) for column in TELLING]
    return sum(1 if mine == other else -1 for mine, other in pairs if mine and other)


def set_columns(work: Work, row: WorkRow) -> bool:
    """Take over what a row says; say whether anything has changed."""
    before = {column: getattr(work, column) for column in (*row.columns, "notes")}
    columns: dict[str, Any] = dict(row.columns)
    # The same reading in another dress changes nothing, nor does the canonical text itself.
    for value, typed in (("instrumentation", "instrumentation_typed"), ("duration", "duration_typed")):
        if columns.get(typed) and before[value] and before[value] in (columns[value], columns[typed]):
            del columns[value], columns[typed]
    for name, kind in NUMBERS.items():
        if columns.get(name) and is_same_number(kind, before[name], columns[name]):
            del columns[name]
    if columns.get("version_label") and same_label([work], columns["version_label"]):
        del columns["version_label"]
    columns["notes"] = noted(work.notes, row.columns.get("notes", ""), row.remarks)
    for column, value in columns.items():
        setattr(work, column, value)
    return any(getattr(work, column) != value for column, value in before.items())


def as_facts(movement: Movement) -> MovementFacts:
    return MovementFacts(movement.number, movement.title, readable(movement.duration, None), movement.attacca)


def completed(told: MovementFacts, stored: list[Movement]) -> MovementFacts:
    """Return a movement with the duration that is known of it where the cell has none."""
    known = stored[told.number - 1] if told.number <= len(stored) else None
    if known is None or known.title != told.title:
        return told
    duration = told.duration or readable(known.duration, None)
    return MovementFacts(told.number, told.title, duration, told.attacca or known.attacca)


def rebuilt(told: MovementFacts, stored: list[Movement]) -> Movement:
    """Return the row of a movement; one that is there keeps its history."""
    movement = stored[told.number - 1] if told.number <= len(stored) else Movement()
    movement.title, movement.duration, movement.attacca = told.title, told.duration, told.attacca
    return movement


def explain(fault: ValidationError, row: WorkRow, problems: Problems) -> None:
    """Report what a record must not hold at the column it came from."""
    by_column = fault.message_dict if hasattr(fault, "error_dict") else {"title": fault.messages}
    for column, messages in by_column.items():
        for message in messages:
            problems.fail(row.row, COLUMN_OF.get(column, column), message)
