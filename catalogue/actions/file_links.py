"""Sending files at a secret address: scores and recordings to look at and hear, parts to print."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import datetime, timedelta

from django.db import transaction
from django.db.models import F

from catalogue.actions.addresses import check_typed, new_token
from catalogue.models import Composer, FileLink, Hire, LinkedFile, StoredFile, Work
from catalogue.models.people import sha256_of
from catalogue.terms.hires import LinkPurpose


@transaction.atomic
def open_link(
    *,
    composer: Composer,
    recipient: str,
    files: Sequence[StoredFile],
    purpose: LinkPurpose,
    days: int,
    now: datetime,
    work: Work | None = None,
    hire: Hire | None = None,
    message: str = "",
) -> tuple[FileLink, str]:
    """Make an address for these files, in this order; return it with its token, which cannot be found out later.

    Raises ValidationError where what was typed must not be stored.
    """
    token = new_token()
    link = FileLink(
        composer=composer,
        work=work,
        hire=hire,
        purpose=purpose.value,
        recipient=recipient,
        message=message,
        sent_at=now,
        token_sha256=sha256_of(token),
        expires_at=now + timedelta(days=days),
    )
    check_typed(link, "recipient", "message")
    link.save()
    LinkedFile.objects.bulk_create(
        LinkedFile(link=link, file=file, position=place) for place, file in enumerate(files, start=1)
    )
    return link, token


def find_link(token: str, *, now: datetime) -> FileLink | None:
    """Return the link of a token, or None where it is unknown, shut or too old."""
    opened = FileLink.objects.open_at(now).filter(token_sha256=sha256_of(token))
    return opened.select_related("work", "composer", "hire").first()


def files_of(link: FileLink) -> list[LinkedFile]:
    """Return the files at an address that have not been deleted since, in their order; one query."""
    return list(link.files.filter(file__deleted_at__isnull=True).select_related("file__recording"))


def file_at(link: FileLink, position: int) -> LinkedFile | None:
    """Return the file in this place, None where there is none or it has been deleted since."""
    here = link.files.filter(position=position, file__deleted_at__isnull=True)
    return here.select_related("file").first()


def note_taking(taken: LinkedFile) -> None:
    """Count that a file was taken."""
    LinkedFile.objects.filter(pk=taken.pk).update(times_taken=F("times_taken") + 1)
