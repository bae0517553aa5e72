"""A file that is put together from stretches of a kept one and from bytes of our own, piece by piece as it is sent."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from catalogue.exchange.kept_content import Kept
from catalogue.exchange.media_files import AT_ONCE, MediaError


@dataclass(frozen=True, slots=True)
class Span:
    """A stretch of the kept file, in bytes."""

    begins: int
    size: int


@dataclass(frozen=True, slots=True)
class Spliced:
    """The kept file, and of what the new one is made, in order."""

    file: Kept
    pieces: tuple[bytes | Span, ...]

    @property
    def size(self) -> int:
        return sum(one.size if isinstance(one, Span) else len(one) for one in self.pieces)

    def parts(self) -> Iterator[bytes]:
        """Give the content part by part. Raises MediaError where the kept file is shorter than it said."""
        with self.file.open() as file:
            for one in self.pieces:
                if isinstance(one, bytes):
                    yield one
                    continue
                file.seek(one.begins)
                left = one.size
                while left > 0:
                    part = file.read(min(AT_ONCE, left))
                    if not part:
                        raise MediaError(f"“{self.file.name}” ends before its sound does.")
                    left -= len(part)
                    yield part
