"""The demo's papers as a reader has them: printed as PDF, read back by pdftotext, page by page."""

from __future__ import annotations

import subprocess
from collections.abc import Iterator
from dataclasses import dataclass, field
from datetime import date
from functools import cached_property
from itertools import cycle

from catalogue.documents.labels import LANGUAGES
from catalogue.documents.model import Document, Paper
from catalogue.documents.registry import DocumentNeeds, render
from catalogue.facts import CatalogueFacts, WorkFacts
from catalogue.gathering.catalogues import gather_catalogue
from catalogue.gathering.records import gather_records_of_work
from catalogue.making import Wish, make_document
from catalogue.models import Composer, Edition, Hire, Rider, Work
from catalogue.record_facts import EditionFacts, WorkRecords

TODAY = date(2026, 3, 9)
SINCE = date(2015, 1, 1)
SETTINGS = (("en-GB", Paper.A4), ("en-US", Paper.LETTER))
LISTS = (
    "works-list-by-category", "works-list-by-year", "cv-section", "performance-history", "press-sheet",
    "performance-return",
)  # fmt: skip
HIRE_KINDS = (
    "parts-checklist", "delivery-note", "arrival-check", "return-check", "missing-parts-letter", "hire-statement",
)  # fmt: skip
PERIODS = {"cv-section": (SINCE, None), "performance-return": (date(2021, 1, 1), date(2025, 12, 31))}


@dataclass(frozen=True)
class Sheet:
    """One paper: what it was made from, and what is read on it."""

    name: str
    catalogue: CatalogueFacts
    document: Document
    work: WorkFacts | None = None

    @cached_property
    def pdf(self) -> bytes:
        return render(self.document, "pdf")

    @cached_property
    def pages(self) -> tuple[str, ...]:
        command = ["pdftotext", "-layout", "-enc", "UTF-8", "-", "-"]
        read = subprocess.run(command, input=self.pdf, capture_output=True, check=True).stdout
        return tuple(read.decode().removesuffix("\f").split("\f"))

    @property
    def lines(self) -> tuple[str, ...]:
        """The lines of all pages that hold anything, without marks of direction, with plain spaces."""
        unmarked = "\n".join(self.pages).translate({**dict.fromkeys(range(0x202A, 0x202F)), 0xA0: " "})
        return tuple(line.rstrip() for line in unmarked.splitlines() if line.strip())

    @property
    def composer(self) -> str:
        return self.catalogue.composer.name

    @property
    def public(self) -> list[WorkFacts]:
        """The works that may stand on a public list."""
        return [work for work in self.catalogue.works if work.status not in {"withdrawn", "juvenile"}]

    @cached_property
    def text(self) -> str:
        """Everything on the paper in one line, with single spaces."""
        return " ".join(" ".join(self.lines).split())


@dataclass(frozen=True)
class Score:
    """The front of a score, and all that is recorded around its work."""

    sheet: Sheet
    records: WorkRecords
    edition: EditionFacts


@dataclass(frozen=True)
class Papers:
    """All of them; ``refused`` says by its title why the parts of a work cannot be listed.

    ``abroad`` are the papers of the largest catalogue in each other language and, by their side, in English of Britain.
    """

    lists: tuple[Sheet, ...]
    entries: tuple[Sheet, ...]
    checklists: tuple[Sheet, ...]
    refused: dict[str, str]
    riders: tuple[Sheet, ...]
    scores: tuple[Score, ...] = ()
    abroad: dict[str, tuple[Document, ...]] = field(default_factory=dict)
    american_riders: tuple[Sheet, ...] = ()

    @property
    def all(self) -> tuple[Sheet, ...]:
        return (*self.lists, *self.entries, *self.checklists, *self.riders)

    def of_kind(self, kind: str) -> list[Sheet]:
        return [sheet for sheet in self.lists if sheet.document.kind == kind]


def lists() -> list[Sheet]:
    """Make the lists and CV sections of every composer, on each paper in the English that goes with it."""
    return [
        Sheet(f"{composer.slug} {kind} {language} {paper.value}", catalogue, make_document(composer, wish))
        for composer in Composer.objects.order_by("slug")
        for catalogue in [gather_catalogue(composer)]
        for kind in LISTS
        for language, paper in SETTINGS
        for first, last in [PERIODS.get(kind, (None, None))]
        for wish in [Wish(kind, language, paper, TODAY, first=first, last=last)]
    ]


def entries() -> list[Sheet]:
    """Make the programme entry of every work that has a note."""
    return [
        Sheet(f"{work.title} entry", catalogue, make_document(composer, wish), catalogue.works_by_id()[work.pk])
        for composer in Composer.objects.order_by("slug")
        for catalogue in [gather_catalogue(composer)]
        for work in Work.objects.filter(composer=composer).exclude(programme_note="").in_title_order()
        for wish in [Wish("programme-entry", "en-GB", Paper.A4, TODAY, works=(work.pk,))]
    ]


def checklists() -> tuple[list[Sheet], dict[str, str]]:
    """Make the parts checklist of every work, and give by its title why one cannot be made."""
    made, refused = [], {}
    for composer in Composer.objects.order_by("slug"):
        catalogue = gather_catalogue(composer)
        facts = catalogue.works_by_id()
        for work in Work.objects.filter(composer=composer).in_title_order():
            wish = Wish("parts-checklist", "en-GB", Paper.A4, TODAY, works=(work.pk,))
            try:
                made.append(Sheet(work.title, catalogue, make_document(composer, wish), facts[work.pk]))
            except DocumentNeeds as needs:
                refused[work.title] = needs.reason
    return made, refused


def riders(language: str = "en-GB", paper: Paper = Paper.A4) -> list[Sheet]:
    """Make every rider that the demo keeps, for its performance."""
    return [
        Sheet(f"{one.work.title} rider", gather_catalogue(one.composer), make_document(one.composer, wish))
        for one in Rider.objects.select_related("work", "composer").order_by("pk")
        for works in [(one.work_id,)]
        for wish in [Wish("rider", language, paper, TODAY, works=works, performance=one.performance_id)]
    ]


def scores() -> list[Score]:
    """Make the front of every score that has a copyright line, on three papers by turns."""
    editions = Edition.objects.exclude(copyright_line="").select_related("work__composer").order_by("pk")
    return [
        Score(sheet, records, next(edition for edition in records.editions if edition.id == one.pk))
        for one, paper in zip(editions, cycle((Paper.A3, Paper.TEN_BY_THIRTEEN, Paper.LETTER)))
        for composer, records in [(one.work.composer, gather_records_of_work(one.work))]
        for catalogue in [gather_catalogue(composer)]
        for wish in [Wish("front-matter", "en-GB", paper, TODAY, works=(one.work_id,))]
        for document in [make_document(composer, wish)]
        for sheet in [Sheet(f"{one.work.title} front", catalogue, document, catalogue.works_by_id()[one.work_id])]
    ]


def abroad() -> dict[str, tuple[Document, ...]]:
    """Make every kind of paper of one catalogue in each language but that of the United States."""
    composer = Composer.objects.get(slug="nevena-haldoreva")
    return {tag: tuple(papers_in(tag, composer)) for tag in LANGUAGES if tag != "en-US"}


def papers_in(language: str, composer: Composer) -> Iterator[Document]:
    for kind in LISTS:
        first, last = PERIODS.get(kind, (None, None))
        yield make_document(composer, Wish(kind, language, Paper.A4, TODAY, first=first, last=last))
    rider = Rider.objects.filter(composer=composer).earliest("pk")
    works = (rider.work_id,)
    yield make_document(
        composer, Wish("rider", language, Paper.A4, TODAY, works=works, performance=rider.performance_id)
    )
    edition = Edition.objects.exclude(copyright_line="").filter(work__composer=composer).earliest("pk")
    yield make_document(composer, Wish("front-matter", language, Paper.A3, TODAY, works=(edition.work_id,)))
    sheet = Work.objects.filter(composer=composer, cues__isnull=False).earliest("pk")
    yield make_document(composer, Wish("cue-sheet", language, Paper.A4, TODAY, works=(sheet.pk,)))
    for kind in HIRE_KINDS:
        for hire in Hire.objects.filter(composer=composer).order_by("pk"):
            try:
                yield make_document(composer, Wish(kind, language, Paper.A4, TODAY, hire=hire.pk))
            except DocumentNeeds:
                continue
