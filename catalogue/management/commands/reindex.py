"""``reindex``: rebuilds what is derived from the records."""

from __future__ import annotations

from typing import Any

from django.core.management.base import CommandParser

from catalogue.actions.index import count_derived, reindex
from catalogue.management.base import CatalogueCommand
from catalogue.management.progress import Progress


class Command(CatalogueCommand):
    help = "Rebuild the search text, the index of instruments and the reckoned days of performances."

    def add_arguments(self, parser: CommandParser) -> None:
        parser.add_argument("--json", action="store_true", help="print the result as JSON")

    def handle(self, *arguments: Any, **options: Any) -> None:
        with Progress(self.stderr, "Rebuilding", total=count_derived()) as progress:
            outcome = reindex(after_each=progress.step)
        if options["json"]:
            self.print_json({"records": outcome.records, "mended": outcome.mended})
        else:
            self.stdout.write(f"{outcome.records} records looked at, {outcome.mended} put right.")
