"""Pictures from outside: looked at, bounded, and written anew, so that only what was understood is kept.

Only PNG, JPEG and WebP are read, whatever a name or a browser says. The size in pixels is read from the head before
anything is unpacked. What is kept is a new file: place, camera and whatever else was hidden in the old one is gone.
"""

from __future__ import annotations

import warnings
from dataclasses import dataclass
from hashlib import sha256
from io import BytesIO

from django.core.files.base import ContentFile
from django.core.files.storage import Storage
from PIL import Image, ImageOps

from catalogue.exchange.archives import MEGABYTE
from catalogue.rules.refused import Refused

FORMATS = {"PNG": "png", "JPEG": "jpg", "WEBP": "webp"}
MEDIA_TYPES = {"png": "image/png", "jpg": "image/jpeg", "webp": "image/webp"}
MOST_BYTES = 20 * MEGABYTE
MOST_PIXELS = 25 * MEGABYTE
QUALITY = 90  # of JPEG and WebP


class PictureError(Refused):
    """A file that is no picture, or too large a one."""


@dataclass(frozen=True, slots=True)
class ProbedPicture:
    """A picture written anew, upright, without anything but its pixels; ``suffix`` says in which format."""

    content: bytes
    suffix: str
    width: int
    height: int

    @property
    def sha256(self) -> str:
        return sha256(self.content).hexdigest()


def probe_picture(content: bytes) -> ProbedPicture:
    """Read a picture and write it anew. Raises PictureError."""
    if len(content) > MOST_BYTES:
        raise PictureError(f"The picture is larger than {MOST_BYTES // MEGABYTE} MB; make it smaller first.")
    try:
        with warnings.catch_warnings():
            warnings.simplefilter("error", Image.DecompressionBombWarning)
            with Image.open(BytesIO(content), formats=list(FORMATS)) as picture:
                return rewritten(picture)
    except PictureError:
        raise
    except Exception as fault:
        raise PictureError("This is no picture that can be read; send a PNG, JPEG or WebP file.") from fault


def rewritten(picture: Image.Image) -> ProbedPicture:
    kind = picture.format or ""
    if picture.width * picture.height > MOST_PIXELS:
        size = f"{picture.width} × {picture.height}"
        raise PictureError(f"The picture has {size} pixels; {MOST_PIXELS // MEGABYTE} million are the most.")
    upright = ImageOps.exif_transpose(picture).convert("RGBA" if kind != "JPEG" and has_clear(picture) else "RGB")
    upright.info.clear()
    written = BytesIO()
    upright.save(written, kind, **({} if kind == "PNG" else {"quality": QUALITY}))
    return ProbedPicture(written.getvalue(), FORMATS[kind], upright.width, upright.height)


def has_clear(picture: Image.Image) -> bool:
    """Say whether parts of a picture may be transparent."""
    return picture.mode in {"RGBA", "LA", "PA"} or "transparency" in picture.info


def stored_name(digest: str, suffix: str) -> str:
    """Return where a file of this content is kept; nothing that anybody typed is in it."""
    return f"{digest[:2]}/{digest}.{suffix}"


def keep_picture(probed: ProbedPicture, storage: Storage) -> str:
    """Store a picture under its content, once; return its SHA-256."""
    name = stored_name(probed.sha256, probed.suffix)
    if not storage.exists(name):
        storage.save(name, ContentFile(probed.content))
    return probed.sha256
