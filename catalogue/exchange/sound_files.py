"""What a file of sound says of itself: length, channels, rate, bits and tags, read within limits.

WAV is read here: RIFF, RF64 and BW64 (EBU Tech 3306, Recommendation ITU-R BS.2088; their 64-bit length stands in the
chunk “ds64”), with the texts of an INFO list and of a broadcast extension (EBU Tech 3285). The rest is read by tinytag,
through a window that lets no more than a few megabytes and a bounded number of pieces pass.
"""

from __future__ import annotations

import io
import struct
from collections.abc import Iterator
from dataclasses import replace
from typing import BinaryIO, cast

from tinytag import TinyTag

from catalogue.exchange.archives import MEGABYTE
from catalogue.exchange.media_files import EXTENSIBLE, FLOAT, PCM, MediaError, chunks, length_of
from catalogue.exchange.sound_ends import is_cut_off
from catalogue.rules.technical.files import SoundFacts

MOST_READ = 16 * MEGABYTE
MOST_PIECES = 300_000
LONGEST_TEXT, MOST_TAGS = 500, 40
LONGEST_CHUNK = 65_536
HIGHEST_RATE = 10_000_000
UNTOLD = 0xFFFFFFFF
INFO = {b"INAM": "title", b"IART": "artist", b"IPRD": "album", b"ICRD": "date", b"ICMT": "comment", b"ISFT": "software"}
BEXT = (("description", 0, 256), ("originator", 256, 288), ("date", 320, 330), ("time", 330, 338))
SHOWN = ("title", "artist", "album", "albumartist", "composer", "year", "genre", "track", "comment")


class Window(io.RawIOBase):
    """A file through which only so much passes; then it says that it is too much. Raises MediaError."""

    def __init__(self, file: BinaryIO, most: int = MOST_READ, pieces: int = MOST_PIECES) -> None:
        super().__init__()
        self.file, self.left, self.pieces = file, most, pieces

    def readable(self) -> bool:
        return True

    def seekable(self) -> bool:
        return True

    def seek(self, place: int, whence: int = io.SEEK_SET) -> int:
        self.pieces -= 1
        return self.file.seek(place, whence)

    def tell(self) -> int:
        return self.file.tell()

    def read(self, size: int = -1) -> bytes:
        self.pieces -= 1
        if size < 0 or size > self.left or self.pieces < 0:
            raise MediaError("The head of this file is too large to be one.")
        content = self.file.read(size)
        self.left -= len(content)
        return content


def read_sound(file: BinaryIO, suffix: str) -> SoundFacts:
    """Return what a file says of its sound, as far as it can be read. Raises MediaError for a damaged WAV file."""
    if suffix == "wav":
        return read_wav(file)
    found = read_other(file)
    return found if found == SoundFacts() else replace(found, is_cut=is_cut_off(file, suffix))


# ---- WAV


def read_wav(file: BinaryIO) -> SoundFacts:
    file.seek(0)
    found, size, lengths = SoundFacts(), length_of(file), 0
    tags: dict[str, str] = {}
    head: bytes | None = None
    for kind, told, begins in chunks(file):
        if kind == b"ds64":
            lengths = struct.unpack("<Q", part(file, begins, 16)[8:])[0] if told >= 16 else 0
        elif kind == b"fmt ":
            head = part(file, begins, min(told, 40))
        elif kind in (b"LIST", b"bext"):
            tags |= dict(texts_in(kind, part(file, begins, min(told, LONGEST_CHUNK))))
        elif kind == b"data" and head is not None and found.channels is None:
            found = sound_of(head, lengths if told == UNTOLD and lengths else told, size - begins)
    if found.channels is None:
        raise MediaError("This WAV file is damaged: it does not say how its sound is written, or holds none.")
    return SoundFacts(found.milliseconds, found.channels, found.rate, found.bits, bounded(tags), found.is_cut)


def part(file: BinaryIO, begins: int, size: int) -> bytes:
    file.seek(begins)
    content = file.read(size)
    return content if len(content) == size else content.ljust(size, b"\0")


def sound_of(head: bytes, told: int, there: int) -> SoundFacts:
    """Read the format (Microsoft, Multimedia Programming Interface and Data Specifications 1.0; extensible 0xFFFE)."""
    if len(head) < 16:
        return SoundFacts()
    format, channels, rate, bytes_a_second, frame, bits = struct.unpack("<HHIIHH", head[:16])
    if format == EXTENSIBLE and len(head) >= 26:
        (format,) = struct.unpack("<H", head[24:26])
    plain = format in (PCM, FLOAT)
    speed = rate * frame if plain else bytes_a_second
    if not (1 <= channels <= 256 and 1 <= rate <= HIGHEST_RATE and speed):
        return SoundFacts()
    length = min(told, max(0, there)) * 1000 // speed
    return SoundFacts(length, channels, rate, bits if plain and bits else None, is_cut=told > there and told != UNTOLD)


def texts_in(kind: bytes, content: bytes) -> Iterator[tuple[str, str]]:
    if kind == b"bext":
        yield from ((name, text_of(content[begins:ends])) for name, begins, ends in BEXT)
        return
    place = 4 if content.startswith(b"INFO") else len(content)
    while place + 8 <= len(content):
        name, size = content[place : place + 4], struct.unpack("<I", content[place + 4 : place + 8])[0]
        if name in INFO:
            yield INFO[name], text_of(content[place + 8 : place + 8 + size])
        place += 8 + size + size % 2


def text_of(content: bytes) -> str:
    kept = content.partition(b"\0")[0]
    try:
        return kept.decode()
    except UnicodeDecodeError:
        return kept.decode("latin-1")


# ---- all others


def read_other(file: BinaryIO) -> SoundFacts:
    """Read by tinytag, whose own ways of failing are many; what fails tells nothing."""
    file.seek(0)
    try:
        found = TinyTag.get(file_obj=cast(BinaryIO, Window(file)))
    except Exception:
        return SoundFacts()
    told = {name: str(getattr(found, name)) for name in SHOWN if getattr(found, name, None) is not None}
    return SoundFacts(
        milliseconds=thousandths(found.duration),
        channels=in_range(found.channels, 256),
        rate=in_range(found.samplerate, HIGHEST_RATE),
        bits=in_range(found.bitdepth, 64),
        tags=bounded(told),
    )


def thousandths(seconds: float | None) -> int | None:
    return round(seconds * 1000) if seconds is not None and 0 < seconds < 1_000_000 else None


def in_range(number: int | None, most: int) -> int | None:
    return int(number) if number is not None and 1 <= number <= most else None


def bounded(tags: dict[str, str]) -> tuple[tuple[str, str], ...]:
    """Return tags that can be printed, cut where they are long."""
    clean = ((name, "".join(one for one in text if one.isprintable()).strip()) for name, text in tags.items())
    return tuple((name, text[:LONGEST_TEXT]) for name, text in list(clean)[:MOST_TAGS] if text)
