from __future__ import annotations

from fractions import Fraction
from math import isclose, log

import pytest

from catalogue.timing.motion import Motion
from catalogue.timing.tempo_maps import Change

OVER_BEATS = Motion(Fraction(4), Fraction(15), Fraction(30), Change.OVER_BEATS)
IN_TIME = Motion(Fraction(4), Fraction(15), Fraction(30), Change.IN_TIME)


def test_a_steady_motion_is_exact() -> None:
    assert Motion(Fraction(8), Fraction(18), Fraction(18)).seconds(Fraction(7, 8)) == Fraction(35, 12)


def test_a_change_over_beats_is_half_way_in_tempo_half_way_through_the_notes() -> None:
    half = OVER_BEATS.seconds(Fraction(2))

    assert isclose(half, 16 * log(22.5 / 15), rel_tol=1e-15)
    assert isclose(OVER_BEATS.seconds(Fraction(4)), 16 * log(2), rel_tol=1e-15)


def test_a_change_in_time_is_half_way_in_tempo_half_way_through_the_time() -> None:
    whole = IN_TIME.seconds(Fraction(4))

    assert whole == Fraction(120 * 4, 45)
    assert IN_TIME.position(whole / 2) == Fraction(1, 60) * whole / 2 * Fraction(15 + 22.5) / 2


@pytest.mark.parametrize("motion", [OVER_BEATS, IN_TIME])
def test_a_motion_ends_at_its_own_length(motion: Motion) -> None:
    assert isclose(motion.position(motion.seconds(motion.length)), motion.length, rel_tol=1e-12)
    assert motion.seconds(Fraction(0)) == 0


@pytest.mark.parametrize("change", [Change.OVER_BEATS, Change.IN_TIME])
def test_a_change_to_the_same_tempo_is_steady_and_exact(change: Change) -> None:
    assert Motion(Fraction(4), Fraction(18), Fraction(18), change).seconds(Fraction(4)) == Fraction(40, 3)


@pytest.mark.parametrize("change", [Change.OVER_BEATS, Change.IN_TIME])
def test_a_change_too_small_to_hear_lasts_as_long_as_none(change: Change) -> None:
    hardly = Motion(Fraction(4), Fraction(18), Fraction(18) + Fraction(1, 10**9), change)

    assert isclose(hardly.seconds(Fraction(4)), Fraction(40, 3), rel_tol=1e-9)
