"""``start``: one's own catalogue, served on this machine; the first visitor with the code becomes its owner."""

from __future__ import annotations

from typing import Any

from django.conf import settings
from django.core.management.base import CommandParser
from django.urls import reverse
from django.utils import timezone

from catalogue.actions.entry import make_entry_key
from catalogue.exchange.backups.writing import count_records
from catalogue.management.base import CatalogueCommand, UnusableInput
from catalogue.management.daily import daily_backups, days_backup
from catalogue.management.progress import Progress
from catalogue.management.serving import address_at, refuse_taken_port, serve
from catalogue.models import EntryPurpose, Membership
from catalogue.terms import Role


class Command(CatalogueCommand):
    help = "Serve your own catalogue on this machine. The first visit, with the code printed here, makes its owner."

    def add_arguments(self, parser: CommandParser) -> None:
        parser.add_argument("--port", type=int, default=8000, help="where to serve (default 8000)")
        parser.add_argument(
            "--address-only",
            action="store_true",
            help="serve nothing, since other processes do: print the address that makes the first owner of a house",
        )

    def handle(self, *arguments: Any, **options: Any) -> None:
        if options["address_only"]:
            self.stdout.write(settings.SITE_URL + founding())
        else:
            self.serve(options["port"])

    def serve(self, port: int) -> None:
        refuse_taken_port(port)
        address = address_at(port) + entrance()
        if has_owner():
            with Progress(self.stderr, "Making the day’s backup", total=count_records()) as progress:
                self.stdout.write(days_backup(settings.BACKUPS, now=timezone.now(), step=progress.step))
        with daily_backups(settings.BACKUPS, wanted=has_owner):
            serve(port, ready=lambda: self.stdout.write(f"Open {address}\nStop with Ctrl+C."))


def has_owner() -> bool:
    return Membership.objects.filter(role=Role.OWNER).exists()


def founding() -> str:
    """Return the path that makes the first owner; UnusableInput where there is one."""
    if has_owner():
        raise UnusableInput("This house has an owner already, who lets in whoever else is to come.")
    return entrance()


def entrance() -> str:
    """Return the path to open: the founder's, with a fresh code, until the catalogue has an owner."""
    if has_owner():
        return reverse("home")
    return reverse("start", args=[make_entry_key(EntryPurpose.OWNER, now=timezone.now())])
