"""Texts as runs: values are isolates, empty texts leave no separator."""

from __future__ import annotations

from catalogue.documents.model import Run, Style, joined, plain, texts, value, wording
from tests.reference.documents.house import DOCUMENTS


def test_joined_leaves_out_what_says_nothing() -> None:
    assert joined((value("Leeds"), (), wording("2026")), ", ") == (Run("Leeds", value=True), Run(", "), Run("2026"))
    assert joined(((), ()), ", ") == ()


def test_an_empty_value_is_no_text() -> None:
    assert (value(""), wording("")) == ((), ())


def test_a_run_reads_from_the_side_of_its_first_strong_character() -> None:
    assert Run("(2019) بستان A").right_to_left
    assert not Run("(2019) A بستان").right_to_left
    assert not Run("2019").right_to_left


def test_texts_finds_everything_a_document_says() -> None:
    said = [plain(text) for block in DOCUMENTS["parts-for-a-performance"]().blocks for text in texts(block)]

    assert {"Slack Rope", "Hirer", "Woodwind", "of 40", "Packed by"} <= set(said)


def test_every_value_of_a_record_is_marked_as_one() -> None:
    document = DOCUMENTS["works-by-category"]()
    runs = [run for block in document.blocks for text in texts(block) for run in text]

    assert Run("حجر وماء", Style.TITLE, "ar", value=True, instead="") in runs
    assert Run("Sandglass Trust", value=True) in runs
    assert not [run for run in runs if "Kornmarkt" in run.text and not run.value]
