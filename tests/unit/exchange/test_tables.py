from __future__ import annotations

import tracemalloc
from datetime import datetime

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from catalogue.exchange.tables import MOST_BYTES, Table, TableError, read_table
from tests.unit.exchange.spreadsheets import (
    make_csv,
    make_ods,
    make_xlsx,
    make_zip,
    make_zip_with_link,
    ods_cell,
    with_cell,
    with_members,
)

ROWS = (("title", "city"), ("Ebbe & Flut", "Łódź"), ("Étude", "Genève; centre"))


WIDE = ods_cell("x", " table:number-columns-repeated='16384'")
EMPTY_ROWS = (
    '<table:table-row table:number-rows-repeated="1048000">'
    '<table:table-cell table:number-columns-repeated="16384"/></table:table-row>'
)


def written(delimiter: str, rows: tuple[tuple[str, ...], ...] = ROWS) -> str:
    return "\r\n".join(delimiter.join(f'"{cell}"' for cell in row) for row in rows)


@pytest.mark.parametrize("delimiter", [",", ";", "\t", "|"])
@pytest.mark.parametrize("encoding", ["utf-8", "utf-8-sig", "utf-16"])
def test_csv_is_read_in_any_usual_dress(delimiter: str, encoding: str) -> None:
    assert read_table(written(delimiter).encode(encoding)).rows == ROWS


def test_csv_of_windows_is_told_by_its_letters() -> None:
    table = read_table("title;city\nÉtude;Genève".encode("cp1252"))

    assert table == Table((("title", "city"), ("Étude", "Genève")), encoding="cp1252", delimiter=";")


def test_csv_of_an_old_mac_is_told_by_its_letters() -> None:
    table = read_table("title;city\nÉtude für zwei;Genève".encode("mac-roman"))

    assert (table.rows[1], table.encoding) == (("Étude für zwei", "Genève"), "mac-roman")


def test_first_line_may_name_the_delimiter() -> None:
    assert read_table(b"sep=|\ntitle|city\nEbbe, Flut|Linz").rows == (("title", "city"), ("Ebbe, Flut", "Linz"))


def test_commas_in_texts_do_not_hide_the_delimiter() -> None:
    rows = (("title", "forces"), ("Ebb, flood", "fl, ob, cl"), ("Bore", "vn, va, vc"))

    assert read_table("\n".join(";".join(row) for row in rows).encode()).rows == rows


def test_apostrophe_before_a_formula_is_taken_away() -> None:
    assert read_table(b"title\n'=1+1\n'tis").rows == (("title",), ("=1+1",), ("'tis",))


def test_cells_of_xlsx_are_written_as_people_type_them() -> None:
    content = make_xlsx({"S": [["title", "year", "half", "yes", "day"], ["A", 1998, 1.5, True, datetime(2026, 3, 12)]]})

    assert read_table(content).rows[1] == ("A", "1998", "1.5", "yes", "2026-03-12")


def test_moment_of_xlsx_keeps_its_clock_time() -> None:
    content = make_xlsx({"S": [["date"], [datetime(2026, 3, 12, 19, 30)]]})

    assert read_table(content).rows[1] == ("2026-03-12 19:30",)


def test_sheet_that_is_asked_for_comes_before_the_first() -> None:
    content = make_xlsx({"Empty": [], "Cover": [["x"]], "Performances": [["work"]]})

    assert read_table(content, sheet_called=["performances"]).rows == (("work",),)
    assert read_table(content).rows == (("x",),)


def test_rows_keep_the_numbers_that_the_program_shows() -> None:
    content = make_xlsx({"S": [[], [], ["title"], ["Ebb"]]})

    assert read_table(content).rows == (("",), ("",), ("title",), ("Ebb",))


def test_ods_is_read() -> None:
    assert read_table(make_ods(ROWS)).rows == ROWS


@pytest.mark.parametrize(
    ("content", "reason"),
    [
        (b"", "This file is empty."),
        (b" \n ", "This file is empty."),
        (b"\x89PNG\r\n\x1a\n\0\0\0", "This is no spreadsheet; CSV, XLSX and ODS are read."),
        (
            b"\xd0\xcf\x11\xe0\xa1\xb1\x1a\xe1",
            "This is a spreadsheet of an old kind or with a password; save it as XLSX, ODS or CSV.",
        ),
        (make_zip({"readme.txt": b"hello"}), "This is no spreadsheet; CSV, XLSX and ODS are read."),
        (make_zip({"a.zip": make_zip({"b": b"c"})}), "This file holds another archive and is not read."),
        (make_zip_with_link(), "This file holds a link to another file and is not read."),
        (make_zip({f"{number}.xml": b"" for number in range(201)}), "This file holds 201 parts; at most 200 are read."),
        (make_zip({"content.xml": b"0" * 3_000_000}), "A part of this file unpacks to more than 1 MB."),
        (b"PK\x03\x04 and nothing else", "This file is damaged and cannot be unpacked."),
        (make_xlsx({"S": []}), "This spreadsheet is empty."),
        (make_xlsx({"S": [["a"]]})[:-40], "This file is damaged and cannot be unpacked."),
        (b"x" * (MOST_BYTES + 1), "This file is larger than 20 MB."),
        (b'title\nEbb\n"open\nBore\n', "Line 3 opens a quotation mark that is never closed."),
        (b"\xef\xbb\xbftitle\ncaf\xe9", "This file says that it is UTF-8 but is not; save it again as UTF-8."),
        (b"a\n" * 20_021, "This table has more than 20,000 rows; divide it."),
        (b"a," * 200 + b"a\nx", "Row 1 has more than 200 columns."),
        (with_cell(make_xlsx({"S": [["a"]]}), "A1048576"), "This table has more than 20,000 rows; divide it."),
        (with_cell(make_xlsx({"S": [["a"]]}), "XFD3"), "Row 3 has more than 200 columns."),
        (
            make_ods(
                [["a"]], f'<table:table-row table:number-rows-repeated="1048000">{ods_cell("x")}</table:table-row>'
            ),
            "This table has more than 20,000 rows; divide it.",
        ),
        (
            make_ods([["a"]], f"<table:table-row>{WIDE}</table:table-row>"),
            "Row 2 has more than 200 columns.",
        ),
        (
            with_members(make_ods([["a"]]), {"content.xml": b'<!DOCTYPE a [<!ENTITY b "c">]><a>&b;</a>'}),
            "This spreadsheet is damaged and cannot be read.",
        ),
        (
            with_members(make_ods([["a"]]), {"content.xml": b"<a><b></a>"}),
            "This spreadsheet is damaged and cannot be read.",
        ),
    ],
    ids=lambda value: value if isinstance(value, str) else "",
)
def test_what_is_no_table_or_beyond_all_measure_is_refused(content: bytes, reason: str) -> None:
    with pytest.raises(TableError) as caught:
        read_table(content)

    assert caught.value.reason == reason


def test_a_cell_in_the_last_corner_is_refused_before_it_fills_the_memory() -> None:
    content = with_cell(make_xlsx({"S": [["a"]]}), "XFD1048576")

    tracemalloc.start()
    with pytest.raises(TableError):
        read_table(content)
    most = tracemalloc.get_traced_memory()[1]
    tracemalloc.stop()

    assert most < 20_000_000


def test_empty_cells_with_a_style_far_out_are_no_obstacle() -> None:
    assert read_table(make_ods([["title"]], EMPTY_ROWS)).rows == (("title",),)


@settings(max_examples=60, deadline=None)
@given(st.binary(max_size=200), st.integers(0, 4000))
def test_damaged_spreadsheets_are_refused_with_a_reason(damage: bytes, place: int) -> None:
    content = make_xlsx({"S": [["title", "year"], ["Ebb", 1998]]})
    damaged = content[:place] + damage + content[place + len(damage) :]

    outcome = outcome_of(damaged)

    assert isinstance(outcome, Table) or outcome.reason.endswith(".")


def outcome_of(content: bytes) -> Table | TableError:
    try:
        return read_table(content)
    except TableError as fault:
        return fault


cells = st.text(st.characters(exclude_categories=["Cs", "Cc"]) | st.sampled_from("\n\t=+-@'\";,"), max_size=20)


@given(st.lists(st.tuples(cells, cells, cells), min_size=2, max_size=5))
def test_csv_with_quoted_cells_is_read_cell_by_cell(rows: list[tuple[str, str, str]]) -> None:
    rows = [("title", "a", "b"), *rows]

    table = read_table(make_csv(*rows))

    assert [tuple(cell.lstrip("'") for cell in row) for row in table.rows] == [
        tuple(cell.lstrip("'") for cell in row) for row in rows
    ]


def test_a_cell_that_is_too_long_is_said_to_be_so() -> None:
    """An error names its place and what is wrong there."""
    with pytest.raises(TableError) as caught:
        read_table(b"title,notes\nEbb," + b"n" * 131_073 + b"\n")

    assert (caught.value.reason, caught.value.row) == ("Line 2 has a cell of more than 131,072 characters.", 2)
