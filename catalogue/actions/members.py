"""Who keeps a catalogue: letting somebody in, changing what they may do, and taking them out again.

A catalogue never loses its last owner. Somebody new gets a code that opens once, to choose a password with; nobody else
ever knows that password. A code is only made for somebody who has none and belongs to no catalogue but those of the
owner who asks for it, so that it never opens one of somebody else's.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import datetime

from django.contrib.auth.models import User
from django.db import transaction

from catalogue.actions.entry import KeyUsed, make_entry_key, user_named
from catalogue.models import Composer, EntryKey, EntryPurpose, Membership
from catalogue.models.people import sha256_of
from catalogue.rules.refused import Refused
from catalogue.terms import Role


class MemberError(Refused):
    """Something that must not happen to the members of a catalogue; ``reason`` says why."""


@dataclass(frozen=True, slots=True)
class Added:
    """A new member; ``token`` opens the way in for somebody who had none, else it is empty."""

    membership: Membership
    token: str = ""


@transaction.atomic
def add_member(
    *, composer: Composer, user_name: str, role: Role, now: datetime, email: str = "", by: User | None = None
) -> Added:
    """Let somebody in by the name they sign in with; a name that nobody has becomes a user. Raises MemberError.

    ``email`` is noted of somebody new alone: whoever is here already says so themselves. ``by`` is the owner who asks.
    """
    user = user_named(user_name) or User.objects.create_user(user_name, email)  # without a password that could be used
    if not user.is_active:
        raise MemberError(f"“{user.username}” may no longer sign in.")
    membership, is_new = Membership.objects.get_or_create(user=user, composer=composer, defaults={"role": role.value})
    if not is_new:
        raise MemberError(f"“{user.username}” is a member already.")
    if user.has_usable_password():
        return Added(membership)
    if not may_have_code(membership, by=by):
        raise MemberError(f"“{user.username}” has no password yet, so that nobody can tell who it is.")
    return Added(membership, make_member_code(membership=membership, now=now, by=by))


@transaction.atomic
def add_to_several(
    *, composers: Sequence[Composer], user_name: str, role: Role, now: datetime, email: str = "", by: User | None = None
) -> Added:
    """Let somebody into several catalogues at once; somebody new gets one code for all. Raises MemberError."""
    added = [
        add_member(composer=composer, user_name=user_name, role=role, now=now, email=email, by=by)
        for composer in composers
    ]
    return added[-1]  # of several codes the last one opens


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


def may_have_code(membership: Membership, *, by: User | None = None) -> bool:
    """Say whether a code may open this user's way in: there is none yet, and it leads nowhere but here.

    Where ``by`` is named, it may lead into other catalogues that they own as well.
    """
    user = membership.user
    if user.has_usable_password() or user.is_staff or user.is_superuser or not user.is_active:
        return False
    owned = Membership.objects.filter(user=by, role=Role.OWNER).values("composer")
    elsewhere = user.memberships.exclude(composer=membership.composer_id)
    return not (elsewhere.exclude(composer__in=owned) if by else elsewhere).exists()


@transaction.atomic
def make_member_code(*, membership: Membership, now: datetime, by: User | None = None) -> str:
    """Return the token of a new code, shown this once; the one before it opens nothing any more. Raises MemberError."""
    if not may_have_code(membership, by=by):
        raise MemberError(why_no_code(membership.user))
    EntryKey.objects.filter(purpose=EntryPurpose.MEMBER, user=membership.user).delete()
    return make_entry_key(EntryPurpose.MEMBER, now=now, user=membership.user)


def why_no_code(user: User) -> str:
    if user.has_usable_password():
        return f"“{user.username}” signs in with a password already."
    return f"“{user.username}” keeps other catalogues too: only who owns them all makes a new code."


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
