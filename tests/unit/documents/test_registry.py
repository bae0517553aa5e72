"""The list of documents: what it names exists, and listing loads nothing heavy."""

from __future__ import annotations

import subprocess
import sys

import pytest

from catalogue.documents.registry import FORMATS, KINDS, builder, render
from tests.reference.documents.house import DOCUMENTS


@pytest.mark.parametrize("kind", KINDS)
def test_every_kind_has_a_builder_and_known_formats(kind: str) -> None:
    assert builder(kind).__name__ == KINDS[kind].function
    assert set(KINDS[kind].formats) <= set(FORMATS)


@pytest.mark.parametrize(
    "case", ["works-by-category", "works-by-year", "cv", "parts-for-a-performance", "cues", "cues-for-the-pocket"]
)
@pytest.mark.parametrize("format", FORMATS)
def test_every_document_leaves_in_every_format_twice_the_same(case: str, format: str) -> None:
    made = render(DOCUMENTS[case](), format)

    assert made
    assert render(DOCUMENTS[case](), format) == made


def test_the_kind_of_a_document_is_its_word_in_the_registry() -> None:
    assert {make().kind for make in DOCUMENTS.values()} == set(KINDS)


def test_listing_the_documents_loads_no_typesetting() -> None:
    heavy = "('reportlab', 'uharfbuzz', 'pikepdf', 'docx', 'xlsxwriter')"
    code = f"import sys, catalogue.documents.registry; print([name for name in {heavy} if name in sys.modules])"

    loaded = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True)

    assert loaded.stdout.strip() == "[]"
