"""The performance history: what counts, what is left out, what is to come."""

from __future__ import annotations

from datetime import date

import pytest

from catalogue.documents.contents.performance_history import performance_history
from catalogue.documents.contents.selection import Chosen
from catalogue.documents.model import Document, Opening, Paper, Table, plain
from catalogue.documents.needs import DocumentNeeds
from catalogue.facts import PerformanceFacts, ProgrammedFacts
from catalogue.rules.premieres import claims_by_programmed
from catalogue.terms import Audience, Extent, PerformanceStatus, WorkStatus
from tests.fact_makers import make_catalogue, make_event, make_work

TODAY = date(2026, 3, 9)
WORKS = (make_work(1), make_work(2, "Weir"), make_work(3, "Early Piece", status=WorkStatus.JUVENILE))


def history(*events: PerformanceFacts, choice: Chosen | None = None) -> Document:
    catalogue = make_catalogue(*events, works=WORKS)
    claims = claims_by_programmed(catalogue, today=TODAY)
    return performance_history(
        catalogue, choice=choice or Chosen(), language="en-GB", paper=Paper.A4, printed_on=TODAY, claims=claims
    )


def told(document: Document) -> list[list[str]]:
    (table,) = [block for block in document.blocks if isinstance(block, Table)]
    return [
        [plain(group.label), *("; ".join(map(plain, cell.lines)) for cell in row)]
        for group in table.groups
        for row in group.rows
    ]


def test_performances_are_told_latest_first_with_what_they_were() -> None:
    document = history(
        make_event(1, "2020-05-04"),
        make_event(2, "2026-05-04", status=PerformanceStatus.CONFIRMED),
        make_event(3, "2021-01-02", ProgrammedFacts(3, 2, Extent.EXCERPT, "Finale")),
    )

    assert told(document) == [
        ["2026", "Slack Rope", "Linz, Austria", "4\xa0May\xa02026; forthcoming"],
        ["2021", "Weir, Finale", "Linz, Austria", "2\xa0Jan\xa02021"],
        ["2020", "Slack Rope", "Linz, Austria", "4\xa0May\xa02020; world premiere"],
    ]
    (opening,) = [block for block in document.blocks if isinstance(block, Opening)]
    assert plain(opening.subtitle) == "3 performances, 2 works, 1 country, 2020–2026"


def test_private_and_cancelled_ones_and_works_kept_off_lists_are_left_out() -> None:
    document = history(
        make_event(1, "2020-05-04"),
        make_event(2, "2020-05-05", audience=Audience.PRIVATE),
        make_event(3, "2020-05-06", status=PerformanceStatus.CANCELLED),
        make_event(4, "2020-05-07", ProgrammedFacts(4, 3)),
    )

    assert [row[3].partition(";")[0] for row in told(document)] == ["4\xa0May\xa02020"]


def test_a_work_that_is_named_has_its_history_even_if_it_is_on_no_list() -> None:
    document = history(make_event(4, "2020-05-07", ProgrammedFacts(4, 3)), choice=Chosen(works=frozenset((3,))))

    assert document.title == "Early Piece: Performance history"


def test_nothing_is_made_where_nothing_was_played() -> None:
    with pytest.raises(DocumentNeeds, match="No public performance is recorded"):
        history(make_event(1, "2020-05-04"), choice=Chosen(first=date(2021, 1, 1)))
