"""/house/members/"""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

import pytest
from django.contrib.auth.models import User
from django.core import mail
from django.db import connection
from django.test import Client
from django.test.utils import CaptureQueriesContext

from catalogue.models import Composer, Membership
from catalogue.terms import Role
from catalogue.web.forms import composer_field
from tests.makers import make_composer
from tests.web.pages import Page

ADDRESS = "/house/members/"


@pytest.fixture
def browser(signed_in: Callable[[User], Client], owner: User, other_composer: Composer) -> Client:
    Membership.objects.create(user=owner, composer=other_composer, role=Role.OWNER)
    return signed_in(owner)


def cells(browser: Client) -> list[list[str]]:
    page = Page(browser.get(ADDRESS))
    rows = page.tree.xpath("//tbody/tr")
    return [[" ".join(cell.text_content().split()).partition(" Take")[0] for cell in row] for row in rows]


def test_table_says_what_everybody_may_do_in_each(browser: Client, viewer: User, librarian: User) -> None:
    assert cells(browser) == [["rana you", "owner", "owner"], ["vivian", "viewer", ""], ["lior", "librarian", ""]]


def test_catalogues_of_other_owners_are_not_shown(
    signed_in: Callable[[User], Client], owner: User, stranger: User, other_composer: Composer
) -> None:
    Membership.objects.create(user=owner, composer=other_composer, role=Role.EDITOR)

    page = Page(signed_in(owner).get(ADDRESS))

    assert "Pell Tarrowick" not in page.text() and "tobiah" not in page.text()  # noqa: PT018


def test_somebody_new_is_let_into_several_with_one_address(browser: Client) -> None:
    form = {"user_name": "nadia", "role": "librarian", "composers": ["ilka-marovand", "pell-tarrowick"]}

    page = Page(browser.post(ADDRESS, form))

    assert "/join/" in page.values("//*[@id='address']/@value")[0]
    assert sorted(Membership.objects.filter(user__username="nadia").values_list("role", flat=True)) == ["librarian"] * 2


def test_somebody_new_is_let_into_several_by_one_mail(browser: Client, settings: Any) -> None:
    settings.SENDS_MAIL, settings.DEFAULT_FROM_EMAIL = True, "catalogue@house.example"
    form = {"user_name": "nadia", "role": "editor", "composers": ["ilka-marovand", "pell-tarrowick"]}

    page = Page(browser.post(ADDRESS, {**form, "email": "nadia@house.example"}, follow=True))

    (message,) = mail.outbox
    assert "The way in is sent to nadia@house.example." in page.text("//main")
    assert message.subject == "You are let in to the catalogues of Ilka Marovand and Pell Tarrowick"
    assert "/join/" in str(message.body)


def test_catalogues_of_many_are_typed_one_a_line(browser: Client, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(composer_field, "MOST_LISTED", 1)
    form = {"user_name": "nadia", "role": "editor"}

    refused = Page(browser.post(ADDRESS, {**form, "composers": "Ilka Marovand\nSomebody Else"}))
    browser.post(ADDRESS, {**form, "composers": "Ilka Marovand\nPell Tarrowick\n"})

    assert refused.wrong == ["No composer here is called “Somebody Else”."]
    assert Membership.objects.filter(user__username="nadia").count() == 2


def test_catalogue_that_is_not_owned_cannot_be_given_away(browser: Client, editor: User) -> None:
    make_composer("Osk Verrin", sort_name="Verrin, Osk")

    page = Page(browser.post(ADDRESS, {"user_name": "edda", "role": "viewer", "composers": ["osk-verrin"]}))

    assert len(page.wrong) == 1
    assert Membership.objects.filter(user=editor).count() == 1


def test_last_owner_cannot_be_taken_out(browser: Client, owner: User, composer: Composer) -> None:
    mine = Membership.objects.get(user=owner, composer=composer)

    answer = browser.post(f"/c/ilka-marovand/profile/members/{mine.pk}/remove/", {"then": "house"})

    assert answer.status_code == 409
    assert Page(answer).wrong == ["A catalogue needs an owner; make somebody else one first."]


def test_member_is_taken_out_and_the_way_leads_back(browser: Client, viewer: User) -> None:
    member = Membership.objects.get(user=viewer)

    answer = browser.post(f"/c/ilka-marovand/profile/members/{member.pk}/remove/", {"then": "house"})

    assert answer.headers["Location"] == ADDRESS
    assert not Membership.objects.filter(user=viewer).exists()


def test_number_of_queries_does_not_grow(browser: Client, owner: User, viewer: User) -> None:
    def queries() -> int:
        with CaptureQueriesContext(connection) as asked:
            browser.get(ADDRESS)
        return len(asked)

    before = queries()
    for name in ("Osric Vane", "Lena Quist"):
        make_composer(name, sort_name=name, owner=owner)

    assert (before, queries()) == (6, 6)


@pytest.fixture
def many(browser: Client, owner: User) -> Client:
    """A house of eleven composers."""
    for name in "ABCDEFGHI":
        make_composer(f"{name} Quist", sort_name=f"Quist, {name}", owner=owner)
    return browser


def heads(page: Page) -> list[str]:
    return page.texts("//table//th[@scope='col']/a")


def test_many_catalogues_stand_eight_side_by_side(many: Client) -> None:
    first, second = Page(many.get(ADDRESS)), Page(many.get(ADDRESS, {"page": "2"}))

    assert (len(heads(first)), heads(second)) == (8, ["H Quist", "I Quist", "Pell Tarrowick"])
    assert "9 to 11 of 11" in second.text()


def test_of_many_one_member_or_one_catalogue_is_chosen(many: Client, owner: User, viewer: User) -> None:
    by_member = Page(many.get(ADDRESS, {"member": str(viewer.pk)}))
    by_composer = Page(many.get(ADDRESS, {"composer": "pell-tarrowick"}))
    neither = Page(many.get(ADDRESS, {"composer": "pell-tarrowick", "member": str(viewer.pk)}))

    assert (heads(by_member), by_member.texts("//tbody//th/bdi")) == (["Ilka Marovand"], ["vivian"])
    assert (heads(by_composer), by_composer.texts("//tbody//th/bdi")) == (["Pell Tarrowick"], ["rana"])
    assert "Whoever was chosen does not keep this catalogue." in neither.text()
