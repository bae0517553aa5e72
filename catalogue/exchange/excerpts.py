"""An excerpt of a WAV file, from one second to another: its samples copied as they are, made while it is sent."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from catalogue.exchange.kept_content import Kept
from catalogue.exchange.media_files import AT_ONCE, MediaError, Wave, read_wave
from catalogue.timing.click import wav_head


@dataclass(frozen=True, slots=True)
class Excerpt:
    """The file, and from which frame to which it is played."""

    file: Kept
    first: int
    last: int
    wave: Wave

    @property
    def size(self) -> int:
        return len(self.head()) + self.length + self.length % 2

    @property
    def length(self) -> int:
        """The bytes of its samples."""
        return (self.last - self.first) * self.wave.frame

    def head(self) -> bytes:
        wave = self.wave
        return wav_head(
            self.length,
            channels=wave.channels,
            sample_rate=wave.sample_rate,
            bytes_a_sample=wave.bytes_a_sample,
            format=wave.format,
        )

    def parts(self) -> Iterator[bytes]:
        yield self.head()
        left = self.length
        with self.file.open() as file:
            file.seek(self.wave.begins + self.first * self.wave.frame)
            while left > 0 and (part := file.read(min(AT_ONCE, left))):
                left -= len(part)
                yield part
        if left:
            raise MediaError(f"“{self.file.name}” ends before its samples do.")
        if self.length % 2:
            yield b"\x00"


def excerpt_of(kept: Kept, begins: int | None, ends: int | None) -> Excerpt:
    """Return the excerpt between two seconds, to the end where none is said. Raises MediaError."""
    with kept.open() as file:
        wave = read_wave(kept.name, file)
    first = min((begins or 0) * wave.sample_rate, wave.frames)
    last = wave.frames if ends is None else min(ends * wave.sample_rate, wave.frames)
    if last <= first:
        raise MediaError("The recording ends before its excerpt begins.")
    return Excerpt(kept, first, last, wave)
