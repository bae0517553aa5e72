"""Files that people send: none is taken in beyond a size, which pages that take sound have larger than the rest.

Where files are kept, the bound is that of what the first bytes say the file is, so that none is taken in whole first.
"""

from __future__ import annotations

from typing import Any

from django.core.files.uploadhandler import FileUploadHandler, SkipFile

from catalogue.exchange.archives import MEGABYTE
from catalogue.exchange.file_formats import HEAD, format_of
from catalogue.exchange.scores.opening import LARGEST

MOST_BYTES = 20 * MEGABYTE
MOST_BYTES_OF_SOUND = 400 * MEGABYTE
MOST_BY_PAGE = {
    "timing-set": MOST_BYTES_OF_SOUND,
    "electronics-check": MOST_BYTES_OF_SOUND,
    "score-new": LARGEST,
    "take-over": MOST_BYTES_OF_SOUND,
}
TAKES_FILES = ("record-new", "files")
TOO_LARGE, MOST = "upload.too_large", "upload.most"


class BoundedUploads(FileUploadHandler):
    """Stands before the handlers that store; a file that grows too large is dropped, and the request says so."""

    received = 0
    most = 0

    def new_file(self, *args: Any, **options: Any) -> None:
        super().new_file(*args, **options)
        self.received = 0

    def most_of(self, head: bytes) -> int:
        """How many bytes a file that begins like this may have; large ones are taken from who is signed in."""
        match = self.request.resolver_match if self.request is not None else None
        if self.request is None or match is None or not self.request.user.is_authenticated:
            return MOST_BYTES
        if (match.url_name, match.kwargs.get("sort")) == TAKES_FILES:
            found = format_of(head, self.file_name or "")
            return found.most if found else MOST_BYTES
        return MOST_BY_PAGE.get(match.url_name or "", MOST_BYTES)

    def receive_data_chunk(self, raw_data: bytes, start: int) -> bytes:
        if start == 0:
            self.most = self.most_of(bytes(raw_data[:HEAD]))
        self.received += len(raw_data)
        if self.received > self.most:
            if self.request is not None:
                self.request.META |= {TOO_LARGE: self.field_name, MOST: self.most}
            raise SkipFile
        return raw_data

    def file_complete(self, file_size: int) -> None:
        return None


def is_too_large(request: Any, field: str) -> bool:
    """Say whether the file of a field was larger than its kind may be, so that nothing of it was kept."""
    return bool(request.META.get(TOO_LARGE) == field)


def most_taken(request: Any) -> int:
    """Return how many megabytes the file that was too large might have had."""
    return int(request.META.get(MOST, MOST_BYTES)) // MEGABYTE
