"""``import``: a works list or a performance history from a spreadsheet, all of it or nothing."""

from __future__ import annotations

from dataclasses import asdict
from pathlib import Path
from typing import Any

from django.core.management.base import CommandParser
from django.utils import timezone

from catalogue.exchange.columns import Kind
from catalogue.exchange.importing import Wish, import_table
from catalogue.exchange.outcomes import Outcome, Report
from catalogue.exchange.problems import Problem
from catalogue.exchange.tables import Table, TableError, filled_rows, read_table
from catalogue.exchange.work_rows import Reading
from catalogue.management.base import CatalogueCommand, UnusableInput, add_composer_option, chosen_composer
from catalogue.management.progress import Progress


class Command(CatalogueCommand):
    help = "Take in a spreadsheet (CSV, XLSX, ODS) of works or performances; importing it twice changes nothing."

    def add_arguments(self, parser: CommandParser) -> None:
        parser.add_argument("file", type=Path, help="the spreadsheet; its first row names the columns")
        parser.add_argument(
            "--kind", choices=[kind.value for kind in Kind], help="what the rows are, where the headers leave it open"
        )
        add_composer_option(parser)
        parser.add_argument("--dry-run", action="store_true", help="say what would be done and store nothing")
        parser.add_argument(
            "--bare-durations", choices=["minutes", "seconds"], help="what durations without a unit are"
        )
        parser.add_argument("--json", action="store_true", help="print the report as JSON")

    def handle(self, *arguments: Any, **options: Any) -> None:
        try:
            table = self.table(options)
            report = self.imported(table, options)
        except TableError as fault:
            if options["json"]:
                self.print_json(as_json_of_nothing(fault))
            raise UnusableInput(fault.reason) from fault
        if options["json"]:
            self.print_json(as_json(report))
        else:
            self.stdout.write("\n".join([*how_read(table), as_text(report)]))
        if report.errors:
            raise UnusableInput("\n".join(as_line(one) for one in report.errors))

    def table(self, options: dict[str, Any]) -> Table:
        kind = options["kind"]
        return read_table(content_of(options["file"]), sheet_called=[kind] if kind else list(Kind))

    def imported(self, table: Table, options: dict[str, Any]) -> Report:
        composer = chosen_composer(options["composer"]) if options["composer"] else None
        language = composer.language if composer else "en-GB"
        kind = Kind(options["kind"]) if options["kind"] else None
        wish = Wish(
            composer=composer,
            now=timezone.now(),
            reading=Reading(language=language, bare_durations=options["bare_durations"]),
            kind=kind,
            trial=options["dry_run"],
        )
        with Progress(self.stderr, "Importing", total=sum(1 for _ in filled_rows(table)) - 1) as progress:
            return import_table(table, wish, step=progress.step)


def content_of(path: Path) -> bytes:
    try:
        return path.read_bytes()
    except OSError as fault:
        raise UnusableInput(f"“{path}” cannot be opened: {fault.strerror}.") from fault


def as_json(report: Report) -> dict[str, Any]:
    return {
        "rows": report.rows,
        **{str(outcome): report.count(outcome) for outcome in Outcome},
        "errors": [asdict(one) for one in report.errors],
        "warnings": [asdict(one) for one in report.warnings],
        "unknown_columns": list(report.unknown_columns),
    }


def as_json_of_nothing(fault: TableError) -> dict[str, Any]:
    """Return the report on a file that is no table."""
    error = {"row": fault.row, "column": "", "message": fault.reason}
    counts = {str(outcome): 0 for outcome in Outcome}
    return {"rows": 0, **counts, "errors": [error], "warnings": [], "unknown_columns": []}


def how_read(table: Table) -> list[str]:
    """Return how the letters and cells of CSV were told."""
    if not table.delimiter:
        return []
    between = "tabs" if table.delimiter == "\t" else f"“{table.delimiter}”"
    return [f"CSV, letters as {table.encoding}, {between} between the cells."]


def as_text(report: Report) -> str:
    counted = ", ".join(f"{report.count(outcome)} {outcome}" for outcome in Outcome)
    lines = [as_line(one) for one in report.warnings]
    if report.unknown_columns:
        lines.append(f"Kept as notes: {', '.join(report.unknown_columns)}.")
    if report.asked:
        lines.append("Durations without a unit: import again with --bare-durations minutes or seconds.")
    stored = "" if report.stored else " Nothing has been stored."
    return "\n".join([*lines, f"{report.rows} {report.kind} read: {counted}.{stored}"])


def as_line(one: Problem) -> str:
    return f"Row {one.row}, {one.column}: {one.message}"
