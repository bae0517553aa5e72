"""The sheets of questions for papers about performances and for a single work in a programme."""

from __future__ import annotations

import re
from datetime import date, datetime

import pytest

from catalogue.facts import PerformanceFacts
from tests.reference.demo_papers.papers import PERIODS, TODAY, Papers, Sheet
from tests.reference.demo_papers.test_lists import countries, days_in, heard

pytestmark = pytest.mark.django_db

SHORT = re.compile(r"(\d{1,2}) ([A-Z][a-z]{2})[a-z]? (\d{4})|([A-Z][a-z]{2})[a-z]? (\d{1,2}), (\d{4})")

ROW = re.compile(r"\d+ +(?:\d{1,2} [A-Z][a-z]|[A-Z][a-z]+ \d)")


def short_days(text: str) -> list[date]:
    """The short dates of a text, whichever English wrote them."""
    found = []
    for match in SHORT.finditer(text):
        day, month, year, american, day_too, year_too = match.groups()
        written = f"{day or day_too} {month or american} {year or year_too}"
        found.append(datetime.strptime(written, "%d %b %Y").date())
    return found


def body(sheet: Sheet) -> str:
    """Everything but the lines at the foot that date the sheet."""
    return " ".join(" ".join(line for line in sheet.lines if not line.startswith("To ")).split())


# ---- the performance history


def test_history_tells_every_public_performance_once(papers: Papers) -> None:
    for sheet in papers.of_kind("performance-history"):
        days = sorted(event.date.first for event, _one in heard(sheet) if event.date and event.date.day)

        assert len(days) > 5
        assert (sheet.name, sorted(short_days(body(sheet)))) == (sheet.name, days)


def test_history_counts_what_it_tells(papers: Papers) -> None:
    for sheet in papers.of_kind("performance-history"):
        number = len(list(heard(sheet)))
        states = len(countries(event for event, _one in heard(sheet)))

        assert f"{number} performances, " in sheet.text
        assert f", {states} countries, " in sheet.text


def test_what_is_to_come_is_said_so_in_a_history(papers: Papers) -> None:
    for sheet in papers.of_kind("performance-history"):
        coming = [event for event, _one in heard(sheet) if event.date and event.date.first > TODAY]

        assert (sheet.name, sheet.text.count("forthcoming")) == (sheet.name, len(coming))


# ---- the press sheet


def part(sheet: Sheet, head: str) -> str:
    """What stands under a head of a press sheet."""
    heads = "Biography|Performances to come|Latest premieres|Selected works|Works|Recordings|Enquiries|Inquiries"
    pieces = re.split(rf"\b({heads})\b(?: continued)?", body(sheet))
    return " ".join(text for name, text in zip(pieces[1::2], pieces[2::2], strict=True) if name == head)


def test_press_sheet_announces_what_is_to_come_and_nothing_else(papers: Papers) -> None:
    announced = 0
    for sheet in papers.of_kind("press-sheet"):
        days = days_in(part(sheet, "Performances to come"))
        announced += len(days)

        assert (sheet.name, [day for day in days if day <= TODAY]) == (sheet.name, [])
        assert days == sorted(days)
    assert announced > 5


def test_premieres_of_a_press_sheet_have_taken_place(papers: Papers) -> None:
    for sheet in papers.of_kind("press-sheet"):
        told = part(sheet, "Latest premieres")

        assert (sheet.name, [day for day in days_in(told) if day > TODAY]) == (sheet.name, [])
        assert told.count("world premiere") >= 1


def test_press_sheet_says_whom_to_ask(papers: Papers) -> None:
    for sheet in papers.of_kind("press-sheet"):
        assert sheet.catalogue.composer.email in part(sheet, "Enquiries") + part(sheet, "Inquiries")
        assert len(sheet.pages) <= 2


# ---- the return


def reported(sheet: Sheet) -> list[PerformanceFacts]:
    """The public performances given in the period, one a work."""
    first, last = PERIODS["performance-return"]
    kinds = {"concert", "stage", "broadcast", "student recital", "installation"}
    return [
        event
        for event in sheet.catalogue.performances
        for _one in event.programme
        if event.date and first <= event.date.first <= (last or TODAY)
        and event.status == "given" and event.audience == "public" and event.kind in kinds
    ]  # fmt: skip


def test_return_reports_every_public_performance_of_the_period(papers: Papers) -> None:
    for sheet in papers.of_kind("performance-return"):
        events = reported(sheet)
        told = [line for line in sheet.lines if ROW.match(line)]
        numbers = [int(line.split()[0]) for line in told]

        assert (sheet.name, numbers) == (sheet.name, list(range(1, len(events) + 1)))
        assert len(short_days(" ".join(told))) == len(events)
        assert len(re.findall(r"\d+′\d\d″", sheet.text)) == len(events)


def test_return_names_the_works_without_a_number(papers: Papers) -> None:
    for sheet in papers.of_kind("performance-return"):
        works = sheet.catalogue.works_by_id()
        without = {
            works[one.work_id].title.title
            for event in reported(sheet)
            for one in event.programme
            if not works[one.work_id].iswc
        }

        assert ("Without an ISWC in the records: " in sheet.text) == bool(without)
        assert all(title in sheet.text for title in without)


def test_return_ends_with_the_declaration_and_two_lines_to_sign(papers: Papers) -> None:
    for sheet in papers.of_kind("performance-return"):
        assert "I declare that these particulars are complete" in sheet.text
        assert re.search(r"Member or authori[sz]ed agent", sheet.pages[-1])


# ---- the programme entry


def test_entry_has_one_page_with_title_note_and_who_played_it_first(papers: Papers) -> None:
    assert len(papers.entries) > 15
    for sheet in papers.entries:
        assert sheet.work
        note = " ".join(sheet.work.programme_note.split())

        assert (sheet.name, len(sheet.pages)) == (sheet.name, 1)
        assert sheet.composer in sheet.text
        assert (sheet.name, note.split()[:3]) == (sheet.name, [word for word in note.split()[:3] if word in sheet.text])
        assert ("Commissioned by" in sheet.text or "Co-commissioned by" in sheet.text) == bool(sheet.work.commissions)


def test_entry_tells_no_empty_fact(papers: Papers) -> None:
    for sheet in papers.entries:
        assert sheet.work
        for label, known in (("Publisher", sheet.work.publisher), ("Duration", sheet.work.duration)):
            assert (sheet.name, label, any(line.startswith(label) for line in sheet.lines)) == (
                sheet.name,
                label,
                bool(known),
            )
