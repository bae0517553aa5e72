"""Rates and sizes of media files, reckoned: bits a second are channels × bits × samples a second.

A megabyte is 10⁶ bytes. A WAV file counts its bytes in 32 bits, so that it ends before 4 GiB (4 294 967 296 bytes);
what is longer is written as RF64 (EBU Tech 3306) or BW64 (ITU-R BS.2088), or in several files.
"""

from __future__ import annotations

from fractions import Fraction

from catalogue.rules.technical.terms import Media

WAV_LIMIT = 2**32


def bit_rate(channels: int, bits: int, rate: int) -> int:
    """Bits a second.

    >>> bit_rate(8, 24, 48_000)
    9216000
    """
    return channels * bits * rate


def megabytes_a_minute(channels: int, bits: int, rate: int) -> Fraction:
    """Megabytes (10⁶ bytes) a minute.

    >>> float(megabytes_a_minute(2, 16, 44_100))
    10.584
    """
    return Fraction(bit_rate(channels, bits, rate) * 60, 8 * 10**6)


def most_seconds_in_wav(channels: int, bits: int, rate: int) -> int:
    """Whole seconds of sound that a WAV file holds.

    >>> most_seconds_in_wav(8, 24, 96_000)
    1864
    """
    return WAV_LIMIT * 8 // bit_rate(channels, bits, rate)


def file_bytes(media: Media) -> int | None:
    """How many bytes of sound a file holds uncompressed; ``None`` where its figures are not all known."""
    if None in (media.channels, media.bits, media.rate, media.seconds):
        return None
    return bit_rate(media.channels or 0, media.bits or 0, media.rate or 0) * (media.seconds or 0) // 8


def megabytes(count: int) -> str:
    """Bytes in megabytes of 10⁶ bytes, the figure alone.

    >>> megabytes(69_120_000), megabytes(414_720)
    ('69.1', '0.4')
    """
    return f"{count / 10**6:.1f}"
