"""/c/<composer>/profile/ and …/edit/"""

from __future__ import annotations

from collections.abc import Callable

import pytest
from django.contrib.auth.models import User
from django.test import Client

from catalogue.actions.composers import save_composer
from catalogue.models import Composer
from catalogue.timing import PartialDate
from tests.conftest import NOW
from tests.web.pages import Page, with_class

pytestmark = pytest.mark.signed_in_as("owner")

ADDRESS = "/c/ilka-marovand/profile/"
EDIT = f"{ADDRESS}edit/"


def opened(browser: Client) -> dict[str, str]:
    (form,) = Page(browser.get(EDIT)).tree.xpath("//form[@data-keep]")
    return {name: (value or "").lstrip("\n") for name, value in form.form_values()}


def test_profile_shows_what_is_known(browser: Client, composer: Composer) -> None:
    Composer.objects.update(
        born=PartialDate(1979, 5), birthplace="Stavanger", email="rana@example.org", short_biography="Writes <music>.",
        original_name="Рана",
    )  # fmt: skip

    page = Page(browser.get(ADDRESS))

    assert page.texts("//section[@id='person']//dl/div") == [
        "Sorted asMarovand, Ilka", "BornMay 1979, Stavanger", "CountryNorway",
    ]  # fmt: skip
    assert page.text("//section[@id='biography']//p") == "Writes <music>."
    assert "rana@example.org" in page.text("//section[@id='contact']")


def test_members_are_listed_with_what_they_may_do(browser: Client, editor: User, viewer: User) -> None:
    assert Page(browser.get(ADDRESS)).texts("//section[@id='members']//li") == [
        "ranaowner", "eddaedits", "vivianreads",
    ]  # fmt: skip


def test_empty_profile_teaches_those_who_may_fill_it(
    signed_in: Callable[[User], Client], owner: User, viewer: User
) -> None:
    seen = [Page(signed_in(one).get(ADDRESS)).texts("//main//a | //main//button") for one in (owner, viewer)]

    offered = [
        "Change the profile",
        "Write it",
        "Add an address",
        "Choose how documents look",
        "Subscribe to the calendar",
    ]
    offered += ["What everybody may see", "Let somebody in"]
    seen_by_all = ["Changes of this profile"]
    assert seen == [
        [*offered, "Everything in one file", "Hand the catalogue over", *seen_by_all, "What was deleted"],
        ["Subscribe to the calendar", *seen_by_all],
    ]


# ---- the form


def test_form_sent_back_unchanged_changes_nothing(browser: Client, composer: Composer) -> None:
    Composer.objects.update(
        born=PartialDate(1979, circa=True), string_strengths=(8, 6, 4, 4, 2), biography="One.\n\nTwo.", language="el",
        website="https://example.org/", isni="000000012146438X", address="Quay 3\nStavanger",
    )  # fmt: skip
    columns = [one.attname for one in Composer._meta.concrete_fields if one.name not in {"saves", "changed_at"}]
    before = Composer.objects.values(*columns).get()

    response = browser.post(EDIT, opened(browser))

    assert response.status_code == 302
    assert Composer.objects.values(*columns).get() == before


def test_everything_typed_is_kept_and_read(browser: Client, composer: Composer) -> None:
    typed = {
        "name": "Ilka Marovand Lund", "born": "3 May 1979", "country": "Sweden", "string_strengths": "8 6 4 4 2",
        "website": "example.org", "language": "de", "number_prefix": "Op.",
    }  # fmt: skip

    browser.post(EDIT, {**opened(browser), **typed})

    composer.refresh_from_db()
    assert (composer.name, composer.slug, composer.born) == (
        "Ilka Marovand Lund", "ilka-marovand", PartialDate(1979, 5, 3),
    )  # fmt: skip
    assert (composer.country, composer.string_strengths, composer.website) == (
        "SE", (8, 6, 4, 4, 2), "https://example.org",
    )  # fmt: skip
    assert (composer.language, composer.number_prefix) == ("de", "Op.")


@pytest.mark.parametrize(
    ("name", "typed"),
    [
        ("name", ""), ("born", "some day"), ("country", "Atlantis"), ("email", "rana"), ("website", "http://["),
        ("string_strengths", "8"), ("isni", "12 \x07"), ("ipi", "x" * 101), ("biography", "bell \x07"),
        ("language", "xx"),
    ],
)  # fmt: skip
def test_mistake_is_told_at_its_place_and_nothing_is_stored_or_lost(
    browser: Client, composer: Composer, name: str, typed: str
) -> None:
    page = Page(browser.post(EDIT, {**opened(browser), "telephone": "51 12 34", name: typed}))

    assert len(page.texts(f"//*[@id='id_{name}_error']/p")) == 1
    assert page.values(f"{with_class('summary')}//a/@href") == [f"#id_{name}"]
    assert page.field("telephone") == "51 12 34"
    assert name == "language" or page.field(name) == typed
    assert Composer.objects.values_list("telephone", "name").get() == ("", "Ilka Marovand")


def test_numbers_that_cannot_be_right_are_kept_and_doubted(browser: Client, composer: Composer) -> None:
    typed = {"ipi": "IPI name number: 00014107339", "isni": "1234"}
    doubts = [
        "The check digits of this IPI would be 38, not 39: a digit was mistyped.",
        "An ISNI has sixteen digits, the last of which may be an X; this has 4.",
    ]

    page = Page(browser.post(EDIT, {**opened(browser), **typed}, follow=True))

    assert Composer.objects.values_list("ipi", "isni").get() == ("00014107339", "1234")
    assert page.wrong == doubts
    assert Page(browser.get(EDIT)).wrong == doubts


def test_later_save_of_somebody_else_is_shown_beside_ones_own_and_not_overwritten(
    browser: Client, composer: Composer
) -> None:
    mine = {**opened(browser), "telephone": "51 12 34"}
    composer.telephone = "99 88 77"
    save_composer(composer=composer, now=NOW)

    page = Page(browser.post(EDIT, mine))

    assert Composer.objects.get().telephone == "99 88 77"
    assert page.texts(f"{with_class('versions')}/div") == ["Saved 99 88 77", "Yours 51 12 34"]
    assert page.field("telephone") == "51 12 34"

    browser.post(EDIT, {**mine, "saves": page.field("saves")})

    assert Composer.objects.get().telephone == "51 12 34"


def test_fields_that_are_not_in_the_form_are_not_written(browser: Client, composer: Composer) -> None:
    browser.post(EDIT, {**opened(browser), "slug": "mine", "feed_is_public": "on", "is_public": "on", "id": "77"})

    assert Composer.objects.values_list("slug", "feed_is_public", "is_public").get() == ("ilka-marovand", False, False)
