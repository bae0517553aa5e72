"""Files of sound without what they say of themselves: title, artist, comments, pictures; the sound stays as it is.

WAV (RIFF), AIFF (Audio Interchange File Format 1.3), FLAC and MP3. Of Ogg and MPEG-4 files nothing is
taken out; whoever sends them is told so.
"""

from __future__ import annotations

import struct
from collections.abc import Iterator
from typing import BinaryIO

from catalogue.exchange.excerpts import excerpt_of
from catalogue.exchange.flac_frames import bare_flac, excerpt_of_flac
from catalogue.exchange.kept_content import Kept
from catalogue.exchange.media_files import MOST_CHUNKS, MediaError, length_of
from catalogue.exchange.mpeg_frames import at, excerpt_of_frames, first_frame, sound_span
from catalogue.exchange.spliced import Span, Spliced
from catalogue.exchange.zip_stream import Content

OF_SOUND = (b"COMM", b"SSND", b"FVER")
PLAIN = (b"NONE", b"sowt", b"twos", b"in24", b"in32", b"fl32", b"fl64", b"raw ")


def cut_sound(kept: Kept, suffix: str, begins: int | None, ends: int | None) -> Content:
    """Return the sound between two seconds, without tags; ``suffix`` is one of ``CUT``. Raises MediaError."""
    if suffix == "wav":
        return excerpt_of(kept, begins, ends)
    framed = {"mp3": excerpt_of_frames, "aiff": aiff_cut, "flac": excerpt_of_flac}
    return framed[suffix](kept, begins, ends)


def bare_sound(kept: Kept, suffix: str) -> Content:
    """Return the whole sound without tags; ``suffix`` is one of ``CUT``. Raises MediaError."""
    if suffix == "wav":
        return excerpt_of(kept, None, None)
    if suffix == "aiff":
        return aiff_cut(kept, None, None)
    with kept.open() as file:
        return Spliced(kept, mp3_pieces(file) if suffix == "mp3" else bare_flac(file))


def mp3_pieces(file: BinaryIO) -> tuple[Span, ...]:
    span = sound_span(file)
    first = first_frame(file, span)
    return (Span(first, span.begins + span.size - first),)


# ---- AIFF


def aiff_chunks(file: BinaryIO) -> Iterator[tuple[bytes, int, int]]:
    """Give the kind, the size and the place of each chunk."""
    place = 12
    for _number in range(MOST_CHUNKS):
        head = at(file, place, 8)
        if len(head) < 8:
            return
        kind, size = struct.unpack(">4sI", head)
        yield kind, size, place + 8
        place += 8 + size + size % 2


def aiff_cut(kept: Kept, begins: int | None, ends: int | None) -> Spliced:
    with kept.open() as file:
        head = at(file, 0, 12)
        found = {kind: (size, place) for kind, size, place in aiff_chunks(file) if kind in OF_SOUND}
        if head[:4] != b"FORM" or b"COMM" not in found or b"SSND" not in found:
            raise MediaError("This AIFF file is damaged: it holds no sound.")
        common = at(file, found[b"COMM"][1], found[b"COMM"][0])
        offset = struct.unpack(">I", at(file, found[b"SSND"][1], 4))[0]
        there = length_of(file)
    channels, count, bits = struct.unpack(">hIh", common[:8])
    if len(common) > 18 and common[18:22] not in PLAIN:
        raise MediaError("This AIFF file is compressed and cannot be cut here.")
    frame, rate = channels * ((bits + 7) // 8), extended(common[8:18])
    first = min(int((begins or 0) * rate), count)
    last = count if ends is None else min(int(ends * rate), count)
    place = found[b"SSND"][1] + 8 + offset + first * frame
    if last <= first or place + (last - first) * frame > there:
        raise MediaError("The recording ends before its excerpt begins.")
    return Spliced(kept, aiff_pieces(head[8:12], common, Span(place, (last - first) * frame), last - first))


def aiff_pieces(form: bytes, common: bytes, sound: Span, count: int) -> tuple[bytes | Span, ...]:
    told = common[:2] + struct.pack(">I", count) + common[6:]
    comm = chunk(b"COMM", told)
    version = chunk(b"FVER", struct.pack(">I", 0xA2805140)) if form == b"AIFC" else b""
    sound_head = struct.pack(">4sIII", b"SSND", sound.size + 8, 0, 0)
    odd = b"\0" * (sound.size % 2)
    size = 4 + len(version) + len(comm) + len(sound_head) + sound.size + len(odd)
    return (struct.pack(">4sI4s", b"FORM", size, form) + version + comm + sound_head, sound, odd)


def chunk(kind: bytes, content: bytes) -> bytes:
    return struct.pack(">4sI", kind, len(content)) + content + b"\0" * (len(content) % 2)


def extended(number: bytes) -> float:
    """Return an 80-bit number (IEEE 754 extended precision), as the rate of an AIFF file is written.

    >>> extended(bytes.fromhex("400eac44000000000000"))
    44100.0
    """
    exponent, mantissa = struct.unpack(">HQ", number)
    return float(mantissa) * 2.0 ** ((exponent & 0x7FFF) - 16383 - 63)
