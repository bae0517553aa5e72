"""Addresses at which somebody without an account looks at scores, hears recordings and takes parts, for a time."""

from __future__ import annotations

from datetime import datetime
from typing import Self

from django.db import models

from catalogue.models.addresses import SecretAddress
from catalogue.models.conditions import choices_of, known
from catalogue.models.fields import line, text
from catalogue.models.hires import Hire
from catalogue.models.people import Composer
from catalogue.models.records import TenantQuerySet
from catalogue.models.stored_files import StoredFile
from catalogue.models.works import Work
from catalogue.terms.hires import LinkPurpose


class FileLinkQuerySet(TenantQuerySet["FileLink"]):
    """Questions about secret addresses of files, asked of the database."""

    def open_at(self, moment: datetime) -> Self:
        """Return the links whose addresses still lead somewhere at this moment."""
        living = models.Q(work__isnull=True) | models.Q(work__deleted_at__isnull=True)
        return self.filter(living, withdrawn_at__isnull=True, expires_at__gt=moment)


class FileLink(SecretAddress):
    """Files for one named ``recipient``, for perusal or as the parts that were ordered."""

    composer = models.ForeignKey(Composer, on_delete=models.CASCADE, related_name="+")
    work = models.ForeignKey(Work, on_delete=models.CASCADE, null=True, blank=True, related_name="+")
    hire = models.ForeignKey(Hire, on_delete=models.SET_NULL, null=True, blank=True, related_name="+")
    purpose = models.CharField(max_length=20, choices=choices_of(LinkPurpose), default=LinkPurpose.PERUSAL.value)
    recipient = line(blank=False)
    message = text()

    objects = FileLinkQuerySet.as_manager()

    class Meta:
        constraints = [known("file_link", "purpose", LinkPurpose)]

    def __str__(self) -> str:
        return f"{self.recipient}, {self.get_purpose_display()}"


class LinkedFileQuerySet(TenantQuerySet["LinkedFile"]):
    memberships_path = "link__composer__memberships"


class LinkedFile(models.Model):
    """A file at an address, in its place from 1 on, with how often it was taken."""

    link = models.ForeignKey(FileLink, on_delete=models.CASCADE, related_name="files")
    file = models.ForeignKey(StoredFile, on_delete=models.CASCADE, related_name="+")
    position = models.PositiveSmallIntegerField()
    times_taken = models.PositiveIntegerField(default=0)

    objects = LinkedFileQuerySet.as_manager()

    class Meta:
        ordering = ("position",)
        constraints = [models.UniqueConstraint(fields=["link", "position"], name="linked_file_position_once")]

    def __str__(self) -> str:
        return f"{self.file}"
