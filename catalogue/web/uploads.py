"""Files that people send: none is taken in beyond a size, which one page that takes sound has larger than the rest."""

from __future__ import annotations

from typing import Any

from django.core.files.uploadhandler import FileUploadHandler, SkipFile

from catalogue.exchange.archives import MEGABYTE

MOST_BYTES = 20 * MEGABYTE
MOST_BYTES_OF_SOUND = 400 * MEGABYTE
TAKES_SOUND = {"timing-set"}


class BoundedUploads(FileUploadHandler):
    """Stands before the handlers that store; a file that grows too large is dropped, and the request says so."""

    received = 0

    def new_file(self, *args: Any, **options: Any) -> None:
        super().new_file(*args, **options)
        self.received = 0

    @property
    def most(self) -> int:
        """How many bytes a file may have; sound is taken from somebody who is signed in."""
        match = self.request.resolver_match if self.request is not None else None
        if self.request is None or match is None or match.url_name not in TAKES_SOUND:
            return MOST_BYTES
        return MOST_BYTES_OF_SOUND if self.request.user.is_authenticated else MOST_BYTES

    def receive_data_chunk(self, raw_data: bytes, start: int) -> bytes:
        self.received += len(raw_data)
        if self.received > self.most:
            if self.request is not None:
                self.request.META["upload.too_large"] = self.field_name
            raise SkipFile
        return raw_data

    def file_complete(self, file_size: int) -> None:
        return None


def is_too_large(request: Any, field: str) -> bool:
    return bool(request.META.get("upload.too_large") == field)
