"""/ and /composers/"""

from __future__ import annotations

from collections.abc import Callable

from django.contrib.auth.models import User
from django.test import Client

from catalogue.models import Composer, Membership
from catalogue.terms import Role
from tests.web.pages import Page, with_class


def test_member_of_one_catalogue_never_notices_the_choice(signed_in: Callable[[User], Client], owner: User) -> None:
    browser = signed_in(owner)

    assert browser.get("/").headers["Location"] == "/c/ilka-marovand/"
    assert Page(browser.get("/c/ilka-marovand/works/")).texts(f"{with_class('who')}/a") == []


def test_member_of_several_chooses_and_can_choose_again(
    signed_in: Callable[[User], Client], owner: User, other_composer: Composer
) -> None:
    Membership.objects.create(user=owner, composer=other_composer, role=Role.VIEWER)
    browser = signed_in(owner)

    page = Page(browser.get("/", follow=True))

    assert page.texts("//*[@id='each']//li") == ["Ilka Marovandyours", "Pell Tarrowickyou read"]
    assert Page(browser.get("/c/pell-tarrowick/works/")).values(f"{with_class('who')}/a/@href") == ["/composers/"]


def test_member_of_several_is_led_to_all_of_them_together(
    signed_in: Callable[[User], Client], owner: User, other_composer: Composer
) -> None:
    assert Page(signed_in(owner).get("/composers/")).texts("//*[@id='together']") == []

    Membership.objects.create(user=owner, composer=other_composer, role=Role.VIEWER)
    page = Page(signed_in(owner).get("/composers/"))

    assert page.values("//*[@id='together']//li/a/@href") == [
        "/house/", "/house/works/", "/house/performances/", "/house/deadlines/", "/house/hires/", "/house/calls/",
        "/house/members/",
    ]  # fmt: skip


def test_somebody_without_a_catalogue_is_told_so(signed_in: Callable[[User], Client], superuser: User) -> None:
    page = Page(signed_in(superuser).get("/", follow=True))

    assert "You are not a member of any catalogue yet." in page.text()
