"""Who keeps a catalogue, and the codes that let somebody new in."""

from __future__ import annotations

from datetime import timedelta

import pytest
from django.contrib.auth.models import User

from catalogue.actions.entry import KeyUsed, find_entry_key
from catalogue.actions.members import (
    MemberError,
    add_member,
    add_to_several,
    change_role,
    join,
    make_member_code,
    remove_member,
)
from catalogue.models import Composer, EntryKey, EntryPurpose, Membership
from catalogue.terms import Role
from tests.makers import NOW, make_composer, make_user

pytestmark = pytest.mark.django_db
PASSWORD = "Hushed-Reed-7"


@pytest.fixture
def composer() -> Composer:
    return make_composer(owner=make_user("ilse", password=PASSWORD))


def of(composer: Composer, name: str) -> Membership:
    return composer.memberships.get(user__username=name)


def roles(composer: Composer) -> dict[str, str]:
    return dict(composer.memberships.order_by("pk").values_list("user__username", "role"))


def test_somebody_who_signs_in_already_is_let_in_without_a_code(composer: Composer) -> None:
    make_user("noor", password=PASSWORD)

    added = add_member(composer=composer, user_name="Noor", role=Role.EDITOR, now=NOW)

    assert (added.token, roles(composer)) == ("", {"ilse": "owner", "noor": "editor"})
    assert not EntryKey.objects.exists()


def test_somebody_new_gets_a_code_that_sets_the_password_once(composer: Composer) -> None:
    token = add_member(composer=composer, user_name="noor", role=Role.VIEWER, now=NOW).token

    user = join(token, PASSWORD, now=NOW)

    assert (user.username, user.check_password(PASSWORD), roles(composer)["noor"]) == ("noor", True, "viewer")
    with pytest.raises(KeyUsed):
        join(token, "Another-Reed-7", now=NOW)
    assert User.objects.get(username="noor").check_password(PASSWORD)


def test_code_lasts_a_week_and_is_not_kept_itself(composer: Composer) -> None:
    token = add_member(composer=composer, user_name="noor", role=Role.VIEWER, now=NOW).token
    almost, over = NOW + timedelta(days=7, seconds=-1), NOW + timedelta(days=7)

    assert [find_entry_key(EntryPurpose.MEMBER, token, now=now) is not None for now in (almost, over)] == [True, False]
    assert token not in str(list(EntryKey.objects.values()))
    with pytest.raises(KeyUsed):
        join(token, PASSWORD, now=over)


def test_new_code_shuts_the_one_before_it(composer: Composer) -> None:
    first = add_member(composer=composer, user_name="noor", role=Role.VIEWER, now=NOW).token
    second = make_member_code(membership=of(composer, "noor"), now=NOW)

    with pytest.raises(KeyUsed):
        join(first, PASSWORD, now=NOW)
    assert join(second, PASSWORD, now=NOW).username == "noor"


def test_code_is_made_for_nobody_who_has_a_password(composer: Composer) -> None:
    with pytest.raises(MemberError, match="“ilse” signs in with a password already"):
        make_member_code(membership=of(composer, "ilse"), now=NOW)


def test_code_never_opens_another_catalogue(composer: Composer) -> None:
    other = make_composer("Pell Tarrowick", owner=make_user("pell"))
    token = add_member(composer=composer, user_name="noor", role=Role.VIEWER, now=NOW).token

    with pytest.raises(MemberError, match="“noor” has no password yet"):
        add_member(composer=other, user_name="noor", role=Role.OWNER, now=NOW)
    with pytest.raises(MemberError, match="“pell” has no password yet"):
        add_member(composer=composer, user_name="pell", role=Role.VIEWER, now=NOW)
    assert (roles(other), roles(composer)) == ({"pell": "owner"}, {"ilse": "owner", "noor": "viewer"})
    assert join(token, PASSWORD, now=NOW).memberships.count() == 1


def test_one_owner_of_several_makes_a_new_code_for_all_and_no_other_owner_does(composer: Composer) -> None:
    ilse, pell = User.objects.get(username="ilse"), make_user("pell")
    second = make_composer("Osk Verrin", owner=ilse)
    Membership.objects.create(composer=composer, user=pell, role=Role.OWNER)
    told = {"user_name": "noor", "role": Role.VIEWER, "now": NOW, "by": ilse}
    first = add_to_several(composers=[composer, second], **told).token

    with pytest.raises(MemberError, match="only who owns them all"):
        make_member_code(membership=of(composer, "noor"), now=NOW, by=pell)
    fresh = make_member_code(membership=of(second, "noor"), now=NOW, by=ilse)

    with pytest.raises(KeyUsed):
        join(first, PASSWORD, now=NOW)
    assert join(fresh, PASSWORD, now=NOW).memberships.count() == 2


def test_who_runs_the_machine_gets_no_code(composer: Composer) -> None:
    User.objects.create_superuser("root")

    with pytest.raises(MemberError, match="“root” has no password yet"):
        add_member(composer=composer, user_name="root", role=Role.VIEWER, now=NOW)


@pytest.mark.parametrize(
    ("columns", "reason"),
    [({}, "“noor” is a member already."), ({"is_active": False}, "“noor” may no longer sign in.")],
)
def test_member_already_and_somebody_shut_out_are_refused(
    composer: Composer, columns: dict[str, bool], reason: str
) -> None:
    noor = make_user("noor", password=PASSWORD, **columns)
    Membership.objects.create(composer=composer, user=noor, role=Role.VIEWER)

    with pytest.raises(MemberError) as refused:
        add_member(composer=composer, user_name="noor", role=Role.EDITOR, now=NOW)

    assert (refused.value.reason, roles(composer)["noor"]) == (reason, "viewer")


def test_last_owner_stays_owner(composer: Composer) -> None:
    add_member(composer=composer, user_name="noor", role=Role.EDITOR, now=NOW)

    with pytest.raises(MemberError, match="A catalogue needs an owner"):
        change_role(membership=of(composer, "ilse"), role=Role.EDITOR)
    with pytest.raises(MemberError, match="A catalogue needs an owner"):
        remove_member(membership=of(composer, "ilse"))

    change_role(membership=of(composer, "noor"), role=Role.OWNER)
    change_role(membership=of(composer, "ilse"), role=Role.VIEWER)
    assert roles(composer) == {"ilse": "viewer", "noor": "owner"}


def test_owner_who_may_no_longer_sign_in_is_not_counted(composer: Composer) -> None:
    gone = make_user("noor", password=PASSWORD, is_active=False)
    Membership.objects.create(composer=composer, user=gone, role=Role.OWNER)

    with pytest.raises(MemberError):
        remove_member(membership=of(composer, "ilse"))


def test_removing_keeps_a_user_who_has_come_in_and_forgets_one_who_never_did(composer: Composer) -> None:
    make_user("tobiah", password=PASSWORD)
    for name in ("tobiah", "noor"):
        add_member(composer=composer, user_name=name, role=Role.EDITOR, now=NOW)

    for name in ("tobiah", "noor"):
        remove_member(membership=of(composer, name))

    assert roles(composer) == {"ilse": "owner"}
    assert list(User.objects.order_by("pk").values_list("username", flat=True)) == ["ilse", "tobiah"]
    assert not EntryKey.objects.exists()


def test_of_the_codes_of_somebody_new_in_several_catalogues_the_one_that_is_shown_opens(composer: Composer) -> None:
    owner = User.objects.get(username="ilse")
    other = make_composer("Pell Tarrowick", owner=owner)

    added = add_to_several(composers=[composer, other], user_name="kit", role=Role.EDITOR, now=NOW, by=owner)
    user = join(added.token, PASSWORD, now=NOW)

    assert {one.composer for one in user.memberships.all()} == {composer, other}
