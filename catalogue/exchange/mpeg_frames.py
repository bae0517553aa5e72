"""MP3 files frame by frame: where the tags end, where each frame stands, and an excerpt of whole frames.

Heads of frames: ISO/IEC 11172-3, 2.4.2.3 and ISO/IEC 13818-3; ID3v2.4, 3.1; ID3v1; APEv2. Nothing is decoded. A frame
may lean on the data of the two before it, so an excerpt begins two frames early, a twentieth of a second.
"""

from __future__ import annotations

import struct
from collections.abc import Iterator
from dataclasses import dataclass
from typing import BinaryIO

from catalogue.exchange.kept_content import Kept
from catalogue.exchange.media_files import MediaError, length_of
from catalogue.exchange.spliced import Span, Spliced

RATES = {3: (44_100, 48_000, 32_000), 2: (22_050, 24_000, 16_000), 0: (11_025, 12_000, 8_000)}
KILOBITS_1 = (0, 32, 40, 48, 56, 64, 80, 96, 112, 128, 160, 192, 224, 256, 320)
KILOBITS_2 = (0, 8, 16, 24, 32, 40, 48, 56, 64, 80, 96, 112, 128, 144, 160)
LAYER_3 = 1
EARLY = 2
LOOKED_OVER = 65_536
ID3V1, APE_FOOT = 128, 32


@dataclass(frozen=True, slots=True)
class Frame:
    """One frame: its place and size in bytes, its length in samples and their rate."""

    begins: int
    size: int
    samples: int
    rate: int


def frame_at(head: bytes, place: int) -> Frame | None:
    """Return the frame of layer III that begins with these four bytes; nothing where they are none."""
    if len(head) < 4 or head[0] != 0xFF or head[1] & 0xE0 != 0xE0:
        return None
    version, layer = (head[1] >> 3) & 3, (head[1] >> 1) & 3
    kilobits, rate, padding = head[2] >> 4, (head[2] >> 2) & 3, (head[2] >> 1) & 1
    if version not in RATES or layer != LAYER_3 or kilobits in (0, 15) or rate == 3:
        return None
    hertz = RATES[version][rate]
    samples = 1152 if version == 3 else 576
    bits = (KILOBITS_1 if version == 3 else KILOBITS_2)[kilobits] * 1000
    return Frame(place, samples // 8 * bits // hertz + padding, samples, hertz)


def sound_span(file: BinaryIO) -> Span:
    """Return where the frames stand: behind the tag at the head, before those at the end."""
    file.seek(0)
    head, begins, ends = file.read(10), 0, length_of(file)
    if head[:3] == b"ID3" and len(head) == 10:
        size = sum((byte & 0x7F) << shift for byte, shift in zip(head[6:10], (21, 14, 7, 0), strict=True))
        begins = 10 + size + (10 if head[5] & 0x10 else 0)
    if ends - begins > ID3V1 and at(file, ends - ID3V1, 3) == b"TAG":
        ends -= ID3V1
    foot = at(file, ends - APE_FOOT, APE_FOOT) if ends - begins > APE_FOOT else b""
    if foot[:8] == b"APETAGEX":
        size, _items, flags = struct.unpack("<III", foot[12:24])
        ends -= size + (APE_FOOT if flags >> 31 else 0)
    if ends <= begins:
        raise MediaError("This MP3 file holds no sound.")
    return Span(begins, ends - begins)


def at(file: BinaryIO, place: int, size: int) -> bytes:
    file.seek(place)
    return file.read(size)


def frames(file: BinaryIO, span: Span) -> Iterator[Frame]:
    """Give the frames of sound; one that only counts the others (Xing, Info, VBRI) is left out."""
    place, ends = first_frame(file, span), span.begins + span.size
    while place + 4 <= ends and (found := frame_at(at(file, place, 4), place)):
        if place + found.size > ends:
            return
        if not is_count(at(file, place, min(found.size, 64))):
            yield found
        place += found.size


def first_frame(file: BinaryIO, span: Span) -> int:
    """Return where the first frame begins that another follows. Raises MediaError."""
    content = at(file, span.begins, min(span.size, LOOKED_OVER))
    for offset in range(len(content) - 3):
        found = frame_at(content[offset : offset + 4], offset) if content[offset] == 0xFF else None
        after = offset + found.size if found else 0
        if found and (frame_at(content[after : after + 4], after) or after == span.size):
            return span.begins + offset
    raise MediaError("No frame of MPEG audio, layer III, was found in this MP3 file.")


def is_count(content: bytes) -> bool:
    return any(mark in content for mark in (b"Xing", b"Info", b"VBRI"))


def excerpt_of_frames(kept: Kept, begins: int | None, ends: int | None) -> Spliced:
    """Return the frames between two seconds, to the end where none is said. Raises MediaError."""
    taken: list[Frame] = []
    with kept.open() as file:
        played = 0.0
        for frame in frames(file, sound_span(file)):
            if ends is not None and played >= ends:
                break
            played += frame.samples / frame.rate
            if played > (begins or 0) - EARLY * frame.samples / frame.rate:
                taken.append(frame)
    if not taken or played <= (begins or 0):
        raise MediaError("The recording ends before its excerpt begins.")
    first, last = taken[0], taken[-1]
    return Spliced(kept, (Span(first.begins, last.begins + last.size - first.begins),))
