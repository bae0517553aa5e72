"""``electronics_package``: all that the electronics of a work are played from in one file, made or checked."""

from __future__ import annotations

from pathlib import Path
from typing import Any

from django.core.management.base import CommandParser
from django.utils import timezone

from catalogue.exchange.electronics_package import PackageError, check_package, package_chunks
from catalogue.management.base import CatalogueCommand, UnusableInput, add_composer_option
from catalogue.management.commands.document import composer_meant, work_id
from catalogue.models import Composer, Work
from catalogue.packing.electronics import chosen_setup, electronics_of


class Command(CatalogueCommand):
    help = (
        "Write rider, cue sheet, setup text and media of a work into one ZIP with its checksums, or check such a ZIP."
    )

    def add_arguments(self, parser: CommandParser) -> None:
        parser.add_argument(
            "--work", nargs=1, default=[], metavar="ID", help="by number in the address, or by catalogue number"
        )
        parser.add_argument(
            "--media",
            type=Path,
            metavar="FOLDER",
            help="where media files are that the setup names and the catalogue does not keep",
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
        setup, _all = chosen_setup(work)
        if setup is None:
            raise UnusableInput(f"“{work.title}” has no technical setup yet.")
        found = electronics_of(composer, work, setup, options["media"])
        members = found.members(timezone.localdate())
        draft = options["out"].with_name(f".{options['out'].name}.part")
        try:
            with open(draft, "wb") as file:
                for part in package_chunks(members, found.told, found.digests):
                    file.write(part)
            if check_package(draft).wrong:
                raise PackageError("The package did not read back as it was written; try another disk.")
            draft.replace(options["out"])
        except OSError as fault:
            raise UnusableInput(f"{options['out']} cannot be written: {fault.strerror}.") from fault
        finally:
            draft.unlink(missing_ok=True)
        if found.absent:
            self.stderr.write(f"Not in it, since no file is kept of them: {', '.join(found.absent)}.")
        self.stderr.write(f"Wrote {options['out']} and read it back: {len(members)} files, each as it was.")
