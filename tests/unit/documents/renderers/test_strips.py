"""A player strip on paper: one mark a player where the drawing has it, written once for all that are alike."""

from __future__ import annotations

import re

import pytest

from catalogue.documents.renderers.pdf.strips import strip_path
from catalogue.drawings.player_strip import DISC, LINE_THICK, RING, Strip, player_strip
from catalogue.instrumentation import read

SCALE = 0.75
NUMBER = r"-?[\d.]+"


def strip_of(text: str) -> Strip:
    return player_strip(read(text))


def starts(path: str) -> list[tuple[float, float]]:
    """Where each stroke or shape begins."""
    return [(float(x), float(y)) for x, y in re.findall(rf"({NUMBER}) ({NUMBER}) m", path)]


def test_every_disc_stands_where_the_drawing_has_it_upside_down() -> None:
    strip = strip_of("2 fl, 2 ob, 2 hn, timp, str")
    path = strip_path(strip, SCALE)

    assert f"{round(LINE_THICK * SCALE, 3)} w " in path
    assert f"1 J {round(2 * DISC * SCALE, 3)} w " in path
    places = {(round(one.x * SCALE, 3), round(-one.y * SCALE, 3)) for one in strip.discs}
    assert len(places) == len(strip.discs) > 0
    assert places <= set(starts(path))


def test_a_ring_is_four_curves_around_its_middle() -> None:
    strip = Strip(20, 20, (), rings=strip_of("fl, cl").discs)
    path = strip_path(strip, SCALE)

    assert path.count(" c") == 4 * len(strip.rings)
    (x, y), *_others = starts(path)
    first = strip.rings[0]
    assert (x, y) == pytest.approx(((first.x + RING) * SCALE, -first.y * SCALE), abs=0.001)
    assert path.endswith("S")


def test_electronics_are_a_filled_triangle() -> None:
    strip = strip_of("fl, fixed media")

    assert strip_path(strip, SCALE).count(" f") == len(strip.triangles) > 0


def test_a_strip_without_marks_draws_nothing() -> None:
    assert strip_path(Strip(0, 0, ()), SCALE) == ""


def test_the_same_forces_are_written_once() -> None:
    assert strip_path(strip_of("2 vn, va, vc"), SCALE) is strip_path(strip_of("2 vn, va, vc"), SCALE)
