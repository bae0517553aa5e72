from __future__ import annotations

import io
from bisect import bisect_right
from fractions import Fraction
from itertools import pairwise

import mido
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from catalogue.timing import Marker, Timeline, midi_file, read_tempo_map, timeline
from catalogue.timing.midi import TICKS_A_QUARTER
from catalogue.timing.tempo_maps import TempoMap
from tests.unit.timing.maps import maps


class Sounding:
    """A file as another reader of the standard understands it: its events, and when each tick sounds."""

    def __init__(self, raw: bytes) -> None:
        file = mido.MidiFile(file=io.BytesIO(raw), charset="utf-8")
        assert (file.type, file.ticks_per_beat, len(file.tracks)) == (0, TICKS_A_QUARTER, 1)
        self.events: list[tuple[int, mido.MetaMessage]] = []
        tick = 0
        for message in file.tracks[0]:
            tick += message.time
            self.events.append((tick, message))
        self.end = tick
        self.tempos = [(tick, message.tempo) for tick, message in self.events if message.type == "set_tempo"]
        self.reached = [Fraction(0)]
        for (begins, tempo), (ends, _) in pairwise(self.tempos):
            self.reached.append(self.reached[-1] + (ends - begins) * Fraction(tempo, TICKS_A_QUARTER * 1_000_000))

    def seconds(self, tick: int) -> Fraction:
        if not self.tempos:
            return Fraction(0)
        index = bisect_right(self.tempos, (tick, 1 << 24)) - 1
        return self.reached[index] + (tick - self.tempos[index][0]) * self.tick_length(tick)

    def tick_length(self, tick: int) -> Fraction:
        tempo = self.tempos[bisect_right(self.tempos, (tick, 1 << 24)) - 1][1]
        return Fraction(tempo, TICKS_A_QUARTER * 1_000_000)

    def of(self, kind: str) -> list[tuple[int, mido.MetaMessage]]:
        return [(tick, message) for tick, message in self.events if message.type == kind]


def line_of(text: str, *, gaps: bool = False) -> Timeline:
    return timeline(read_tempo_map(text), gaps=gaps)


def metres(line: Timeline) -> list[tuple[int, int, int]]:
    found = Sounding(midi_file(line)).of("time_signature")
    return [(tick, message.numerator, message.denominator) for tick, message in found]


def test_a_file_is_a_header_and_one_track_byte_for_byte() -> None:
    raw = midi_file(line_of("1 4/4 q=120"), [Marker(Fraction(1), "A")], title="Kite")

    assert raw == (
        b"MThd\x00\x00\x00\x06\x00\x00\x00\x01\x03\xc0MTrk\x00\x00\x00\x22"
        b"\x00\xff\x03\x04Kite\x00\xff\x58\x04\x04\x02\x18\x08\x00\xff\x51\x03\x07\xa1\x20"
        b"\x8f\x00\xff\x06\x01A\x8f\x00\xff\x2f\x00"
    )


def test_metres_stand_at_the_bars_that_change_them() -> None:
    line = line_of("1-2 4/4 q=72\n3 7/8 e=144\n4 6/8 q.=60\n5 6/8 e=120\n6 3+2/16 s=120")
    found = Sounding(midi_file(line)).of("time_signature")

    quarter = TICKS_A_QUARTER
    said = [(tick, one.numerator, one.denominator, one.clocks_per_click) for tick, one in found]
    assert said == [
        (0, 4, 4, 24),
        (8 * quarter, 7, 8, 12),
        (23 * quarter // 2, 6, 8, 36),
        (29 * quarter // 2, 6, 8, 12),
        (35 * quarter // 2, 5, 16, 6),
    ]


def test_a_free_bar_is_one_bar_of_quarters() -> None:
    assert metres(line_of("1 4/4 q=60\n2 free 45\n3 4/4 q=60")) == [
        (0, 4, 4), (4 * 960, 32, 4), (36 * 960, 4, 4),
    ]  # fmt: skip


def test_a_gap_is_a_bar_of_quarters_where_the_clock_runs_on() -> None:
    text = "1 4/4 q=60\ngap 10\nmovement\n1 4/4 q=60"

    assert metres(line_of(text)) == [(0, 4, 4)]
    assert metres(line_of(text, gaps=True)) == [(0, 4, 4), (4 * 960, 10, 4), (14 * 960, 4, 4)]


def test_a_hold_slows_the_last_beat_and_keeps_the_bar() -> None:
    sounding = Sounding(midi_file(line_of("1-2 4/4 q=60 hold 4\n3 4/4 q=60")))

    assert sounding.tempos == [(0, 1_000_000), (7 * 960, 5_000_000), (8 * 960, 1_000_000)]
    assert len(sounding.of("time_signature")) == 1


def test_a_hold_longer_than_a_file_can_say_lengthens_its_bar() -> None:
    line = line_of("1-2 4/4 q=60 hold 60\n3 4/4 q=60")
    sounding = Sounding(midi_file(line))

    assert metres(line) == [(0, 4, 4), (4 * 960, 7, 4), (11 * 960, 4, 4)]
    assert sounding.seconds(11 * 960) == 68


@pytest.mark.parametrize("text", ["1-4 4/4 w=0.5", "1 free 5000", "1 1/64 s=30 hold 600", "1-3 4/4 q=2 > q=1"])
def test_what_is_slower_than_a_file_can_say_keeps_its_time(text: str) -> None:
    line = line_of(text)
    sounding = Sounding(midi_file(line))

    assert abs(sounding.seconds(sounding.end) - line.end) <= sounding.tick_length(sounding.end)


def test_a_map_of_which_nothing_is_played_is_an_empty_file() -> None:
    sounding = Sounding(midi_file(line_of("1-4 4/4 q=60\ncut 1-4"), [Marker(Fraction(0), "A")]))

    assert (sounding.end, [message.text for _tick, message in sounding.of("marker")]) == (0, ["A"])


def test_rounded_tempos_do_not_drift_in_a_long_passage() -> None:
    line = line_of("1-9000 4/4 q=91.7")
    sounding = Sounding(midi_file(line))

    assert sounding.end == 36_000 * 960
    assert abs(sounding.seconds(sounding.end) - line.end) <= Fraction(1, 10_000)


def test_text_is_kept_in_every_script() -> None:
    sounding = Sounding(midi_file(line_of("1 4/4 q=60"), [Marker(Fraction(0), "Flöte 時")]))

    assert [message.text for _tick, message in sounding.of("marker")] == ["Flöte 時"]


@settings(deadline=None, max_examples=60)
@given(maps(measured_only=True))
def test_every_beat_of_the_file_sounds_within_a_tick_of_the_map(tempo_map: TempoMap) -> None:
    line = timeline(tempo_map)
    sounding = Sounding(midi_file(line))
    tick = 0
    for played in line.bars:
        for beat in range(played.bar.beats):
            position = played.bar.beat * beat
            at = tick + int(position * 4 * TICKS_A_QUARTER)
            difference = sounding.seconds(at) - played.start - played.bar.moment(position)
            assert abs(difference) <= sounding.tick_length(at)
        tick += int(played.bar.length * 4 * TICKS_A_QUARTER)
    assert tick == sounding.end


@settings(deadline=None, max_examples=60)
@given(maps(), st.booleans(), st.lists(st.integers(0, 1000), max_size=5))
def test_every_marker_sounds_within_a_tick_of_its_cue(tempo_map: TempoMap, gaps: bool, shares: list[int]) -> None:
    line = timeline(tempo_map, gaps=gaps)
    times = sorted(line.end * share / 1000 for share in shares)
    sounding = Sounding(midi_file(line, [Marker(seconds, "cue") for seconds in times]))
    markers = sounding.of("marker")

    assert len(markers) == len(times)
    for seconds, (tick, _message) in zip(times, markers, strict=True):
        assert abs(sounding.seconds(tick) - seconds) <= (sounding.tick_length(tick) if sounding.tempos else 0)
