"""Fields in which a work is picked, where there are too many for a list: typed by name, without scripts too."""

from __future__ import annotations

from unittest.mock import patch

import pytest
from django.test import Client
from django.utils.translation import override

from catalogue.gathering.versions import state_of_lists
from catalogue.models import Award, Composer, Work
from catalogue.web import work_names
from catalogue.web.work_names import MOST_IN_A_LIST, few_at
from tests.makers import make_performance, make_work
from tests.web.pages import Page

ROOT = "/c/ilka-marovand"


@pytest.fixture
def many(composer: Composer) -> Composer:
    """A catalogue with more works than a list takes."""
    titles = (f"Étude {number:03}" for number in range(MOST_IN_A_LIST + 1))
    Work.objects.bulk_create(Work(composer=composer, title=title) for title in titles)
    return composer


def award(browser: Client, **typed: str) -> Page:
    return Page(
        browser.post(f"{ROOT}/records/awards/new/", {"name": "Reed Prize", "date": "2024", **typed}, follow=True)
    )


def test_few_works_are_a_list_to_pick_from(browser: Client, composer: Composer) -> None:
    make_work("Low Water", composer=composer)

    page = Page(browser.get(f"{ROOT}/records/awards/new/"))

    assert page.texts("//select[@name='work']/option") == ["none", "Low Water"]


def test_many_works_are_typed_and_offered_while_one_types(browser: Client, many: Composer) -> None:
    page = Page(browser.get(f"{ROOT}/records/awards/new/"))

    (field,) = page.tree.xpath("//input[@name='work']")
    assert field.get("data-hx-get") == f"{ROOT}/works/suggested/"
    assert page.values("//datalist[@id='id_work_works']/@id") == [field.get("list")]
    offered = Page(browser.get(f"{ROOT}/works/suggested/?work=etude 01", HTTP_HX_TRIGGER_NAME="work"))
    assert offered.values("//option/@value") == [f"Étude {number:03}" for number in (*range(10, 20), 1, 101)]


def test_typed_name_is_the_work_whatever_its_case_and_marks(browser: Client, many: Composer) -> None:
    award(browser, work="etude 007")

    assert Award.objects.values_list("work__title", flat=True).get() == "Étude 007"


def test_works_of_one_title_are_told_apart(browser: Client, many: Composer) -> None:
    for label in ("revised", "chamber version"):
        make_work("Low Water", composer=many, version_label=label)

    page = award(browser, work="Low Water")
    assert page.wrong == ["Several works are called so; write “Low Water (revised)” or “Low Water (chamber version)”."]
    award(browser, work="Low Water (revised)")

    assert Award.objects.values_list("work__version_label", flat=True).get() == "revised"


def test_name_that_fits_none_comes_back_with_those_near_it(browser: Client, many: Composer) -> None:
    page = award(browser, work="ude 19")

    assert page.wrong == [
        "No work of this catalogue is called “ude 19”. Near it: “Étude 019”, “Étude 119”, “Étude 190”, “Étude 191”, "
        "“Étude 192”."
    ]
    assert (page.field("work"), page.field("name")) == ("ude 19", "Reed Prize")


def test_form_of_a_record_shows_the_work_by_name_and_keeps_it(browser: Client, many: Composer) -> None:
    work = make_work("Low Water", composer=many)
    stored = Award.objects.create(composer=many, name="Reed Prize", work=work)
    address = f"{ROOT}/records/awards/{stored.pk}/edit/"
    page = Page(browser.get(address))
    assert page.field("work") == "Low Water"

    (form,) = page.tree.xpath("//form[@data-keep]")
    browser.post(address, {name: value or "" for name, value in form.form_values()})

    stored.refresh_from_db()
    assert stored.work == work


@pytest.mark.parametrize("asked", ["", "Low Water", "0", "9" * 30])
def test_list_of_performances_is_asked_for_a_work_by_name(browser: Client, many: Composer, asked: str) -> None:
    work = make_work("Low Water", composer=many)
    make_performance(work, composer=many)

    response = browser.get(f"{ROOT}/performances/", {"work": asked})

    named = asked == "Low Water"
    assert response.headers.get("Location") == (f"{ROOT}/performances/?work={work.pk}" if named else None)
    page = Page(browser.get(f"{ROOT}/performances/?work={work.pk}"))
    assert (page.field("work"), len(page.texts("//tbody/tr"))) == ("Low Water", 1)


def test_papers_take_a_work_by_name_and_by_the_key_in_a_link(browser: Client, many: Composer) -> None:
    work = make_work("Low Water", composer=many, instrumentation="2fl – hp")

    by_name, by_key = (
        Page(browser.get(f"{ROOT}/documents/parts-checklist/", {"work": asked}))
        for asked in ("low water", str(work.pk))
    )

    assert by_name.field("work") == "low water"
    assert by_key.field("work") == "Low Water"
    assert "Harp" in by_name.text()
    assert "Harp" in by_key.text()


def offered(browser: Client, language: str = "en-gb") -> list[str]:
    page = Page(browser.get(f"{ROOT}/performances/", headers={"accept-language": language}))
    return page.texts("//select[@name='work']/option")


def test_list_of_performances_offers_the_works_as_they_are_now(browser: Client, composer: Composer) -> None:
    tides = make_work("Tides", composer=composer)
    make_performance(tides, composer=composer)
    assert offered(browser) == ["All works", "Tides"]
    make_work("Low Water", composer=composer)
    assert offered(browser) == ["All works", "Low Water", "Tides"]

    tides.title = "Ebb"
    tides.save()

    assert offered(browser) == ["All works", "Ebb", "Low Water"]


def test_works_that_are_called_alike_are_told_apart_in_the_language_of_the_page(composer: Composer) -> None:
    for _time in range(2):
        make_work("Tides", composer=composer)
    state = state_of_lists([composer.pk])

    with override("de"), patch.object(work_names, "_", lambda _text: "Nr."):
        german = few_at(state, composer, "de")

    assert [label.split()[1] for label in (german or {}).values()] == ["(Nr.", "(Nr."]
    assert [label.split()[1] for label in (few_at(state, composer, "en-gb") or {}).values()] == ["(no.", "(no."]
