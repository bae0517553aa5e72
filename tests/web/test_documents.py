"""/c/<composer>/documents/, …/<kind>/ and …/<kind>/file/"""

from __future__ import annotations

from collections.abc import Callable
from io import BytesIO
from typing import Any
from zipfile import ZipFile

import pytest
from django.contrib.auth.models import User
from django.db import connection
from django.test import Client
from django.test.utils import CaptureQueriesContext

from catalogue.models import Composer, Edition, Review
from tests.makers import make_performance, make_work
from tests.record_makers import make_record
from tests.web.pages import Page, with_class

pytestmark = pytest.mark.signed_in_as("viewer")

ADDRESS = "/c/ilka-marovand/documents/"
SHEET = with_class("sheet")


def page_of(browser: Client, kind: str, **asked: str) -> Page:
    return Page(browser.get(f"{ADDRESS}{kind}/", asked))


def test_room_opens_on_the_works_list(browser: Client, composer: Composer) -> None:
    assert browser.get(ADDRESS).headers["Location"] == f"{ADDRESS}works-list/"


def test_works_list_is_shown_by_category_and_by_year(browser: Client, composer: Composer) -> None:
    make_work("Tides", composer=composer, completed="2024", category="orchestra", instrumentation="2.2.2.2 – str")

    by_category, by_year = page_of(browser, "works-list"), page_of(browser, "works-list", order="year")

    assert by_category.texts(f"{SHEET}//section[not(@class)]/h3 | {SHEET}//h4") == ["Orchestra", "Tides"]
    assert by_year.texts(f"{SHEET}//h2") == ["Works by year"]
    assert by_year.texts(f"{SHEET}//td[@class='title']/i") == ["Tides"]


def test_document_speaks_the_language_that_is_chosen(browser: Client, composer: Composer) -> None:
    make_work("Tides", composer=composer, category="orchestra")

    page = page_of(browser, "works-list", language="de")

    assert page.texts(f"{SHEET}//section[not(@class)]/h3") == ["Orchester"]
    assert page.values(f"{SHEET}/article/@lang") == ["de"]


def test_language_of_the_composer_is_the_usual_one(browser: Client, composer: Composer) -> None:
    Composer.objects.update(language="fr")

    assert page_of(browser, "works-list").field("language") == "fr"


def test_cv_section_keeps_to_its_years(browser: Client, composer: Composer) -> None:
    for year in ("2015", "2021", "2024"):
        make_work(f"Work {year}", composer=composer, completed=year)

    whole, usual, past = (
        page_of(browser, "cv-section", **asked).text(SHEET)
        for asked in ({"first": ""}, {}, {"first": "2014", "last": "2016"})
    )

    assert ["Work 2015" in text for text in (whole, usual, past)] == [True, False, True]
    assert ["Work 2024" in text for text in (whole, usual, past)] == [True, True, False]


@pytest.mark.parametrize(
    ("asked", "field"),
    [
        ({"first": "some day"}, "first"),
        ({"first": "2024", "last": "2020"}, "last"),
        ({"language": "xx"}, "language"),
        ({"paper": "papyrus"}, "paper"),
        ({"format": "exe"}, "format"),
    ],
)
@pytest.mark.parametrize("address", ["cv-section/", "cv-section/file/"])
def test_answer_that_makes_no_sense_is_pointed_out_and_kept(
    browser: Client, composer: Composer, asked: dict[str, str], field: str, address: str
) -> None:
    page = Page(browser.get(f"{ADDRESS}{address}", {"last": "2025", **asked}))

    assert len(page.texts(f"//*[@id='id_{field}_error']/p")) == len(page.wrong) == 1
    assert page.texts(SHEET) == []


def test_parts_checklist_is_of_the_work_that_is_chosen(browser: Client, composer: Composer) -> None:
    work = make_work("Tides", composer=composer, instrumentation="fl, vc")

    unchosen, page = page_of(browser, "parts-checklist"), page_of(browser, "parts-checklist", work=str(work.pk))

    assert unchosen.text(with_class("preview")) == "Choose the work whose parts are to be listed."
    assert page.texts(f"{SHEET}//tbody//td[@class='part']")[1:] == ["Flute", "Cello"]
    assert page.texts(f"{SHEET}//h2") == ["Tides"]


def test_parts_checklist_takes_the_strengths_of_a_performance(browser: Client, composer: Composer) -> None:
    work = make_work("Tides", composer=composer, instrumentation="fl, str")
    performance = make_performance(work, string_strengths=(8, 6, 4, 4, 2), city="Lyon")

    page = page_of(browser, "parts-checklist", performance=str(performance.pk))

    assert "8.6.4.4.2 (performance)" in page.text(SHEET)
    assert page.texts("//select[@name='performance']/option[@selected]") == ["Tides in Lyon, 16 May 2026"]


@pytest.mark.parametrize(
    ("columns", "field"),
    [
        ({"instrumentation": "", "instrumentation_typed": "any blorps"}, "id_instrumentation_typed"),
        ({"instrumentation": "fl, str"}, "id_string_strengths"),
    ],
)
def test_what_a_document_cannot_do_without_is_told_with_the_way_to_mend_it(
    signed_in: Callable[[User], Client], editor: User, composer: Composer, columns: dict[str, str], field: str
) -> None:
    work = make_work("Tides", composer=composer, **columns)

    page = page_of(signed_in(editor), "parts-checklist", work=str(work.pk))

    assert len(page.texts(f"{with_class('notice')}/p")) == 1
    assert page.values(f"{with_class('notice')}/a/@href") == [f"/c/ilka-marovand/works/{work.pk}/edit/#{field}"]


def test_work_and_performance_of_another_catalogue_are_not_known(
    browser: Client, composer: Composer, other_composer: Composer
) -> None:
    foreign = make_work("Serenade", composer=other_composer, instrumentation="fl, vc")
    performance = make_performance(foreign)

    for asked in ({"work": str(foreign.pk)}, {"performance": str(performance.pk)}):
        for address in ("parts-checklist/", "parts-checklist/file/"):
            page = Page(browser.get(ADDRESS + address, asked))
            assert (page.texts(SHEET), len(page.wrong)) == ([], 1)
            assert "Serenade" not in page.text()


# ---- files


@pytest.mark.parametrize(
    ("format", "content_type", "begins"),
    [
        ("pdf", "application/pdf", b"%PDF-1."),
        ("docx", "application/vnd.openxmlformats-officedocument.wordprocessingml.document", b"PK"),
        ("html", "text/html; charset=utf-8", b"<!DOCTYPE html>"),
        ("txt", "text/plain; charset=utf-8", b""),
        ("xlsx", "application/vnd.openxmlformats-officedocument.spreadsheetml.sheet", b"PK"),
    ],
)
def test_file_is_taken_along_in_each_format(
    browser: Client, composer: Composer, format: str, content_type: str, begins: bytes
) -> None:
    make_work("Tides", composer=composer, category="orchestra")

    response = browser.get(f"{ADDRESS}works-list/file/", {"format": format, "paper": "letter"})

    assert (response.status_code, response.headers["Content-Type"]) == (200, content_type)
    name = f"ilka-marovand-works-list-by-category.{format}"
    assert response.headers["Content-Disposition"] == f'attachment; filename="{name}"'
    assert response.content.startswith(begins)
    if format == "docx":
        assert b"Tides" in ZipFile(BytesIO(response.content)).read("word/document.xml")


def test_file_is_named_after_its_work_in_plain_letters(browser: Client, composer: Composer) -> None:
    work = make_work('Étude "Ærø" / ../../x', composer=composer, instrumentation="fl, vc")

    response = browser.get(f"{ADDRESS}parts-checklist/file/", {"work": str(work.pk), "format": "txt"})

    name = "ilka-marovand-parts-checklist-etude-aero-x.txt"
    assert response.headers["Content-Disposition"] == f'attachment; filename="{name}"'


def test_preview_leads_to_the_pdf_that_opens_in_the_browser(browser: Client, composer: Composer) -> None:
    make_work("Tides", composer=composer)
    page = page_of(browser, "works-list", order="year")
    (link,) = page.values("//a[.='Open the PDF']/@href")

    answer = browser.get(link)

    named = 'inline; filename="ilka-marovand-works-list-by-year.pdf"'
    assert (answer.headers["Content-Type"], answer.headers["Content-Disposition"]) == ("application/pdf", named)


def test_file_that_the_browser_has_already_is_not_sent_again(browser: Client, composer: Composer) -> None:
    make_work("Tides", composer=composer)
    address = f"{ADDRESS}works-list/file/?format=txt"
    first = browser.get(address)

    again = browser.get(address, headers={"if-none-match": first.headers["ETag"]})
    make_work("Weirs", composer=composer)
    changed = browser.get(address, headers={"if-none-match": first.headers["ETag"]})

    assert (again.status_code, again.content) == (304, b"")
    assert changed.status_code == 200
    assert first.headers["Cache-Control"] == "private, no-cache"


def test_kind_that_is_none_is_not_found(browser: Client, composer: Composer) -> None:
    assert [browser.get(f"{ADDRESS}riddle/{end}").status_code for end in ("", "file/")] == [404, 404]


def test_what_was_typed_is_shown_as_text(browser: Client, composer: Composer) -> None:
    make_work("<script>x()</script>", composer=composer, dedication="<img src=x onerror=y()>")

    page = page_of(browser, "works-list")

    assert page.values("//script[not(@src)] | //img | //@onerror") == []
    assert "<script>x()</script>" in page.text(SHEET)


def test_work_page_and_performance_page_lead_to_the_parts_checklist(browser: Client, composer: Composer) -> None:
    work = make_work("Tides", composer=composer, instrumentation="fl, vc")
    performance = make_performance(work)

    addresses = (f"works/{work.pk}/", f"performances/{performance.pk}/")
    pages = [Page(browser.get(f"/c/ilka-marovand/{address}")) for address in addresses]

    assert [
        list(dict.fromkeys(page.values("//main//a[contains(@href, 'parts-checklist')]/@href"))) for page in pages
    ] == [
        [f"{ADDRESS}parts-checklist/?work={work.pk}"],
        [f"{ADDRESS}parts-checklist/?work={work.pk}&performance={performance.pk}"],
    ]


@pytest.mark.parametrize("kind", ["works-list", "cv-section", "parts-checklist", "front-matter"])
def test_number_of_queries_does_not_grow_with_the_catalogue(browser: Client, composer: Composer, kind: str) -> None:
    def queries() -> int:
        with CaptureQueriesContext(connection) as asked:
            browser.get(f"{ADDRESS}{kind}/", {"work": str(work.pk)})
        return len(asked)

    work = make_work("Tides", composer=composer, instrumentation="fl, vc")
    make_performance(work, performers=("A",))
    with_one = queries()
    for number in (1, 2):
        make_performance(work, make_work(f"Other {number}", composer=composer), performers=("A", "B"))

    assert queries() == with_one


def test_every_room_is_open_to_a_reader(browser: Client, composer: Composer) -> None:
    page: Any = page_of(browser, "works-list")

    assert page.texts("//nav[@class='rooms']//a") == [
        "Today",
        "Works",
        "Performances",
        "Records",
        "Calls",
        "Documents",
        "Profile",
    ]


@pytest.mark.parametrize("kind", ["performance-history", "performance-return", "programme-entry", "press-sheet"])
def test_papers_about_performances_are_shown_and_made(browser: Client, composer: Composer, kind: str) -> None:
    tides = make_work("Tides", composer=composer, category="orchestra", duration="12'")
    make_performance(tides, date="2025-05-04", city="Linz", country="AT", status="given")
    asked = {"work": str(tides.pk)} if kind == "programme-entry" else {}
    asked |= {"first": "2025", "last": "2025", "due": "2026-06"} if kind == "performance-return" else {}

    page = page_of(browser, kind, **asked)

    assert "tides" in page.text(SHEET).casefold()
    made = browser.get(f"{ADDRESS}{kind}/file/", {**asked, "format": "txt"})
    assert "tides" in made.content.decode().casefold()


def test_front_matter_is_shown_with_what_librarians_expect_and_nobody_has_told(
    browser: Client, composer: Composer
) -> None:
    work = make_work("Tides", composer=composer, instrumentation="2.2.2.2 – str(8.6.4.4.2)")
    make_record(Edition, work=work, pitch="transposed", copyright_line="© 2026 Ilka Marovand")

    page = page_of(browser, "front-matter", work=str(work.pk))

    assert page.texts(f"{SHEET}//header[contains(@class, 'title-page')]/h2") == ["Tides"]
    assert "© 2026 Ilka Marovand" in page.texts(f"{SHEET}//p[@class='imprint']")
    assert "The duration of the whole is not known. (MOLA, Guidelines for Music Preparation)" in page.texts(
        "//details//li"
    )


def test_a_score_without_its_pitch_leads_to_where_it_is_told(
    signed_in: Callable[[User], Client], editor: User, composer: Composer
) -> None:
    work = make_work("Tides", composer=composer, instrumentation="2.2.2.2 – str(8.6.4.4.2)")

    page = page_of(signed_in(editor), "front-matter", work=str(work.pk))

    assert page.values("//div[@class='notice']/a/@href") == [f"/c/ilka-marovand/records/editions/new/?work={work.pk}"]


def test_the_front_of_a_score_is_made_on_seven_papers_other_papers_on_two(browser: Client, composer: Composer) -> None:
    def papers(kind: str) -> list[str]:
        return page_of(browser, kind).values("//select[@name='paper']/option/@value")

    assert papers("front-matter") == ["a3", "b4", "a4", "tabloid", "10x13", "9x12", "letter"]
    assert papers("works-list") == ["a4", "letter"]


def test_a_file_for_an_anonymous_call_does_not_say_whose_it_is(browser: Client, composer: Composer) -> None:
    work = make_work("Tides", composer=composer, instrumentation="vn")
    asked = {"work": str(work.pk), "format": "txt", "anonymous": "on"}

    file = browser.get(f"{ADDRESS}front-matter/file/", asked)

    assert file.headers["Content-Disposition"] == 'attachment; filename="front-matter-tides.txt"'
    assert "Marovand" not in file.content.decode()


@pytest.mark.parametrize("typed", ["Salt on every page.", "“Salt on every page.”", '"Salt on every page."'])
def test_press_sheet_quotes_a_review_once(browser: Client, composer: Composer, typed: str) -> None:
    make_record(Review, work=make_work("Tides", composer=composer), quotation=typed)

    assert "“Salt on every page.”" in page_of(browser, "press-sheet").text("//*[@id='preview']")
    assert "““" not in page_of(browser, "press-sheet").text("//*[@id='preview']")
