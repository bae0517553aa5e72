"""Files of sound that were cut off on their way, told by what their formats say of their ends."""

from __future__ import annotations

import struct
from io import BytesIO

import pytest

from catalogue.exchange.sound_ends import is_cut_off
from tests.unit.exchange.flac_writer import flac_file

TEXT = b"Slack Rope"


def aiff_file() -> bytes:
    """A form with one chunk of sound (Audio Interchange File Format 1.3)."""
    sound = b"SSND" + struct.pack(">III", 8 + 400, 0, 0) + bytes(400)
    return b"FORM" + struct.pack(">I", 4 + len(sound)) + b"AIFF" + sound


def page(kind: int, content: bytes) -> bytes:
    """A page of Ogg (RFC 3533, section 6), its check left out."""
    lengths = bytes([255] * (len(content) // 255) + [len(content) % 255])
    return b"OggS" + bytes([0, kind]) + bytes(20) + bytes([len(lengths)]) + lengths + content


def boxes() -> bytes:
    """Two boxes (ISO 14496-12, 4.2), the second with a length of 64 bits."""
    long = struct.pack(">I4sQ", 1, b"mdat", 16 + 500) + bytes(500)
    return struct.pack(">I4s", 16, b"ftyp") + b"M4A \0\0\0\0" + long


def frame(kilobits: int = 9) -> bytes:
    """A frame of layer III at 44.1 kHz: of 128 kilobits it has 417 bytes (ISO/IEC 11172-3, 2.4.3.1)."""
    return (b"\xff\xfb" + bytes([kilobits << 4, 0])).ljust(417, b"\1")


def counting(told: int) -> bytes:
    """A first frame that tells how many bytes there are."""
    head = frame()[:36] + b"Info" + struct.pack(">III", 3, 10, told)
    return head.ljust(417, b"\0")


WHOLE = {
    "aiff": aiff_file(),
    "flac": flac_file(400),
    "ogg": page(2, TEXT) + page(0, TEXT * 60) + page(4, TEXT * 30),
    "m4a": boxes(),
    "mp3": frame() * 61,
}
COUNTED = counting(61 * 417) + frame() * 60


@pytest.mark.parametrize("suffix", WHOLE)
def test_a_whole_file_is_whole(suffix: str) -> None:
    assert not is_cut_off(BytesIO(WHOLE[suffix]), suffix)


@pytest.mark.parametrize("left", [0.5, 0.8, 0.99])
@pytest.mark.parametrize("suffix", WHOLE)
def test_a_file_that_was_cut_off_says_so(suffix: str, left: float) -> None:
    content = WHOLE[suffix]
    assert is_cut_off(BytesIO(content[: int(len(content) * left)]), suffix)


def test_a_last_frame_that_was_damaged_is_no_end() -> None:
    content = WHOLE["flac"]
    assert is_cut_off(BytesIO(content[:-3] + b"\0" + content[-2:]), "flac")


def test_frames_that_count_their_samples_end_where_they_say() -> None:
    content = flac_file(400, counts_samples=True)
    assert [is_cut_off(BytesIO(one), "flac") for one in (content, content[:-60])] == [False, True]


def test_a_tag_behind_the_sound_is_no_part_of_it() -> None:
    tag = b"TAG".ljust(128, b"\0")
    assert not is_cut_off(BytesIO(WHOLE["flac"] + tag), "flac")
    assert not is_cut_off(BytesIO(WHOLE["mp3"] + tag), "mp3")


def test_bytes_that_the_first_frame_tells_are_counted() -> None:
    assert not is_cut_off(BytesIO(COUNTED), "mp3")
    assert is_cut_off(BytesIO(COUNTED[: 41 * 417]), "mp3")


@pytest.mark.parametrize("first", [counting(61 * 417), counting(0), frame()], ids=["told", "told as none", "not told"])
@pytest.mark.parametrize("left", [1, 4, 200, 416])
def test_a_last_frame_that_is_not_whole_is_noticed_whatever_the_first_tells(first: bytes, left: int) -> None:
    assert is_cut_off(BytesIO(first + frame() * 59 + frame()[:left]), "mp3")
    assert not is_cut_off(BytesIO(first + frame() * 60), "mp3")


@pytest.mark.parametrize("suffix", [*WHOLE, "mid"])
def test_of_what_is_no_such_file_nothing_is_said(suffix: str) -> None:
    assert not is_cut_off(BytesIO(bytes(100) if suffix != "ogg" else WHOLE["ogg"]), suffix)


def telling(mark: bytes, told: bytes) -> bytes:
    """A first frame of nothing but what it tells, 36 bytes behind its beginning."""
    return (frame()[:36] + mark + told).ljust(417, b"\0")


ONLY_FRAMES = telling(b"Xing", struct.pack(">II", 1, 60)) + frame() * 60
BY_VBRI = telling(b"VBRI", struct.pack(">HHHII", 1, 0, 50, 61 * 417, 60)) + frame() * 60
VBRI_OF_FRAMES = telling(b"VBRI", struct.pack(">HHHII", 1, 0, 50, 0, 60)) + frame() * 60


@pytest.mark.parametrize(
    "content",
    [
        counting(61 * 417).replace(struct.pack(">I", 10), struct.pack(">I", 60)) + frame() * 60,
        ONLY_FRAMES,
        BY_VBRI,
        VBRI_OF_FRAMES,
    ],
)
@pytest.mark.parametrize("lacks", [2, 5, 40])
def test_an_mp3_file_that_was_cut_between_two_frames_says_so(content: bytes, lacks: int) -> None:
    assert not is_cut_off(BytesIO(content), "mp3")
    assert is_cut_off(BytesIO(content[: -417 * lacks]), "mp3")


def test_a_first_frame_that_counts_itself_or_not_is_whole() -> None:
    itself_too = telling(b"Info", struct.pack(">II", 1, 61)) + frame() * 60
    more_bytes = telling(b"Info", struct.pack(">III", 3, 60, 61 * 417 + 900)) + frame() * 60

    assert not is_cut_off(BytesIO(itself_too), "mp3")
    assert not is_cut_off(BytesIO(more_bytes), "mp3")
