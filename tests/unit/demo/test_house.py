"""Who keeps the demo's catalogues beside their owner, and the house under whose roof two of its composers are."""

from __future__ import annotations

from datetime import UTC, datetime

import pytest
from django.contrib.auth.models import User

from catalogue.demo.loading import FOLDER, load_houses, load_members
from catalogue.demo.rows import House, read_house
from catalogue.models import Composer, Membership

pytestmark = pytest.mark.django_db

NOON = datetime(2026, 3, 9, 12, tzinfo=UTC)


@pytest.fixture
def house() -> House:
    """The rows of the files; of its composers, no more than their names and looks is stored."""
    house = read_house(FOLDER)
    for slug, row in house.composers.items():
        Composer.objects.create(name=slug, slug=slug, house_style=row.get("house_style", "classic"))
    return house


def test_a_librarian_and_an_editor_keep_the_catalogues_beside_their_owner(house: House) -> None:
    load_members(house)
    load_members(house)

    seats = Membership.objects.order_by("pk").values_list("user__first_name", "composer__slug", "role")
    assert list(seats) == [
        ("Hanne", "nevena-haldoreva", "librarian"),
        ("Hanne", "tomas-arrubial", "librarian"),
        ("Hanne", "samar-tallouzi", "librarian"),
        ("Ruben", "nevena-haldoreva", "editor"),
        ("Ruben", "tomas-arrubial", "viewer"),
    ]
    assert {one.has_usable_password() for one in User.objects.all()} == {False}


def test_a_house_heads_the_papers_of_two_composers_one_of_whom_has_a_look_of_her_own(house: House) -> None:
    load_houses(house, now=NOON)
    load_houses(house, now=NOON)

    told = Composer.objects.order_by("pk").values_list("slug", "house__name", "own_look")
    assert list(told) == [
        ("nevena-haldoreva", "Pennywort Editions", False),
        ("tomas-arrubial", None, False),
        ("samar-tallouzi", "Pennywort Editions", True),
    ]
