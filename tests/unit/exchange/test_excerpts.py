from __future__ import annotations

import wave
from io import BytesIO

import pytest
from django.core.files.base import ContentFile
from django.core.files.storage import InMemoryStorage

from catalogue.exchange.excerpts import excerpt_of
from catalogue.exchange.kept_content import Kept, kept
from catalogue.exchange.media_files import MediaError

RATE = 8_000


@pytest.fixture
def recording() -> Kept:
    """Three seconds of one channel, each sample the number of its second."""
    written = BytesIO()
    with wave.open(written, "wb") as file:
        file.setparams((1, 2, RATE, 0, "NONE", ""))
        file.writeframes(b"".join(bytes([second, 0]) * RATE for second in range(3)))
    storage = InMemoryStorage()
    return kept(storage, storage.save("rope.wav", ContentFile(written.getvalue())))


def samples(content: bytes) -> list[int]:
    with wave.open(BytesIO(content)) as file:
        assert file.getframerate() == RATE
        frames = file.readframes(file.getnframes())
    return [int.from_bytes(frames[at : at + 2], "little") for at in range(0, len(frames), 2)]


@pytest.mark.parametrize(
    ("begins", "ends", "heard"),
    [(1, 2, {1}), (None, 2, {0, 1}), (2, None, {2}), (1, 99, {1, 2})],
)
def test_an_excerpt_has_the_samples_between_its_seconds(
    recording: Kept, begins: int | None, ends: int | None, heard: set[int]
) -> None:
    excerpt = excerpt_of(recording, begins, ends)

    content = b"".join(excerpt.parts())

    assert set(samples(content)) == heard
    assert len(samples(content)) == len(heard) * RATE
    assert excerpt.size == len(content)


def test_an_excerpt_behind_the_end_is_refused(recording: Kept) -> None:
    with pytest.raises(MediaError, match="ends before its excerpt begins"):
        excerpt_of(recording, 3, 4)
