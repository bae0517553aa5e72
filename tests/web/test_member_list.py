"""/c/<composer>/profile/members/, and what changes a member"""

from __future__ import annotations

from collections.abc import Callable

import pytest
from django.contrib.auth.models import User
from django.test import Client

from catalogue.models import Composer, EntryKey, Membership
from catalogue.terms import Role
from tests.web.pages import Page, with_class

ADDRESS = "/c/ilka-marovand/profile/members/"


@pytest.fixture
def browser(signed_in: Callable[[User], Client], owner: User) -> Client:
    owner.set_password("Hushed-Reed-7")
    owner.save()
    return signed_in(owner)


def roles() -> dict[str, str]:
    return dict(Membership.objects.order_by("pk").values_list("user__username", "role"))


def member(composer: Composer, name: str, role: Role = Role.VIEWER) -> Membership:
    user = User.objects.create_user(name, password="Hushed-Reed-7")
    return Membership.objects.create(composer=composer, user=user, role=role)


def test_members_are_listed_with_what_they_may_do(browser: Client, composer: Composer) -> None:
    member(composer, "noor", Role.EDITOR)

    page = Page(browser.get(ADDRESS))

    assert page.texts("//section[@id='members']//li/span") == ["rana you", "noor"]
    assert page.values("//section[@id='members']//option[@selected]/@value") == ["owner", "editor"]


def test_somebody_new_is_let_in_by_an_address_that_is_shown_once(browser: Client, composer: Composer) -> None:
    page = Page(browser.post(ADDRESS, {"user_name": "noor", "role": "editor"}))

    (address,) = page.values("//input[@id='address']/@value")
    assert address.startswith("http://127.0.0.1:8000/join/")
    assert roles() == {"rana": "owner", "noor": "editor"}
    assert "has not come in yet" in Page(browser.get(ADDRESS)).text("//section[@id='members']")

    visitor = Client()
    visitor.post(address.removeprefix("http://127.0.0.1:8000"), {"password": "Reed-Hushed-9"})
    assert visitor.get("/c/ilka-marovand/works/new/").status_code == 200
    assert "has not come in yet" not in Page(browser.get(ADDRESS)).text("//section[@id='members']")


def test_somebody_who_signs_in_already_is_let_in_at_once(browser: Client, composer: Composer) -> None:
    User.objects.create_user("noor", password="Hushed-Reed-7")

    page = Page(browser.post(ADDRESS, {"user_name": "noor", "role": "viewer"}, follow=True))

    assert "“noor” is let in, and signs in as usual." in page.text("//body")
    assert (roles(), EntryKey.objects.count()) == ({"rana": "owner", "noor": "viewer"}, 0)


@pytest.mark.parametrize(
    ("typed", "name"),
    [
        ({"user_name": ""}, "user_name"),
        ({"user_name": "with blanks"}, "user_name"),
        ({"user_name": "Rana"}, "user_name"),
        ({"role": "king"}, "role"),
    ],
)
def test_mistake_is_told_beside_its_field(browser: Client, typed: dict[str, str], name: str) -> None:
    page = Page(browser.post(ADDRESS, {"user_name": "noor", "role": "viewer", **typed}))

    assert page.values(f"{with_class('summary')}//a/@href") == [f"#id_{name}"]
    assert roles() == {"rana": "owner"}


def test_owner_changes_what_a_member_may_do_and_takes_one_out(browser: Client, composer: Composer) -> None:
    noor, tobiah = member(composer, "noor"), member(composer, "tobiah")

    browser.post(f"{ADDRESS}{noor.pk}/", {f"member-{noor.pk}-role": "editor"})
    browser.post(f"{ADDRESS}{tobiah.pk}/remove/")

    assert roles() == {"rana": "owner", "noor": "editor"}
    assert User.objects.filter(username="tobiah").exists()


@pytest.mark.parametrize("act", ["", "remove/"])
def test_last_owner_neither_steps_down_nor_leaves(browser: Client, act: str) -> None:
    own = Membership.objects.get()

    page = Page(browser.post(f"{ADDRESS}{own.pk}/{act}", {f"member-{own.pk}-role": "editor"}))

    assert (page.status, page.wrong) == (409, ["A catalogue needs an owner; make somebody else one first."])
    assert roles() == {"rana": "owner"}


def test_one_of_two_owners_may_leave(browser: Client, composer: Composer) -> None:
    member(composer, "noor", Role.OWNER)
    own = Membership.objects.get(user__username="rana")

    response = browser.post(f"{ADDRESS}{own.pk}/remove/")

    assert (response.headers["Location"], roles()) == ("/", {"noor": "owner"})
    assert browser.get(ADDRESS).status_code == 404


def test_new_code_is_made_for_who_has_not_come_in_yet_only(browser: Client, composer: Composer) -> None:
    browser.post(ADDRESS, {"user_name": "noor", "role": "editor"})
    noor, tobiah = Membership.objects.get(user__username="noor"), member(composer, "tobiah")

    fresh, refused = (Page(browser.post(f"{ADDRESS}{one.pk}/code/")) for one in (noor, tobiah))

    assert len(fresh.values("//input[@id='address']/@value")) == 1
    assert (refused.status, refused.wrong) == (409, ["“tobiah” signs in with a password already."])
    assert EntryKey.objects.count() == 1


def test_member_of_another_catalogue_is_out_of_reach(browser: Client, stranger: User) -> None:
    foreign = stranger.memberships.get()

    answers = [browser.post(f"{ADDRESS}{foreign.pk}/{act}") for act in ("", "remove/", "code/")]

    assert [answer.status_code for answer in answers] == [404, 404, 404]


def test_profile_leads_only_owners_there(signed_in: Callable[[User], Client], owner: User, editor: User) -> None:
    seen = [
        Page(signed_in(one).get("/c/ilka-marovand/profile/")).values("//section[@id='members']//a/@href")
        for one in (owner, editor)
    ]

    assert seen == [[ADDRESS], []]
