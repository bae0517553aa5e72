"""A key founds one catalogue."""

from __future__ import annotations

from datetime import timedelta

import pytest
from django.contrib.auth.models import User

from catalogue.actions.entry import Founder, KeyUsed, find_entry_key, found_catalogue, make_entry_key
from catalogue.models import Composer, EntryKey, EntryPurpose, Membership
from catalogue.terms import Role
from tests.makers import NOW

pytestmark = pytest.mark.django_db
FIRST = Founder("Ilka Marovand", "rana", "seven ropes", "rana@house.example")


def test_a_key_founds_a_catalogue_once() -> None:
    token = make_entry_key(EntryPurpose.OWNER, now=NOW)

    user = found_catalogue(token, FIRST, now=NOW)
    with pytest.raises(KeyUsed, match="used already"):
        found_catalogue(token, Founder("Pell Tarrowick", "tobiah", "eight ropes"), now=NOW)

    assert (user.username, user.email, user.check_password("seven ropes")) == ("rana", "rana@house.example", True)
    assert [one.name for one in Composer.objects.all()] == ["Ilka Marovand"]
    assert Membership.objects.get().role == Role.OWNER
    assert (User.objects.count(), EntryKey.objects.get().used_at) == (1, NOW)


@pytest.mark.parametrize(("purpose", "days"), [("owner", 1), ("demo", 1), ("member", 7)])
def test_a_key_has_256_bits_and_runs_out(purpose: str, days: int) -> None:
    kind = EntryPurpose(purpose)
    user = None if kind is EntryPurpose.OWNER else User.objects.create_user("kit")

    token = make_entry_key(kind, now=NOW, user=user)

    end = NOW + timedelta(days=days)
    assert len(token) == 43  # 256 bits, six to a sign
    assert find_entry_key(kind, token, now=end - timedelta(seconds=1)) is not None
    assert find_entry_key(kind, token, now=end) is None
