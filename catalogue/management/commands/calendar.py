"""``calendar``: the feed of performances on standard output."""

from __future__ import annotations

from typing import Any

from django.core.management.base import CommandParser
from django.utils import timezone

from catalogue.feeds.calendar import calendar_bytes
from catalogue.gathering import gather_catalogue
from catalogue.gathering.deadlines import gather_deadlines
from catalogue.management.base import CatalogueCommand, add_composer_option, chosen_composer
from catalogue.rules.premieres import claims_by_programmed


class Command(CatalogueCommand):
    help = "Print a composer's performances as a calendar that programs subscribe to (iCalendar)."

    def add_arguments(self, parser: CommandParser) -> None:
        add_composer_option(parser)
        parser.add_argument(
            "--public", action="store_true", help="only what is announced and open to all, as on the public page"
        )

    def handle(self, *arguments: Any, **options: Any) -> None:
        composer = chosen_composer(options["composer"])
        catalogue = gather_catalogue(composer)
        now = timezone.now()
        content = calendar_bytes(
            catalogue,
            name=catalogue.composer.name,
            now=now,
            public=options["public"],
            deadlines=gather_deadlines(composer),
            claims=claims_by_programmed(catalogue, today=timezone.localdate(now)),
        )
        self.stdout.write(content.decode(), ending="")
