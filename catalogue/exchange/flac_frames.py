"""FLAC files frame by frame (RFC 9639): the head without tags, where each frame stands, an excerpt of whole frames.

Nothing is decoded. In an excerpt the frames are counted anew from its first; what a frame's head says changes with it,
and so do its two checks (section 9.1.8: CRC-8 of the head; 9.3: CRC-16 of the frame). A check of cyclic redundancy is
linear, so the new one follows from the old: a frame that was damaged stays one that players notice.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from typing import BinaryIO

from catalogue.exchange.kept_content import Kept
from catalogue.exchange.media_files import MOST_CHUNKS, MediaError, length_of
from catalogue.exchange.mpeg_frames import ID3V1, at
from catalogue.exchange.spliced import Span, Spliced

STREAMINFO, SEEKTABLE = 0, 3
LAST = 0x80
SHORTEST_INFO = 34
LONGEST_HEAD = 16
CHECK = 2
LOOKED_THROUGH = 32_768
MOST_FRAMES = 2_000_000
BLOCKS = {1: 192, **{code: 144 << code for code in range(2, 6)}, **{code: 1 << code for code in range(8, 16)}}
POLYNOMIAL_8, POLYNOMIAL_16 = 0x07, 0x8005


# ---- the head


@dataclass(frozen=True, slots=True)
class Head:
    """The blocks before the sound that it needs, and where its first frame stands."""

    info: bytes
    seek_table: bytes
    begins: int

    @property
    def rate(self) -> int:
        return int.from_bytes(self.info[10:13], "big") >> 4

    @property
    def samples(self) -> int:
        """How many samples a channel has, 0 where it is not told."""
        return int.from_bytes(self.info[13:18], "big") & 0xF_FFFF_FFFF

    def for_span(self, samples: int, sizes: list[int]) -> bytes:
        """The first block for a stretch of the sound; the digest of the samples is left untold."""
        told = int.from_bytes(self.info[10:18], "big") >> 36 << 36 | samples
        sized = min(sizes).to_bytes(3, "big") + max(sizes).to_bytes(3, "big")
        return self.info[:4] + sized + told.to_bytes(8, "big") + bytes(16)


def flac_head(file: BinaryIO) -> Head:
    """Return the head of a file. Raises MediaError."""
    place = begins_at(file)
    kept = {STREAMINFO: b"", SEEKTABLE: b""}
    for _number in range(MOST_CHUNKS):
        head = at(file, place, 4)
        if len(head) < 4:
            break
        kind, size = head[0] & 0x7F, int.from_bytes(head[1:], "big")
        if kind in kept:
            kept[kind] = at(file, place + 4, size)
        place += 4 + size
        if head[0] & LAST:
            if len(kept[STREAMINFO]) < SHORTEST_INFO:
                break
            return Head(kept[STREAMINFO], kept[SEEKTABLE], place)
    raise MediaError("This FLAC file ends before its sound begins.")


def begins_at(file: BinaryIO) -> int:
    """Return where the first block stands, behind the mark of the format and a tag before it."""
    place = 0
    if at(file, 0, 3) == b"ID3":
        place = 10 + sum((byte & 0x7F) << shift for byte, shift in zip(at(file, 6, 4), (21, 14, 7, 0), strict=True))
    if at(file, place, 4) != b"fLaC":
        raise MediaError("This FLAC file is damaged: it does not begin as one.")
    return place + 4


def blocks(*kept: tuple[int, bytes]) -> bytes:
    """Return blocks of a head, each a kind and its content, behind the mark of the format."""
    told = [bytes([kind]) + len(content).to_bytes(3, "big") + content for kind, content in kept if content]
    return b"fLaC" + b"".join(told[:-1]) + bytes([told[-1][0] | LAST]) + told[-1][1:]


def ends_at(file: BinaryIO) -> int:
    """Return where the sound ends, before a tag at the end."""
    whole = length_of(file)
    return whole - ID3V1 if whole > ID3V1 and at(file, whole - ID3V1, 3) == b"TAG" else whole


def bare_flac(file: BinaryIO) -> tuple[bytes | Span, ...]:
    """Return the whole sound without tags and pictures. Raises MediaError."""
    head = flac_head(file)
    told = blocks((STREAMINFO, head.info), (SEEKTABLE, head.seek_table))
    return (told, Span(head.begins, ends_at(file) - head.begins))


# ---- checks


def table_of(polynomial: int, bits: int) -> tuple[int, ...]:
    found = []
    for byte in range(256):
        value = byte << (bits - 8)
        for _bit in range(8):
            value = value << 1 ^ (polynomial if value >> (bits - 1) else 0) & (1 << bits) - 1
            value &= (1 << bits) - 1
        found.append(value)
    return tuple(found)


TABLE_8, TABLE_16 = table_of(POLYNOMIAL_8, 8), table_of(POLYNOMIAL_16, 16)


def check_8(content: bytes) -> int:
    """
    >>> hex(check_8(b"123456789"))
    '0xf4'
    """
    value = 0
    for byte in content:
        value = TABLE_8[value ^ byte]
    return value


def check_16(content: bytes) -> int:
    """
    >>> hex(check_16(b"123456789"))
    '0xfee8'
    """
    value = 0
    for byte in content:
        value = (value << 8 & 0xFFFF) ^ TABLE_16[value >> 8 ^ byte]
    return value


def product(one: int, other: int) -> int:
    """Return the product of two polynomials over two elements, modulo that of the longer check."""
    found = 0
    while other:
        found ^= one if other & 1 else 0
        one = one << 1 ^ (0x10000 | POLYNOMIAL_16 if one >> 15 else 0)
        other >>= 1
    return found


def followed_by(check: int, size: int) -> int:
    """Return the longer check of a content that so many zero bytes follow.

    >>> followed_by(check_16(b"head"), 300) == check_16(b"head" + bytes(300))
    True
    """
    power, left = 1 << 8, size
    while left:
        check = product(check, power) if left & 1 else check
        power, left = product(power, power), left >> 1
    return check


# ---- frames


@dataclass(frozen=True, slots=True)
class Frame:
    """One frame: where it stands, its head, its ``number`` among the frames or that of its first sample."""

    begins: int
    head: bytes
    number: int
    samples: int
    ends: int = 0

    @property
    def counts_samples(self) -> bool:
        return bool(self.head[1] & 1)

    @property
    def next_number(self) -> int:
        return self.number + (self.samples if self.counts_samples else 1)

    @property
    def size(self) -> int:
        return self.ends - self.begins


def frame_at(content: bytes, place: int) -> Frame | None:
    """Return the frame whose head these bytes begin with (RFC 9639, 9.1); nothing where they are none."""
    if len(content) < 6 or content[0] != 0xFF or content[1] & 0xFE != 0xF8 or content[3] & 1:
        return None
    block, rate = content[2] >> 4, content[2] & 15
    number, size = coded_number(content[4:11])
    if block == 0 or rate == 15 or content[3] >> 4 > 10 or not size:
        return None
    wide = {6: 1, 7: 2}.get(block, 0)
    ends = 4 + size + wide + {12: 1, 13: 2, 14: 2}.get(rate, 0)
    if len(content) <= ends or check_8(content[:ends]) != content[ends]:
        return None
    samples = int.from_bytes(content[4 + size : 4 + size + wide], "big") + 1 if wide else BLOCKS[block]
    return Frame(place, content[: ends + 1], number, samples)


def coded_number(content: bytes) -> tuple[int, int]:
    """Return a number as frames write it, and its bytes: none where it is not one.

    >>> coded_number(b"\\x7f"), coded_number(b"\\xc2\\x80"), coded_number(b"\\x80")
    ((127, 1), (128, 2), (0, 0))
    """
    ones = 8 - (content[0] ^ 0xFF).bit_length()
    if ones == 0:
        return content[0], 1
    rest = content[1:ones]
    if ones in (1, 8) or len(rest) < ones - 1 or any(byte & 0xC0 != 0x80 for byte in rest):
        return 0, 0
    number = content[0] & (0x7F >> ones)
    for byte in rest:
        number = number << 6 | byte & 0x3F
    return number, ones


def written_number(number: int) -> bytes:
    """
    >>> written_number(127).hex(), written_number(128).hex(), written_number(70_000).hex()
    ('7f', 'c280', 'f09185b0')
    """
    if number < 0x80:
        return bytes([number])
    further = next(count for count in range(1, 7) if number < 1 << (6 * count + 6 - count))
    first = 0xFF00 >> (further + 1) & 0xFF | number >> 6 * further
    return bytes([first]) + bytes(0x80 | number >> 6 * place & 0x3F for place in reversed(range(further)))


def frames(file: BinaryIO, begins: int, ends: int) -> Iterator[Frame]:
    """Give the frames in order; each ends where the head of the next begins, known by its number and its check."""
    frame = frame_at(at(file, begins, LONGEST_HEAD), begins)
    if frame is None:
        raise MediaError("This FLAC file is damaged: its sound does not begin with a frame.")
    for _number in range(MOST_FRAMES):
        after = frame_after(file, frame, ends)
        yield Frame(frame.begins, frame.head, frame.number, frame.samples, after.begins if after else ends)
        if after is None:
            return
        frame = after


def frame_after(file: BinaryIO, frame: Frame, ends: int) -> Frame | None:
    """Return the frame that follows one; nothing behind the last."""
    place = frame.begins + len(frame.head) + CHECK
    while True:
        content = at(file, place, max(0, min(LOOKED_THROUGH, ends - place)))
        for offset in places_of(frame.head[:2], content):
            found = frame_at(content[offset : offset + LONGEST_HEAD], place + offset)
            if found and found.number == frame.next_number:
                return found
        if len(content) < LOOKED_THROUGH:
            return None
        place += len(content) - LONGEST_HEAD


def places_of(mark: bytes, content: bytes) -> Iterator[int]:
    offset = content.find(mark)
    while offset >= 0:
        yield offset
        offset = content.find(mark, offset + 1)


# ---- an excerpt


def excerpt_of_flac(kept: Kept, begins: int | None, ends: int | None) -> Spliced:
    """Return the frames that sound between two seconds, to the end where none is said. Raises MediaError."""
    taken: list[Frame] = []
    with kept.open() as file:
        head = flac_head(file)
        if not head.rate:
            raise MediaError("This FLAC file does not say how many samples a second has.")
        first, last = (begins or 0) * head.rate, None if ends is None else ends * head.rate
        played = 0
        for frame in frames(file, head.begins, ends_at(file)):
            if last is not None and played >= last:
                break
            played += frame.samples
            if played > first:
                taken.append(frame)
        else:
            refuse_cut_off(head, played)
        if not taken:
            raise MediaError("The recording ends before its excerpt begins.")
        info = head.for_span(sum(one.samples for one in taken), [one.size for one in taken])
        pieces = tuple(piece for one in taken for piece in counted_from(file, one, taken[0].number))
    return Spliced(kept, (blocks((STREAMINFO, info)), *pieces))


def refuse_cut_off(head: Head, played: int) -> None:
    if head.samples and played != head.samples:
        raise MediaError("This FLAC file is damaged: frames of its sound are missing.")


def counted_from(file: BinaryIO, frame: Frame, first: int) -> Iterator[bytes | Span]:
    """Yield a frame with its number counted from another's, and with the checks that go with it."""
    size = len(written_number(frame.number))
    said = frame.head[:4] + written_number(frame.number - first) + frame.head[4 + size : -1]
    head = said + bytes([check_8(said)])
    body = frame.ends - CHECK - frame.begins - len(frame.head)
    old = int.from_bytes(at(file, frame.ends - CHECK, CHECK), "big")
    new = old ^ followed_by(check_16(frame.head) ^ check_16(head), body)
    yield head
    yield Span(frame.begins + len(frame.head), body)
    yield new.to_bytes(CHECK, "big")
