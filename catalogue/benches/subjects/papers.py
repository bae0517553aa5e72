"""Papers of one work, of a catalogue and of the demo, beside reportlab's bare canvas drawing the same lines.

A list of works is also measured beside reportlab's own document of paragraphs, which breaks lines as ours does.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator
from contextlib import contextmanager
from io import BytesIO
from typing import Any
from xml.sax.saxutils import escape

from django.db import transaction
from django.utils import timezone
from reportlab.lib.styles import ParagraphStyle
from reportlab.platypus import Paragraph, SimpleDocTemplate

from catalogue.benches.invented import COMPOSER, NOW, catalogue, work
from catalogue.benches.measuring import Bench, Heading, Pair
from catalogue.benches.subjects.documents import draw_bare, lines_of, one_face, works_list
from catalogue.demo.loading import load_demo
from catalogue.demo.papers import COMPOSER as DEMO_COMPOSER
from catalogue.demo.papers import wishes
from catalogue.demo.riders import send_demo_riders
from catalogue.documents.contents.cv_section import cv_section
from catalogue.documents.contents.parts_checklist import parts_checklist
from catalogue.documents.contents.performance_history import performance_history
from catalogue.documents.contents.press_sheet import press_sheet
from catalogue.documents.contents.rider import rider
from catalogue.documents.contents.selection import Chosen
from catalogue.documents.contents.works_list import works_list as list_of_works
from catalogue.documents.model import Document, Paper, plain
from catalogue.documents.reading_order import texts
from catalogue.documents.registry import render
from catalogue.facts import CatalogueFacts, TimingFacts
from catalogue.gathering.catalogues import gathered_once
from catalogue.making import make_document
from catalogue.models import Composer
from catalogue.record_facts import WorkRecords
from catalogue.rules.technical.reading import read_inputs, read_needs, read_outputs
from catalogue.rules.technical.riders import RiderFacts
from catalogue.rules.technical.terms import Setup

CANVAS = "reportlab's canvas draws the same lines at the same places in one face"
PARAGRAPHS = "reportlab's document of one paragraph a text, in one embedded face"
ASKED: dict[str, Any] = {"language": "en-GB", "paper": Paper.A4, "printed_on": NOW.date()}
EVERY_TWENTIETH = 20
"""Invented works at this distance have an orchestra with its string strengths."""

Papers = Callable[[], list[Document]]


@contextmanager
def beside_canvas(papers: Papers) -> Iterator[Pair]:
    """Make papers, gathered, reckoned and rendered; the bound draws the lines of each."""
    one_face()
    lines = [lines_of(one) for one in papers()]
    yield Pair(
        ours=lambda: [render(one, "pdf") for one in papers()], bare=lambda: [draw_bare(one) for one in lines if one]
    )


@contextmanager
def checklists(size: int) -> Iterator[Pair]:
    told = [work(number * EVERY_TWENTIETH) for number in range(size)]

    def papers() -> list[Document]:
        return [parts_checklist(one, COMPOSER, **ASKED) for one in told]

    with beside_canvas(papers) as pair:
        yield pair


@contextmanager
def riders(size: int) -> Iterator[Pair]:
    """One rider with so many inputs, half as many outputs and a tenth as many other needs."""
    told = work(0)
    setup = Setup(
        id=1,
        name="As meant",
        inputs=read_inputs("\n".join(f"{one}; source {one}; condenser; boom; 48 V" for one in range(1, size + 1))),
        outputs=read_outputs("\n".join(f"{one}; ring {one}; live" for one in range(1, size // 2 + 2))),
        equipment=read_needs("\n".join(f"{one} stand lights; dimmable" for one in range(2, size // 10 + 3))),
        power="Two 16 A supplies.",
    )
    facts = RiderFacts(records=WorkRecords(told.id), setup=setup)
    timing = TimingFacts(work_id=told.id)

    def papers() -> list[Document]:
        return [rider(told, timing, facts, COMPOSER, **ASKED)]

    with beside_canvas(papers) as pair:
        yield pair


@contextmanager
def suite(size: int) -> Iterator[Pair]:
    """Every paper of a whole catalogue with twice as many performances as works, and a checklist for each of five."""
    told = catalogue(works=size, performances=2 * size)
    with beside_canvas(lambda: papers_of(told)) as pair:
        yield pair


def papers_of(told: CatalogueFacts) -> list[Document]:
    found = [list_of_works(told, by=order, claims={}, **ASKED) for order in ("category", "year", "forces", "duration")]
    found += [
        make(told, choice=Chosen(), claims={}, **ASKED) for make in (cv_section, performance_history, press_sheet)
    ]
    sets = told.works[::EVERY_TWENTIETH]
    return [*found, *(parts_checklist(one, told.composer, **ASKED) for one in sets)]


@contextmanager
def demo(_size: int) -> Iterator[Pair]:
    """Every paper that the demo writes into its folder, its catalogue gathered once for all of them."""
    with transaction.atomic():
        load_demo(timezone.localdate())
        send_demo_riders(timezone.now())
        composer = Composer.objects.get(slug=DEMO_COMPOSER)
        asked = [wish for _name, wish in wishes(composer, timezone.localdate())]

        def papers() -> list[Document]:
            with gathered_once():
                return [make_document(composer, wish) for wish in asked]

        with beside_canvas(papers) as pair:
            yield pair
        transaction.set_rollback(True)


@contextmanager
def beside_paragraphs(size: int) -> Iterator[Pair]:
    told = catalogue(works=size, performances=size)
    style = ParagraphStyle("body", fontName=one_face(), fontSize=8.5, leading=11.25)
    said = [escape(plain(text)) for block in works_list(told).blocks for text in texts(block) if plain(text)]

    def bare() -> bytes:
        written = BytesIO()
        SimpleDocTemplate(written, pageCompression=1, invariant=1).build([Paragraph(text, style) for text in said])
        return written.getvalue()

    yield Pair(ours=lambda: render(works_list(told), "pdf"), bare=bare)


HEADING = Heading.DOCUMENTS
BENCHES = (
    Bench("works list beside paragraphs, works", PARAGRAPHS, (100, 1_000), beside_paragraphs, aim=1.5),
    Bench("parts checklists as PDF, sets", CANVAS, (1, 10), checklists),
    Bench("rider as PDF, inputs", CANVAS, (16, 128), riders),
    Bench("all papers of a catalogue, works", CANVAS, (40,), suite),
    Bench("all papers of the demo, from its records", CANVAS, (1,), demo, stored=True),
)
