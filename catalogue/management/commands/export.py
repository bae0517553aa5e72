"""``export``: works or performances as a spreadsheet with the columns that ``import`` reads."""

from __future__ import annotations

from collections.abc import Callable, Iterable
from pathlib import Path
from typing import Any

from django.core.management.base import CommandParser

from catalogue.exchange.columns import Kind
from catalogue.exchange.exporting import ExportError, export_csv, export_ods, export_xlsx
from catalogue.management.base import CatalogueCommand, UnusableInput, add_composer_option, chosen_composer
from catalogue.models import Composer

WRITERS: dict[str, Callable[[Iterable[Composer], Kind], bytes]] = {
    ".csv": export_csv,
    ".xlsx": export_xlsx,
    ".ods": export_ods,
}


class Command(CatalogueCommand):
    help = "Write works or performances into a spreadsheet (CSV, XLSX or ODS, by the name of the file)."

    def add_arguments(self, parser: CommandParser) -> None:
        parser.add_argument("file", type=Path, help="what to write; the name ends with .csv, .xlsx or .ods")
        parser.add_argument(
            "--kind", choices=[kind.value for kind in Kind], default="works", help="works (usual) or performances"
        )
        add_composer_option(parser)

    def handle(self, *arguments: Any, **options: Any) -> None:
        path: Path = options["file"]
        write = WRITERS.get(path.suffix.lower())
        if write is None:
            raise UnusableInput(f"“{path.name}” has to end with .csv, .xlsx or .ods.")
        slug = options["composer"]
        composers = list(Composer.objects.in_name_order()) if slug is None else []
        try:
            path.write_bytes(write(composers or [chosen_composer(slug)], Kind(options["kind"])))
        except ExportError as fault:
            raise UnusableInput(fault.reason) from fault
        except OSError as fault:
            raise UnusableInput(f"“{path}” cannot be written: {fault.strerror}.") from fault
        self.stdout.write(f"{path} written.")
