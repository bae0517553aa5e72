"""/c/<composer>/records/<kind>/: what a list of records can be asked, its order, and its download."""

from __future__ import annotations

import csv
from decimal import Decimal
from io import StringIO
from typing import Any

import pytest
from django.test import Client

from catalogue.models import (
    Award,
    Composer,
    Contributor,
    Work,
)
from tests.makers import make_organisation, make_person, make_work
from tests.record_makers import make_record
from tests.web.pages import Page

ROOT = "/c/ilka-marovand/records/"


@pytest.fixture
def work(composer: Composer) -> Work:
    return make_work("Ash Ferry", composer=composer)


def test_list_is_searched_without_regard_to_case_and_accents(browser: Client, work: Work) -> None:
    make_record(Award, work=work, name="Prix Étoile")
    make_record(Award, work=work, name="Harbour Prize")

    assert Page(browser.get(f"{ROOT}awards/?q=etoile")).texts("//table/tbody//th") == ["Prix Étoile, second prize"]


def contributors(work: Work) -> tuple[Contributor, ...]:
    """Store three of a work: a librettist, a publisher of the catalogue, and one whose name begins with an accent."""
    publisher = make_organisation("Harbour Editions", composer=work.composer)
    rows: tuple[dict[str, Any], ...] = (
        {"name": "Odd Vintervik", "role": "librettist", "share": Decimal("33.333")},
        {"organisation": publisher, "role": "publisher", "ipi": "00000000199"},
        {"name": "Émile Tarnow", "role": "arranger", "notes": "=1+1"},
    )
    return tuple(Contributor.objects.create(work=work, **row) for row in rows)


@pytest.mark.parametrize(
    ("asked", "found"),
    [
        ("q=editions", {1}),  # the name of the organisation of the catalogue
        ("q=ash+FERRY+emile", {2}),  # the title of the work and the name, of which one has an accent
        ("q=00000000199", {1}),
        ("q=librettist", {0}),
        ("role=publisher", {1}),
        ("role=publisher&q=emile", set()),
        ("role=tailor", {0, 1, 2}),
    ],
)
def test_list_is_asked_for_words_of_any_field_and_for_what_is_chosen(
    browser: Client, work: Work, asked: str, found: set[int]
) -> None:
    stored = contributors(work)

    page = Page(browser.get(f"{ROOT}contributors/?{asked}"))

    listed = page.values("//table//th//a[contains(@href, '/contributors/')]/@href")
    assert {href for href in listed if "sort" not in href} == {f"{ROOT}contributors/{stored[i].pk}/" for i in found}


def test_list_is_ordered_by_the_names_that_it_shows(browser: Client, work: Work) -> None:
    contributors(work)

    page = Page(browser.get(f"{ROOT}contributors/?sort=row"))

    assert page.texts("//tbody//th") == ["Émile Tarnow", "Harbour Editions", "Odd Vintervik"]


def test_names_stand_in_the_order_of_their_letters_whatever_their_marks(browser: Client, composer: Composer) -> None:
    for name in ("Zora Lund", "Émile Tarnow", "Ada Brink"):
        make_person(name, composer=composer)

    page = Page(browser.get(f"{ROOT}people/?sort=row"))

    assert page.texts("//tbody//th") == ["Ada Brink", "Émile Tarnow", "Zora Lund"]


def test_list_is_taken_along_as_it_is_shown(browser: Client, work: Work) -> None:
    contributors(work)

    response = browser.get(f"{ROOT}contributors/export/csv/?role=librettist&column=share&column=ipi")

    assert response.content.decode("utf-8-sig").splitlines() == [
        "Name,Share in per cent,IPI name number", "Odd Vintervik,33.333,",
    ]  # fmt: skip


def test_list_is_taken_along_with_every_field_and_no_formula(browser: Client, work: Work) -> None:
    (_first, _second, third) = contributors(work)

    response = browser.get(f"{ROOT}contributors/export/csv/?role=arranger&columns=all")

    header, row = csv.reader(StringIO(response.content.decode("utf-8-sig")))
    assert dict(zip(header, row, strict=True)) == {
        "Name": "Émile Tarnow", "What they did": "Arranger", "Work": "Ash Ferry", "Share in per cent": "",
        "Name as billed": "Émile Tarnow", "In more detail": "", "Person of the catalogue": "",
        "Organisation of the catalogue": "", "Collecting society": "", "IPI name number": "", "ISNI": "",
        "Place in the list": "", "Notes for yourself": "'=1+1", "Lasting identifier": str(third.uid),
    }  # fmt: skip


def test_view_of_records_is_kept(browser: Client, work: Work) -> None:
    contributors(work)
    query = "column=ipi&role=publisher"

    kept = browser.post("/c/ilka-marovand/views/contributors/keep/", {"query": query, "name": "Publishers"})
    page = Page(browser.get(f"{ROOT}contributors/"))

    assert kept["Location"] == f"{ROOT}contributors/?{query}"
    assert page.values("//nav[@aria-label='Kept views']/a/@href") == [f"{ROOT}contributors/?{query}"]
