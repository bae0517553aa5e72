"""The logo of a composer's papers: the newest picture of that kind, or that of the house."""

from __future__ import annotations

from dataclasses import dataclass

from django.core.files.storage import default_storage

from catalogue.models import Composer, House, Picture
from catalogue.terms import PictureKind


@dataclass(frozen=True, slots=True)
class KeptLogo:
    """Where a logo is kept, and what it shows in words."""

    sha256: str
    suffix: str
    alternative: str


def logo_worn(composer: Composer) -> KeptLogo | None:
    """The logo of the papers: that of the house, where they look as the house's and it has one, else the composer's.

    Who has a look of their own and no logo wears that of the house as well.
    """
    own = logo_of(composer)
    ours = KeptLogo(own.sha256, own.suffix, own.alternative) if own else None
    theirs = logo_of_house(composer.house) if composer.house_id and composer.house else None
    return (ours or theirs) if composer.own_look else (theirs or ours)


def logo_of(composer: Composer) -> Picture | None:
    """The composer's own logo as a record, if its file is there."""
    found = Picture.objects.filter(composer=composer, kind=PictureKind.LOGO.value).order_by("-pk").first()
    return found if found and default_storage.exists(name_of(found)) else None


def logo_of_house(house: House) -> KeptLogo | None:
    """The logo of a house, if it has one and its file is there."""
    kept = KeptLogo(house.logo_sha256, house.logo_suffix, house.logo_alternative or house.name)
    return kept if kept.sha256 and default_storage.exists(name_of(kept)) else None


def name_of(kept: KeptLogo | Picture) -> str:
    return f"{kept.sha256[:2]}/{kept.sha256}.{kept.suffix}"


def bytes_of(kept: KeptLogo | Picture) -> bytes:
    """Return the file of a logo or a picture as it is kept."""
    with default_storage.open(name_of(kept)) as file:
        return bytes(file.read())
