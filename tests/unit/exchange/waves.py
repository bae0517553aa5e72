"""WAV files for tests, written by the standard library."""

from __future__ import annotations

import io
import wave


def wave_file(
    frames: int = 10, *, channels: int = 1, sample_rate: int = 48_000, width: int = 2, filled: int = 7
) -> io.BytesIO:
    """Return a file whose bytes of samples are all the same."""
    written = io.BytesIO()
    with wave.open(written, "wb") as file:
        file.setnchannels(channels)
        file.setsampwidth(width)
        file.setframerate(sample_rate)
        file.writeframes(bytes([filled]) * (frames * channels * width))
    written.seek(0)
    return written
