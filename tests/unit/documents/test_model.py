"""Texts as runs: values are isolates, empty texts leave no separator."""

from __future__ import annotations

from catalogue.documents.model import Run, joined, value, wording


def test_joined_leaves_out_what_says_nothing() -> None:
    assert joined((value("Leeds"), (), wording("2026")), ", ") == (Run("Leeds", value=True), Run(", "), Run("2026"))
    assert joined(((), ()), ", ") == ()


def test_an_empty_value_is_no_text() -> None:
    assert (value(""), wording("")) == ((), ())


def test_a_run_reads_from_the_side_of_its_first_strong_character() -> None:
    assert Run("(2019) بستان A").right_to_left
    assert not Run("(2019) A بستان").right_to_left
    assert not Run("2019").right_to_left
