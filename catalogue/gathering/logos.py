"""The logo of a composer's papers: the newest picture of that kind, small enough for a letterhead."""

from __future__ import annotations

from django.core.files.storage import default_storage

from catalogue.models import Composer, Picture
from catalogue.terms import PictureKind


def logo_of(composer: Composer) -> Picture | None:
    """The picture, if its file is there."""
    found = Picture.objects.filter(composer=composer, kind=PictureKind.LOGO.value).order_by("-pk").first()
    return found if found and default_storage.exists(name_of(found)) else None


def name_of(picture: Picture) -> str:
    return f"{picture.sha256[:2]}/{picture.sha256}.{picture.suffix}"


def bytes_of(picture: Picture) -> bytes:
    with default_storage.open(name_of(picture)) as file:
        return bytes(file.read())
