"""``restore``: a backup in the place of the catalogue, or tried in a scratch database."""

from __future__ import annotations

from pathlib import Path
from typing import Any

from django.core.management.base import CommandParser
from django.utils import timezone

from catalogue.exchange.backups.archive import BackupError
from catalogue.exchange.backups.restoring import restore_backup, try_backup
from catalogue.management.base import ReadingCommand, UnusableInput
from catalogue.management.progress import Progress
from catalogue.management.serving import nobody_serves


class Command(ReadingCommand):
    help = (
        "Check a backup, then put it in the place of the catalogue, whichever database it came from. "
        "What was there before is kept beside. Stop the program that serves the catalogue first."
    )

    def add_arguments(self, parser: CommandParser) -> None:
        parser.add_argument("file", type=Path, help="the backup")
        parser.add_argument(
            "--trial", action="store_true", help="restore into a scratch database, compare every record, touch nothing"
        )
        parser.add_argument("--json", action="store_true", help="print the result as JSON")

    def handle(self, *arguments: Any, **options: Any) -> None:
        path: Path = options["file"]
        try:
            result = self.tried(path) if options["trial"] else self.restored(path)
        except BackupError as fault:
            raise UnusableInput(fault.reason) from fault
        if options["json"]:
            self.print_json(result)
        elif options["trial"]:
            self.stdout.write(f"{result['records']} records of {result['made_at']} come back as they were.")
        else:
            kept = f" What was there before is kept: {result['kept']}." if result["kept"] else ""
            self.stdout.write(f"{result['records']} records of {result['made_at']} are restored.{kept}")

    def tried(self, path: Path) -> dict[str, Any]:
        with Progress(self.stderr, "Trying", total=None) as progress:
            manifest = try_backup(path, step=progress.step)
        return {"records": manifest.total_rows, "made_at": manifest.made_at, "rows": manifest.rows}

    def restored(self, path: Path) -> dict[str, Any]:
        with nobody_serves(), Progress(self.stderr, "Restoring", total=None) as progress:
            restored = restore_backup(path, now=timezone.now(), step=progress.step)
        manifest = restored.manifest
        told = {"records": manifest.total_rows, "made_at": manifest.made_at, "rows": manifest.rows}
        return {**told, "kept": restored.kept}
