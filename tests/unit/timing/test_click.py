from __future__ import annotations

import io
import struct
import wave
from fractions import Fraction

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from catalogue.timing import ClickError, Timeline, click_wav, count_in_seconds, read_tempo_map, timeline
from catalogue.timing.click import Beat, beats_of, click_bytes, click_chunks, click_length
from catalogue.timing.tempo_maps import TempoMap
from tests.unit.timing.maps import maps

RATE = 8_000


def line_of(text: str, *, gaps: bool = False) -> Timeline:
    return timeline(read_tempo_map(text), gaps=gaps)


def samples_of(raw: bytes) -> tuple[int, ...]:
    with wave.open(io.BytesIO(raw)) as file:
        assert (file.getnchannels(), file.getsampwidth()) == (1, 2)
        return struct.unpack(f"<{file.getnframes()}h", file.readframes(file.getnframes()))


def clicks_in(raw: bytes) -> list[tuple[int, bool]]:
    """Return at which sample each click begins, and whether it is the higher one: its second sample is lower."""
    samples = samples_of(raw)
    peak = max(samples, default=0)
    found = [index for index, value in enumerate(samples) if value == peak]
    second = {accented: samples_of(one_click(accented))[1] for accented in (True, False)}
    return [(index, samples[index + 1] == second[True]) for index in found]


def one_click(accented: bool) -> bytes:
    text = "1 1/4 q=60" if accented else "upbeat 1/4 q=60"
    return click_wav(line_of(text), count_in=0, sample_rate=RATE)


def test_the_first_beat_of_each_bar_is_higher() -> None:
    assert clicks_in(click_wav(line_of("1-2 3/4 q=120"), count_in=0, sample_rate=RATE)) == [
        (0, True), (4000, False), (8000, False), (12000, True), (16000, False), (20000, False),
    ]  # fmt: skip


def test_a_click_begins_at_its_peak_below_full_scale() -> None:
    samples = samples_of(click_wav(line_of("1 4/4 q=60"), count_in=0))

    assert samples[0] == max(samples) == round(32_767 * 10 ** (-12 / 20))
    assert len(samples) == 4 * 48_000
    assert set(samples[1440:48_000]) == {0}


def test_a_bar_is_counted_in_at_the_first_tempo() -> None:
    line = line_of("1 3/4 q=120 > q=60")

    assert count_in_seconds(line, 1) == Fraction(3, 2)
    assert [beat for beat in beats_of(line, count_in=2) if beat.seconds <= 3] == [
        Beat(Fraction(0), True),
        Beat(Fraction(1, 2), False),
        Beat(Fraction(1), False),
        Beat(Fraction(3, 2), True),
        Beat(Fraction(2), False),
        Beat(Fraction(5, 2), False),
        Beat(Fraction(3), True),
    ]


def test_an_upbeat_is_counted_in_with_the_rest_of_its_bar() -> None:
    line = line_of("upbeat 1/4 q=60\n1 4/4 q=60")

    assert [(beat.seconds, beat.accented) for beat in beats_of(line)] == [
        (0, True), (1, False), (2, False), (3, False),
        (4, True), (5, False), (6, False), (7, False),
        (8, True), (9, False), (10, False), (11, False),
    ]  # fmt: skip


def test_an_upbeat_shorter_than_a_beat_falls_between_the_beats() -> None:
    line = line_of("upbeat 1/8 e=180\n1 6/8 q.=60")

    assert [(beat.seconds, beat.accented) for beat in beats_of(line)] == [
        (0, True), (1, False), (2, True), (3, False), (Fraction(11, 3), False), (4, True), (5, False),
    ]  # fmt: skip


def test_free_bars_are_silent_and_not_counted_in() -> None:
    assert [beat.seconds for beat in beats_of(line_of("1 free 10\n2 1/4 q=60\n3 free 5\n4 1/4 q=60"))] == [10, 16]


def test_gaps_are_silent_where_the_clock_runs_on() -> None:
    text = "1 1/4 q=60\ngap 10\nmovement\n1 1/4 q=60"

    assert [beat.seconds for beat in beats_of(line_of(text), count_in=0)] == [0, 1]
    assert [beat.seconds for beat in beats_of(line_of(text, gaps=True), count_in=0)] == [0, 11]


def test_a_hold_is_silent_until_the_next_bar() -> None:
    assert [beat.seconds for beat in beats_of(line_of("1 2/4 q=60 hold 4\n2 1/4 q=60"), count_in=0)] == [0, 1, 6]


def test_nothing_played_is_an_empty_click() -> None:
    assert samples_of(click_wav(line_of("1-4 4/4 q=60\ncut 1-4"))) == ()


def test_a_click_longer_than_a_wav_file_is_refused() -> None:
    with pytest.raises(ClickError, match="longer than a WAV file can be"):
        next(click_chunks(line_of("1 free 86400")))


def test_a_click_above_full_scale_is_refused() -> None:
    with pytest.raises(ClickError, match="would be clipped"):
        next(click_chunks(line_of("1 4/4 q=60"), peak_db=0.5))


@settings(deadline=None, max_examples=30)
@given(maps(measured_only=True, plain=True), st.integers(0, 2))
def test_every_click_falls_on_the_sample_nearest_to_its_beat(tempo_map: TempoMap, count_in: int) -> None:
    line = timeline(tempo_map)
    raw = click_wav(line, count_in=count_in, sample_rate=RATE)
    before = count_in_seconds(line, count_in)
    beats = [
        before + played.start + played.bar.moment(played.bar.beat * beat)
        for played in line.bars
        for beat in range(played.bar.beats)
    ]
    clicks = [index for index, _accented in clicks_in(raw) if index >= before * RATE - 1]

    assert len(samples_of(raw)) == click_length(line, count_in=count_in, sample_rate=RATE)
    assert len(clicks) == len(beats)
    assert all(abs(index - seconds * RATE) <= Fraction(1, 2) for index, seconds in zip(clicks, beats, strict=True))


def test_a_subdivision_puts_softer_clicks_between_the_beats_of_each_bar() -> None:
    line = line_of("1 4/4 q=60\n2 6/8 q.=60\n3 free 2")

    beats = beats_of(line, count_in=0, subdivision=Fraction(1, 8))

    assert [(beat.seconds, beat.within) for beat in beats[:8]] == [(Fraction(n, 2), bool(n % 2)) for n in range(8)]
    assert [(beat.seconds, beat.within) for beat in beats[8:]] == [(4 + Fraction(n, 3), bool(n % 3)) for n in range(6)]


def test_a_subdivision_that_is_no_part_of_the_beat_leaves_the_beats_where_they_are() -> None:
    line = line_of("1 3/8 e=60")

    beats = beats_of(line, count_in=0, subdivision=Fraction(1, 12))

    assert [beat.seconds for beat in beats if not beat.within] == [0, 1, 2]
    assert [beat.seconds for beat in beats if beat.within] == [Fraction(2, 3), Fraction(4, 3), Fraction(8, 3)]


def test_no_sample_of_a_subdivided_click_is_above_the_peak() -> None:
    sound = b"".join(click_chunks(line_of("1-2 4/4 q=60"), subdivision=Fraction(1, 16), sample_rate=RATE))
    samples = struct.unpack(f"<{(len(sound) - 44) // 2}h", sound[44:])

    # -12 dB below full scale: 32767 · 10^(-12/20) (definition of the decibel)
    assert max(map(abs, samples)) == round(32_767 * 10 ** (-12 / 20))


def test_a_click_can_be_longer_than_the_music() -> None:
    sound = b"".join(click_chunks(line_of("1 4/4 q=60"), count_in=0, sample_rate=RATE, samples=5 * RATE))

    assert len(sound) == 44 + 2 * 5 * RATE
    assert sound[-2 * RATE :] == bytes(2 * RATE)


def test_the_length_of_the_file_is_known_beforehand() -> None:
    line = line_of("upbeat 1/4 q=66\n1-3 4/4 q=66")

    assert click_bytes(line, count_in=2, sample_rate=RATE) == len(click_wav(line, count_in=2, sample_rate=RATE))


def test_a_click_that_is_too_long_is_refused_before_anything_is_written() -> None:
    with pytest.raises(ClickError):
        click_chunks(line_of("1 free 86400"), sample_rate=384_000)
