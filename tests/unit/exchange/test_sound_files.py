"""What files of sound say of themselves; the WAV files are written by the standard library, the others by hand here."""

from __future__ import annotations

import struct
from io import BytesIO

import pytest

from catalogue.exchange.media_files import MediaError
from catalogue.exchange.sound_files import Window, read_sound
from catalogue.rules.technical.files import SoundFacts
from tests.unit.exchange.hostile_uploads import far_wave
from tests.unit.exchange.waves import wave_file


def chunk(kind: bytes, content: bytes) -> bytes:
    return kind + struct.pack("<I", len(content)) + content + b"\0" * (len(content) % 2)


def with_chunks(*found: bytes) -> BytesIO:
    """Return a WAV file with more chunks before its format."""
    plain = wave_file(96, channels=2, sample_rate=48_000, width=3).getvalue()
    return BytesIO(plain[:12] + b"".join(found) + plain[12:])


def test_wav_says_its_length_channels_rate_and_bits() -> None:
    file = wave_file(48_000 * 3 // 2, channels=8, sample_rate=48_000, width=3)

    assert read_sound(file, "wav") == SoundFacts(1500, channels=8, rate=48_000, bits=24)


def test_texts_of_a_list_and_of_a_broadcast_extension_are_tags() -> None:
    info = b"INFO" + chunk(b"INAM", b"Slack Rope\0") + chunk(b"ICMT", "für Ebb".encode("latin-1"))
    bext = (
        b"Take 3".ljust(256, b"\0")
        + b"The recorder".ljust(32, b"\0")
        + bytes(32)
        + b"2026-03-09"
        + b"10:00:00"
        + bytes(300)
    )

    found = read_sound(with_chunks(chunk(b"LIST", info), chunk(b"bext", bext)), "wav")

    assert found == SoundFacts(
        2, channels=2, rate=48_000, bits=24,
        tags=(
            ("title", "Slack Rope"), ("comment", "für Ebb"), ("description", "Take 3"), ("originator", "The recorder"),
            ("date", "2026-03-09"), ("time", "10:00:00"),
        ),
    )  # fmt: skip


def test_file_that_was_cut_off_says_so() -> None:
    whole = wave_file(4800, sample_rate=48_000).getvalue()

    assert read_sound(BytesIO(whole[: 44 + 4800]), "wav") == SoundFacts(
        50, channels=1, rate=48_000, bits=16, is_cut=True
    )


def test_length_of_a_long_file_is_read_in_64_bits() -> None:
    found = read_sound(BytesIO(far_wave()), "wav")

    assert (found.channels, found.rate, found.is_cut) == (2, 48_000, True)


def test_wav_without_sound_is_refused() -> None:
    with pytest.raises(MediaError, match="damaged"):
        read_sound(BytesIO(b"RIFF\0\0\0\0WAVE"), "wav")


def test_flac_says_what_its_first_block_holds() -> None:
    # RFC 9639, 8.2: sample rate 20 bits, channels − 1 in 3, bits − 1 in 5, samples in 36
    packed = (48_000 << 44) | (1 << 41) | (23 << 36) | 48_000 * 2
    block = struct.pack(">HH", 4096, 4096) + bytes(6) + packed.to_bytes(8, "big") + bytes(16)
    comment = b"\1\0\0\0" + struct.pack("<I", 16) + b"TITLE=Slack Rope"
    comments = struct.pack("<I", 0) + comment
    file = b"fLaC" + b"\0\0\0\x22" + block + b"\x84" + len(comments).to_bytes(3, "big") + comments + bytes(100)

    assert read_sound(BytesIO(file), "flac") == SoundFacts(
        2000, channels=2, rate=48_000, bits=24, tags=(("title", "Slack Rope"),)
    )


def test_what_cannot_be_read_tells_nothing() -> None:
    assert read_sound(BytesIO(b"OggS" + bytes(100)), "ogg") == SoundFacts()


def test_window_lets_no_more_pass_than_it_may() -> None:
    window = Window(BytesIO(b"abcdef"), most=4, pieces=3)

    assert window.read(3) == b"abc"
    with pytest.raises(MediaError):
        window.read(3)
