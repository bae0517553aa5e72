from __future__ import annotations

import pytest

from catalogue.timing import Disagreement, Duration, map_disagrees, movements_disagree


@pytest.mark.parametrize(("seconds", "doubted"), [(540, False), (539, True), (660, False), (661, True), (600, False)])
def test_a_map_is_doubted_beyond_a_tenth_of_the_published_duration(seconds: int, doubted: bool) -> None:
    expected = Disagreement(Duration(600), Duration(seconds)) if doubted else None

    assert map_disagrees(Duration(600), Duration(seconds)) == expected


@pytest.mark.parametrize(("seconds", "doubted"), [(570, False), (569, True), (630, False), (631, True)])
def test_a_sum_of_movements_is_doubted_beyond_a_twentieth(seconds: int, doubted: bool) -> None:
    expected = Disagreement(Duration(600), Duration(seconds)) if doubted else None

    assert movements_disagree(Duration(600), [Duration(300), Duration(seconds - 300)]) == expected


def test_nothing_is_doubted_while_a_movement_has_no_duration() -> None:
    assert movements_disagree(Duration(600), [Duration(100), None]) is None
    assert movements_disagree(Duration(600), []) is None


def test_a_stated_duration_of_nothing_is_not_compared() -> None:
    assert map_disagrees(Duration(0), Duration(600)) is None


def test_a_disagreement_says_both_durations_and_by_how_much() -> None:
    assert Disagreement(Duration(600), Duration(480)).in_words("the movements") == (
        "The duration from the movements is 8′, 20 % shorter than the stated 10′."
    )
