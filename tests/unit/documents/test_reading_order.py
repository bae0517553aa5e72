"""Every text of a document in reading order, and what is a value among them."""

from __future__ import annotations

from catalogue.documents.model import Run, Style, plain
from catalogue.documents.reading_order import texts
from tests.reference.documents.house import DOCUMENTS


def test_texts_finds_everything_a_document_says() -> None:
    said = [plain(text) for block in DOCUMENTS["parts-for-a-performance"]().blocks for text in texts(block)]

    assert {"Slack Rope", "Hirer", "Woodwind", "of 40", "Packed by"} <= set(said)


def test_every_value_of_a_record_is_marked_as_one() -> None:
    document = DOCUMENTS["works-by-category"]()
    runs = [run for block in document.blocks for text in texts(block) for run in text]

    assert Run("حجر وماء", Style.TITLE, "ar", value=True, instead="") in runs
    assert Run("Sandglass Trust", value=True) in runs
    assert not [run for run in runs if "Kornmarkt" in run.text and not run.value]
