"""/account/password/"""

from __future__ import annotations

from collections.abc import Callable

import pytest
from django.contrib.auth.models import User
from django.test import Client

from catalogue.web.kept import take_up
from tests.web.pages import Page

ADDRESS = "/account/password/"
OLD, NEW = "slack-rope-and-lamp", "copper-hymn-at-four"


@pytest.fixture
def browser(signed_in: Callable[[User], Client], owner: User) -> Client:
    owner.set_password(OLD)
    owner.save()
    return signed_in(owner)


def sent(browser: Client, **typed: str) -> Page | None:
    usual = {"old_password": OLD, "new_password1": NEW, "new_password2": NEW}
    response = browser.post(ADDRESS, {**usual, **typed})
    return Page(response) if response.status_code == 200 else None


def test_password_is_changed_and_one_stays_signed_in(
    browser: Client, owner: User, signed_in: Callable[[User], Client]
) -> None:
    elsewhere = signed_in(owner)

    assert sent(browser) is None

    owner.refresh_from_db()
    assert (owner.check_password(NEW), owner.check_password(OLD)) == (True, False)
    assert browser.get(ADDRESS).status_code == 200
    assert elsewhere.get(ADDRESS).status_code == 302


@pytest.mark.parametrize(
    ("typed", "reason"),
    [
        ({"old_password": "not this"}, "This is not your current password."),
        ({"new_password2": "copper-hymn-at-five"}, "The two are not the same."),
        ({"new_password1": "short", "new_password2": "short"}, None),
        ({"new_password1": "password123", "new_password2": "password123"}, "This password is too common."),
    ],
)
def test_mistake_is_told_and_nothing_is_changed(
    browser: Client, owner: User, typed: dict[str, str], reason: str | None
) -> None:
    page = sent(browser, **typed)

    assert page is not None
    assert len(page.wrong) == 1
    assert reason in {None, page.wrong[0]}
    assert [page.field(name) for name in ("old_password", "new_password1", "new_password2")] == ["", "", ""]
    owner.refresh_from_db()
    assert owner.check_password(OLD)


def test_who_came_in_without_a_password_is_asked_for_a_new_one_only(
    signed_in: Callable[[User], Client], owner: User
) -> None:
    owner.set_unusable_password()
    owner.save()
    browser = signed_in(owner)

    assert Page(browser.get(ADDRESS)).values("//form//input[@type='password']/@name") == [
        "new_password1",
        "new_password2",
    ]
    assert sent(browser) is None


def test_password_is_never_kept_in_a_form_that_waits(browser: Client) -> None:
    """A session that has run out keeps what was typed; a password it does not."""
    page = Page(Client().post(ADDRESS, {"old_password": OLD, "new_password1": NEW, "title": "Ebb"}))

    kept = take_up(page.field("kept"))
    assert kept is not None
    assert (page.status, kept.fields) == (403, (("title", "Ebb"),))
    browser_without_token = Client(enforce_csrf_checks=True)
    shown = browser_without_token.post(ADDRESS, {"new_password1": NEW, "title": "Ebb"}).content.decode()
    assert NEW not in shown
    assert "Ebb" in shown
