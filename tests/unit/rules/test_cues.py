"""When cues come: by bar and beat or by the clock, and what is said of those that cannot be placed."""

from __future__ import annotations

from fractions import Fraction

from catalogue.facts import CueFacts
from catalogue.rules.cues import mistake_in, placed_cues
from catalogue.timing import Reckoned, reckon

ONE = "1-16 4/4 q=60\n17 free 45\n18-20 4/4 q=60\nrepeat 1-8\n"
TWO = 'movement "Lamp"\n1-10 4/4 q=60\ngap 10\nmovement "Static"\n1-10 3/4 q=90\n'


def reckoned(text: str) -> Reckoned:
    found = reckon(text)
    assert found is not None
    return found


def cues(*places: str) -> tuple[CueFacts, ...]:
    return tuple(CueFacts(str(number), place, "Fade") for number, place in enumerate(places, start=1))


def told(text: str, *places: str) -> list[tuple[str, Fraction | None, int, str]]:
    placed = placed_cues(cues(*places), reckoned(text))
    return [(one.cue.number, one.seconds, one.movement, one.bar) for one in placed]


def test_times_follow_the_map_with_its_repeats() -> None:
    assert told(ONE, "1", "3.2.5", "1@2", "9") == [
        ("1", Fraction(0), 1, "1"),
        ("2", Fraction(19, 2), 1, "3.2.5"),
        ("3", Fraction(32), 1, "1@2"),
        ("4", Fraction(64), 1, "9"),
    ]


def test_a_time_on_the_clock_is_shown_with_the_bar_that_sounds_then() -> None:
    assert told(ONE, "0:33", "1:50") == [("1", Fraction(33), 1, "1.2@2"), ("2", Fraction(110), 1, "17")]


def test_bars_are_counted_in_their_movement() -> None:
    assert told(TWO, "1:2.1", "2:2.1") == [("1", Fraction(4), 1, "2"), ("2", Fraction(42), 2, "2")]


def test_a_gap_counts_only_where_it_was_asked_for() -> None:
    found = reckon(TWO, gaps=True)

    assert found is not None
    assert [one.seconds for one in placed_cues(cues("2:1.1"), found)] == [Fraction(50)]


def test_a_cue_in_a_free_passage_knows_how_long_that_lasts() -> None:
    (placed,) = placed_cues(cues("17"), reckoned(ONE))

    assert (placed.seconds, placed.free) == (Fraction(96), Fraction(45))


def test_cues_come_in_playing_order_and_those_without_a_time_stay_behind_their_neighbour() -> None:
    assert [number for number, *_ in told(ONE, "", "12", "3", "900", "0:04")] == ["1", "5", "3", "4", "2"]


def test_a_cue_outside_the_map_says_why_it_has_no_time() -> None:
    (placed,) = placed_cues(cues("900"), reckoned(ONE))

    assert (placed.seconds, placed.bar) == (None, "900")
    assert placed.mistake is not None
    assert placed.mistake.reason == "Bar 900 is not in the map, or is cut."


def test_a_place_that_may_be_two_things_is_asked_about() -> None:
    (placed,) = placed_cues(cues("2:10"), reckoned(TWO))

    assert placed.mistake is not None
    assert placed.mistake.reason == "“2:10” may be bar 10 of movement 2, or a time; write 2:10.1 or 0:02:10."


def test_without_a_map_cues_keep_their_places_and_have_no_times() -> None:
    placed = placed_cues(cues("9", "3", ""), None)

    assert [one.bar for one in placed] == ["9", "3", ""]
    assert {(one.seconds, one.mistake) for one in placed} == {(None, None)}


def test_what_can_be_no_place_in_any_map_is_refused() -> None:
    assert [mistake_in(place) for place in ("", "37.3.5", "7.1@2", "2:7.1", "12:30", "45 s")] == [None] * 6
    mistake = mistake_in("letter B")
    assert mistake is not None
    assert mistake.reason.startswith("“letter B” is no place; write 37")
