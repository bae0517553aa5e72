from __future__ import annotations

from fractions import Fraction

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from catalogue.timing import TempoError, read_tempo_map, write_tempo_map
from catalogue.timing.tempo_maps import (
    Attacca,
    Change,
    Cut,
    Free,
    Gap,
    Line,
    Measured,
    Metre,
    Movement,
    MovementMark,
    Repeat,
    Tempo,
    TempoMap,
    Upbeat,
)
from tests.unit.timing.maps import maps

EVERYTHING = """\
1-16    4/4   q=72
17-24   7/8   e=144
25-32   3/4   q=60 > q=92      # accelerando
33      4/4   q=92  hold 4     # a fermata
34      free  45
35-40   4/4   q=60 >> q=92

# the order of playing
repeat 1-8 x3
repeat 1-8 last 7-8            # a first ending
cut 20-24
gap 10
movement "Slack # 2"
upbeat  1/4   q=60
1-4     3+2/8 q.=60,5
"""

FOUR_FOUR = Metre((4,), 4)


def quarters(count: int) -> Tempo:
    return Tempo("q", Fraction(count))


def test_a_map_reads_line_by_line() -> None:
    passages = (
        Measured(1, 16, FOUR_FOUR, quarters(72)),
        Measured(17, 24, Metre((7,), 8), Tempo("e", Fraction(144))),
        Measured(25, 32, Metre((3,), 4), quarters(60), Change.OVER_BEATS, quarters(92)),
        Measured(33, 33, FOUR_FOUR, quarters(92), hold=Fraction(4)),
        Free(34, 34, Fraction(45)),
        Measured(35, 40, FOUR_FOUR, quarters(60), Change.IN_TIME, quarters(92)),
    )
    upbeat = Measured(0, 0, Metre((1,), 4), quarters(60))
    slow = Measured(1, 4, Metre((3, 2), 8), Tempo("q.", Fraction(121, 2)))
    times, ending, cut, gap = Repeat(1, 8, 3), Repeat(1, 8, 2, (7, 8)), Cut(20, 24), Gap(Fraction(10))

    assert read_tempo_map(EVERYTHING) == TempoMap(
        lines=(
            Line(passages[0]),
            Line(passages[1]),
            Line(passages[2], "accelerando"),
            Line(passages[3], "a fermata"),
            Line(passages[4]),
            Line(passages[5]),
            Line(None),
            Line(None, "the order of playing"),
            Line(times),
            Line(ending, "a first ending"),
            Line(cut),
            Line(gap),
            Line(MovementMark("Slack # 2")),
            Line(Upbeat(upbeat)),
            Line(slow),
        ),
        movements=(
            Movement("", None, passages, None, (Repeat(1, 8, 3, (7, 8)),), (cut,)),
            Movement("Slack # 2", gap, (slow,), upbeat),
        ),
    )


def test_a_map_is_written_with_its_columns_under_each_other() -> None:
    assert (
        write_tempo_map(read_tempo_map(EVERYTHING))
        == """\
1-16    4/4   q=72
17-24   7/8   e=144
25-32   3/4   q=60 > q=92  # accelerando
33      4/4   q=92  hold 4  # a fermata
34      free 45
35-40   4/4   q=60 >> q=92

# the order of playing
repeat 1-8 x3
repeat 1-8 last 7-8  # a first ending
cut 20-24
gap 10
movement "Slack # 2"
upbeat  1/4   q=60
1-4     3+2/8 q.=60.5
"""
    )


@pytest.mark.parametrize(
    ("typed", "canonical"),
    [
        ("1–8 4/4 Q = 72", "1-8     4/4   q=72\n"),
        ("1 - 8  4 / 4  q=72>q=80", "1-8     4/4   q=72 > q=80\n"),
        ("1 free 1:30", "1       free 90\n"),
        ("1 free 1:30.5", "1       free 90.5\n"),
        ("1-8 4/4 q=72\r\nrepeat 1-8 last 8 X3\r\n\r\n", "1-8     4/4   q=72\nrepeat 1-8 x3 last 8\n"),
        (
            "1 4/4 q=72\nattacca movement “B”\n1 4/4 q=72",
            '1       4/4   q=72\nattacca\nmovement "B"\n1       4/4   q=72\n',
        ),
        ("1 4/4 q=72\nmovement gap 5\n1 4/4 q=72", "1       4/4   q=72\ngap 5\nmovement\n1       4/4   q=72\n"),
    ],
)
def test_a_map_is_typed_freely_and_written_in_one_way(typed: str, canonical: str) -> None:
    assert write_tempo_map(read_tempo_map(typed)) == canonical


@pytest.mark.parametrize(
    ("text", "reason", "column", "marked"),
    [
        ("", "Line 1: there are no bars here; write a line such as “1-16  4/4  q=72”.", 1, ""),
        ("1-4 4/4 q=0", "Line 1: a tempo lies above 0 and at most at 10000 notes a minute.", 9, "q=0"),
        ("1-4 4/4", "Line 1: a tempo such as q=72 is missing at the end.", 8, ""),
        ("1-4 4/4 72", "Line 1: a tempo such as q=72 is wanted where “72” stands.", 9, "72"),
        ("1-4 q=72", "Line 1: a metre such as 4/4 is wanted where “q=72” stands.", 5, "q=72"),
        ("1-4 4/5 q=72", "Line 1: the lower figure of a metre is 1, 2, 4, 8, 16, 32 or 64.", 5, "4/5"),
        ("1-4 0/4 q=72", "Line 1: a bar has between 1 and 99 beats.", 5, "0/4"),
        ("1-4 4/4 q=72 loud", "Line 1: the end of the line is wanted where “loud” stands.", 14, "loud"),
        ("1-4 4/4 q=72 >", "Line 1: a tempo such as q=72 is missing at the end.", 15, ""),
        ("1 4/4 q=72 hold 0", "Line 1: this has to be more than 0 seconds.", 17, "0"),
        ("1 4/4 q=72 hold 601", "Line 1: at most 600 seconds can stand here.", 17, "601"),
        ("1 free", "Line 1: a number of seconds is missing at the end.", 7, ""),
        ("5-1 4/4 q=72", "Line 1: bar 1 comes before bar 5.", 1, "5-1"),
        ("1-10000 4/4 q=72", "Line 1: bars are counted up to 9999.", 1, "1-10000"),
        ("2-4 4/4 q=72", "Line 1: bar 1 is missing before this line.", 1, "2-4 4/4 q=72"),
        ("0-4 4/4 q=72", "Line 1: bars are counted from 1; a pickup is an “upbeat”.", 1, "0-4 4/4 q=72"),
        ("1-4 4/4 q=72\n7 4/4 q=60 # b", "Line 2: bars 5 to 6 are missing before this line.", 1, "7 4/4 q=60"),
        ("1-4 4/4 q=72\n\n 4-8 4/4 q=60", "Line 3: bar 4 has been given already; bar 5 is next.", 2, "4-8 4/4 q=60"),
        ("1-4 4/4 q=72\nrepeat 1-5", "Line 2: there is no bar 5; the bars go from 1 to 4.", 1, "repeat 1-5"),
        ("1-4 4/4 q=72\ncut 0", "Line 2: there is no bar 0; the bars go from 1 to 4.", 1, "cut 0"),
        ("1-4 4/4 q=72\nrepeat 1-4 x1", "Line 2: what is repeated is played between 2 and 999 times in all.", 12, "x1"),
        (
            "1-4 4/4 q=72\nrepeat 1-4 last 2-3",
            "Line 2: the first ending has to be the last bars of 1-4, and not all of them.",
            1,
            "repeat 1-4 last 2-3",
        ),
        (
            "1-9 4/4 q=72\nrepeat 1-4\nrepeat 3-6",
            "Line 3: this repeat crosses another; one has to lie inside the other or apart.",
            1,
            "repeat 3-6",
        ),
        (
            "1-9 4/4 q=72\nrepeat 1-4 x3\nrepeat 1-4 x4",
            "Line 3: bars 1 to 4 are repeated already, in another way.",
            1,
            "repeat 1-4 x4",
        ),
        (
            "1 4/4 q=72\nmovement",
            "Line 2: there are no bars here; write a line such as “1-16  4/4  q=72”.",
            1,
            "movement",
        ),
        ("1 4/4 q=72\nmovement B", "Line 2: a name between quotation marks is wanted where “B” stands.", 10, "B"),
        ("1 4/4 q=72\ngap 10", "Line 2: “attacca” and “gap” stand before a movement.", 1, "gap 10"),
        ("attacca\nmovement\n1 4/4 q=72", "Line 1: nothing comes before the first movement.", 1, "attacca"),
        ("upbeat 1/4 q=72\nupbeat 1/4 q=72", "Line 2: this movement has an upbeat already.", 1, "upbeat 1/4 q=72"),
        (
            "allegro",
            "Line 1: a bar number, repeat, cut, movement, attacca, gap or upbeat is wanted where “allegro” stands.",
            1,
            "allegro",
        ),
        (
            "1-999 4/4 q=72\nrepeat 1-999 x99\nrepeat 2-999 x99",
            "Line 1: with its repeats the map has more than 20000 bars.",
            1,
            "1-999 4/4 q=72",
        ),
    ],
)
def test_what_does_not_fit_is_refused_at_its_line_and_column(text: str, reason: str, column: int, marked: str) -> None:
    with pytest.raises(TempoError) as caught:
        read_tempo_map(text)

    fault = caught.value
    assert (fault.reason, fault.column, text[fault.start : fault.end]) == (reason, column, marked)
    assert f"Line {fault.line}: " in reason


def test_an_error_shows_its_line_with_a_mark_under_the_place() -> None:
    with pytest.raises(TempoError) as caught:
        read_tempo_map("1-4 4/4 q=72\r\n5-8 4/4 q=0\r\n")

    assert str(caught.value) == (
        "Line 2: a tempo lies above 0 and at most at 10000 notes a minute.\n5-8 4/4 q=0\n        ^^^"
    )


def test_a_movement_with_too_many_repeats_is_refused() -> None:
    repeats = "".join(f"repeat {bar}\n" for bar in range(1, 202))

    with pytest.raises(TempoError) as caught:
        read_tempo_map(f"1-300 4/4 q=72\n{repeats}")

    assert caught.value.reason == "Line 202: a movement has at most 200 repeats and cuts."


def test_a_text_that_is_too_long_is_refused() -> None:
    with pytest.raises(TempoError) as caught:
        read_tempo_map("#" * 200_001)

    assert caught.value.reason == "Line 1: this is too long for a tempo map."


@given(maps())
def test_reading_undoes_writing(tempo_map: TempoMap) -> None:
    assert read_tempo_map(write_tempo_map(tempo_map)) == tempo_map


ANY_TEXT = st.text(max_size=60) | st.text('0123456789-/=.#>"\nqhwx repatcumovfl', max_size=60)


@given(ANY_TEXT)
def test_any_text_is_read_or_refused_within_its_bounds(text: str) -> None:
    fault = fault_of(text)

    assert fault is None or (0 <= fault.start <= fault.end <= len(text) and fault.reason.endswith("."))


def fault_of(text: str) -> TempoError | None:
    try:
        read_tempo_map(text)
    except TempoError as fault:
        return fault
    return None


WRONG = st.sampled_from(
    [
        ("{} 4/5 q=60", "4/5"),
        ("{} 4/4 q=0", "q=0"),
        ("{} 4/4 r=60", "r=60"),
        ("{} 4/4 q=60 hold 0", "0"),
        ("{} 4/4 q=60 >", ""),
        ("{} free soon", "soon"),
        ("{} 100/4 q=60", "100/4"),
        ("{} 4/4 q=60 slower", "slower"),
        ("repeat {} x1", "x1"),
        ("cut first", "first"),
        ("gap ten", "ten"),
        ("movement Slack", "Slack"),
    ]
)
SPACE = st.text(" \t", max_size=3)


@settings(deadline=None, max_examples=40)
@given(maps(), WRONG, SPACE, st.sampled_from(["", "  # q=0 4/5", "\r"]), st.data())
def test_a_mistake_planted_in_a_map_is_found_at_its_line_and_column(
    tempo_map: TempoMap, planted: tuple[str, str], space: str, after: str, data: st.DataObject
) -> None:
    lines = write_tempo_map(tempo_map).rstrip("\n").split("\n")
    place = data.draw(st.integers(0, len(lines)))
    typed, marked = planted
    wrong = space + typed.format(1)
    column = len(wrong) + 1 if not marked else wrong.rindex(marked) + 1

    fault = fault_of("\n".join([*lines[:place], wrong + after, *lines[place:]]))

    assert fault is not None
    assert fault.text[fault.start : fault.end] == marked
    if marked:
        assert (fault.line, fault.column) == (place + 1, column)
    assert fault.reason.startswith(f"Line {place + 1}: ")
    assert str(fault).split("\n")[-1] == " " * (fault.column - 1) + "^" * max(1, len(marked))


@settings(deadline=None, max_examples=30)
@given(maps(), st.data())
def test_a_line_that_does_not_fit_its_movement_is_shown_from_its_first_to_its_last_sign(
    tempo_map: TempoMap, data: st.DataObject
) -> None:
    lines = write_tempo_map(tempo_map).rstrip("\n").split("\n")
    last = tempo_map.movements[-1].last
    typed = data.draw(st.sampled_from([f"{last + 2} free 5", f"repeat {last + 1}", f"cut {last + 1}", "attacca"]))

    fault = fault_of("\n".join([*lines, f"  {typed}  # so"]))

    assert fault is not None
    assert (fault.line, fault.column, fault.text[fault.start : fault.end]) == (len(lines) + 1, 3, typed)


def test_an_attacca_is_kept_with_its_movement() -> None:
    read = read_tempo_map("1 4/4 q=72\nattacca\nmovement\n1 4/4 q=72\n")

    assert [movement.before for movement in read.movements] == [None, Attacca()]
