"""Which documents there are, what each is made from, and in which formats it leaves the house.

A module that builds or writes a document is loaded when it is asked for, so that a page which only lists documents
loads no typesetting. A new document is one contents module and one line of ``KINDS``; a new format is one renderer
and one line of ``FORMATS``.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from importlib import import_module

from catalogue.documents.collecting import PAUSE
from catalogue.documents.model import Document, Logo
from catalogue.documents.needs import DocumentNeeds

__all__ = ["FORMATS", "KINDS", "DocumentNeeds", "Format", "Kind", "builder", "render"]

RENDERERS = "catalogue.documents.renderers"
CONTENTS = "catalogue.documents.contents"


@dataclass(frozen=True, slots=True)
class Format:
    """A way in which documents leave the house. ``suffix`` ends the file's name."""

    word: str
    title: str
    suffix: str
    content_type: str
    module: str
    function: str


@dataclass(frozen=True, slots=True)
class Kind:
    """A document that can be made. ``needs`` names the facts without which it is not, in words for a reader."""

    word: str
    title: str
    module: str
    function: str
    formats: tuple[str, ...]
    needs: tuple[str, ...] = ()


FORMATS = {
    one.word: one
    for one in (
        Format("pdf", "PDF", ".pdf", "application/pdf", f"{RENDERERS}.pdf.pages", "render_pdf"),
        Format("html", "Web page", ".html", "text/html; charset=utf-8", f"{RENDERERS}.html", "render_html"),
        Format(
            "docx",
            "Word processor",
            ".docx",
            "application/vnd.openxmlformats-officedocument.wordprocessingml.document",
            f"{RENDERERS}.word",
            "render_word",
        ),
        Format("md", "Markdown", ".md", "text/markdown; charset=utf-8", f"{RENDERERS}.markdown", "render_markdown"),
        Format("txt", "Plain text", ".txt", "text/plain; charset=utf-8", f"{RENDERERS}.plain", "render_plain"),
        Format("csv", "Table (CSV)", ".csv", "text/csv; charset=utf-8", f"{RENDERERS}.spreadsheet", "render_csv"),
        Format(
            "xlsx",
            "Spreadsheet",
            ".xlsx",
            "application/vnd.openxmlformats-officedocument.spreadsheetml.sheet",
            f"{RENDERERS}.spreadsheet",
            "render_xlsx",
        ),
    )
}

EVERY = ("pdf", "docx", "html", "md", "txt", "csv", "xlsx")

KINDS = {
    one.word: one
    for one in (
        Kind("works-list-by-category", "Works by category", f"{CONTENTS}.works_list", "works_list", EVERY),
        Kind("works-list-by-year", "Works by year", f"{CONTENTS}.works_list", "works_list", EVERY),
        Kind("works-list-by-forces", "Works by forces", f"{CONTENTS}.works_list", "works_list", EVERY),
        Kind("works-list-by-duration", "Works by duration", f"{CONTENTS}.works_list", "works_list", EVERY),
        Kind("cv-section", "CV section", f"{CONTENTS}.cv_section", "cv_section", EVERY),
        Kind(
            "parts-checklist",
            "Parts checklist",
            f"{CONTENTS}.parts_checklist",
            "parts_checklist",
            EVERY,
            needs=("an instrumentation that can be read", "string strengths"),
        ),
        Kind("press-sheet", "Press sheet", f"{CONTENTS}.press_sheet", "press_sheet", EVERY),
        Kind("programme-entry", "Programme entry", f"{CONTENTS}.programme_entry", "programme_entry", EVERY),
        Kind(
            "performance-history",
            "Performance history",
            f"{CONTENTS}.performance_history",
            "performance_history",
            EVERY,
            needs=("performances",),
        ),
        Kind(
            "performance-return",
            "Performance return",
            f"{CONTENTS}.performance_return",
            "performance_return",
            EVERY,
            needs=("performances with date, place, work and duration",),
        ),
        Kind(
            "delivery-note",
            "Delivery note",
            f"{CONTENTS}.delivery_note",
            "delivery_note",
            EVERY,
            needs=("a hire with its list of parts", "the day on which it is due"),
        ),
        Kind(
            "arrival-check",
            "Arrival check",
            f"{CONTENTS}.hire_checks",
            "arrival_check",
            EVERY,
            needs=("a hire with its list of parts",),
        ),
        Kind(
            "return-check",
            "Return check",
            f"{CONTENTS}.hire_checks",
            "return_check",
            EVERY,
            needs=("a hire with its list of parts",),
        ),
        Kind(
            "missing-parts-letter",
            "Missing-parts letter",
            f"{CONTENTS}.missing_parts_letter",
            "missing_parts_letter",
            EVERY,
            needs=("a hire of which parts are missing",),
        ),
        Kind(
            "hire-statement",
            "Hire statement",
            f"{CONTENTS}.hire_statement",
            "hire_statement",
            EVERY,
            needs=("a hire with a fee or a charge, or hires in a period",),
        ),
        Kind("rider", "Technical rider", f"{CONTENTS}.rider", "rider", EVERY, needs=("something the work needs",)),
        Kind(
            "front-matter",
            "Front matter of a score",
            f"{CONTENTS}.front_matter",
            "front_matter",
            ("pdf", "docx", "html", "md", "txt"),
            needs=("an instrumentation", "score in C or transposed"),
        ),
        Kind("cue-sheet", "Cue sheet", f"{CONTENTS}.cue_sheet", "cue_sheet", EVERY, needs=("cues",)),
        Kind("cue-sheet-pocket", "Pocket cue sheet", f"{CONTENTS}.cue_sheet", "cue_sheet", EVERY, needs=("cues",)),
    )
}


def builder(kind: str) -> Callable[..., Document]:
    """The function that makes documents of a kind; KeyError for a word that is none."""
    found = KINDS[kind]
    function: Callable[..., Document] = getattr(import_module(found.module), found.function)
    return PAUSE.around(function)


def small_logo(content: bytes, alternative: str) -> Logo:
    """A picture as the logo that documents take."""
    function: Callable[[bytes, str], Logo] = import_module(f"{RENDERERS}.logos").small_logo
    return function(content, alternative)


def pages_of(document: Document) -> int:
    """How many pages a document has as a PDF; nothing is drawn for it."""
    function: Callable[[Document], int] = import_module(FORMATS["pdf"].module).page_count
    return function(document)


def render(document: Document, format: str) -> bytes:
    """The document as a file of the format; the same document gives the same bytes. KeyError for an unknown word."""
    found = FORMATS[format]
    function: Callable[[Document], bytes] = getattr(import_module(found.module), found.function)
    return function(document)
