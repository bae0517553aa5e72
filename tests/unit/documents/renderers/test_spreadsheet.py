"""Tables for other programs: everything listed, nothing that runs."""

from __future__ import annotations

import csv
from io import BytesIO, StringIO

import pytest
import python_calamine

from catalogue.documents.model import (
    Block,
    Cell,
    Column,
    Document,
    Entry,
    Group,
    Line,
    Lines,
    Pair,
    Pairs,
    Paper,
    Paragraph,
    Section,
    Style,
    Table,
    value,
    wording,
)
from catalogue.documents.renderers.spreadsheet import render_csv, render_xlsx
from catalogue.rules.formula_guard import guarded
from tests.reference.documents.house import DOCUMENTS, works_by


def csv_rows(made: bytes) -> list[list[str]]:
    return list(csv.reader(StringIO(made.decode("utf-8-sig"))))


def xlsx_rows(made: bytes) -> list[list[str]]:
    return python_calamine.CalamineWorkbook.from_filelike(BytesIO(made)).get_sheet_by_index(0).to_python()


def test_a_list_has_a_row_for_each_work() -> None:
    head, *rows = csv_rows(render_csv(works_by("category")))

    assert head == ["Section", "Year", "Number", "Edition", "Title", "Duration", "Details"]
    assert rows[0][:6] == ["Orchestra", "2024", "no. 31", "LGE", "Slack Rope", "19′"]
    assert rows[2][:6] == ["Large ensemble", "2022", "no. 27", "MS", "حجر وماء Ḥajar wa-māʾ (Stone and Water)", "14′"]
    assert len(rows) == 8


@pytest.mark.parametrize("case", DOCUMENTS)
def test_both_formats_hold_the_same_rows_of_one_length(case: str) -> None:
    document = DOCUMENTS[case]()

    rows = csv_rows(render_csv(document))

    assert len({len(row) for row in rows}) == 1
    assert [[guarded(cell) for cell in row] for row in xlsx_rows(render_xlsx(document))] == rows


@pytest.mark.parametrize("typed", ["=1+1", "+1+1", "-1+1", "@SUM(A1)", '=HYPERLINK("https://elsewhere.example")'])
def test_no_title_is_run_as_a_formula(typed: str) -> None:
    section = Section(wording("Orchestra"), (Entry(value(typed, Style.TITLE)),))
    document = Document("k", "t", "a", "en-GB", Paper.A4, (section,))

    assert csv_rows(render_csv(document))[1][4] == f"'{typed}"
    assert xlsx_rows(render_xlsx(document))[1][4] == typed


def told_document(*blocks: Block) -> Document:
    return Document("k", "t", "a", "en-GB", Paper.A4, blocks)


def test_a_document_of_several_tables_keeps_the_rows_of_each() -> None:
    """Every kind of document is to be had as CSV and XLSX, and then says what it says on paper (a rider)."""
    needs = Table(
        (Column("a", wording("Need")), Column("b", wording("By"))), (Group((), ((cell("Chair"), cell("You")),)),)
    )
    cues = Table(
        (Column("a", wording("Cue")), Column("b", wording("Bar")), Column("c", wording("Time"))),
        (Group(wording("Tape"), ((cell("1"), cell("7"), cell("0:30")),)),),
    )
    facts = Pairs(((Pair(wording("Channels"), value("4")),),))
    document = told_document(
        Paragraph(wording("Read this")),
        Section(wording("Needs"), (needs, facts)),
        Section(wording("Cues"), (cues,)),
        Lines((Line("2021", value("Tried")),)),
    )

    assert csv_rows(render_csv(document)) == [
        ["Section", "Entry", "", ""],
        ["", "Read this", "", ""],
        ["Needs", "Need", "By", ""],
        ["Needs", "Chair", "You", ""],
        ["Needs", "Channels", "4", ""],
        ["Cues", "Cue", "Bar", "Time"],
        ["Tape", "1", "7", "0:30"],
        ["", "2021", "Tried", ""],
    ]


def test_prose_alone_is_a_row_a_paragraph() -> None:
    """A programme entry as CSV is not an empty sheet."""
    document = told_document(Paragraph(value("A note.")), Paragraph(value("=SUM(A1)")))

    assert csv_rows(render_csv(document)) == [["Section", "Entry"], ["", "A note."], ["", "'=SUM(A1)"]]


def cell(text: str) -> Cell:
    return Cell((value(text),))
