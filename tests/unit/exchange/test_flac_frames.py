"""Excerpts of FLAC files: whole frames counted anew, their checks right, the head telling what is there."""

from __future__ import annotations

from io import BytesIO

import pytest
from tinytag import TinyTag

from catalogue.exchange.bare_sound import cut_sound
from catalogue.exchange.flac_frames import check_8, check_16, flac_head, frames, written_number
from catalogue.exchange.media_files import MediaError
from tests.unit.exchange.flac_writer import BLOCK, NAME, RATE, block_of, coded, flac_file, frame, remainder
from tests.unit.exchange.test_bare_sound import content_of, kept_file

SECONDS_40 = 40 * RATE
"""2000 frames: their numbers are written in one byte and in two."""


def excerpt(content: bytes, begins: int | None, ends: int | None) -> bytes:
    return content_of(cut_sound(kept_file(content, "flac"), "flac", begins, ends))


@pytest.mark.parametrize("counts_samples", [False, True])
def test_an_excerpt_is_of_the_frames_that_sound_between_its_seconds_counted_from_nothing(counts_samples: bool) -> None:
    made = excerpt(flac_file(SECONDS_40, counts_samples=counts_samples), 20, 22)

    first, last = 20 * RATE // BLOCK, -(-22 * RATE // BLOCK)
    wanted = b"".join(
        frame(
            (number - first) * (BLOCK if counts_samples else 1),
            block_of(number * BLOCK, SECONDS_40),
            counts_samples=counts_samples,
        )
        for number in range(first, last)
    )
    head = flac_head(BytesIO(made))
    assert made[head.begins :] == wanted
    assert (head.samples, head.rate, head.info[-16:]) == ((last - first) * BLOCK, RATE, bytes(16))


def test_the_head_of_an_excerpt_tells_its_length_and_the_sizes_of_its_frames() -> None:
    made = excerpt(flac_file(SECONDS_40), None, 1)

    head = flac_head(BytesIO(made))
    sizes = {one.size for one in frames(BytesIO(made), head.begins, len(made))}
    assert {int.from_bytes(head.info[4:7], "big"), int.from_bytes(head.info[7:10], "big")} == sizes
    found = TinyTag.get(filename="rope.flac", file_obj=BytesIO(made))
    assert (found.duration, found.artist) == (1.0, None)
    assert NAME not in made


def test_an_excerpt_to_the_end_has_the_short_last_frame() -> None:
    made = excerpt(flac_file(SECONDS_40 + 10), 39, None)

    assert flac_head(BytesIO(made)).samples == SECONDS_40 + 10 - 39 * RATE // BLOCK * BLOCK


def test_a_file_that_lacks_frames_is_not_cut_as_if_it_were_whole() -> None:
    with pytest.raises(MediaError, match="frames of its sound are missing"):
        excerpt(flac_file(RATE, told=2 * RATE), 0, None)


def test_what_looks_like_a_head_within_the_sound_is_no_frame() -> None:
    inside = int.from_bytes(b"\xff\xf8", "big", signed=True)
    one, other = frame(0, [inside] * BLOCK), frame(1, [0] * BLOCK)
    content = flac_file(0, told=2 * BLOCK) + one + other

    assert flac_head(BytesIO(excerpt(content, 0, 1))).samples == 2 * BLOCK


@pytest.mark.parametrize("number", [0, 127, 128, 2047, 2048, 65_535])
def test_numbers_of_frames_are_written_as_the_format_has_them(number: int) -> None:
    assert written_number(number) == coded(number)


def test_checks_are_those_of_the_format() -> None:
    content = bytes(range(256))

    assert (check_8(content), check_16(content)) == (remainder(content, 0x07, 8), remainder(content, 0x8005, 16))
