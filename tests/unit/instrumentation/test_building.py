"""Forces put together step by step: what is written reads back the same, in score order."""

from __future__ import annotations

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from catalogue.instrumentation import Instrumentation, instruments, read, write_shorthand
from catalogue.instrumentation.building import (
    WHOLE,
    seats,
    with_doubling,
    with_one_fewer,
    with_one_more,
    with_players,
    with_whole,
    without,
)

NOTHING = Instrumentation(())
USUAL = sorted(
    slug
    for slug, one in instruments().items()
    if one.family in {"woodwind", "brass", "percussion", "keyboard", "plucked"} and one.section == slug
)


def test_an_orchestra_is_built_from_nothing() -> None:
    forces = NOTHING
    for slug, number in (("percussion", 2), ("flute", 2), ("horn", 4), ("oboe", 2), ("timpani", 1), ("harp", 1)):
        forces = with_players(forces, slug, number)
    forces = with_whole(with_doubling(forces, 0, 2, "piccolo"), "strings")

    assert write_shorthand(forces) == "2(II=picc).2.0.0 – 4.0.0.0 – timp.perc(2) – hp – str"


def test_a_soloist_stands_before_the_ensemble() -> None:
    forces = with_players(with_whole(NOTHING, "strings"), "piano", 1, "soloist")

    assert write_shorthand(forces) == "solo pf – str"


def test_an_auxiliary_joins_its_section() -> None:
    assert write_shorthand(with_players(read("3.3.3.3"), "contrabassoon", 1)) == "3.3.3.4(IV=cbn only)"


def test_a_body_is_not_added_twice() -> None:
    strings = with_whole(NOTHING, "strings")

    assert with_whole(strings, "strings").lines == strings.lines


@pytest.mark.parametrize(
    ("step", "written"),
    [
        (lambda forces: with_one_more(forces, 0), "4(III=picc).2.0.0 – str"),
        (lambda forces: with_one_fewer(forces, 0), "2.2.0.0 – str"),
        (lambda forces: with_one_fewer(with_one_fewer(forces, 1), 1), "3fl(III=picc) – str"),
        (lambda forces: without(forces, 1), "3fl(III=picc) – str"),
        (lambda forces: with_one_fewer(forces, 2), "3(III=picc).2.0.0 – str"),
    ],
)
def test_a_line_is_changed(step: object, written: str) -> None:
    assert callable(step)
    assert write_shorthand(step(read("3(III=picc).2.0.0 – str"))) == written


def test_whoever_may_double_is_named_once() -> None:
    found = [(one.line, one.chair, one.plays) for one in seats(read("2(II=picc), pf – str"))]

    assert found == [(0, 1, ("flute",)), (0, 2, ("flute", "piccolo")), (1, 1, ("piano",))]


@settings(max_examples=60, deadline=None)
@given(
    st.lists(st.tuples(st.sampled_from(USUAL), st.integers(1, 6)), min_size=1, max_size=6),
    st.sampled_from([*WHOLE, ""]),
)
def test_what_is_built_reads_back_the_same(added: list[tuple[str, int]], body: str) -> None:
    forces = NOTHING
    for slug, number in added:
        forces = with_players(forces, slug, number)
    if body:
        forces = with_whole(forces, body)

    assert read(write_shorthand(forces)).lines == forces.lines
