from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from catalogue.exchange.columns import Kind, find_heading, rows_below
from catalogue.exchange.pasted import pasted_table
from catalogue.exchange.pasted_entries import COLUMNS
from catalogue.exchange.tables import Table, TableError


def works(text: str) -> list[dict[str, str]]:
    table = pasted_table(text)
    return [row.cells for row in rows_below(table, find_heading(table, Kind.WORKS))]


@pytest.mark.parametrize(
    ("line", "cells"),
    [
        ("Slack Rope", {"title": "Slack Rope"}),
        (
            "Slack Rope (1998) for flute and piano, 12'",
            {"title": "Slack Rope", "year": "1998", "instrumentation": "flute and piano", "duration": "12'"},
        ),
        (
            "Slack Rope for flute, viola and harp (1998–2001)",
            {"title": "Slack Rope", "year": "1998–2001", "instrumentation": "flute, viola and harp"},
        ),
        (
            "1999: Bore, string quartet, 14'30\"",
            {"title": "Bore", "year": "1999", "instrumentation": "string quartet", "duration": "14'30\""},
        ),
        (
            "• Ebb, Op. 5 No. 2 – 2 percussion – 2007 – 9 minutes",
            {
                "title": "Ebb",
                "catalogue_number": "Op. 5 No. 2",
                "instrumentation": "2 percussion",
                "year": "2007",
                "duration": "9 minutes",
            },
        ),
        (
            "Requiem for Anna, for SATB choir and organ (2001, rev. 2004), ca. 25 min. Commissioned by the Pier Trust",
            {
                "title": "Requiem for Anna",
                "instrumentation": "SATB choir and organ",
                "year": "2001",
                "revised": "2004",
                "duration": "ca. 25 min.",
                "commissioned_by": "the Pier Trust",
            },
        ),
        (
            "Neap, for 2(II=picc).2.2.2 - 4.2.3.1 - timp - str, text by A. Poet, dedicated to the sea; 20'",
            {
                "title": "Neap",
                "instrumentation": "2(II=picc).2.2.2 - 4.2.3.1 - timp - str",
                "text_author": "A. Poet",
                "dedication": "the sea",
                "duration": "20'",
            },
        ),
        (
            "Tidal Study: solo violin. 2012. 7:30",
            {"title": "Tidal Study", "instrumentation": "solo violin", "year": "2012", "duration": "7:30"},
        ),
        ("Music for a While (2010)", {"title": "Music for a While", "year": "2010"}),
        ("Ebb (and flood)", {"title": "Ebb (and flood)"}),
        ("1984", {}),
        ("3. Ebb", {"title": "Ebb"}),
        ("Ebb (2001), shown on the pier", {"title": "Ebb", "year": "2001", "notes": "shown on the pier"}),
    ],
)
def test_one_line_is_one_work(line: str, cells: dict[str, str]) -> None:
    assert works(f"Overture\n{line}")[1:] == ([cells] if cells else [])


def test_no_title_is_empty() -> None:
    assert works(", , (1998)") == [{"title": ", , (1998)", "year": "1998"}]


def test_headings_of_categories_and_years_hold_for_the_works_below() -> None:
    text = "Chamber music\n2004\nEbb for flute\nFlood (2003)\n2005\nOrchestra:\nBore"

    assert works(text) == [
        {"title": "Ebb", "year": "2004", "category": "Chamber music", "instrumentation": "flute"},
        {"title": "Flood", "year": "2003", "category": "Chamber music"},
        {"title": "Bore", "year": "2005", "category": "Orchestra"},
    ]


def test_a_paragraph_is_one_work_where_paragraphs_have_several_lines() -> None:
    text = (
        "Slack Rope (2003)\nfor chamber orchestra\n2.2.2.2 - 2.2.0.0 - timp - str\nDuration: 12 minutes\n"
        "Commissioned by Pier Trust\nFirst heard in Linz\n\nEbb (2005)\nflute, viola and harp\nc. 9'\n"
    )

    assert works(text) == [
        {
            "title": "Slack Rope",
            "year": "2003",
            "instrumentation": "2.2.2.2 - 2.2.0.0 - timp - str",
            "duration": "12 minutes",
            "commissioned_by": "Pier Trust",
            "notes": "chamber orchestra\nFirst heard in Linz",
        },
        {"title": "Ebb", "year": "2005", "instrumentation": "flute, viola and harp", "duration": "c. 9'"},
    ]


def test_cells_copied_from_a_spreadsheet_are_read_as_a_table() -> None:
    assert pasted_table("Title\tForces\nEbb\tfl, pf\n") == Table(
        (("Title", "Forces"), ("Ebb", "fl, pf")), encoding="utf-8", delimiter="\t"
    )


@pytest.mark.parametrize(
    ("text", "reason"),
    [
        (" \n", "Nothing has been pasted."),
        ("1998\n1999", "No work has been found in this text."),
        ("x\n" * 20_001, "This text has more than 20,000 works; paste it in parts."),
        ("x" * 2_000_001, "This text is too long; paste it in parts."),
    ],
)
def test_text_without_works_or_beyond_all_measure_is_refused(text: str, reason: str) -> None:
    with pytest.raises(TableError) as caught:
        pasted_table(text)

    assert caught.value.reason == reason


lines = st.lists(
    st.sampled_from(
        [
            "Ebb",
            "for flute",
            "(1998)",
            "12'",
            ",",
            " – ",
            "Op. 3",
            "rev. 2004",
            "Duration: 3'",
            "\n",
            "\n\n",
            "Choir",
            "7",
        ]
    ),
    max_size=12,
)


@given(lines.map(" ".join) | st.text(max_size=80))
def test_any_text_proposes_a_table_or_is_refused(text: str) -> None:
    outcome = outcome_of(text)

    if isinstance(outcome, Table):
        assert find_heading(outcome, Kind.WORKS).unknown == {} or "\t" in text
        assert len({len(row) for row in outcome.rows}) == 1 or "\t" in text
        assert set(outcome.rows[0]) <= set(COLUMNS) or "\t" in text
    else:
        assert outcome.reason.endswith(".")


def outcome_of(text: str) -> Table | TableError:
    try:
        return pasted_table(text)
    except TableError as fault:
        return fault
