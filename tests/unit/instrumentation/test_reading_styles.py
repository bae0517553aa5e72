"""Scoring lines in every style that is met, each against its canonical writing, its players and its remarks.

The lines of ``styles.csv`` were written from memory in the dresses that works lists, publishers' catalogues, orchestra
offices and programmes use (common practice); none is quoted. ``players`` is empty where the text leaves it open.
"""

from __future__ import annotations

import csv
from pathlib import Path

import pytest

from catalogue.instrumentation import Instrumentation, read, shorthand


def rows() -> list[dict[str, str]]:
    with (Path(__file__).parent / "styles.csv").open(encoding="utf-8", newline="") as file:
        return list(csv.DictReader(file))


def told(reading: Instrumentation) -> tuple[str, str, str]:
    """Return the writing, the players and the codes of the remarks as the table has them."""
    span = reading.players
    players = "" if span is None else str(span[0]) if span[0] == span[1] else f"{span[0]}-{span[1]}"
    return shorthand(reading), players, " ".join(sorted({remark.code for remark in reading.warnings}))


@pytest.mark.parametrize("row", rows(), ids=lambda row: row["text"])
def test_a_line_is_read_as_the_trade_means_it(row: dict[str, str]) -> None:
    assert told(read(row["text"])) == (row["written"], row["players"], row["remarks"])


@pytest.mark.parametrize("row", rows(), ids=lambda row: row["text"])
def test_what_is_written_reads_back_to_the_same_lines(row: dict[str, str]) -> None:
    assert read(row["written"]).lines == read(row["text"]).lines
