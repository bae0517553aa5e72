"""/start/<token>/ and /enter/<token>/"""

from __future__ import annotations

from typing import Any

import pytest
from django.contrib.auth.models import User
from django.test import Client

from catalogue.actions.entry import make_entry_key
from catalogue.models import Composer, EntryKey, EntryPurpose, Membership
from catalogue.web.forms.sign import FounderForm
from tests.conftest import NOW
from tests.stored import everything_stored
from tests.web.pages import Page, with_class

FOUNDER = {"composer_name": "Édda Krohn", "user_name": "edda", "password": "Hushed-Reed-7"}


@pytest.fixture
def address(db: None) -> str:
    return f"/start/{make_entry_key(EntryPurpose.OWNER, now=NOW)}/"


def test_first_visit_founds_a_catalogue_and_signs_its_owner_in(client: Client, address: str) -> None:
    client.post(address, FOUNDER)

    composer, user = Composer.objects.get(), User.objects.get()
    assert (composer.name, composer.sort_name, composer.slug) == ("Édda Krohn", "Krohn, Édda", "edda-krohn")
    assert (user.username, user.check_password("Hushed-Reed-7"), user.is_superuser) == ("edda", True, False)
    assert Membership.objects.filter(user=user, composer=composer, role="owner").count() == 1
    assert client.get("/").headers["Location"] == "/c/edda-krohn/"


def test_key_of_an_owner_opens_once(client: Client, address: str) -> None:
    client.post(address, FOUNDER)

    again = Client().post(address, {**FOUNDER, "user_name": "tobiah"})

    assert (again.status_code, Composer.objects.count()) == (404, 1)


def test_key_opens_for_a_day(client: Client, address: str, clock: Any) -> None:
    clock.goes_on(hours=24)

    assert client.get(address).status_code == 404


def test_keys_are_not_kept_in_the_database(address: str) -> None:
    assert EntryKey.objects.get().token_sha256 in everything_stored()
    assert address.split("/")[2] not in everything_stored()


@pytest.mark.parametrize(
    ("typed", "name"),
    [
        ({"composer_name": ""}, "composer_name"),
        ({"composer_name": "Bell \x07"}, "composer_name"),
        ({"user_name": "Rana"}, "user_name"),
        ({"user_name": "with blanks"}, "user_name"),
        ({"password": "short"}, "password"),
        ({"password": "password1234"}, "password"),
        ({"user_name": "hushed.reed.7", "password": "hushed.reed.7"}, "password"),
    ],
)
def test_mistake_is_told_beside_its_field_and_uses_nothing_up(
    client: Client, address: str, owner: User, typed: dict[str, str], name: str
) -> None:
    page = Page(client.post(address, {**FOUNDER, **typed}))

    assert page.values(f"{with_class('summary')}//a/@href") == [f"#id_{name}"]
    assert client.post(address, FOUNDER).status_code == 302


def test_name_that_somebody_took_while_the_form_was_sent_is_told_beside_it_and_uses_nothing_up(
    client: Client, address: str, owner: User, monkeypatch: pytest.MonkeyPatch
) -> None:
    with monkeypatch.context() as looked_at:
        looked_at.setattr(FounderForm, "clean_user_name", lambda form: form.cleaned_data["user_name"])
        page = Page(client.post(address, {**FOUNDER, "user_name": owner.username.upper()}))

    assert page.values(f"{with_class('summary')}//a/@href") == ["#id_user_name"]
    assert "Somebody signs in with this name already." in page.text()
    assert client.post(address, FOUNDER).status_code == 302


def test_key_stands_in_no_header_that_leaves_the_site(client: Client, address: str) -> None:
    response = client.get(address)

    assert response.headers["Referrer-Policy"] == "same-origin"
    assert response.headers["X-Robots-Tag"] == "noindex, nofollow, noarchive"
    assert response.headers["Cache-Control"] == "private, no-store"


def test_key_of_the_demo_signs_in_as_often_as_wanted_within_a_day(owner: User, clock: Any) -> None:
    address = f"/enter/{make_entry_key(EntryPurpose.DEMO, now=NOW, user=owner)}/"

    for _visit in range(2):
        visitor = Client()
        assert visitor.get(address).headers["Location"] == "/"
        assert visitor.get("/c/ilka-marovand/works/").status_code == 200
    clock.goes_on(hours=24)
    assert Client().get(address).status_code == 404


def test_key_of_somebody_who_may_no_longer_sign_in_opens_nothing(owner: User) -> None:
    address = f"/enter/{make_entry_key(EntryPurpose.DEMO, now=NOW, user=owner)}/"
    owner.is_active = False
    owner.save()

    assert Client().get(address).status_code == 404


@pytest.mark.parametrize("door", ["start", "enter"])
def test_key_fits_its_own_door_only(owner: User, door: str) -> None:
    other = {"start": EntryPurpose.DEMO, "enter": EntryPurpose.OWNER}[door]

    assert Client().get(f"/{door}/{make_entry_key(other, now=NOW, user=owner)}/").status_code == 404
    assert Client().get(f"/{door}/made-up/").status_code == 404
