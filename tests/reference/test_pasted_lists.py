"""Works lists as they stand in word processors, and the works that are read from them.

All lists are invented; the ways in which they are made (the order of year, forces and duration, headings, labels, five
languages) are common practice in printed and web works lists.
"""

from __future__ import annotations

import json
from pathlib import Path

import pytest

from catalogue.exchange.pasted import proposals

LISTS = sorted((Path(__file__).parent / "pasted").glob("*.txt"))


def test_there_are_thirty_lists() -> None:
    assert len(LISTS) == 30


@pytest.mark.parametrize("path", LISTS, ids=lambda path: path.stem)
def test_list_is_read(path: Path) -> None:
    expected = json.loads(path.with_suffix(".json").read_text(encoding="utf-8"))

    assert [one.work for one in proposals(path.read_text(encoding="utf-8"))] == expected


@pytest.mark.parametrize("path", LISTS, ids=lambda path: path.stem)
def test_every_cell_stands_in_the_words_it_came_from(path: Path) -> None:
    text = path.read_text(encoding="utf-8").replace("\t", " – ")

    for one in proposals(text):
        words = "\n".join(one.lines)
        strange = [said for said in one.cells.values() for part in said.split("\n") if part not in words]
        assert strange == []
