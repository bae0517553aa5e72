"""``demo``: the invented composer's catalogue, its documents in a folder, its pages on this machine."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path
from typing import Any

from django.contrib.auth.models import User
from django.core.management.base import CommandParser
from django.urls import reverse
from django.utils import timezone
from django.utils.text import slugify

from catalogue.actions.demo import LIBRARIAN, load_demo
from catalogue.actions.entry import make_entry_key
from catalogue.documents.model import Paper
from catalogue.documents.registry import FORMATS
from catalogue.feeds.calendar import calendar_bytes
from catalogue.gathering.catalogues import gather_catalogue
from catalogue.making import Wish
from catalogue.management.base import CatalogueCommand
from catalogue.management.commands.document import made, write_file
from catalogue.management.demo_files import keep_demo_files
from catalogue.management.demo_riders import send_demo_riders
from catalogue.management.serving import address_at, refuse_taken_port, serve
from catalogue.models import Composer, Edition, EntryPurpose, Hire, Rider, Work
from catalogue.terms import Category

COMPOSER = "nevena-haldoreva"
YEARS_IN_CV = 5
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
        for name, wish in wishes(composer):
            for format in FORMATS_WRITTEN:
                path = folder / f"{name}{FORMATS[format].suffix}"
                write_file(path, made(composer, wish, format))
                self.say(f"Wrote {path}")
        path = folder / "performances.ics"
        write_file(path, calendar_bytes(gather_catalogue(composer), name=composer.name, now=timezone.now()))
        self.say(f"Wrote {path}")


def entry_of(user: User) -> str:
    return reverse("enter", args=[make_entry_key(EntryPurpose.DEMO, now=timezone.now(), user=user)])


def wishes(composer: Composer) -> list[tuple[str, Wish]]:
    """Return the documents of the demo with the names of their files."""
    today = timezone.localdate()
    usual = Wish("works-list-by-category", composer.language, Paper.A4, today)
    latest = Work.objects.filter(composer=composer, category=Category.ORCHESTRA, status="active").newest_first()[0]
    asked = Rider.objects.filter(composer=composer).earliest("pk")
    scores = Edition.objects.filter(work__composer=composer).exclude(copyright_line="").order_by("pk")
    since = today.replace(year=today.year - YEARS_IN_CV, month=1, day=1)
    return [
        ("works-list-by-category", usual),
        ("works-list-by-year", replace(usual, kind="works-list-by-year")),
        ("parts-checklist", replace(usual, kind="parts-checklist", works=(latest.pk,))),
        ("performance-history", replace(usual, kind="performance-history")),
        ("programme-entry", replace(usual, kind="programme-entry", works=(latest.pk,))),
        ("press-sheet", replace(usual, kind="press-sheet")),
        ("performance-return", replace(usual, kind="performance-return")),
        ("rider", replace(usual, kind="rider", works=(asked.work_id,), performance=asked.performance_id)),
        ("cv-section", replace(usual, kind="cv-section", first=since)),
        *papers_of_hires(composer, usual),
        *((f"front-matter-{slugify(one.work.title)}", front_matter(usual, one)) for one in scores),
    ]


def papers_of_hires(composer: Composer, usual: Wish) -> list[tuple[str, Wish]]:
    """The note of a set that is out, the check of one that is back, the letter about what it lacks, all accounts."""
    hires = Hire.objects.filter(composer=composer).order_by("pk")
    out, back = hires.filter(back_on=None).first(), hires.exclude(back_on=None).first()
    of_one = (("delivery-note", out), ("return-check", back), ("missing-parts-letter", back))
    made = [(kind, replace(usual, kind=kind, hire=hire.pk)) for kind, hire in of_one if hire is not None]
    return [*made, ("hire-statement", replace(usual, kind="hire-statement"))]


def front_matter(usual: Wish, score: Edition) -> Wish:
    """The front of a score on the paper that its edition names, on A3 where it names none of the usual ones."""
    named = score.paper.lower().replace(" ", "")
    paper = Paper(named) if named in set(Paper) else Paper.A3
    return replace(usual, kind="front-matter", works=(score.work_id,), paper=paper)
