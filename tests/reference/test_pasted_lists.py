"""Works lists as they stand in word processors, and the works that are read from them.

All lists are invented; the ways in which they are made (the order of year, forces and duration, headings, labels, five
languages) are common practice in printed and web works lists.
"""

from __future__ import annotations

import json
from pathlib import Path

import pytest

from catalogue.exchange.columns import Kind, find_heading, rows_below
from catalogue.exchange.pasted import copied_cells, proposals

LISTS = sorted((Path(__file__).parent / "pasted").glob("*.txt"))


def works_in(text: str) -> list[dict[str, str]]:
    """Return the works of a text as its page takes them: cells with a header as a table, all else word by word."""
    table = copied_cells(text)
    if table is None:
        return [one.work for one in proposals(text)]
    return [
        row.cells | ({"notes": "\n".join(f"{header}: {cell}" for header, cell in row.extra)} if row.extra else {})
        for row in rows_below(table, find_heading(table, Kind.WORKS))
    ]


def test_there_are_sixty_two_lists() -> None:
    assert len(LISTS) == 62


@pytest.mark.parametrize("path", LISTS, ids=lambda path: path.stem)
def test_list_is_read(path: Path) -> None:
    expected = json.loads(path.with_suffix(".json").read_text(encoding="utf-8"))

    assert works_in(path.read_text(encoding="utf-8")) == expected


@pytest.mark.parametrize("path", LISTS, ids=lambda path: path.stem)
def test_every_cell_stands_in_the_words_it_came_from(path: Path) -> None:
    text = path.read_text(encoding="utf-8").replace("\t", " – ")

    for one in proposals(text):
        words = "\n".join(one.lines)
        strange = [said for said in one.cells.values() for part in said.split("\n") if part not in words]
        assert strange == []
