"""``backup``: everything in one file, read back before it counts."""

from __future__ import annotations

from pathlib import Path
from typing import Any

from django.conf import settings
from django.core.management.base import CommandError, CommandParser
from django.utils import timezone

from catalogue.exchange.backups.archive import BackupError
from catalogue.exchange.backups.checking import check_backup
from catalogue.exchange.backups.keeping import make_daily
from catalogue.exchange.backups.writing import count_records, write_backup
from catalogue.management.base import CatalogueCommand, UnusableInput
from catalogue.management.progress import Progress


class Command(CatalogueCommand):
    help = (
        "Write every record, every uploaded file and their checksums into one ZIP, and read it back. "
        "The file holds private notes and scrambled passwords: keep it where only you can read it."
    )

    def add_arguments(self, parser: CommandParser) -> None:
        parser.add_argument("file", type=Path, nargs="?", help="what to write; the name ends with .zip")
        parser.add_argument(
            "--daily",
            action="store_true",
            help="write the day’s backup among the backups where a day has passed, and let older ones go",
        )
        parser.add_argument("--check", action="store_true", help="only read the file and say whether it is whole")
        parser.add_argument("--json", action="store_true", help="print the result as JSON")

    def handle(self, *arguments: Any, **options: Any) -> None:
        path: Path | None = self.made_today() if options["daily"] else options["file"]
        if path is None and options["daily"]:
            self.stdout.write("There is a backup of the last day.")
            return
        if path is None:
            raise UnusableInput("Say what to write, a name that ends with .zip, or --daily.")
        if path.suffix.lower() != ".zip":
            raise UnusableInput(f"“{path.name}” has to end with .zip.")
        manifest = self.checked(path) if options["check"] or options["daily"] else self.written(path)
        result = {"file": str(path), "bytes": path.stat().st_size, "made_at": manifest.made_at, "rows": manifest.rows}
        if options["json"]:
            self.print_json(result)
        else:
            word = "whole" if options["check"] else "written and read back"
            self.stdout.write(f"{path} is {word}: {manifest.total_rows} records, {path.stat().st_size} bytes.")

    def made_today(self) -> Path | None:
        try:
            return make_daily(settings.BACKUPS, now=timezone.now())
        except BackupError as fault:
            raise CommandError(fault.reason, returncode=1) from fault

    def checked(self, path: Path) -> Any:
        try:
            return check_backup(path)
        except BackupError as fault:
            raise UnusableInput(fault.reason) from fault

    def written(self, path: Path) -> Any:
        with Progress(self.stderr, "Backing up", total=count_records()) as progress:
            try:
                return write_backup(path, now=timezone.now(), step=progress.step)
            except BackupError as fault:
                raise CommandError(fault.reason, returncode=1) from fault
