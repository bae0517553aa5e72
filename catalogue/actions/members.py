"""Who keeps a catalogue: letting somebody in, changing what they may do, and taking them out again.

A catalogue never loses its last owner. Somebody new gets a code that opens once, to choose a password with; nobody else
ever knows that password. A code is only made for somebody who has none and belongs to this catalogue alone, so that it
never opens another one.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import datetime

from django.contrib.auth.models import User
from django.db import transaction

from catalogue.actions.entry import KeyUsed, make_entry_key
from catalogue.models import Composer, EntryKey, EntryPurpose, Membership
from catalogue.models.people import sha256_of
from catalogue.terms import Role


class MemberError(ValueError):
    """Something that must not happen to the members of a catalogue; ``reason`` says why."""

    def __init__(self, reason: str) -> None:
        self.reason = reason
        super().__init__(reason)


@dataclass(frozen=True, slots=True)
class Added:
    """A new member; ``token`` opens the way in for somebody who had none, else it is empty."""

    membership: Membership
    token: str = ""


@transaction.atomic
def add_member(*, composer: Composer, user_name: str, role: Role, now: datetime, email: str = "") -> Added:
    """Let somebody in by the name they sign in with; a name that nobody has becomes a user. Raises MemberError.

    ``email`` is noted of somebody new alone: whoever is here already says so themselves.
    """
    user = User.objects.filter(username__iexact=user_name).first()
    if user is None:
        user = User.objects.create_user(user_name, email)  # without a password that could be used
    if not user.is_active:
        raise MemberError(f"“{user.username}” may no longer sign in.")
    membership, is_new = Membership.objects.get_or_create(user=user, composer=composer, defaults={"role": role.value})
    if not is_new:
        raise MemberError(f"“{user.username}” is a member already.")
    if user.has_usable_password():
        return Added(membership)
    if not may_have_code(membership):
        raise MemberError(f"“{user.username}” has no password yet, so that nobody can tell who it is.")
    return Added(membership, make_member_code(membership=membership, now=now))


@transaction.atomic
def add_to_several(*, composers: Sequence[Composer], user_name: str, role: Role, now: datetime) -> Added:
    """Let somebody into several catalogues at once; somebody new gets one code for all. Raises MemberError."""
    first, *others = composers
    added = add_member(composer=first, user_name=user_name, role=role, now=now)
    for composer in others:
        if added.token:
            Membership.objects.create(user=added.membership.user, composer=composer, role=role.value)
        else:
            add_member(composer=composer, user_name=user_name, role=role, now=now)
    return added


@transaction.atomic
def change_role(*, membership: Membership, role: Role) -> None:
    """Raises MemberError where the catalogue would be without an owner."""
    if role is not Role.OWNER:
        refuse_last_owner(membership)
    membership.role = role.value
    membership.save()


@transaction.atomic
def remove_member(*, membership: Membership) -> None:
    """Take somebody out, and delete a user who never came in and belongs nowhere else. Raises MemberError."""
    refuse_last_owner(membership)
    user, never_came = membership.user, may_have_code(membership) and membership.user.last_login is None
    membership.delete()
    if never_came:
        user.delete()


def refuse_last_owner(membership: Membership) -> None:
    """Ask under a lock on the composer, so that two owners cannot leave at the same moment."""
    Composer.objects.select_for_update().get(pk=membership.composer_id)
    others = Membership.objects.filter(composer=membership.composer_id).exclude(pk=membership.pk)
    if not others.filter(role=Role.OWNER, user__is_active=True).exists():
        raise MemberError("A catalogue needs an owner; make somebody else one first.")


# ---- the way in of somebody new


def may_have_code(membership: Membership) -> bool:
    """Say whether a code may open this user's way in: there is none yet, and it leads nowhere but here."""
    user = membership.user
    if user.has_usable_password() or user.is_staff or user.is_superuser or not user.is_active:
        return False
    return not user.memberships.exclude(composer=membership.composer_id).exists()


@transaction.atomic
def make_member_code(*, membership: Membership, now: datetime) -> str:
    """Return the token of a new code, shown this once; the one before it opens nothing any more. Raises MemberError."""
    if not may_have_code(membership):
        raise MemberError(f"“{membership.user.username}” signs in with a password already.")
    EntryKey.objects.filter(purpose=EntryPurpose.MEMBER, user=membership.user).delete()
    return make_entry_key(EntryPurpose.MEMBER, now=now, user=membership.user)


@transaction.atomic
def join(token: str, password: str, *, now: datetime) -> User:
    """Use up a member's code and set the password. Raises KeyUsed."""
    keys = EntryKey.objects.usable(EntryPurpose.MEMBER, now).filter(token_sha256=sha256_of(token))
    key = keys.select_for_update(of=("self",)).select_related("user").first()
    user = key.user if key is not None else None
    if key is None or user is None or not user.is_active or user.has_usable_password():
        raise KeyUsed("This address has been used already, or it ran out; ask for a new one.")
    key.used_at = now
    key.save(update_fields=["used_at"])
    user.set_password(password)
    user.save(update_fields=["password"])
    return user
