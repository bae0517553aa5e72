"""/c/<composer>/works/export/<suffix>/ and /c/<composer>/performances/export/<suffix>/"""

from __future__ import annotations

import csv
from io import StringIO
from typing import Any

import pytest
from django.test import Client

from catalogue.exchange.importing import Wish, import_table
from catalogue.exchange.outcomes import Outcome
from catalogue.exchange.tables import read_table
from catalogue.models import Composer
from tests.makers import NOW, make_performance, make_venue, make_work
from tests.web.pages import Page

pytestmark = pytest.mark.signed_in_as("viewer")

WORKS = "/c/ilka-marovand/works/"
PERFORMANCES = "/c/ilka-marovand/performances/"


def rows(response: Any) -> list[list[str]]:
    return list(csv.reader(StringIO(response.content.decode("utf-8-sig"))))


def test_works_that_are_seen_are_taken_along_in_their_order(browser: Client, composer: Composer) -> None:
    for title, year in (("Bore", "2001"), ("Ebb", "1998"), ("Flood", "2004")):
        make_work(title, composer=composer, completed=year, category="chamber" if title != "Ebb" else "solo")

    response = browser.get(f"{WORKS}export/csv/?category=chamber&sort=-year")

    assert response.headers["Content-Disposition"] == 'attachment; filename="ilka-marovand-works.csv"'
    assert [row[0] for row in rows(response)] == ["Work", "Flood", "Bore"]


def test_works_come_with_the_columns_that_are_shown(browser: Client, composer: Composer) -> None:
    make_work("Ebb", composer=composer, completed="1998", instrumentation_typed="vn, pf", publisher="Quillbank")

    response = browser.get(f"{WORKS}export/csv/?column=forces&column=publisher")

    assert rows(response) == [["Work", "Instrumentation", "Publisher"], ["Ebb", "vn, pf", "Quillbank"]]


def test_all_columns_come_as_an_import_reads_them(browser: Client, composer: Composer) -> None:
    make_work("Ebb", composer=composer, completed="1998")

    response = browser.get(f"{WORKS}export/csv/?column=publisher&columns=all")

    assert response.headers["Content-Disposition"] == 'attachment; filename="ilka-marovand-works-all.csv"'
    assert rows(response)[0][:4] == ["composer", "title", "original_title", "translated_title"]


def test_performances_come_with_the_columns_that_are_shown(browser: Client, composer: Composer) -> None:
    ebb, bore = make_work("Ebb", composer=composer), make_work("Bore", composer=composer)
    make_performance(ebb, bore, date="2025-05-16", city="Lyon", country="FR")
    make_performance(ebb, date="2025-06", city="Oslo", country="NO")

    response = browser.get(f"{PERFORMANCES}export/csv/?column=date&column=place&column=first&sort=date")

    assert rows(response) == [
        ["Date", "Works", "Place", "By these records"],
        ["2025-05-16", "Ebb; Bore", "Lyon, France", "world premiere"],
        ["2025-06", "Ebb", "Oslo, Norway", "first performance in these records (Norway)"],
    ]


def test_xlsx_holds_the_same(browser: Client, composer: Composer) -> None:
    make_work("=Ebb", composer=composer)

    table = read_table(browser.get(f"{WORKS}export/xlsx/").content)

    assert [row[0] for row in table.rows] == ["Work", "=Ebb"]


def test_performances_that_are_seen_are_taken_along_a_work_a_row(browser: Client, composer: Composer) -> None:
    ebb, bore = make_work("Ebb", composer=composer), make_work("Bore", composer=composer)
    make_performance(ebb, bore, date="2025-05-16", city="Lyon", country="FR")
    make_performance(ebb, date="2024-05-16", city="Oslo", country="NO")

    found = rows(browser.get(f"{PERFORMANCES}export/csv/?country=FR&columns=all"))

    place = {name: number for number, name in enumerate(found[0])}
    assert [(row[place["work"]], row[place["city"]]) for row in found[1:]] == [("Ebb", "Lyon"), ("Bore", "Lyon")]


def test_lists_link_to_what_is_seen(browser: Client, composer: Composer) -> None:
    make_work("Ebb", composer=composer)
    page = Page(browser.get(f"{WORKS}?q=ebb&page=1"))

    assert page.values("//a[starts-with(., 'XLSX') or starts-with(., 'CSV')]/@href") == [
        f"{WORKS}export/xlsx/?q=ebb",
        f"{WORKS}export/csv/?q=ebb",
        f"{WORKS}export/xlsx/?q=ebb&columns=all",
        f"{WORKS}export/csv/?q=ebb&columns=all",
    ]


def test_other_kinds_of_file_are_not_there(browser: Client, composer: Composer) -> None:
    assert browser.get(f"{WORKS}export/exe/").status_code == 404


@pytest.mark.parametrize("suffix", ["csv", "xlsx"])
@pytest.mark.parametrize("address", [WORKS, PERFORMANCES])
def test_what_a_page_gives_with_every_column_is_imported_again_unchanged(
    browser: Client, composer: Composer, address: str, suffix: str
) -> None:
    ebb = make_work(
        "=Ébb; or, “Tide”", composer=composer, completed="ca. 1998", duration="c. 14'30", movements=("I; slow", "II"),
        instrumentation="2fl(II=picc).hp – str", publisher="Quillbank", commissioned_by=("A; B",), notes="two\nlines",
    )  # fmt: skip
    make_work("=Ébb; or, “Tide”", composer=composer, version_of=ebb, version_label="for two", completed="2001")
    hall = make_venue("Zaal Noord", composer=composer, city="Gent", country="BE", zone="Europe/Brussels")
    make_performance(
        ebb, date="2025-05-16", venue=hall, performers=("Kestrel; Ensemble: “Nord”", "Ida Holmgaard"), series="A; B"
    )
    make_performance(ebb, date="2025-06", city="Évora", country="PT", event_title="Night")

    content = browser.get(f"{address}export/{suffix}/?columns=all").content
    report = import_table(read_table(content), Wish(composer, NOW))

    assert report.errors == ()
    assert {one.outcome for one in report.done} == {Outcome.SAME}
    assert len(report.done) == 2
