"""Uploaded files in an object storage that speaks S3, for a house of several machines.

Names stay those of the content. Whoever opens a file is asked by the page as ever: objects have no addresses of their
own, and a range of a file is fetched as that range.
"""

from __future__ import annotations

from collections.abc import Iterator
from contextlib import closing

from storages.backends.s3 import S3Storage
from storages.utils import clean_name


class ObjectStorage(S3Storage):
    """A bucket."""

    def pieces(self, name: str, first: int, count: int, at_once: int) -> Iterator[bytes]:
        """Give so many bytes from a place on, piece by piece (RFC 9110, section 14.2)."""
        found = self.bucket.Object(self._normalize_name(clean_name(name)))
        with closing(found.get(Range=f"bytes={first}-{first + count - 1}")["Body"]) as body:
            yield from body.iter_chunks(at_once)

    def url(self, name: str, *arguments: object, **named: object) -> str:
        raise ValueError("Uploaded files have no address of their own; a page asks who may see them.")
