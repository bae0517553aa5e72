"""Documents made from records: what only the whole way from the database to the paper can show."""

from __future__ import annotations

from dataclasses import replace
from datetime import date

import pytest

from catalogue.documents.model import Paper, plain
from catalogue.documents.registry import pages_of, render
from catalogue.making import Wish, make_document
from catalogue.models import TextSource
from tests.makers import make_performance, make_work, the_composer
from tests.record_makers import make_record

pytestmark = pytest.mark.django_db

WISH = Wish("cv-section", "en-GB", Paper.A4, date(2026, 3, 9))


def test_a_cv_fits_on_the_pages_that_it_may_have_and_says_what_it_left_out() -> None:
    work = make_work("Tides", completed="2001")
    for year in range(2001, 2021):
        for month in ("01", "05", "09"):
            make_performance(work, date=f"{year}-{month}-04", city="Linz", country="AT", status="given")

    whole, short = (make_document(the_composer(), replace(WISH, pages=pages)) for pages in (None, 1))

    assert (pages_of(whole), pages_of(short)) == (2, 1)
    assert plain(whole.left_out) == ""
    assert plain(short.left_out).startswith("Left out, the oldest first: ")


def test_a_return_is_of_last_year_where_no_period_is_named() -> None:
    work = make_work("Tides", duration="12'")
    for day in ("2024-12-31", "2025-05-04", "2026-01-01"):
        make_performance(work, date=day, city="Linz", country="AT", status="given")

    document = make_document(the_composer(), replace(WISH, kind="performance-return"))

    assert document.data is not None
    assert [plain(row[1].lines[0]) for row in document.data.groups[0].rows] == ["2025-05-04"]


def test_a_line_that_is_asked_for_is_printed_once_below_its_text_or_with_the_credits() -> None:
    work = make_work("Ebb", instrumentation="S, pf")
    make_record(TextSource, work=work, body="It goes.", credit="By kind permission of the author.")

    for kind in ("programme-entry", "front-matter"):
        wish = replace(WISH, kind=kind, works=(work.pk,))
        printed = [render(make_document(the_composer(), wish), "txt").decode()]
        TextSource.objects.update(clearance="asked")
        printed.append(render(make_document(the_composer(), wish), "txt").decode())
        TextSource.objects.update(clearance="granted")

        assert [one.count("By kind permission of the author.") for one in printed] == [1, 1]
        assert ["It goes." in one for one in printed] == [True, False]
