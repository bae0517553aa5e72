"""The addresses of a calendar: secrets of which only the hash is kept, good as long as their keeper is."""

from __future__ import annotations

from datetime import date
from hashlib import sha256

import pytest
from django.contrib.auth.models import User
from django.core.exceptions import ValidationError

from catalogue.actions.calendars import make_address, note_reading, open_to_all, shut_address
from catalogue.models import CalendarAddress, Composer, Membership
from catalogue.terms import CalendarHolds, Role
from tests.conftest import NOW
from tests.makers import make_composer
from tests.stored import everything_stored

pytestmark = pytest.mark.django_db


@pytest.fixture
def composer() -> Composer:
    return make_composer()


@pytest.fixture
def keeper(composer: Composer) -> User:
    user = User.objects.create_user("ilka")
    Membership.objects.create(composer=composer, user=user, role=Role.VIEWER.value)
    return user


def opened(token: str) -> list[str]:
    return [str(one) for one in CalendarAddress.objects.with_token(token)]


def test_of_a_token_only_its_hash_is_kept(composer: Composer, keeper: User) -> None:
    token = make_address(composer=composer, keeper=keeper, label="Telephone", now=NOW)

    stored = CalendarAddress.objects.get()
    assert len(token) >= 43
    assert stored.token_sha256 == sha256(token.encode()).hexdigest()
    assert (stored.holds, stored.query, stored.made_at, stored.read_on) == ("everything", "", NOW, None)
    assert token not in everything_stored()


def test_each_address_is_shut_by_itself(composer: Composer, keeper: User) -> None:
    telephone, desk = (make_address(composer=composer, keeper=keeper, label=name, now=NOW) for name in ("Tel", "Desk"))

    shut_address(address=CalendarAddress.objects.get(label="Tel"))

    assert (opened(telephone), opened(desk), opened("")) == ([], ["Desk"], [])


def test_address_is_good_as_long_as_its_keeper_keeps_the_catalogue(composer: Composer, keeper: User) -> None:
    token = make_address(composer=composer, keeper=keeper, label="Tel", now=NOW)
    Membership.objects.create(composer=make_composer("Tove Brandal", slug="tove"), user=keeper)

    Membership.objects.filter(composer=composer).delete()

    assert opened(token) == []


def test_keeper_who_may_not_sign_in_has_no_address(composer: Composer, keeper: User) -> None:
    token = make_address(composer=composer, keeper=keeper, label="Tel", now=NOW)
    User.objects.update(is_active=False)

    assert opened(token) == []


@pytest.mark.parametrize("columns", [{"label": ""}, {"label": "a\x00"}, {"label": "Tel", "query": "q=" + "x" * 2000}])
def test_what_must_not_be_stored_is_refused(composer: Composer, keeper: User, columns: dict[str, str]) -> None:
    with pytest.raises(ValidationError):
        make_address(composer=composer, keeper=keeper, now=NOW, **columns)

    assert not CalendarAddress.objects.exists()


def test_reading_is_noted_once_a_day(
    composer: Composer, keeper: User, django_assert_num_queries: pytest.FixtureRequest
) -> None:
    make_address(composer=composer, keeper=keeper, label="Tel", now=NOW, holds=CalendarHolds.DEADLINES)
    note_reading(address=CalendarAddress.objects.get(), day=date(2026, 3, 14))

    again = CalendarAddress.objects.get()
    with django_assert_num_queries(0):
        note_reading(address=again, day=date(2026, 3, 14))

    assert again.read_on == date(2026, 3, 14)


def test_calendar_is_opened_to_all_and_shut(composer: Composer) -> None:
    told = []
    for is_open in (True, False):
        open_to_all(composer=composer, is_open=is_open)
        told.append(Composer.objects.get().feed_is_public)

    assert told == [True, False]
