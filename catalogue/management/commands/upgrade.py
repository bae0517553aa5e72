"""``upgrade``: backup, migrations, check; back to the backup where one fails."""

from __future__ import annotations

from typing import Any

from django.core.management.base import CommandError, CommandParser
from django.utils import timezone

from catalogue.exchange.backups.archive import BackupError
from catalogue.exchange.backups.upgrading import Upgraded, upgrade
from catalogue.management.base import ReadingCommand
from catalogue.management.progress import Progress
from catalogue.management.serving import nobody_serves


class Command(ReadingCommand):
    help = "Bring the tables up to date: a backup first, then the migrations, then a check; back where one fails."

    def add_arguments(self, parser: CommandParser) -> None:
        parser.add_argument("--json", action="store_true", help="print the result as JSON")

    def handle(self, *arguments: Any, **options: Any) -> None:
        with nobody_serves(), Progress(self.stderr, "Backing up", total=None) as progress:
            try:
                done = upgrade(now=timezone.now(), step=progress.step)
            except BackupError as fault:
                raise CommandError(fault.reason, returncode=1) from fault
        if options["json"]:
            self.print_json({"migrations": done.migrations, "backup": done.backup and str(done.backup)})
        else:
            self.stdout.write(as_line(done))


def as_line(done: Upgraded) -> str:
    if not done.migrations:
        return "The tables are up to date."
    before = f" The backup made before is {done.backup}." if done.backup else ""
    return f"{done.migrations} migrations applied, and the tables are sound.{before}"
