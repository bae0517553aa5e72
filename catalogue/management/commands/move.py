"""``move``: the catalogue into another database, compared table by table; the one it leaves stays as it is."""

from __future__ import annotations

from dataclasses import asdict
from typing import Any

import environ
from django.conf import settings
from django.core.management.base import CommandParser
from django.utils import timezone

from catalogue.exchange.backups.archive import BackupError
from catalogue.exchange.backups.moving import Moved, move
from catalogue.management.base import ReadingCommand, UnusableInput
from catalogue.management.progress import Progress
from catalogue.management.serving import nobody_serves

KNOWN = ("postgres://", "postgresql://", "sqlite:///")
FORMS = "postgres://user@host/name (the password in PGPASSWORD or ~/.pgpass) or sqlite:////folder/catalogue.sqlite3"


class Command(ReadingCommand):
    help = (
        "Move every record into another database: from SQLite to PostgreSQL, or back. The database in use is only "
        "read. What arrives is counted and compared table by table before it counts. Uploaded files stay where they "
        "are. Stop the program that serves the catalogue first."
    )

    def add_arguments(self, parser: CommandParser) -> None:
        parser.add_argument("target", help=f"where to: {FORMS}")
        parser.add_argument("--replace", action="store_true", help="put aside what the target holds; it is kept")
        parser.add_argument(
            "--drill", action="store_true", help="move, compare, and leave the target as it was: to see that it will do"
        )
        parser.add_argument("--json", action="store_true", help="print the result, table by table, as JSON")

    def handle(self, *arguments: Any, **options: Any) -> None:
        target = connection_named(options["target"])
        with nobody_serves(), Progress(self.stderr, "Moving", total=None) as progress:
            try:
                moved = move(
                    target,
                    now=timezone.now(),
                    replace=options["replace"],
                    drill=options["drill"],
                    step=progress.step,
                )
            except BackupError as fault:
                raise UnusableInput(fault.reason) from fault
        if options["json"]:
            self.print_json({**asdict(moved), "drill": options["drill"], "rows": moved.rows})
        else:
            self.stdout.write(in_words(moved, drill=options["drill"]))


def connection_named(address: str) -> dict[str, Any]:
    """Return the settings of a connection. Raises UnusableInput."""
    if address.startswith(KNOWN):
        told = environ.Env.db_url_config(address)
        if told.get("NAME"):
            return {"OPTIONS": {}, **told}
    raise UnusableInput(f"This names no database that is taken; write {FORMS}.")


def in_words(moved: Moved, *, drill: bool) -> str:
    lines = [f"{table.rows:>8}  {table.sha256[:12]}  {table.name}" for table in moved.tables if table.rows]
    lines.append(f"{moved.rows} records of {len(moved.tables)} tables arrived as they left.")
    if drill:
        lines.append("This was a drill: the target is as it was.")
        return "\n".join(lines)
    if moved.kept:
        lines.append(f"What was there before is kept: {moved.kept}.")
    lines.append(f"From now on start with DATABASE_URL naming it; uploaded files stay in {settings.FILES}.")
    return "\n".join(lines)
