"""``demo``: the invented composer's catalogue, its documents in a folder, its pages on this machine."""

from __future__ import annotations

from pathlib import Path
from typing import Any

from django.contrib.auth.models import User
from django.core.management.base import CommandParser
from django.urls import reverse
from django.utils import timezone

from catalogue.actions.entry import make_entry_key
from catalogue.demo.files import keep_demo_files
from catalogue.demo.loading import LIBRARIAN, load_demo
from catalogue.demo.papers import COMPOSER, wishes
from catalogue.demo.papers_sent import send_demo_papers
from catalogue.demo.riders import send_demo_riders
from catalogue.documents.registry import FORMATS
from catalogue.feeds.calendar import calendar_bytes
from catalogue.gathering.catalogues import gather_catalogue, gathered_once
from catalogue.management.base import CatalogueCommand
from catalogue.management.commands.document import made, write_file
from catalogue.management.serving import address_at, refuse_taken_port, serve
from catalogue.models import Composer, EntryPurpose

FORMATS_WRITTEN = ("pdf", "txt")


class Command(CatalogueCommand):
    help = "Load the invented composer, write the documents and the calendar feed into a folder, and serve the pages."

    def add_arguments(self, parser: CommandParser) -> None:
        parser.add_argument("--out", default="demo-output", metavar="DIR", help="where to write (default demo-output/)")
        parser.add_argument("--no-serve", action="store_true", help="stop after the documents are written")
        parser.add_argument("--port", type=int, default=8000, help="where to serve (default 8000)")

    def handle(self, *arguments: Any, **options: Any) -> None:
        port: int = options["port"]
        if not options["no_serve"]:
            refuse_taken_port(port)
        self.say("Loading the demo catalogue …")
        user = load_demo(today=timezone.localdate(), now=timezone.now())
        send_demo_riders(timezone.now())
        send_demo_papers(timezone.now())
        keep_demo_files(Composer.objects.get(slug=COMPOSER), timezone.now())
        self.write_documents(Path(options["out"]))
        if options["no_serve"]:
            return
        librarian = User.objects.get(username=LIBRARIAN)
        ours, theirs = (entry_of(one) for one in (user, librarian))
        told = f"Open {address_at(port)}{ours}\nIts librarian comes in at {theirs} there.\nStop with Ctrl+C."
        serve(port, ready=lambda: self.say(told))

    def say(self, text: str) -> None:
        self.stdout.write(text)
        self.stdout.flush()

    def write_documents(self, folder: Path) -> None:
        composer = Composer.objects.get(slug=COMPOSER)
        with gathered_once():
            for name, wish in wishes(composer, timezone.localdate()):
                for format in FORMATS_WRITTEN:
                    path = folder / f"{name}{FORMATS[format].suffix}"
                    write_file(path, made(composer, wish, format))
                    self.say(f"Wrote {path}")
            path = folder / "performances.ics"
            write_file(path, calendar_bytes(gather_catalogue(composer), name=composer.name, now=timezone.now()))
            self.say(f"Wrote {path}")


def entry_of(user: User) -> str:
    return reverse("enter", args=[make_entry_key(EntryPurpose.DEMO, now=timezone.now(), user=user)])
