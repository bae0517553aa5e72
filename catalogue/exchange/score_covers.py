"""A score's PDF with another cover: its first pages taken away, a new one put before, and what it says of itself gone.

For anonymous submissions: names stand on covers, and in the properties that music notation programs write.
"""

from __future__ import annotations

from io import BytesIO
from typing import BinaryIO

import pikepdf

from catalogue.rules.refused import Refused


class CoverError(Refused):
    """A score that cannot be given a cover; ``reason`` is one sentence."""


def with_cover(score: BinaryIO, cover: bytes, *, without: int = 0) -> bytes:
    """Return the score with the cover's pages in the place of its first ``without`` ones. Raises CoverError.

    Only pages are taken over: properties, outlines, attachments and forms of the score's file stay behind.
    """
    try:
        with pikepdf.open(score) as old, pikepdf.open(BytesIO(cover)) as new, pikepdf.new() as made:
            if len(old.pages) <= without:
                raise CoverError(f"The score has {len(old.pages)} pages; {without} of them cannot be its cover.")
            made.pages.extend(new.pages)
            made.pages.extend(old.pages[without:])
            for page in made.pages:
                stripped(page)
            return saved(made)
    except pikepdf.PasswordError as fault:
        raise CoverError("The score’s file is locked with a password.") from fault
    except pikepdf.PdfError as fault:
        raise CoverError("The score’s file cannot be opened as a PDF.") from fault


def stripped(page: pikepdf.Page) -> None:
    """Take away what a page carries beside what is printed: metadata, annotations, what a program kept for itself."""
    for key in ("/Metadata", "/PieceInfo", "/Annots", "/AA", "/StructParents"):
        if key in page.obj:
            del page.obj[key]


def saved(pdf: pikepdf.Pdf) -> bytes:
    pdf.remove_unreferenced_resources()
    written = BytesIO()
    pdf.save(written, deterministic_id=True)
    return written.getvalue()
