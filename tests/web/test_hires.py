from __future__ import annotations

from datetime import date
from typing import Any

import pytest
from django.test import Client

from catalogue.actions.file_links import open_link
from catalogue.gathering.deadlines import gather_deadlines
from catalogue.models import (
    Composer,
    Edition,
    FileLink,
    Hire,
    HireTerms,
    MaterialSet,
    PerformanceCredit,
    StoredFile,
    Work,
)
from catalogue.terms.hires import LinkPurpose
from tests.makers import NOW, make_performance, make_work
from tests.record_makers import make_record
from tests.web.pages import Page

pytestmark = pytest.mark.django_db

RECORDS = "/c/ilka-marovand/records/hires/"
HIRES = "/c/ilka-marovand/hires/"


@pytest.fixture
def work(composer: Composer) -> Work:
    return make_work("Slack Rope", composer=composer, instrumentation="1.0.0.0 – str")


@pytest.fixture
def lent(work: Work) -> MaterialSet:
    made: MaterialSet = make_record(MaterialSet, work=work)
    return made


def typed(work: Work, **columns: Any) -> dict[str, Any]:
    usual = {"work": work.pk, "purpose": "hire", "name": "Two Bells Orchestra", "uid": ""}
    return {**usual, **columns}


def test_parts_go_out_and_come_back(browser: Client, work: Work, lent: MaterialSet) -> None:
    terms = make_record(HireTerms, work=work, part_charge="35.00")
    evening = make_performance(work, date="2026-05-16")
    columns = typed(
        work, material_set=lent.pk, terms=terms.pk, performances=[evening.pk], out_on="2 January 2026", fee=90
    )

    made = browser.post(f"{RECORDS}new/?work={work.pk}", columns)
    hire = Hire.objects.get()

    assert (made.status_code, hire.number, hire.due_on) == (302, "2026-001", date(2026, 5, 30))
    page = Page(browser.get(f"{RECORDS}{hire.pk}/"))
    assert page.texts("//section[@id='list']//tbody/tr/th")[2:4] == [
        "Violin I 8 players, 4 desks",
        "Violin II 6 players, 3 desks",
    ]

    packing = Page(browser.get(f"{HIRES}{hire.pk}/sent/")).tree.forms[-1].form_values()
    browser.post(f"{HIRES}{hire.pk}/sent/", dict(packing) | {"carrier": "traced post", "thing-0": "Errata list"})
    returning = dict(Page(browser.get(f"{HIRES}{hire.pk}/back/")).tree.forms[-1].form_values())
    flute, violin = hire.items.all()[1].pk, hire.items.all()[2].pk
    returning |= {"back_on": "12 January 2026", f"copies-{violin}": "3", f"condition-{violin}": "missing"}
    returning |= {f"condition-{flute}": "damaged", f"charge-{flute}": "18,50"}
    browser.post(f"{HIRES}{hire.pk}/back/", returning)

    page = Page(browser.get(f"{RECORDS}{hire.pk}/"))
    assert "Back; one copy is missing." in page.texts("//p[@class='wrong']")
    assert page.texts("//section[@id='account']//li") == [
        "Hire fee €90.00",
        "Damaged, 01 Flute €18.50",
        "Missing, 02 Violin I €35.00",
        "Total €143.50",
    ]
    assert hire.items.last().name == "Errata list"


def test_hire_for_a_performance_begins_with_its_ensemble_and_the_only_terms(browser: Client, work: Work) -> None:
    terms = make_record(HireTerms, work=work)
    evening = make_performance(work, performers=("Ida Holmgaard",))
    PerformanceCredit.objects.create(performance=evening, name="Two Bells Orchestra", role="ensemble", order=2)

    page = Page(browser.get(f"{RECORDS}new/?work={work.pk}&performance={evening.pk}"))

    assert (page.field("name"), page.field("terms")) == ("Two Bells Orchestra", str(terms.pk))
    assert page.values("//input[@name='performances'][@checked]/@value") == [str(evening.pk)]


def test_set_that_is_elsewhere_is_told_before_anything_is_saved(browser: Client, work: Work, lent: MaterialSet) -> None:
    make_record(Hire, work=work, material_set=lent, out_on=date(2026, 1, 2), due_on=date(2026, 4, 2))
    columns = typed(work, material_set=lent.pk, name="Harbour Band", out_on="2026-02-01", due_on="2026-02-20")

    page = Page(browser.post(f"{RECORDS}new/", columns))

    assert page.wrong == [
        "Set 1 is with Two Bells Orchestra from 2 January 2026 to 1 April 2026; choose another set or other days."
    ]
    assert Hire.objects.count() == 1


def test_set_shows_who_had_it(browser: Client, work: Work, lent: MaterialSet) -> None:
    make_record(Hire, work=work, material_set=lent, out_on=date(2026, 1, 2), due_on=date(2026, 4, 2))

    page = Page(browser.get(f"/c/ilka-marovand/records/sets/{lent.pk}/"))

    assert page.texts("//section[@id='loans']//li") == ["Two Bells Orchestra now 2 January 2026 – 1 April 2026"]


def test_list_that_cannot_be_made_up_says_what_is_missing(browser: Client, work: Work) -> None:
    hire = make_record(Hire, work=work)

    page = Page(browser.post(f"{HIRES}{hire.pk}/list/", follow=True))

    assert "The number of violin 1 players is open: state the string strengths." in page.text("//main")


@pytest.mark.parametrize(("fee", "kept"), [("620,5", "620.50"), ("620.5", "620.50"), ("1,250", None)])
def test_amount_is_read_with_point_or_comma_and_never_guessed(
    browser: Client, work: Work, fee: str, kept: str | None
) -> None:
    page = browser.post(f"{RECORDS}new/", typed(work, fee=fee, currency="EUR"))

    told = [str(hire.fee) for hire in Hire.objects.all()]
    assert told == ([kept] if kept else [])
    assert kept or "without marks between its thousands" in Page(page).text("//*[@id='id_fee_error']")


def test_overtaken_count_is_kept_on_the_page(browser: Client, work: Work, lent: MaterialSet) -> None:
    hire = make_record(Hire, work=work, material_set=lent)
    Hire.objects.filter(pk=hire.pk).update(saves=4)

    page = Page(browser.post(f"{HIRES}{hire.pk}/received/", {"saves": "3"}))

    assert "since you opened it" in page.text("//div[@role='alert']")


def test_new_edition_lists_who_has_the_old_one_with_its_errata(browser: Client, work: Work) -> None:
    old = make_record(Edition, work=work, kind="parts", errata="Horn 2, bar 37: F, not E.", errata_on="2026-02-01")
    new = make_record(Edition, work=work, kind="parts", version="2", replaces=old)
    held, sold = (make_record(MaterialSet, work=work, edition=old) for _each in range(2))
    make_record(Hire, work=work, material_set=held, out_on=date(2026, 1, 2), email="library@example.org")
    make_record(Hire, work=work, material_set=sold, purpose="sale", name="Harbour Band", out_on=date(2026, 1, 3))
    make_record(Hire, work=work, material_set=held, out_on=date(2025, 1, 2), back_on=date(2025, 3, 1))
    make_record(Hire, work=work, material_set=held, out_on=date(2026, 4, 2), name="Quay Strings")
    parts = make_record(StoredFile, work=work, kind="parts")
    StoredFile.objects.filter(pk=parts.pk).update(work=work, edition=old)
    sent: dict[str, Any] = {"composer": work.composer, "recipient": "Petra Wynmoor", "files": [parts], "days": 14}
    open_link(**sent, purpose=LinkPurpose.PARTS, now=NOW)
    shut, _token = open_link(**sent, purpose=LinkPurpose.PARTS, now=NOW)
    FileLink.objects.filter(pk=shut.pk).update(withdrawn_at=NOW)

    page = Page(browser.get(f"/c/ilka-marovand/records/editions/{new.pk}/"))

    assert page.texts("//section[h2='Who has it' or .//h2='Who has it']//li") == []
    assert page.texts("//section[.//h2='Who has the old one']//li") == [
        "Two Bells Orchestra set 1, since 2 January 2026 library@example.org",
        "Harbour Band set 2, sold, since 3 January 2026",
        "Quay Strings set 1, from 2 April 2026",
        "Petra Wynmoor files, by a link, since 15 January 2026",
        "Horn 2, bar 37: F, not E.",
    ]


def test_today_and_the_calendar_tell_what_is_due_back(browser: Client, work: Work, lent: MaterialSet) -> None:
    make_record(Hire, work=work, material_set=lent, out_on=date(2026, 1, 2), due_on=date(2026, 3, 2))
    make_record(Hire, work=work, out_on=date(2026, 1, 2), due_on=date(2026, 3, 20), name="Harbour Band")
    make_record(Hire, work=work, out_on=date(2026, 1, 2), due_on=date(2026, 3, 20), back_on=date(2026, 2, 1))

    page = Page(browser.get("/c/ilka-marovand/"))

    rows = [row.replace("\N{NO-BREAK SPACE}", " ") for row in page.texts("//section[@id='due-back']//li")]
    assert rows == [
        "2 Mar overdue by 7 days Two Bells Orchestra Slack Rope, set 1 · due 2 March 2026",
        "20 Mar in 11 days Harbour Band Slack Rope · due 20 March 2026",
    ]
    assert [(one.organiser, one.title, one.day) for one in gather_deadlines(work.composer)] == [
        ("Two Bells Orchestra", "Slack Rope, set 1", date(2026, 3, 2)),
        ("Harbour Band", "Slack Rope", date(2026, 3, 20)),
    ]


def test_a_return_that_is_whole_is_one_tick_and_exceptions_stay(browser: Client, work: Work, lent: MaterialSet) -> None:
    browser.post(f"{RECORDS}new/?work={work.pk}", typed(work, material_set=lent.pk, out_on="2 January 2026"))
    hire = Hire.objects.get()
    browser.post(
        f"{HIRES}{hire.pk}/sent/", dict(Page(browser.get(f"{HIRES}{hire.pk}/sent/")).tree.forms[-1].form_values())
    )
    page = Page(browser.get(f"{HIRES}{hire.pk}/back/"))
    score, flute, violin = [item.pk for item in hire.items.all()[:3]]
    returning = dict(page.tree.forms[-1].form_values()) | {"back_on": "12 January 2026", "whole": "on"}
    returning |= {f"copies-{violin}": "3", f"condition-{flute}": "marked"}

    browser.post(f"{HIRES}{hire.pk}/back/", returning)

    assert page.texts("//tr[@class='group']/th/label")[:3] == ["Score", "Woodwind", "Strings"]
    assert page.values("//input[@class='fold'][@checked]/@class") == []
    kept = {item.pk: (item.back, item.condition) for item in hire.items.all()}
    assert kept.pop(score) == (1, "good")
    assert (kept.pop(flute), kept.pop(violin)) == ((1, "marked"), (3, ""))
    assert {condition for _back, condition in kept.values()} == {"good"}


def test_a_section_with_something_noted_is_not_folded(browser: Client, work: Work, lent: MaterialSet) -> None:
    browser.post(f"{RECORDS}new/?work={work.pk}", typed(work, material_set=lent.pk, out_on="2 January 2026"))
    hire = Hire.objects.get()
    page = Page(browser.get(f"{HIRES}{hire.pk}/back/"))
    flute = hire.items.all()[1].pk
    returning = dict(page.tree.forms[-1].form_values()) | {"back_on": "12 January 2026", f"charge-{flute}": "no money"}

    page = Page(browser.post(f"{HIRES}{hire.pk}/back/", returning))

    assert page.texts("//tr[@class='group'][.//input[@checked]]/th/label") == ["Woodwind"]
    assert page.values("//input[@class='note'][@checked]/ancestor::tr//input[starts-with(@name, 'charge')]/@value") == [
        "no money"
    ]
