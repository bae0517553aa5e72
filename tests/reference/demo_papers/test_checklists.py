"""The sheet of questions that a librarian asks of every parts checklist, answered on the text of the printed PDF."""

from __future__ import annotations

import re
from collections import Counter
from itertools import pairwise

import pytest

from tests.reference.demo_papers.forces import parts_of
from tests.reference.demo_papers.papers import Papers, Sheet

pytestmark = pytest.mark.django_db

ROW = re.compile(r"(?P<number>\d\d) {2,}(?P<part>\S.*?)(?: {2,}(?P<copies>\d+)(?P<boxes>(?: +\d+)*))?")
FAMILY = re.compile(r" {3,8}(?P<name>[A-Z][^\d]*?)(?: {2,}.*)?")


def rows(sheet: Sheet) -> list[re.Match[str]]:
    return [found for line in sheet.lines if (found := ROW.fullmatch(line))]


def strengths_of(sheet: Sheet) -> tuple[int, ...]:
    assert sheet.work
    return sheet.work.string_strengths or sheet.catalogue.composer.string_strengths


def number_at(words: str, sheet: Sheet) -> int:
    found = re.search(words, sheet.text)
    return int(found[1]) if found else 0


def test_every_work_that_can_be_read_has_its_checklist(papers: Papers) -> None:
    assert len(papers.checklists) > 70
    assert papers.refused == {
        "Hailstone Practice": "The parts of “Hailstone Practice” cannot be listed: its instrumentation is not readable."
    }


def test_no_chair_is_without_a_part_and_no_part_without_a_chair(papers: Papers) -> None:
    for sheet in papers.checklists:
        assert sheet.work
        expected = Counter(parts_of(sheet.work.instrumentation_text, strengths_of(sheet)))
        listed = Counter(row["part"] for row in rows(sheet)[1:])

        assert (sheet.name, sheet.work.instrumentation_text, listed) == (
            sheet.name,
            sheet.work.instrumentation_text,
            expected,
        )


def test_a_doubling_is_on_its_players_part_and_a_player_of_its_own_has_one(papers: Papers) -> None:
    """2(II=picc) is two players and two parts, picc, 2fl is three of each."""
    by_title = {sheet.name: [row["part"] for row in rows(sheet)] for sheet in papers.checklists}

    assert by_title["Sedemte tepeta"][1:4] == ["Flute 1", "Flute 2 also piccolo", "Oboe 1"]
    assert by_title["Umbrella Repair"][1:5] == ["Piccolo", "Flute 1", "Flute 2", "Oboe 1"]


def test_rows_are_numbered_from_the_score_on(papers: Papers) -> None:
    for sheet in papers.checklists:
        numbers = [int(row["number"]) for row in rows(sheet)]

        assert (sheet.name, numbers) == (sheet.name, list(range(len(numbers))))
        assert rows(sheet)[0]["part"] in ("Conductor’s score", "Score")


def test_totals_agree_with_the_rows_and_with_what_is_said_above(papers: Papers) -> None:
    for sheet in papers.checklists:
        copies = sum(int(row["copies"] or 0) for row in rows(sheet))
        said = sum(number_at(rf"(\d+) {word}", sheet) for word in ("scores?", "single parts?", "string cop(?:y|ies)"))
        totals = re.findall(r"Total +(\d+) +of (\d+) +of (\d+)", sheet.text)

        assert (sheet.name, totals) == (sheet.name, [(str(copies),) * 3])
        assert (sheet.name, said) == (sheet.name, copies)


def test_a_desk_of_strings_has_a_copy_and_an_odd_player_a_desk(papers: Papers) -> None:
    odd = 0
    for sheet in papers.checklists:
        for row in rows(sheet):
            if found := re.search(r"(\d+) players?, (\d+) desks?$", row["part"]):
                players, desks = map(int, found.groups())
                odd += players % 2
                assert (sheet.name, row["part"], desks) == (sheet.name, row["part"], (players + 1) // 2)
                assert int(row["copies"]) == desks
    assert odd > 20


def test_every_copy_of_a_section_has_its_two_boxes(papers: Papers) -> None:
    for sheet in papers.checklists:
        for row in rows(sheet):
            copies = int(row["copies"] or 1)
            boxes = [int(box) for box in row["boxes"].split()] if row["boxes"] else []

            assert (sheet.name, row["part"], boxes) == (
                sheet.name,
                row["part"],
                2 * list(range(1, copies + 1)) if copies > 1 else [],
            )


def test_no_family_is_empty(papers: Papers) -> None:
    for sheet in papers.checklists:
        lines = [line for line in sheet.lines if not line.startswith(("No.", "Condition:", sheet.composer + ","))]
        for line, after in pairwise(lines):
            if FAMILY.fullmatch(line) and not line.strip().startswith("Total"):
                assert (sheet.name, line.strip(), bool(ROW.fullmatch(after))) == (sheet.name, line.strip(), True)
