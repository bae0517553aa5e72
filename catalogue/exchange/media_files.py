"""WAV files from outside: how many channels at which rate they hold, and where their samples stand.

RIFF/WAVE with whole-number samples of 16, 24 or 32 bits, or floating-point ones of 32 (formats 1, 3 and, naming one of
these, 0xFFFE). Nothing is decoded: samples are copied as they are.
"""

from __future__ import annotations

import struct
from collections.abc import Iterator
from dataclasses import dataclass
from typing import BinaryIO

from catalogue.rules.refused import Refused

PCM, FLOAT, EXTENSIBLE = 1, 3, 0xFFFE
WIDTHS = {PCM: (2, 3, 4), FLOAT: (4,)}
MOST_CHUNKS = 200
AT_ONCE = 65_536


class MediaError(Refused):
    """A file that cannot be used; ``reason`` is one sentence with its name."""


@dataclass(frozen=True, slots=True)
class Wave:
    """A WAV file: ``begins`` is where its samples stand, ``frames`` how many there are of each channel."""

    name: str
    format: int
    channels: int
    sample_rate: int
    bytes_a_sample: int
    begins: int
    frames: int
    file: BinaryIO

    @property
    def frame(self) -> int:
        """The bytes of one sample of every channel."""
        return self.channels * self.bytes_a_sample

    def samples(self) -> Iterator[bytes]:
        """Give the samples part by part."""
        self.file.seek(self.begins)
        left = self.frames * self.frame
        while left > 0:
            part = self.file.read(min(AT_ONCE, left))
            if not part:
                raise MediaError(f"“{self.name}” ends before its samples do.")
            left -= len(part)
            yield part


def read_wave(name: str, file: BinaryIO) -> Wave:
    """Return what the head of a WAV file says. Raises MediaError."""
    head = file.read(12)
    if len(head) < 12 or head[:4] != b"RIFF" or head[8:] != b"WAVE":
        raise MediaError(f"“{name}” is no WAV file.")
    told: tuple[int, int, int, int] | None = None
    for kind, size, begins in chunks(file):
        if kind == b"fmt ":
            told = format_of(name, file.read(min(size, 40)))
        elif kind == b"data":
            if told is None:
                break
            format, channels, sample_rate, width = told
            there = min(size, length_of(file) - begins)
            return Wave(name, format, channels, sample_rate, width, begins, there // (channels * width), file)
    raise MediaError(f"“{name}” holds no samples.")


def chunks(file: BinaryIO) -> Iterator[tuple[bytes, int, int]]:
    """Give the kind, the size and the place of each chunk."""
    place = 12
    for _number in range(MOST_CHUNKS):
        file.seek(place)
        head = file.read(8)
        if len(head) < 8:
            return
        kind, size = struct.unpack("<4sI", head)
        yield kind, size, place + 8
        place += 8 + size + size % 2


def format_of(name: str, told: bytes) -> tuple[int, int, int, int]:
    """Return format, channels, rate and bytes a sample."""
    if len(told) < 16:
        raise MediaError(f"“{name}” does not say how its samples are written.")
    format, channels, sample_rate, _rate, _frame, bits = struct.unpack("<HHIIHH", told[:16])
    if format == EXTENSIBLE and len(told) >= 26:
        (format,) = struct.unpack("<H", told[24:26])
    if format not in WIDTHS or bits // 8 not in WIDTHS[format] or bits % 8:
        raise MediaError(f"“{name}” is compressed or of an unusual kind; make it a WAV file of 16 or 24 bits.")
    if not 1 <= channels <= 256 or not 8_000 <= sample_rate <= 384_000:
        raise MediaError(f"“{name}” has an unusual number of channels or an unusual rate.")
    return format, channels, sample_rate, bits // 8


def length_of(file: BinaryIO) -> int:
    """Return the length of a file in bytes; it is left where it was being read."""
    here = file.tell()
    length = file.seek(0, 2)
    file.seek(here)
    return length
