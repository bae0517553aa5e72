"""Tempo maps against arithmetic that is done here in plain numbers, note by note.

Formulas: n notes at t a minute last 60·n/t seconds; a change from a to b that is even over n notes lasts
60·n/(b−a)·ln(b/a), one that is even in time 120·n/(a+b) (calculus). A beat, a repeat with its first ending, a cut and a
fermata mean what they mean to players (common practice).
"""

from __future__ import annotations

from math import exp, isclose, log, sqrt

import pytest

from catalogue.timing import TempoError, read_tempo_map, seconds_of, timeline


def steady(notes: float, tempo: float) -> float:
    return 60 * notes / tempo


def over_beats(notes: float, start: float, end: float) -> float:
    return 60 * notes / (end - start) * log(end / start)


def in_time(notes: float, start: float, end: float) -> float:
    return 120 * notes / (start + end)


EVERYTHING = """\
1-16    4/4   q=72
17-24   7/8   e=144
25-32   3/4   q=60 > q=92      # accelerando
33      4/4   q=92  hold 4     # a fermata that adds 4 seconds
34      free  45
35-40   4/4   q=60 >> q=92
repeat 1-8
"""

DURATIONS = [
    ("1-16 4/4 q=72", steady(64, 72)),
    ("1-10 2/2 h=54", steady(20, 54)),
    ("1-10 2/2 q=108", steady(40, 108)),
    ("1-12 3/8 e=160", steady(36, 160)),
    ("1-12 6/8 q.=50", steady(24, 50)),
    ("1-12 9/16 e.=66", steady(36, 66)),
    ("1-5 3+2+3/8 e=210", steady(40, 210)),
    ("1-6 5/8 q.=60", steady(6 * 5 / 3, 60)),
    ("1-3 4/4 w=22", steady(3, 22)),
    ("1-4 7/16 s=300", steady(28, 300)),
    ("1-7 5/4 q=63.5", steady(35, 63.5)),
    ("1-7 5/4 q=63,5", steady(35, 63.5)),
    ("1-8 4/4 q=60 > q=120", over_beats(32, 60, 120)),
    ("1-8 4/4 q=120 > q=60", over_beats(32, 60, 120)),
    ("1-8 4/4 q=60 >> q=120", in_time(32, 60, 120)),
    ("1-8 4/4 q=60 > h=60", over_beats(32, 60, 120)),
    ("1-6 6/8 q.=40 > e=180", over_beats(12, 40, 60)),
    ("1-4 3/4 q=80 >> q.=40", in_time(12, 80, 60)),
    ("1-8 4/4 q=90 > q=90", steady(32, 90)),
    ("1 free 1:30", 90),
    ("1-5 free 12.5", 12.5),
    ("1-4 4/4 q=100 hold 2.5", steady(16, 100) + 2.5),
    ("1-4 4/4 q=100 > q=50 hold 6", over_beats(16, 50, 100) + 6),
    ("upbeat 1/4 q=60\n1-8 3/4 q=60", steady(25, 60)),
    ("upbeat 3/8 e=96\n1-2 6/8 q.=32", steady(3, 96) + steady(4, 32)),
    ("1-12 4/4 q=60\nrepeat 1-8", steady(80, 60)),
    ("1-12 4/4 q=60\nrepeat 1-8 x4", steady(48 + 3 * 32, 60)),
    ("1-12 4/4 q=60\nrepeat 1-8 last 7-8", steady(12 * 4 + 6 * 4, 60)),
    ("1-12 4/4 q=60\nrepeat 1-8 x3 last 8", steady((8 + 8 + 7 + 4) * 4, 60)),
    ("1-12 4/4 q=60\nrepeat 1-8\nrepeat 3-4", steady((2 * (8 + 2) + 4) * 4, 60)),
    ("1-12 4/4 q=60\ncut 5-6", steady(40, 60)),
    ("1-12 4/4 q=60\nrepeat 5-8\ncut 6", steady((4 + 2 * 3 + 4) * 4, 60)),
    ("1-4 4/4 q=60 > q=90\nrepeat 1-2", over_beats(16, 60, 90) + over_beats(8, 60, 75)),
    ("1-4 4/4 q=60 > q=90\ncut 3", over_beats(8, 60, 75) + over_beats(4, 82.5, 90)),
    ('1-4 4/4 q=60\ngap 15\nmovement "Slack"\n1-4 4/4 q=120', steady(16, 60) + steady(16, 120)),
    ('1-4 4/4 q=60\nattacca\nmovement "Slack"\n1-4 4/4 q=120', steady(16, 60) + steady(16, 120)),
    (
        EVERYTHING,
        steady(96, 72) + steady(56, 144) + over_beats(24, 60, 92) + steady(4, 92) + 4 + 45 + in_time(24, 60, 92),
    ),
]


@pytest.mark.parametrize(("text", "seconds"), DURATIONS)
def test_a_map_lasts_as_its_notes_add_up(text: str, seconds: float) -> None:
    assert isclose(timeline(read_tempo_map(text)).seconds, seconds, rel_tol=1e-12)


ACCELERANDO = "1-8 4/4 q=60 > q=120"
IN_TIME = "1-8 4/4 q=60 >> q=120"
SEVERAL = """\
upbeat 1/4 q=60
1-10 4/4 q=60
repeat 3-6 last 5-6
movement "Slack"
1-4 6/8 q.=40 hold 3
5 free 20
6 2/4 q=120
"""

PLACES = [
    ("1-4 4/4 q=90", "3", steady(8, 90)),
    ("1-4 4/4 q=90", "3.4", steady(11, 90)),
    ("1-4 4/4 q=90", "3.4.5", steady(11.5, 90)),
    ("1-4 4/4 q=90", "3.4.25", steady(11.25, 90)),
    ("1-4 6/8 q.=40", "2.2", steady(3, 40)),
    ("1-4 6/8 e=120", "2.4", steady(9, 120)),
    ("1-4 4/4 h=40", "2.3", steady(3, 40)),
    # dotted quarters do not fill a bar of 5/8, so that its beats are eighth notes
    ("1-4 5/8 q.=60", "1.2.5", 1.5 / 3),
    # 16 of 32 quarters at 60 + 60·16/32 = 90
    (ACCELERANDO, "5", over_beats(16, 60, 90)),
    (ACCELERANDO, "5.3", over_beats(18, 60, 60 + 60 * 18 / 32)),
    # even in time: the square of the tempo is even over the notes
    (IN_TIME, "5", in_time(16, 60, sqrt((60**2 + 120**2) / 2))),
    (SEVERAL, "1:0.1", 0),
    (SEVERAL, "1:1.1", 1),
    (SEVERAL, "1:5.1", 17),
    (SEVERAL, "1:4.3@2", 1 + 24 + 4 + 2),
    (SEVERAL, "1:7.1", 1 + 24 + 8),
    (SEVERAL, "2:1.1", 1 + 24 + 8 + 16),
    (SEVERAL, "2:4.2", 49 + steady(7, 40)),
    # the fermata stretches the last beat evenly
    (SEVERAL, "2:4.2.5", 49 + steady(7, 40) + (1.5 + 3) / 2),
    (SEVERAL, "2:5", 49 + steady(8, 40) + 3),
    (SEVERAL, "2:6.2", 49 + 12 + 3 + 20 + 0.5),
    (SEVERAL, "0:40", 40),
    ("1-4 4/4 q=60\ncut 2", "3", 4),
]


@pytest.mark.parametrize(("text", "place", "seconds"), PLACES)
def test_a_place_comes_when_the_notes_before_it_are_over(text: str, place: str, seconds: float) -> None:
    tempo_map = read_tempo_map(text)

    assert isclose(seconds_of(place, tempo_map, timeline(tempo_map)), seconds, rel_tol=1e-12, abs_tol=1e-12)


def test_a_tempo_even_over_the_beats_grows_as_a_power_of_time() -> None:
    """From 60 to 120 over 32 quarters: after t seconds 32·(e^(t/32) − 1) of them are over, 60 + 60·(n/32) a minute."""
    tempo_map = read_tempo_map(ACCELERANDO)
    line = timeline(tempo_map)

    for bar in range(1, 9):
        seconds = float(seconds_of(str(bar), tempo_map, line))
        assert isclose(32 * (exp(seconds / 32) - 1), 4 * (bar - 1), rel_tol=1e-12, abs_tol=1e-12)


FAULTS = [
    ("1-4 4/4 q=72\n5-8 4/4 q=O", 2, 9, "q=O"),
    ("1-4 4/4 q=72\n\n# so far\n6-8 4/4 q=72", 4, 1, "6-8 4/4 q=72"),
    ("1-4 4/4 q=72\n4-8 4/4 q=72", 2, 1, "4-8 4/4 q=72"),
    ("1-4 4/4 q=0", 1, 9, "q=0"),
    ("1-4 4/4 q=-60", 1, 9, "q=-60"),
    ("1-4 4/3 q=60", 1, 5, "4/3"),
    ("1-4   44   q=60", 1, 7, "44"),
    ("1-4 4/4 c=60", 1, 9, "c=60"),
    ("1-4 4/4 q=60 > 90", 1, 16, "90"),
    ("1-4 4/4 q=60 >>> q=90", 1, 16, ">"),
    ("1-4 4/4 q=60 hold", 1, 18, ""),
    ("1-4 4/4 q=60 hold long", 1, 19, "long"),
    ("1-4 free", 1, 9, ""),
    ("1-4 free ever", 1, 10, "ever"),
    ("1-4 4/4 q=60\n  repeat 3-9", 2, 3, "repeat 3-9"),
    ("1-4 4/4 q=60\nrepeat 1-4 last 3", 2, 1, "repeat 1-4 last 3"),
    ("1-4 4/4 q=60\nrepeat 1-4 first 3-4", 2, 12, "first"),
    ("1-4 4/4 q=60\ncut 9", 2, 1, "cut 9"),
    ("1-4 4/4 q=60\ncut", 2, 4, ""),
    ("1-4 4/4 q=60\nmovement Slack\n1 4/4 q=60", 2, 10, "Slack"),
    ("1-4 4/4 q=60\nattacca\n5 4/4 q=60", 2, 1, "attacca"),
    ("1-4 4/4 q=60\ngap ten\nmovement\n1 4/4 q=60", 2, 5, "ten"),
    ("upbeat 1/4\n1-4 4/4 q=60", 1, 11, ""),
    ("1-4 4/4 q=60\r\n5-8 4/4\tq=\r\n", 2, 9, "q="),
    ("\u00a01-4 4/4 presto", 1, 10, "presto"),
]


@pytest.mark.parametrize(("text", "line", "column", "marked"), FAULTS)
def test_a_mistake_is_shown_at_its_line_and_column(text: str, line: int, column: int, marked: str) -> None:
    with pytest.raises(TempoError) as caught:
        read_tempo_map(text)

    fault = caught.value
    assert (fault.line, fault.column, text[fault.start : fault.end]) == (line, column, marked)
