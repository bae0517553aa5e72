"""``electronics_package``: all that the electronics of a work are played from in one file, made or checked."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path
from typing import Any

from django.core.management.base import CommandParser
from django.utils import timezone

from catalogue.documents.model import Paper
from catalogue.documents.registry import DocumentNeeds, render
from catalogue.exchange.electronics_package import (
    Member,
    PackageError,
    check_package,
    media_members,
    package_chunks,
    told_setup,
)
from catalogue.gathering.technical import gather_setups
from catalogue.making import Wish, make_document
from catalogue.management.base import CatalogueCommand, UnusableInput, add_composer_option
from catalogue.management.commands.document import composer_meant, work_id
from catalogue.models import Composer, Work
from catalogue.rules.technical.terms import Setup

PAPERS = (("rider", "pdf"), ("rider", "txt"), ("cue-sheet", "pdf"), ("cue-sheet", "csv"))


class Command(CatalogueCommand):
    help = (
        "Write rider, cue sheet, setup text and media of a work into one ZIP with its checksums, or check such a ZIP."
    )

    def add_arguments(self, parser: CommandParser) -> None:
        parser.add_argument(
            "--work", nargs=1, default=[], metavar="ID", help="by number in the address, or by catalogue number"
        )
        parser.add_argument(
            "--media", type=Path, metavar="FOLDER", help="where the media files are that the setup names"
        )
        parser.add_argument("--out", type=Path, metavar="FILE", help="where the package goes")
        parser.add_argument(
            "--check", type=Path, metavar="FILE", help="read a package back and hold it against its manifest"
        )
        parser.add_argument("--json", action="store_true", help="report as JSON")
        parser.set_defaults(performance=None)
        add_composer_option(parser)

    def handle(self, *arguments: Any, **options: Any) -> None:
        try:
            if options["check"] is not None:
                self.check_one(options["check"], as_json=options["json"])
                return
            if not options["work"] or options["out"] is None:
                raise UnusableInput("Say of which work with --work and where it goes with --out, or what to --check.")
            composer = composer_meant(options)
            found = Work.objects.with_everything_printed().get(pk=work_id(composer, options["work"][0]))
            self.make(composer, found, options)
        except PackageError as fault:
            raise UnusableInput(fault.reason) from fault

    def check_one(self, path: Path, *, as_json: bool) -> None:
        found = check_package(path)
        if as_json:
            self.print_json({"whole": not found.wrong, "files": list(found.files), "wrong": list(found.wrong)})
        else:
            told = found.wrong or (f"{len(found.files)} files are as they were when the package was made.",)
            self.stdout.write("\n".join(told))
        if found.wrong:
            raise UnusableInput(f"{path} is not whole.")

    def make(self, composer: Composer, work: Work, options: dict[str, Any]) -> None:
        setups = gather_setups(work)
        if not setups:
            raise UnusableInput(f"“{work.title}” has no technical setup yet.")
        setup = setups[0]
        members = [*papers(composer, work), Member("setup.txt", setup_text(setup))]
        members += media_members(setup, options["media"]) if options["media"] is not None else ()
        told = {"composer": composer.name, "work": work.title, **told_setup(setup)}
        draft = options["out"].with_name(f".{options['out'].name}.part")
        try:
            with open(draft, "wb") as file:
                for part in package_chunks(members, told):
                    file.write(part)
            if check_package(draft).wrong:
                raise PackageError("The package did not read back as it was written; try another disk.")
            draft.replace(options["out"])
        except OSError as fault:
            raise UnusableInput(f"{options['out']} cannot be written: {fault.strerror}.") from fault
        finally:
            draft.unlink(missing_ok=True)
        self.stderr.write(f"Wrote {options['out']} and read it back: {len(members)} files, each as it was.")


def papers(composer: Composer, work: Work) -> Iterator[Member]:
    """The rider and the cue sheet, as paper and as text; a work without cues has no sheet."""
    for kind, format in PAPERS:
        wish = Wish(kind, composer.language, Paper.A4, timezone.localdate(), works=(work.pk,))
        try:
            yield Member(f"{kind}.{format}", render(make_document(composer, wish), format))
        except DocumentNeeds:
            continue


def setup_text(setup: Setup) -> bytes:
    """How it is set up from nothing, and what to do when something fails."""
    parts = (
        (setup.name, setup.description),
        ("Setting up", setup.setting_up),
        ("When something fails", setup.when_it_fails),
    )
    return "\n\n".join(f"{head}\n\n{text.strip()}" for head, text in parts if text.strip()).encode() + b"\n"
