"""What a CV takes in, and how it says that the selection is part of more."""

from __future__ import annotations

from datetime import date

from catalogue.documents.contents.selection import Chosen
from catalogue.documents.model import Document, Section, plain
from tests.reference.documents.house import cv


def heads(document: Document) -> list[tuple[str, str]]:
    return [(plain(section.head), plain(section.aside)) for section in document.blocks if isinstance(section, Section)]


def test_a_range_of_dates_is_said_to_be_part_of_the_whole() -> None:
    assert heads(cv(Chosen(date(2020, 1, 1), date(2022, 12, 31)))) == [
        ("Selected works", "2 of 8 works"),
        ("Commissions", "funder named where there is one"),
        ("Selected performances", "5 of 9 performances in 4 countries"),
        ("Recordings", ""),
    ]


def test_named_works_alone_are_taken_in() -> None:
    document = cv(Chosen(works=frozenset({3})))

    assert heads(document) == [
        ("Selected works", "1 of 8 works"),
        ("Commissions", ""),
        ("Selected performances", "3 of 9 performances in 4 countries"),
        ("Recordings", ""),
    ]


def test_a_section_without_lines_is_left_out() -> None:
    assert heads(cv(Chosen(date(1980, 1, 1), date(1980, 12, 31)))) == []


def test_cancelled_events_and_withdrawn_works_are_nowhere() -> None:
    document = cv()
    words = " ".join(
        plain(line.text)
        for section in document.blocks
        if isinstance(section, Section)
        for block in section.blocks
        for line in getattr(block, "lines", ())
    )

    assert "Wehr Quartet" in words
    assert "Cancelled" not in words
    assert "Withdrawn" not in words


def test_american_lines_write_minutes_out() -> None:
    works = cv(language="en-US").blocks[1]
    assert isinstance(works, Section)

    assert "19 minutes" in plain(works.blocks[0].lines[0].text).replace("\N{NO-BREAK SPACE}", " ")  # type: ignore[union-attr]


def test_what_does_not_fit_is_told_to_whoever_asked_and_not_printed() -> None:
    short = cv(Chosen(most=2))

    assert plain(short.left_out) == (
        "Left out, the oldest first: 6 under Selected works, 1 under Commissions and 5 under Selected performances."
    )
    assert plain(cv().left_out) == ""
    assert max(len(lines.lines) for section in short.blocks[1:] for lines in section.blocks) == 2
