"""``document``: makes a document from the records and writes it to a file or to standard output."""

from __future__ import annotations

import contextlib
import os
import sys
from collections.abc import Iterable
from datetime import date
from pathlib import Path
from typing import Any

from django.core.management.base import CommandParser
from django.utils import timezone

from catalogue.documents.contents.works_list import LENGTHS, Telling
from catalogue.documents.labels import LANGUAGES
from catalogue.documents.model import OFFICE, Document, Paper, plain
from catalogue.documents.registry import FORMATS, KINDS, DocumentNeeds, Kind, render
from catalogue.instrumentation import Instrumentation, InstrumentationError, read
from catalogue.making import Wish, make_document
from catalogue.management.base import CatalogueCommand, UnusableInput, add_composer_option, chosen_composer
from catalogue.management.packs import PACK, write_pack
from catalogue.models import Composer, Hire, Performance, Work
from catalogue.timing import DateError, read_date

ORDERS = ("category", "year", "forces", "duration")


class Command(CatalogueCommand):
    help = "Make a document from the records. --list shows which there are."

    def add_arguments(self, parser: CommandParser) -> None:
        parser.add_argument("kind", nargs="?", metavar="KIND", help="which document, for example works-list")
        parser.add_argument("--list", action="store_true", help="show the kinds, their formats and what they need")
        add_composer_option(parser)
        parser.add_argument(
            "--work", nargs="+", default=[], metavar="ID", help="works, by number in the address or by catalogue number"
        )
        parser.add_argument("--performance", type=int, metavar="ID", help="a performance, by the number in its address")
        parser.add_argument("--call", type=int, metavar="ID", help="the call of an application-pack, by its number")
        parser.add_argument("--hire", type=int, metavar="ID", help="a hire, by the number in its address")
        parser.add_argument(
            "--format", default=None, choices=sorted(FORMATS), help="default: the ending of --out, else pdf"
        )
        parser.add_argument(
            "--language", default=None, metavar="L", help=f"{', '.join(LANGUAGES)}; default: the composer's"
        )
        parser.add_argument(
            "--paper", default="a4", type=str.lower, choices=[paper.value for paper in Paper],
            help="scores also on a3, b4, tabloid, 9x12, 10x13",
        )  # fmt: skip
        parser.add_argument("--anonymous", action="store_true", help="front matter that names nobody, for a blind call")
        parser.add_argument("--without-cover", action="store_true", help="front matter from the title page on")
        parser.add_argument("--by", default="category", choices=ORDERS, help="the order of a works list")
        parser.add_argument("--pocket", action="store_true", help="the small cue sheet, to lie on a stand")
        parser.add_argument("--rising", action="store_true", help="by year, the first year at the top")
        parser.add_argument("--detail", default="full", choices=LENGTHS, help="how much a works list tells of each")
        parser.add_argument(
            "--available", default=None, metavar="FORCES", help="only works that these players can play"
        )
        parser.add_argument("--index", action="store_true", help="a works list with its indexes")
        parser.add_argument("--pages", type=int, default=None, metavar="N", help="how many pages a CV may have")
        parser.add_argument("--from", dest="first", default=None, metavar="DATE", help="first day, month or year")
        parser.add_argument("--to", dest="last", default=None, metavar="DATE", help="last day, month or year")
        parser.add_argument("--words", type=int, metavar="N", help="how many words a programme note may have")
        parser.add_argument("--society", default="", metavar="NAME", help="to whom a return goes")
        parser.add_argument("--member", default="", metavar="NUMBER", help="the composer's number there")
        parser.add_argument("--due", default=None, metavar="DATE", help="the day by which a return is to be there")
        parser.add_argument("--out", default=None, metavar="FILE", help="where to write (default standard output)")

    def handle(self, *arguments: Any, **options: Any) -> None:
        if options["list"] or options["kind"] is None:
            self.show_kinds()
            return
        if options["kind"] == PACK:
            write_pack(composer_meant(options), options["call"], options["out"], self.stderr)
            return
        kind = kind_of(options["kind"], options["by"], pocket=options["pocket"])
        format = options["format"] or format_of(options["out"])
        if format not in KINDS[kind].formats:
            known = ", ".join(KINDS[kind].formats)
            raise UnusableInput(f"“{options['kind']}” is made as {known}, not as {format}.")
        refuse_score_paper(kind, Paper(options["paper"]))
        composer = composer_meant(options)
        document = document_of(composer, wish_of(composer, kind, options))
        self.write_out(options["out"], render(document, format))
        if document.left_out:
            self.stderr.write(plain(document.left_out))
        for sentence in document.lacking:
            self.stderr.write(f"Not in the records: {sentence}")

    def show_kinds(self) -> None:
        for word, kind in kinds_by_word().items():
            needs = f"; needs {', '.join(kind.needs)}" if kind.needs else ""
            self.stdout.write(f"{word}: {', '.join(kind.formats)}{needs}")
        self.stdout.write(f"{PACK}: zip; needs a call")

    def write_out(self, out: str | None, content: bytes) -> None:
        if out is None:
            sys.stdout.buffer.write(content)
            return
        write_file(Path(out), content)
        self.stderr.write(f"Wrote {out}.")


def kinds_by_word() -> dict[str, Kind]:
    """Return the kinds as a person names them: a works list is one, whatever its order."""
    return {word.partition("-by-")[0]: kind for word, kind in KINDS.items()}


def kind_of(word: str, order: str, *, pocket: bool = False) -> str:
    """Return the registry's word, which for a works list says its order as well, for a cue sheet its size."""
    if pocket and f"{word}-pocket" in KINDS:
        return f"{word}-pocket"
    if word in KINDS:
        return word
    if word not in kinds_by_word():
        raise UnusableInput(f"There is no document “{word}”; there are: {', '.join([*kinds_by_word(), PACK])}.")
    return f"{word}-by-{order}"


def refuse_score_paper(kind: str, paper: Paper) -> None:
    """Refuse the larger papers for what is not bound with a score."""
    if kind != "front-matter" and paper not in OFFICE:
        raise UnusableInput(f"--paper: only the front matter of a score is made on {paper.value}; use a4 or letter.")


def format_of(out: str | None) -> str:
    if out is None:
        return "pdf"
    suffix = Path(out).suffix.lower()
    return next((one.word for one in FORMATS.values() if one.suffix == suffix), "pdf")


def wish_of(composer: Composer, kind: str, options: dict[str, Any]) -> Wish:
    first, last = day(options["first"], "--from"), day(options["last"], "--to", last=True)
    if first and last and first > last:
        raise UnusableInput("--from is after --to.")
    return Wish(
        kind=kind,
        language=language_named(options["language"]) if options["language"] else composer.language,
        paper=Paper(options["paper"]),
        today=timezone.localdate(),
        first=first,
        last=last,
        works=tuple(work_id(composer, text) for text in options["work"]),
        performance=options["performance"],
        hire=options["hire"],
        words=positive(options["words"], "--words"),
        pages=positive(options["pages"], "--pages"),
        has_cover=not options["without_cover"],
        is_anonymous=options["anonymous"],
        telling=Telling(options["detail"], options["rising"], options["index"], available(options["available"])),
        society=options["society"],
        member_number=options["member"],
        due=day(options["due"], "--due", last=True),
    )


def language_named(text: str) -> str:
    """Return the language of documents that a tag means, whatever its case and region (RFC 4647, lookup)."""
    tag = text.strip().replace("_", "-").lower()
    known = {one.lower(): one for one in LANGUAGES} | {"en": LANGUAGES[0]}
    found = known.get(tag) or known.get(tag.partition("-")[0])
    if found is None:
        raise UnusableInput(f"--language: documents are printed in {', '.join(LANGUAGES)}, not in “{text}”.")
    return found


def composer_meant(options: dict[str, Any]) -> Composer:
    """Return the composer who is named or the only one, else the one whose works, performance or hire are named.

    A catalogue number that two composers use names neither.
    """
    if options["composer"] is None and (options["work"] or options["performance"] or options.get("hire")):
        owners = [set(owners_of_work(text)) for text in options["work"]]
        if options["performance"]:
            owners.append(set(Performance.objects.filter(pk=options["performance"]).values_list("composer", flat=True)))
        if options.get("hire"):
            owners.append(set(Hire.objects.filter(pk=options["hire"]).values_list("composer", flat=True)))
        refuse_unknown(options, owners)
        shared = set.intersection(*owners)
        if len(shared) == 1:
            return Composer.objects.get(pk=shared.pop())
    return chosen_composer(options["composer"])


def refuse_unknown(options: dict[str, Any], owners: list[set[int]]) -> None:
    """Say which of the works, performance and hire that are named is not there, rather than ask whose it is."""
    named = [f"--work: there is no work “{text}” in this catalogue." for text in options["work"]]
    named += [f"This {one} is not in the catalogue." for one in ("performance", "hire") if options.get(one)]
    for sentence, found in zip(named, owners, strict=True):
        if not found:
            raise UnusableInput(sentence)


def owners_of_work(text: str) -> Iterable[int]:
    numbered = Work.objects.filter(catalogue_number=text, version_of__isnull=True)
    addressed = Work.objects.filter(pk=int(text)) if is_number(text) else Work.objects.none()
    return (numbered if numbered.exists() else addressed).values_list("composer", flat=True)


def is_number(text: str) -> bool:
    return text.isdecimal() and len(text) < 18


def positive(number: int | None, option: str) -> int | None:
    if number is not None and number < 1:
        raise UnusableInput(f"{option}: {number} is too few.")
    return number


def available(text: str | None) -> Instrumentation | None:
    if text is None:
        return None
    try:
        return read(text)
    except InstrumentationError as mistake:
        raise UnusableInput(f"--available: {mistake.reason}") from mistake


def day(text: str | None, option: str, *, last: bool = False) -> date | None:
    if text is None:
        return None
    try:
        found = read_date(text)
    except DateError as mistake:
        raise UnusableInput(f"{option}: {mistake.reason}") from mistake
    return found.last if last else found.first


def work_id(composer: Composer, text: str) -> int:
    """Return the id of a work named by its number in the address or by its catalogue number."""
    works = Work.objects.filter(composer=composer)
    numbered = works.filter(catalogue_number=text, version_of__isnull=True).first()
    found = numbered or (works.filter(pk=int(text)).first() if is_number(text) else None)
    if found is None:
        raise UnusableInput(f"--work: there is no work “{text}” in this catalogue.")
    return found.pk


def made(composer: Composer, wish: Wish, format: str) -> bytes:
    return render(document_of(composer, wish), format)


def document_of(composer: Composer, wish: Wish) -> Document:
    try:
        return make_document(composer, wish)
    except DocumentNeeds as needs:
        raise UnusableInput(needs.reason) from needs


def write_file(path: Path, content: bytes) -> None:
    """Write a whole file or none: beside its place first, then moved there."""
    draft = path.with_name(f".{path.name}.{os.getpid()}")
    try:
        path.parent.mkdir(parents=True, exist_ok=True)
        draft.write_bytes(content)
        draft.replace(path)
    except OSError as fault:
        with contextlib.suppress(OSError):
            draft.unlink()
        raise UnusableInput(f"{path} cannot be written: {fault.strerror}.") from fault
