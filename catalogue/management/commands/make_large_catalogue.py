"""``make_large_catalogue``: fill an empty database with a large invented house, to try what size does."""

from __future__ import annotations

from typing import Any

from django.contrib.auth.models import User
from django.core.management.base import CommandParser
from django.utils import timezone

from catalogue.benches.bulk import AT_ONCE
from catalogue.benches.large import Size, make_large
from catalogue.management.base import CatalogueCommand, UnusableInput
from catalogue.management.progress import Progress
from catalogue.models import Composer


class Command(CatalogueCommand):
    help = (
        "Fill an empty database with an invented house of many composers, the first of whom has a long list of works "
        "and a tenth of all performances. The same seed on the same day makes the same rows."
    )

    def add_arguments(self, parser: CommandParser) -> None:
        parser.add_argument("--composers", type=int, default=1_000, help="how many composers (usual: 1000)")
        parser.add_argument("--works", type=int, default=10_000, help="works of the first composer (usual: 10000)")
        parser.add_argument("--performances", type=int, default=1_000_000, help="performances in all (usual: 1000000)")
        parser.add_argument("--seed", type=int, default=1, help="another number makes another house (usual: 1)")

    def handle(self, *arguments: Any, **options: Any) -> None:
        size = Size(options["composers"], options["works"], options["performances"])
        if min(size.composers, size.works, size.performances) < 1:
            raise UnusableInput("Composers, works and performances are one at least.")
        if Composer.objects.exists() or User.objects.exists():
            raise UnusableInput("This database holds a catalogue; name an empty one, as with LEDGERLINE_DATA.")
        with Progress(
            self.stderr, "Making performances, in portions", total=-(-size.performances // AT_ONCE)
        ) as progress:
            stored = make_large(size, seed=options["seed"], today=timezone.localdate(), tell=progress.step)
        for name, number in stored.items():
            self.stdout.write(f"{number:>12,} {name}")
        self.stdout.write("Give yourself a password to sign in with: python3 manage.py changepassword composer-1")
