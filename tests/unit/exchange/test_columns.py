from __future__ import annotations

import tomllib
from importlib.resources import files

import pytest

from catalogue.exchange.columns import Kind, bare, exported_columns, find_heading, headers_of, rows_below
from catalogue.exchange.tables import Table, TableError

WORK_COLUMNS = (
    "composer, title, original_title, translated_title, subtitle, catalogue_number, year, revised, category, "
    "instrumentation, duration, movements, text_author, text_language, commissioned_by, dedication, publisher, iswc, "
    "ismn, status, notes"
)
PERFORMANCE_COLUMNS = (
    "composer, work, date, time, timezone, kind, venue, city, country, performers, presenter, series, extent, "
    "audience, version, status, billing, notes"
)


def test_columns_are_exported_in_their_order() -> None:
    assert ", ".join(exported_columns(Kind.WORKS, all_of_them=False)) == WORK_COLUMNS
    assert ", ".join(exported_columns(Kind.PERFORMANCES, all_of_them=False)) == PERFORMANCE_COLUMNS


def test_version_and_state_of_the_time_are_exported_where_needed() -> None:
    assert set(exported_columns(Kind.WORKS, all_of_them=True)) - set(WORK_COLUMNS.split(", ")) == {"version"}
    assert set(exported_columns(Kind.PERFORMANCES, all_of_them=True)) - set(PERFORMANCE_COLUMNS.split(", ")) == {
        "country_then"
    }


@pytest.mark.parametrize("kind", list(Kind))
def test_table_of_headers_is_whole(kind: Kind) -> None:
    table = tomllib.loads((files("catalogue.exchange") / "columns.toml").read_text(encoding="utf-8"))[kind]
    headers = [header for listed in table.values() for header in listed]

    assert [header for header in headers if header != bare(header)] == []
    assert [header for header in headers if headers.count(header) > 1] == []


@pytest.mark.parametrize(
    ("header", "column"),
    [
        ("Title", "title"),
        ("Scoring", "instrumentation"),
        ("Forces", "instrumentation"),
        ("Length", "duration"),
        ("Composed", "year"),
        ("year_completed", "year"),
        ("duration_text", "duration"),
        ("Cat. No.", "catalogue_number"),
        ("BESETZUNG", "instrumentation"),
        ("Durée", "duration"),
    ],
)
def test_headers_of_works_are_recognised(header: str, column: str) -> None:
    assert headers_of(Kind.WORKS)[bare(header)] == column


@pytest.mark.parametrize(
    ("header", "column"),
    [
        ("Title", "work"),
        ("Ensemble", "performers"),
        ("Where", "place"),
        ("claimed", "billing"),
        ("country_then", "country_then"),
        ("Premiere?", "billing"),
    ],
)
def test_headers_of_performances_are_recognised(header: str, column: str) -> None:
    assert headers_of(Kind.PERFORMANCES)[bare(header)] == column


@pytest.mark.parametrize("header", ["expected", "reckoned", "override", "source", "from_memory"])
def test_columns_of_verdicts_are_never_read(header: str) -> None:
    assert not any(bare(header) in headers_of(kind) for kind in Kind)


def test_kind_is_told_from_the_headers() -> None:
    works = Table((("Title", "Year", "Forces"),))
    performances = Table((("Title", "Date", "Venue", "Ensemble"),))

    assert (find_heading(works, None).kind, find_heading(performances, None).kind) == (Kind.WORKS, Kind.PERFORMANCES)


def test_header_may_stand_below_titles() -> None:
    table = Table((("Works of Ada Quill", ""), ("", ""), ("Title", "Opinion"), ("Slack Rope", "fine")))
    heading = find_heading(table, Kind.WORKS)

    [row] = rows_below(table, heading)

    assert (heading.row, heading.written, heading.unknown) == (3, {"title": "Title"}, {1: "Opinion"})
    assert (row.number, row.cells, row.extra) == (4, {"title": "Slack Rope"}, (("Opinion", "fine"),))


def test_a_second_column_of_one_meaning_is_kept_as_a_note() -> None:
    table = Table((("title", "work"), ("Slack Rope", "an overture", "!")))

    [row] = rows_below(table, find_heading(table, Kind.WORKS))

    assert row.cells == {"title": "Slack Rope"}
    assert row.extra == (("work", "an overture"), ("Column C", "!"))


def test_table_without_a_header_is_refused() -> None:
    with pytest.raises(TableError) as caught:
        find_heading(Table((("Slack Rope", "1998"),)), None)

    assert caught.value.reason == "No column is called “title” or “work”; the first row has to name the columns."
