"""Whether a file of sound was cut off on its way: what its format says of its own end is not there.

AIFF: the length of the form (Audio Interchange File Format 1.3). FLAC: the last frame, known by its number and its
checks (RFC 9639, 9.1 and 9.3). Ogg: the mark of the last page (RFC 3533, section 6). MPEG-4: the lengths of its boxes
(ISO 14496-12, 4.2). MP3: its last frame, and the numbers of bytes and frames that its first one may tell, as encoders
write them (Xing, Info and VBRI; common practice), so that only one without them that was cut between two frames goes
unnoticed. Nothing is decoded.
"""

from __future__ import annotations

import struct
from collections.abc import Callable
from dataclasses import dataclass
from typing import BinaryIO

from catalogue.exchange.archives import MEGABYTE
from catalogue.exchange.flac_frames import CHECK, LONGEST_HEAD, Head, check_16, ends_at, flac_head, frame_at, places_of
from catalogue.exchange.media_files import MOST_CHUNKS, MediaError, length_of
from catalogue.exchange.mpeg_frames import at, first_frame, sound_span
from catalogue.exchange.mpeg_frames import frame_at as mpeg_frame_at
from catalogue.exchange.spliced import Span

LONGEST_PAGE = 65_307  # bytes of a page of Ogg
LAST_PAGE = 4
TAIL_OF_FRAMES, ENOUGH_FRAMES = 16_384, 4
LEAST_TAIL, MOST_TAIL = 65_536, 2 * MEGABYTE
TELLS_BYTES, TELLS_FRAMES = 2, 1
VBRI = 36  # bytes before that mark, which always stands there
ABOUT = 4_096  # bytes by which encoders count otherwise


def is_cut_off(file: BinaryIO, suffix: str) -> bool:
    """Say whether a file ends before its sound; never of one whose end cannot be told."""
    look = ENDS.get(suffix)
    try:
        return look is not None and look(file)
    except (MediaError, struct.error, IndexError):
        return False


def aiff_is_cut(file: BinaryIO) -> bool:
    kind, size = struct.unpack(">4sI", at(file, 0, 8))
    return kind == b"FORM" and 8 + size > length_of(file) + 1  # a last byte that only makes the length even may lack


def flac_is_cut(file: BinaryIO) -> bool:
    head = flac_head(file)
    if not head.samples or frame_at(at(file, head.begins, LONGEST_HEAD), head.begins) is None:
        return False
    ends = ends_at(file)
    longest = int.from_bytes(head.info[7:10], "big") or MOST_TAIL
    begins = max(head.begins, ends - min(max(longest, LEAST_TAIL), MOST_TAIL))
    tail = at(file, begins, ends - begins)
    places = (place for mark in (b"\xff\xf8", b"\xff\xf9") for place in places_of(mark, tail))
    return not any(is_last_frame(tail[place:], head) for place in places)


def is_last_frame(content: bytes, head: Head) -> bool:
    """Whether a frame begins here that is whole, and with which as many samples have been played as were told."""
    frame = frame_at(content[:LONGEST_HEAD], 0)
    if frame is None:
        return False
    block = 1 if frame.counts_samples else int.from_bytes(head.info[:2], "big")
    reached = frame.number * block + frame.samples
    return reached >= head.samples and check_16(content[:-CHECK]) == int.from_bytes(content[-CHECK:], "big")


def ogg_is_cut(file: BinaryIO) -> bool:
    size = length_of(file)
    tail = at(file, max(0, size - LONGEST_PAGE), LONGEST_PAGE)
    page = tail[tail.rfind(b"OggS") :] if b"OggS" in tail else b""
    segments = page[26] if len(page) > 26 else 0
    whole = 27 + segments + sum(page[27 : 27 + segments])
    return len(page) < max(whole, 27) or not page[5] & LAST_PAGE


def boxes_are_cut(file: BinaryIO) -> bool:
    place, whole = 0, length_of(file)
    for _number in range(MOST_CHUNKS):
        if place + 8 > whole:
            return place != whole
        (size,) = struct.unpack(">I", at(file, place, 4))
        if size == 1:
            (size,) = struct.unpack(">Q", at(file, place + 8, 8))
        if size < 8:
            return False  # to the end of the file, or no box
        place += size
    return False


def mp3_is_cut(file: BinaryIO) -> bool:
    span = sound_span(file)
    return last_frame_is_cut(file, span) or lacks_told(file, span)


@dataclass(frozen=True, slots=True)
class Told:
    """What the first frame of an MP3 file counts, itself perhaps among them; 0 where it does not say."""

    begins: int
    bytes: int
    frames: int


def lacks_told(file: BinaryIO, span: Span) -> bool:
    """Whether there are fewer bytes or frames than the first frame counts.

    Encoders differ on what belongs to the bytes, so that those of a few frames are no proof: then frames are counted.
    """
    told = told_by_first(file, span)
    missing = told.begins + told.bytes - span.begins - span.size
    if missing > ABOUT:
        return True
    return bool(told.frames) and (missing > 0 or not told.bytes) and frames_up_to(file, span, told.frames) < told.frames


def told_by_first(file: BinaryIO, span: Span) -> Told:
    first = first_frame(file, span)
    content = at(file, first, 256)
    mark = next((content.find(one) for one in (b"Xing", b"Info") if one in content[:64]), -1)
    if mark >= 0:
        flags, place = int.from_bytes(content[mark + 4 : mark + 8], "big"), mark + 8
        number = int.from_bytes(content[place : place + 4], "big") if flags & TELLS_FRAMES else 0
        place += 4 if flags & TELLS_FRAMES else 0
        return Told(first, int.from_bytes(content[place : place + 4], "big") if flags & TELLS_BYTES else 0, number)
    if content[VBRI : VBRI + 4] == b"VBRI":
        size, number = struct.unpack(">II", content[VBRI + 10 : VBRI + 18])
        return Told(first, size, number)
    return Told(first, 0, 0)


def frames_up_to(file: BinaryIO, span: Span, most: int) -> int:
    """Count frames, the first one of all among them, as far as there are so many; read a megabyte at a time."""
    place, ends, number = first_frame(file, span), span.begins + span.size, 0
    begins, content = place, b""
    while place + 4 <= ends and number < most:
        if place + 4 > begins + len(content):
            begins, content = place, at(file, place, MEGABYTE)
        frame = mpeg_frame_at(content[place - begins : place - begins + 4], place)
        if frame is None or place + frame.size > ends:
            break
        place, number = place + frame.size, number + 1
    return number


def last_frame_is_cut(file: BinaryIO, span: Span) -> bool:
    """Whether the last of the frames that follow one another to the end is longer than what is there of it."""
    size = min(span.size, TAIL_OF_FRAMES)
    tail = at(file, span.begins + span.size - size, size)
    for begins in places_of(b"\xff", tail):
        place, number = begins, 0
        while place + 4 <= size and (frame := mpeg_frame_at(tail[place : place + 4], place)):
            place, number = place + frame.size, number + 1
        if number >= ENOUGH_FRAMES and place + 4 > size:
            return place != size
    return False


ENDS: dict[str, Callable[[BinaryIO], bool]] = {
    "aiff": aiff_is_cut,
    "flac": flac_is_cut,
    "ogg": ogg_is_cut,
    "m4a": boxes_are_cut,
    "mp3": mp3_is_cut,
}
