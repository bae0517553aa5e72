"""Published figures and other programs against the timing core; each row of the tables names its source."""

from __future__ import annotations

import csv
from datetime import date
from fractions import Fraction
from pathlib import Path

import pytest
from babel.dates import format_date

from catalogue.timing import (
    Duration,
    PartialDate,
    map_disagrees,
    movements_disagree,
    read_duration,
    read_tempo_map,
    timeline,
    write_date,
)

HERE = Path(__file__).parent


def rows(name: str) -> list[dict[str, str]]:
    with (HERE / name).open(encoding="utf-8", newline="") as file:
        return list(csv.DictReader(file))


SEGMENTS, DURATIONS = rows("timing_segments.csv"), rows("timing_durations.csv")


@pytest.mark.parametrize("row", SEGMENTS, ids=[row["map"] for row in SEGMENTS])
def test_a_segment_lasts_as_published(row: dict[str, str]) -> None:
    seconds = timeline(read_tempo_map(row["map"])).seconds

    assert abs(seconds - Fraction(row["seconds"])) <= Fraction(row["tolerance"])


@pytest.mark.parametrize("row", DURATIONS, ids=[row["text"] for row in DURATIONS])
def test_a_duration_reads_as_its_publisher_means_it(row: dict[str, str]) -> None:
    assert read_duration(row["text"]) == Duration(int(row["seconds"]), row["approximate"] == "true")


def test_every_row_names_its_source() -> None:
    assert [row for row in SEGMENTS + DURATIONS if not row["source"]] == []
    assert (len(SEGMENTS), len(DURATIONS)) == (11, 24)


def test_movements_are_added_before_they_are_rounded() -> None:
    """Common practice; the figures are reckoned by hand."""
    movements = [read_duration(text) for text in ("3'29\"", "4'29\"", "2'29\"")]

    assert sum(movements, Duration(0)) == Duration(10 * 60 + 27)
    assert sum(movements, Duration(0)).rounded().seconds == 10 * 60


def test_printed_timings_of_movements_agree_with_a_recording() -> None:
    """Bartók, Music for Strings, Percussion and Celesta: printed timings (from memory); a recording of the second
    movement of 7′02″ (Kerman, Listen, listening chart 25)."""
    printed = [read_duration(text) for text in ("6'30\"", "6'55\"", "6'35\"", "5'40\"")]

    assert movements_disagree(read_duration("25'40\""), printed) is None
    assert map_disagrees(printed[1], read_duration("7'02\"")) is None


@pytest.mark.parametrize("language", ["en-GB", "en-US", "de", "fr", "it", "es"])
@pytest.mark.parametrize("month", range(1, 13))
def test_dates_are_written_as_the_locale_data_have_them(language: str, month: int) -> None:
    """Unicode CLDR by way of Babel; its pattern for a long date, and the month alone for the abbreviation."""
    day, locale = PartialDate(2026, month, 16), language.replace("-", "_")
    in_locale_data = date(2026, month, 16)

    assert plain(write_date(day, language)) == plain(format_date(in_locale_data, "long", locale=locale))
    short = format_date(in_locale_data, "MMM", locale=locale)
    assert short in plain(write_date(day, language, style="short"))


def plain(text: str) -> str:
    return text.replace("\N{NO-BREAK SPACE}", " ")
