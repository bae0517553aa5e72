"""``hand_over``: a composer's whole catalogue into one file, for another house or for the composer."""

from __future__ import annotations

from pathlib import Path
from typing import Any

from django.core.files.storage import default_storage
from django.core.management.base import CommandParser
from django.utils import timezone

from catalogue.actions.handovers import note_given
from catalogue.exchange.handover.archive import HandOverError, checksum_of
from catalogue.exchange.handover.leaving import hand_over
from catalogue.management.base import CatalogueCommand, UnusableInput, add_composer_option, chosen_composer


class Command(CatalogueCommand):
    help = (
        "Write one composer's whole catalogue with every file into one ZIP, read it back, and note to whom it went. "
        "Members, secret addresses, and the history of changes stay here. The file holds private notes."
    )

    def add_arguments(self, parser: CommandParser) -> None:
        parser.add_argument("file", type=Path, help="what to write; the name ends with .zip")
        parser.add_argument("--to", required=True, metavar="NAME", help="who is to have it, as it is noted")
        parser.add_argument("--json", action="store_true", help="print the result as JSON")
        add_composer_option(parser)

    def handle(self, *arguments: Any, **options: Any) -> None:
        path: Path = options["file"]
        if path.suffix.lower() != ".zip":
            raise UnusableInput(f"“{path.name}” has to end with .zip.")
        if not path.parent.is_dir():
            raise UnusableInput(f"There is no folder “{path.parent}”.")
        composer, now = chosen_composer(options["composer"]), timezone.now()
        try:
            manifest = hand_over(path, composer, to=options["to"], now=now, storage=default_storage)
        except HandOverError as fault:
            raise UnusableInput(fault.reason) from fault
        digest, size = checksum_of(path), path.stat().st_size
        note_given(composer=composer, to=options["to"], sha256=digest, records=manifest.total, by=None, now=now)
        if options["json"]:
            told = {"file": str(path), "composer": composer.name, "to": manifest.to, "sha256": digest, "bytes": size}
            self.print_json({**told, "rows": manifest.rows, "lacking": list(manifest.lacking)})
            return
        self.stdout.write(f"{path} is written and read back: {manifest.total} records, {len(manifest.files)} files.")
        self.stdout.write(f"SHA-256 {digest}")
        for name in manifest.lacking:
            self.stdout.write(f"No longer there: {name}")
