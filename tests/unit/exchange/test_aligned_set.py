"""Click and media as one set, read back by the standard library's own readers of archives and of sound."""

from __future__ import annotations

import io
import wave
import zipfile
from fractions import Fraction

import pytest

from catalogue.exchange.aligned_set import Laid, Plan, plan_of, set_chunks
from catalogue.exchange.media_files import MediaError, read_wave
from catalogue.facts import CueFacts
from catalogue.timing import click_wav, reckon
from tests.unit.exchange.waves import wave_file

RATE = 8_000


def plan(*laid: Laid, text: str = "1-4 4/4 q=60", count_in: int = 1) -> Plan:
    reckoned = reckon(text)
    assert reckoned is not None
    return plan_of(Plan(reckoned.line, laid, count_in))


def laid(number: str, seconds: int, frames: int, **of_wave: int) -> Laid:
    name = f"{number}.wav"
    file = wave_file(frames, **{"sample_rate": RATE, **of_wave})
    return Laid(CueFacts(number, "1", "Play", name), Fraction(seconds), read_wave(name, file))


def opened(made: Plan) -> dict[str, bytes]:
    with zipfile.ZipFile(io.BytesIO(b"".join(set_chunks(made)))) as archive:
        assert archive.testzip() is None
        return {name: archive.read(name) for name in archive.namelist()}


def read(content: bytes) -> tuple[wave._wave_params, bytes]:
    with wave.open(io.BytesIO(content)) as file:
        return file.getparams(), file.readframes(file.getnframes())


def test_every_file_has_one_zero_one_length_and_one_rate() -> None:
    files = opened(plan(laid("1", 0, 8_000), laid("2", 10, 4_000, channels=2, width=3)))

    assert list(files) == ["set.txt", "00-click.wav", "01-cue-1-1.wav", "02-cue-2-2.wav"]
    sounds = [read(content)[0] for name, content in files.items() if name.endswith(".wav")]
    assert {(one.nframes, one.framerate) for one in sounds} == {(20 * RATE, RATE)}
    assert [one.nchannels for one in sounds] == [1, 1, 2]


def test_a_medium_sets_in_at_its_cue_after_the_count_in() -> None:
    _told, samples = read(opened(plan(laid("2", 10, 4_000, channels=2, width=3)))["01-cue-2-2.wav"])
    begins = (4 + 10) * RATE * 6

    assert samples.rstrip(b"\0") == bytes(begins) + b"\x07" * (4_000 * 6)


def test_the_click_is_the_one_that_is_written_alone() -> None:
    reckoned = reckon("1-4 4/4 q=60")
    assert reckoned is not None

    made = opened(plan(laid("1", 0, 100)))["00-click.wav"]

    assert made == click_wav(reckoned.line, sample_rate=RATE)


def test_a_medium_that_rings_on_makes_every_file_longer() -> None:
    files = opened(plan(laid("1", 15, 2 * RATE)))

    assert read(files["00-click.wav"])[0].nframes == read(files["01-cue-1-1.wav"])[0].nframes == 21 * RATE


def test_the_set_says_what_is_in_it_and_how_to_listen() -> None:
    told = opened(plan(laid("1", 2, 100)))["set.txt"].decode()

    assert "01-cue-1-1.wav: cue 1 at 6.000 s, one channel" in told
    assert "keep to the local rules on noise at work" in told


def test_the_same_plan_gives_the_same_bytes() -> None:
    assert b"".join(set_chunks(plan(laid("1", 0, 9)))) == b"".join(set_chunks(plan(laid("1", 0, 9))))


def test_media_of_several_rates_are_refused() -> None:
    with pytest.raises(MediaError) as caught:
        plan(laid("1", 0, 9), laid("2", 0, 9, sample_rate=44_100))

    assert caught.value.reason == "The files have several rates (8000 and 44100 Hz); bring them to one first."


def test_nothing_laid_is_no_set() -> None:
    with pytest.raises(MediaError):
        plan()
