"""Recordings cut to whole frames and without what their files say of themselves; the sound itself is untouched.

The MP3 frames are silent ones of 128 kbit/s at 44.1 kHz (ISO/IEC 11172-3, 2.4.1.3: 417 bytes, 1152 samples).
"""

from __future__ import annotations

import struct
from io import BytesIO

import pytest
from django.core.files.base import ContentFile
from django.core.files.storage import InMemoryStorage
from tinytag import TinyTag

from catalogue.exchange.bare_sound import bare_sound, cut_sound
from catalogue.exchange.kept_content import Kept, kept
from catalogue.exchange.media_files import MediaError
from catalogue.exchange.zip_stream import Member
from tests.unit.exchange.flac_writer import flac_file

FRAME = b"\xff\xfb\x90\x00" + b"\0" * 413
SECOND = 1152 / 44_100
NAME = b"Ilka Marovand"


def kept_file(content: bytes, suffix: str) -> Kept:
    storage = InMemoryStorage()
    return kept(storage, storage.save(f"rope.{suffix}", ContentFile(content)))


def content_of(made: object) -> bytes:
    member = Member("rope", made)  # type: ignore[arg-type]
    content = b"".join(member.parts())
    assert member.size == len(content)
    return content


def mp3(frames: int) -> bytes:
    artist = b"TPE1" + struct.pack(">IH", len(NAME) + 1, 0) + b"\0" + NAME
    tag = b"ID3\x03\0\0" + bytes([0, 0, 0, len(artist)]) + artist
    counter = FRAME[:36] + b"Info" + FRAME[40:]
    ape = b"APETAGEX" + struct.pack("<IIII", 2000, len(NAME) + 32, 1, 0) + bytes(8)
    return tag + counter + FRAME * frames + NAME + ape + b"TAG" + NAME.ljust(125, b"\0")


def aiff(frames: int) -> bytes:
    """One channel of 16 bits at 8 kHz, each sample the number of its second."""
    rate = bytes.fromhex("400bfa00000000000000")
    common = struct.pack(">hIh", 1, frames, 16) + rate
    sound = b"".join(struct.pack(">h", index // 8_000) for index in range(frames))
    inner = b"AIFF" + b"COMM" + struct.pack(">I", 18) + common + b"AUTH" + struct.pack(">I", 14) + NAME + b"\0"
    inner += b"SSND" + struct.pack(">III", len(sound) + 8, 0, 0) + sound
    return b"FORM" + struct.pack(">I", len(inner)) + inner


def flac() -> bytes:
    comment = b"\4\0\0\0" + struct.pack("<II", 1, len(NAME) + 7) + b"ARTIST=" + NAME
    info = struct.pack(">HH", 4096, 4096) + bytes(6) + (44_100 << 44 | 15 << 36 | 44_100).to_bytes(8, "big") + bytes(16)
    blocks = (0, info), (4, comment), (1, bytes(8))
    head = b"".join(
        bytes([kind | (0x80 if kind == 1 else 0)]) + len(content).to_bytes(3, "big") + content
        for kind, content in blocks
    )
    return b"fLaC" + head + b"\xff\xf8 frames of sound"


@pytest.mark.parametrize(("suffix", "content"), [("mp3", mp3(3)), ("aiff", aiff(9)), ("flac", flac())])
def test_nothing_of_the_tags_is_left(suffix: str, content: bytes) -> None:
    assert NAME in content

    assert NAME not in content_of(bare_sound(kept_file(content, suffix), suffix))


def test_an_mp3_file_keeps_its_frames() -> None:
    made = content_of(bare_sound(kept_file(mp3(3), "mp3"), "mp3"))

    assert made.endswith(FRAME * 3)
    assert len(made) == 4 * len(FRAME)


@pytest.mark.parametrize(("begins", "ends", "count"), [(1, 2, 77 - 38 + 2), (None, 1, 39), (2, None, 100 - 76 + 2)])
def test_an_excerpt_of_an_mp3_file_is_of_whole_frames_and_two_early(
    begins: int | None, ends: int | None, count: int
) -> None:
    made = content_of(cut_sound(kept_file(mp3(100), "mp3"), "mp3", begins, ends))

    assert made == FRAME * count
    assert TinyTag.get(filename="rope.mp3", file_obj=BytesIO(made)).duration == pytest.approx(count * SECOND, abs=0.03)


def test_an_excerpt_of_an_aiff_file_has_the_samples_between_its_seconds() -> None:
    made = content_of(cut_sound(kept_file(aiff(24_000), "aiff"), "aiff", 1, 2))

    assert made[-16_000:] == b"\0\1" * 8_000
    assert len(made) == 12 + 26 + 16 + 16_000
    assert TinyTag.get(filename="rope.aiff", file_obj=BytesIO(made)).duration == 1.0


def test_a_flac_file_keeps_its_head_and_its_sound() -> None:
    made = content_of(bare_sound(kept_file(flac(), "flac"), "flac"))

    assert made[:8] == b"fLaC\x80\x00\x00\x22"
    assert made.endswith(b"\xff\xf8 frames of sound")
    assert TinyTag.get(filename="rope.flac", file_obj=BytesIO(made)).duration == 1.0


@pytest.mark.parametrize(("suffix", "content"), [("mp3", mp3(3)), ("aiff", aiff(9)), ("flac", flac_file(9))])
def test_an_excerpt_behind_the_end_is_refused(suffix: str, content: bytes) -> None:
    with pytest.raises(MediaError, match="ends before its excerpt begins"):
        cut_sound(kept_file(content, suffix), suffix, 3, 4)


@pytest.mark.parametrize("suffix", ["mp3", "aiff", "flac"])
def test_a_file_that_is_none_is_refused_in_words(suffix: str) -> None:
    with pytest.raises(MediaError, match=r"(?i)this"):
        content_of(bare_sound(kept_file(b"no sound at all", suffix), suffix))
