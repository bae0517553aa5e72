"""The performance return: what is reported, what is asked for, what a spreadsheet gets."""

from __future__ import annotations

from dataclasses import replace
from datetime import date, time
from typing import Any

import pytest

from catalogue.documents.contents.performance_return import Member, performance_return
from catalogue.documents.model import Document, Opening, Paper, Table, plain
from catalogue.documents.needs import DocumentNeeds
from catalogue.documents.renderers.spreadsheet import render_csv
from catalogue.facts import PerformanceFacts, ProgrammedFacts
from catalogue.rules.filing import AfterEach, FilingScope, FilingTerm
from catalogue.terms import Audience, Extent, PerformanceKind, PerformanceStatus
from catalogue.timing import Duration, PartialDate
from tests.fact_makers import make_catalogue, make_event, make_work

WORK = make_work(1, duration=Duration(600), iswc="T-999.000.001-1")
LASTED = ProgrammedFacts(1, 1, duration=Duration(1300))


def returned(*events: PerformanceFacts, language: str = "en-GB", **fields: Any) -> Document:
    return performance_return(
        make_catalogue(*events, works=(WORK,)),
        first=date(2025, 1, 1),
        last=date(2025, 12, 31),
        language=language,
        paper=Paper.A4,
        printed_on=date(2026, 3, 9),
        **fields,
    )


def rows(document: Document) -> list[list[str]]:
    (table,) = [block for block in document.blocks if isinstance(block, Table)]
    return [["; ".join(map(plain, cell.lines)) for cell in row] for row in table.groups[0].rows]


def test_only_public_performances_that_were_given_in_the_period_are_reported() -> None:
    kept = make_event(1, "2025-05-04", LASTED)
    left_off = (
        make_event(2, "2024-12-31", LASTED),
        make_event(3, "2026-01-01", LASTED),
        make_event(4, "2025-05-05", LASTED, audience=Audience.PRIVATE),
        make_event(5, "2025-05-06", LASTED, status=PerformanceStatus.CANCELLED),
        make_event(6, "2025-05-07", LASTED, kind=PerformanceKind.READING),
        make_event(7, "2025-11-07", LASTED, status=PerformanceStatus.CONFIRMED),
    )

    found = rows(returned(kept, *left_off))

    assert [(row[0], row[1], row[7]) for row in found] == [("1", "4\xa0May\xa02025", "21′40″")]


@pytest.mark.parametrize(("language", "told"), [("en-GB", "19:30"), ("de", "19:30"), ("en-US", "7:30\xa0p.m.")])
def test_start_is_told_as_the_language_has_it_and_to_a_spreadsheet_as_iso_8601(language: str, told: str) -> None:
    document = returned(make_event(1, "2025-05-04", LASTED, time=time(19, 30)), language=language)

    assert rows(document)[0][1].endswith(f"; {told}")
    assert "19:30" in render_csv(document).decode()


def test_duration_of_the_score_stands_for_one_that_nobody_took_of_the_whole_work() -> None:
    document = returned(make_event(1, "2025-05-04", ProgrammedFacts(1, 1)))

    assert rows(document)[0][7] == "10′00″"
    assert "that of the score" in str(document.blocks)


@pytest.mark.parametrize(
    ("event", "lack"),
    [
        (make_event(1, PartialDate(2025, 5), LASTED), "on May 2025 (the day)"),
        (make_event(1, "2025-05-04", LASTED, city=""), "on 4\xa0May\xa02025 (the place)"),
        (make_event(1, "2025-05-04", ProgrammedFacts(1, 1, Extent.EXCERPT)), "(the duration performed)"),
    ],
)
def test_what_a_society_must_know_is_asked_for(event: PerformanceFacts, lack: str) -> None:
    with pytest.raises(DocumentNeeds) as refused:
        returned(event)

    assert lack.replace("\xa0", " ") in refused.value.reason.replace("\xa0", " ")


def test_no_return_is_made_of_a_period_without_performances() -> None:
    with pytest.raises(DocumentNeeds, match="No public performance took place in this period"):
        returned()


def test_a_spreadsheet_has_a_column_a_fact_and_plain_dates() -> None:
    event = make_event(1, "2025-05-04", LASTED, presenter="Wharf Concerts")

    told = render_csv(returned(event)).decode("utf-8-sig").splitlines()

    assert told[0].startswith("No.,Date,Start,Hall,City,Country,Event")
    assert told[1] == (
        "1,2025-05-04,,,Linz,AT,,,Wharf Concerts,,Slack Rope,complete,T-999.000.001-1,Ada Quill,,1300,live"
    )


def test_society_number_and_day_are_told_where_they_are_known() -> None:
    told = str(returned(make_event(1, "2025-05-04", LASTED), member=Member("Two Banks", "Q-1", date(2026, 6, 30))))

    assert all(text in told for text in ("Two Banks", "Q-1", "to reach the society by"))
    assert "Society" not in str(returned(make_event(1, "2025-05-04", LASTED)).blocks[1])


def test_titles_stand_in_capitals_in_their_own_script() -> None:
    greek = replace(WORK, title=replace(WORK.title, title="Meli", original="Μέλη", original_language="el"))
    catalogue = make_catalogue(make_event(1, "2025-05-04", LASTED), works=(greek,))

    document = performance_return(
        catalogue,
        first=date(2025, 1, 1),
        last=date(2025, 12, 31),
        language="en-GB",
        paper=Paper.A4,
        printed_on=date(2026, 3, 9),
    )

    assert rows(document)[0][5] == "ΜΕΛΗ; complete"


# ---- by when it has to be there

TERM = FilingTerm("Quay Society", AfterEach(months=12), source="handbook", read_on=date(2026, 1, 5))
ABOUT_FINLAND = replace(TERM, rule=AfterEach(days=30), scope=FilingScope.INSIDE, country="FI")


@pytest.mark.parametrize(
    ("member", "told"),
    [
        (Member(), "prepared 9 March 2026"),
        (Member(due=date(2026, 4, 1), terms=(TERM,)), "prepared 9 March 2026; to reach the society by 1 April 2026"),
        (
            Member("Quay Society", terms=(TERM, ABOUT_FINLAND)),
            "prepared 9 March 2026; to reach the society by 4 May 2026 (as its rules stood on 5 January 2026)",
        ),
    ],
)
def test_day_is_the_earliest_that_the_deadlines_set_unless_one_is_named(member: Member, told: str) -> None:
    events = (make_event(1, "2025-05-04", LASTED), make_event(2, "2025-11-07", LASTED))

    document = returned(*events, member=member)

    assert isinstance(document.blocks[0], Opening)
    assert plain(document.blocks[0].aside).replace("\xa0", " ") == told
