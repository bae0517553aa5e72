"""``take_over``: a catalogue that was handed over becomes a new one here, wholly or not at all."""

from __future__ import annotations

from pathlib import Path
from typing import Any

from django.contrib.auth.models import User
from django.core.files.storage import default_storage
from django.core.management.base import CommandParser
from django.utils import timezone

from catalogue.actions.handovers import note_taken
from catalogue.exchange.handover.archive import HandOverError
from catalogue.exchange.handover.arriving import Found, look_into, take_over
from catalogue.management.base import CatalogueCommand, UnusableInput


class Command(CatalogueCommand):
    help = (
        "Store a catalogue that “hand_over” wrote as a new one, which the named user owns. What stands against it is "
        "said before anything is stored; it arrives whole or not at all. Calendars know its events again."
    )

    def add_arguments(self, parser: CommandParser) -> None:
        parser.add_argument("file", type=Path, help="the file that was handed over")
        parser.add_argument("--owner", metavar="USER", help="who is to own it here, by the name they sign in with")
        parser.add_argument("--dry-run", action="store_true", help="only say what is in it and what stands against it")
        parser.add_argument("--json", action="store_true", help="print the result as JSON")

    def handle(self, *arguments: Any, **options: Any) -> None:
        try:
            found = look_into(options["file"])
            if options["dry_run"]:
                if options["owner"]:
                    self.owner(options["owner"])
                self.tell(found, "", options)
                return
            owner, now = self.owner(options["owner"]), timezone.now()
            composer = take_over(options["file"], owner=owner, now=now, storage=default_storage)
        except HandOverError as fault:
            raise UnusableInput(fault.reason) from fault
        note_taken(composer=composer, sha256=found.sha256, records=found.manifest.total, by=owner, now=now)
        self.tell(found, composer.slug, options)

    def owner(self, name: str | None) -> User:
        user = User.objects.filter(username=name or "", is_active=True).first()
        if user is None:
            raise UnusableInput("Say with --owner who is to own it here: the name of somebody who signs in.")
        return user

    def tell(self, found: Found, slug: str, options: dict[str, Any]) -> None:
        told = found.manifest
        if options["json"]:
            against = {"forbids": list(found.forbids), "remarks": list(found.remarks)}
            self.print_json(
                {"composer": told.composer, "slug": slug, "sha256": found.sha256, "rows": told.rows, **against}
            )
            return
        self.stdout.write(f"{told.composer}: {told.total} records, {len(told.files)} files.")
        if slug:
            self.stdout.write(f"It is a catalogue here now, under “{slug}”.")
        self.stdout.write(f"SHA-256 {found.sha256}")
        for line in (*found.forbids, *found.remarks):
            self.stdout.write(line)
