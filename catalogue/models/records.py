"""What every record has: a composer it belongs to, a history, and where it can be deleted, a way back.

Every question starts from the user: ``Work.objects.visible_to(user)``.
"""

from __future__ import annotations

from typing import Any, Generic, Self, TypeVar

from django.conf import settings
from django.contrib.auth.models import AbstractBaseUser, AnonymousUser
from django.db import models
from simple_history.models import HistoricalRecords

from catalogue.models.fields import line, text
from catalogue.rules.search import fold
from catalogue.terms import Role

AnyUser = AbstractBaseUser | AnonymousUser
M = TypeVar("M", bound=models.Model)

EDITING_ROLES = (Role.OWNER, Role.EDITOR)
READING_ROLES = (*EDITING_ROLES, Role.VIEWER)
"""The roles that see the whole of a catalogue."""


class TenantQuerySet(models.QuerySet[M], Generic[M]):
    """Records that belong to a composer; ``memberships_path`` leads from the record to the composer's members.

    What a librarian sees of a catalogue is said where its pages are made; here they see nothing.
    """

    memberships_path = "composer__memberships"

    def _of_members(self, user: AnyUser, roles: tuple[Role, ...]) -> Self:
        path = self.memberships_path
        return self.filter(**{f"{path}__user_id": user.pk, f"{path}__role__in": roles})

    def visible_to(self, user: AnyUser) -> Self:
        """Return what the user may see; nothing for a stranger or somebody who is not signed in."""
        return self._of_members(user, READING_ROLES)

    def editable_by(self, user: AnyUser) -> Self:
        return self._of_members(user, EDITING_ROLES)


class SearchableQuerySet(TenantQuerySet[M], Generic[M]):
    """Records with a ``search_text``."""

    def matching(self, text: str) -> Self:
        """Return the records that hold every word of the text, in any case, with or without marks."""
        found = self
        for word in fold(text).split():
            found = found.filter(search_text__contains=word)
        return found


class LivingManager(models.Manager):
    """Leaves out what has been deleted."""

    def get_queryset(self) -> Any:
        return super().get_queryset().filter(deleted_at__isnull=True)


class Record(models.Model):
    """A row with its history."""

    history = HistoricalRecords(inherit=True)

    class Meta:
        abstract = True


class Deletable(models.Model):
    """A record that is marked as deleted and can be restored; ``with_deleted`` finds it again."""

    deleted_at = models.DateTimeField(null=True, blank=True, editable=False, db_index=True)
    deleted_by = models.ForeignKey(
        settings.AUTH_USER_MODEL, on_delete=models.SET_NULL, null=True, blank=True, editable=False, related_name="+"
    )

    class Meta:
        abstract = True


class Guarded(models.Model):
    """A record that two people may edit at once: a save that did not see the latest one is refused.

    ``saves`` counts how often the record was saved; a form carries the number it was opened with.
    """

    saves = models.PositiveIntegerField(default=0, editable=False)
    changed_at = models.DateTimeField(null=True, blank=True, editable=False)

    class Meta:
        abstract = True


class Contact(models.Model):
    """How somebody is reached."""

    email = models.EmailField(blank=True, default="")
    telephone = line(50)
    website = models.URLField(max_length=500, blank=True, default="")
    address = text()

    class Meta:
        abstract = True
