from __future__ import annotations

from fractions import Fraction
from math import isclose, log

import pytest
from hypothesis import given
from hypothesis import strategies as st

from catalogue.timing import Duration, duration_of, read_tempo_map, timeline
from catalogue.timing.tempo_maps import TempoMap
from tests.unit.timing.maps import counts, maps


def starts(text: str) -> list[tuple[int, int, int, Fraction]]:
    return [(one.movement, one.bar.number, one.time, one.start) for one in timeline(read_tempo_map(text)).bars]


def order(text: str) -> list[int]:
    return [one.bar.number for one in timeline(read_tempo_map(text)).bars]


def test_bars_follow_each_other_at_exact_times() -> None:
    assert starts("1-3 4/4 q=72\n4 7/8 e=144\n5 free 45\n6 4/4 q=60") == [
        (1, 1, 1, Fraction(0)),
        (1, 2, 1, Fraction(10, 3)),
        (1, 3, 1, Fraction(20, 3)),
        (1, 4, 1, Fraction(10)),
        (1, 5, 1, Fraction(10) + Fraction(35, 12)),
        (1, 6, 1, Fraction(55) + Fraction(35, 12)),
    ]


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        ("repeat 1-2", [1, 2, 1, 2, 3, 4]),
        ("repeat 1-2 x3", [1, 2, 1, 2, 1, 2, 3, 4]),
        ("repeat 1-3 last 3", [1, 2, 3, 1, 2, 4]),
        ("repeat 1-3 x3 last 3", [1, 2, 3, 1, 2, 3, 1, 2, 4]),
        ("repeat 2-4", [1, 2, 3, 4, 2, 3, 4]),
        ("repeat 1-4\nrepeat 2-3", [1, 2, 3, 2, 3, 4, 1, 2, 3, 2, 3, 4]),
        ("repeat 1-4 last 3-4\nrepeat 2-3", [1, 2, 3, 2, 3, 4, 1, 2, 2]),
        ("repeat 1-2\nrepeat 3-4", [1, 2, 1, 2, 3, 4, 3, 4]),
        ("cut 2-3", [1, 4]),
        ("cut 2\nrepeat 1-2", [1, 1, 3, 4]),
        ("cut 1-4", []),
        ("upbeat 1/4 q=60\nrepeat 0-1", [0, 1, 0, 1, 2, 3, 4]),
        ("upbeat 1/4 q=60\nrepeat 1", [0, 1, 1, 2, 3, 4]),
    ],
)
def test_repeats_endings_and_cuts_are_played_out(text: str, expected: list[int]) -> None:
    assert order(f"1-4 4/4 q=60\n{text}") == expected


def test_a_repeated_bar_counts_its_times() -> None:
    played = [(number, time) for _movement, number, time, _start in starts("1-2 4/4 q=60\nrepeat 1 x3")]

    assert played == [(1, 1), (1, 2), (1, 3), (2, 1)]


def test_a_hold_stretches_the_last_beat_of_its_passage() -> None:
    bar = timeline(read_tempo_map("1-2 4/4 q=60 hold 4")).bars[1].bar
    moments = [bar.moment(Fraction(quarter, 8)) for quarter in (0, 2, 6, 7, 8)]

    assert bar.seconds == 8
    assert moments == [0, 1, 3, Fraction(11, 2), 8]
    assert [bar.position(moment) for moment in moments] == [Fraction(quarter, 8) for quarter in (0, 2, 6, 7, 8)]


def test_a_beat_is_the_dotted_note_of_the_tempo_where_it_fills_the_bar() -> None:
    text = "1 6/8 q.=60\n2 6/8 e=180\n3 9/8 q.=60\n4 7/8 q.=60\n5 4/4 h=30\n6 3+2/8 q=60"
    beats = [(played.bar.beats, played.bar.beat) for played in timeline(read_tempo_map(text)).bars]

    eighth = Fraction(1, 8)
    assert beats == [(2, 3 * eighth), (6, eighth), (3, 3 * eighth), (7, eighth), (4, 2 * eighth), (5, eighth)]


def test_a_gap_is_no_part_of_the_duration_but_of_a_clock_that_runs_on() -> None:
    tempo_map = read_tempo_map("1 4/4 q=60\ngap 10\nmovement\n1 4/4 q=60\nattacca\nmovement\n1 4/4 q=60")
    without, running = timeline(tempo_map), timeline(tempo_map, gaps=True)

    assert [bar.start for bar in without.bars] == [0, 4, 8]
    assert [bar.start for bar in running.bars] == [0, 14, 18]
    assert (without.seconds, without.end, running.seconds, running.end) == (12, 12, 12, 22)
    assert without.movements == running.movements == (4, 4, 4)


def test_the_bar_at_a_time_is_the_one_that_sounds() -> None:
    line = timeline(read_tempo_map("1-2 4/4 q=60\ngap 10\nmovement\n1 4/4 q=60"), gaps=True)
    found = [line.at(Fraction(seconds)) for seconds in (-1, 0, 4, 8, 12, 18, 22, 23)]

    assert [(bar.movement, bar.bar.number) if bar else None for bar in found] == [
        None, (1, 1), (1, 2), (1, 2), None, (2, 1), (2, 1), None,
    ]  # fmt: skip


def test_a_reckoned_time_is_rounded_to_the_nearest_second() -> None:
    assert [duration_of(Fraction(tenths, 10)) for tenths in (4, 5, 14, 15)] == [
        Duration(0), Duration(1), Duration(1), Duration(2),
    ]  # fmt: skip


@given(maps())
def test_bars_and_movements_add_up_to_the_whole(tempo_map: TempoMap) -> None:
    line = timeline(tempo_map)

    assert sum((played.bar.seconds for played in line.bars), Fraction(0)) == line.seconds == line.end
    assert [one.end for one in line.bars[:-1]] == [one.start for one in line.bars[1:]]


@given(maps())
def test_time_never_runs_back_within_a_bar(tempo_map: TempoMap) -> None:
    for played in timeline(tempo_map).bars:
        bar = played.bar
        moments = [bar.moment(bar.length * eighths / 8) for eighths in range(9)]

        assert moments == sorted(moments)
        assert bar.metre is None or (moments[0] == 0 and isclose(moments[-1], bar.seconds, rel_tol=1e-12))


@given(maps())
def test_position_undoes_moment(tempo_map: TempoMap) -> None:
    for played in timeline(tempo_map).bars:
        bar = played.bar
        for eighths in range(9):
            position = bar.length * eighths / 8
            assert isclose(bar.position(bar.moment(position)), position, abs_tol=1e-9)


@given(st.integers(2, 12), st.data(), counts)
def test_splitting_a_steady_passage_keeps_its_time_exactly(bars: int, data: st.DataObject, count: Fraction) -> None:
    split = data.draw(st.integers(1, bars - 1))
    whole = f"1-{bars} 7/8 q={float(count)}"
    halves = f"1-{split} 7/8 q={float(count)}\n{split + 1}-{bars} 7/8 q={float(count)}"

    assert timeline(read_tempo_map(whole)).seconds == timeline(read_tempo_map(halves)).seconds


@given(st.integers(20, 200), st.integers(20, 200), st.integers(1, 3))
def test_splitting_a_change_over_beats_keeps_its_time(start: int, end: int, split: int) -> None:
    middle = start + (end - start) * split / 4
    whole = f"1-4 3/4 q={start} > q={end}"
    halves = f"1-{split} 3/4 q={start} > q={middle}\n{split + 1}-4 3/4 q={middle} > q={end}"

    assert isclose(timeline(read_tempo_map(whole)).seconds, timeline(read_tempo_map(halves)).seconds, rel_tol=1e-12)


@given(st.integers(20, 200), st.integers(20, 200), st.sampled_from([">", ">>"]))
def test_a_change_lasts_between_its_two_tempos(start: int, end: int, change: str) -> None:
    seconds = timeline(read_tempo_map(f"1-4 3/4 q={start} {change} q={end}")).seconds

    assert (
        Fraction(720, max(start, end)) - Fraction(1, 10**9)
        <= seconds
        <= Fraction(720, min(start, end)) + Fraction(1, 10**9)
    )


def test_a_change_over_beats_follows_the_logarithm() -> None:
    seconds = timeline(read_tempo_map("1-8 3/4 q=60 > q=92")).seconds

    assert isclose(seconds, 60 * 24 / 32 * log(92 / 60), rel_tol=1e-15)
    assert round(float(seconds), 3) == 19.235


def test_a_change_in_time_takes_the_mean_tempo_exactly() -> None:
    assert timeline(read_tempo_map("1-8 3/4 q=60 >> q=92")).seconds == Fraction(120 * 24, 152)


def test_a_change_between_note_values_goes_by_the_music_they_hold() -> None:
    one, other = "1-4 6/8 q.=40 > q=120", "1-4 6/8 q=60 > q=120"

    assert timeline(read_tempo_map(one)).seconds == timeline(read_tempo_map(other)).seconds


def test_free_bars_share_their_time() -> None:
    assert [played.start for played in timeline(read_tempo_map("1-3 free 45")).bars] == [0, 15, 30]
