"""WAV files from outside, taken at their word as far as it goes."""

from __future__ import annotations

import io
import struct

import pytest

from catalogue.exchange.media_files import MediaError, read_wave
from tests.unit.exchange.waves import wave_file


def test_head_says_channels_rate_and_length() -> None:
    found = read_wave("tone.wav", wave_file(frames=48, channels=8, sample_rate=48_000, width=3))

    assert (found.channels, found.sample_rate, found.bytes_a_sample, found.frames) == (8, 48_000, 3, 48)
    assert len(b"".join(found.samples())) == 48 * 24


def test_chunks_before_the_samples_are_passed_over() -> None:
    plain = wave_file(frames=3).getvalue()
    odd = struct.pack("<4sI", b"bext", 5) + b"hello\0"

    assert read_wave("tone.wav", io.BytesIO(plain[:12] + odd + plain[12:])).frames == 3


def test_extensible_head_names_its_format() -> None:
    guid = struct.pack("<H", 1) + bytes(14)
    head = struct.pack("<HHIIHHHHI", 0xFFFE, 2, 44_100, 264_600, 6, 24, 22, 24, 3) + guid
    chunks = struct.pack("<4sI", b"fmt ", 40) + head + struct.pack("<4sI", b"data", 12) + bytes(12)

    found = read_wave("tone.wav", io.BytesIO(struct.pack("<4sI4s", b"RIFF", 4 + len(chunks), b"WAVE") + chunks))

    assert (found.format, found.channels, found.bytes_a_sample, found.frames) == (1, 2, 3, 2)


def test_a_length_that_is_not_there_is_not_believed() -> None:
    cut = wave_file(frames=100).getvalue()[:-80]

    assert read_wave("tone.wav", io.BytesIO(cut)).frames == 60


@pytest.mark.parametrize(
    ("content", "reason"),
    [
        (b"", "“x.wav” is no WAV file."),
        (b"ID3 and then music", "“x.wav” is no WAV file."),
        (struct.pack("<4sI4s", b"RIFF", 4, b"WAVE"), "“x.wav” holds no samples."),
        (
            wave_file(width=1).getvalue(),
            "“x.wav” is compressed or of an unusual kind; make it a WAV file of 16 or 24 bits.",
        ),
        (wave_file(sample_rate=1).getvalue(), "“x.wav” has an unusual number of channels or an unusual rate."),
        (
            struct.pack("<4sI4s4sI", b"RIFF", 16, b"WAVE", b"fmt ", 4) + bytes(4),
            "“x.wav” does not say how its samples are written.",
        ),
    ],
)
def test_what_cannot_be_used_is_refused_by_name(content: bytes, reason: str) -> None:
    with pytest.raises(MediaError) as caught:
        read_wave("x.wav", io.BytesIO(content))

    assert caught.value.reason == reason
