"""``check_pack FILE… --anonymous``: whether anything in the files of a pack names the composer."""

from __future__ import annotations

from dataclasses import asdict
from pathlib import Path
from typing import Any

from django.core.management.base import CommandParser

from catalogue.exchange.pack_texts import Finding, Pack, findings_in
from catalogue.gathering.names import gather_sought
from catalogue.management.base import CatalogueCommand, UnusableInput, add_composer_option, chosen_composer
from catalogue.management.progress import Progress
from catalogue.rules.anonymity import Person, Sought, sought_of


class Command(CatalogueCommand):
    help = "Search scores, recordings, texts and packs for anything that names the composer or gives them away."

    def add_arguments(self, parser: CommandParser) -> None:
        parser.add_argument("files", nargs="+", type=Path, metavar="FILE", help="the files, ZIP packs included")
        parser.add_argument("--anonymous", action="store_true", help="look for the composer's name in every form")
        parser.add_argument("--name", action="append", default=[], help="a further name to look for")
        add_composer_option(parser)
        parser.add_argument("--json", action="store_true", help="print the findings as JSON")

    def handle(self, *arguments: Any, **options: Any) -> None:
        if not options["anonymous"]:
            raise UnusableInput("Say what is to be checked: --anonymous looks for the composer's name.")
        sought = self.sought(options["composer"], options["name"])
        pack, found = Pack(), []
        files = expanded(options["files"])
        with Progress(self.stderr, "Reading the pack", total=len(files)) as progress:
            for file in files:
                found += findings(pack, file, sought)
                progress.step()
        found = list(dict.fromkeys(found))
        if options["json"]:
            report = {"clean": not found, "findings": [asdict(one) for one in found], "not_seen": pack.not_seen}
            self.print_json(report)
        else:
            self.stdout.write("\n".join(told(found, pack.not_seen)))

    def sought(self, slug: str | None, names: list[str]) -> tuple[Sought, ...]:
        further = sought_of(Person(tuple(names))) if names else ()
        return (*gather_sought(chosen_composer(slug)), *further)


def expanded(paths: list[Path]) -> list[Path]:
    """Return the files, those of a folder one by one; refuse what is not there before anything is read."""
    found: list[Path] = []
    for path in paths:
        if path.is_dir():
            found += sorted(one for one in path.rglob("*") if one.is_file())
        elif path.is_file():
            found.append(path)
        else:
            raise UnusableInput(f"There is no file “{path}”.")
    return found


def findings(pack: Pack, path: Path, sought: tuple[Sought, ...]) -> list[Finding]:
    try:
        with open(path, "rb") as file:
            return findings_in(pack, path.name, file, sought)
    except OSError as fault:
        raise UnusableInput(f"“{path}” cannot be read.") from fault


def told(found: list[Finding], not_seen: list[str]) -> list[str]:
    many = "One thing gives" if len(found) == 1 else f"{len(found)} things give"
    head = f"{many} the composer away:" if found else "Nothing was found that names the composer."
    lines = [head, *(f"  {one.file}, {one.place}: {one.kind}: {one.text}" for one in found)]
    return lines + (["Look at these yourself:", *(f"  {one}" for one in not_seen)] if not_seen else [])
