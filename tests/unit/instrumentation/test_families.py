"""Where one family of bare figures ends and the next begins."""

from __future__ import annotations

import pytest

from catalogue.instrumentation import read

WINDS = ("flute", "oboe", "clarinet", "bassoon", "horn", "trumpet", "trombone", "tuba")
USUAL = list(zip(WINDS, (2, 2, 2, 2, 4, 2, 3, 1), strict=True))


def winds(text: str) -> list[tuple[str, int]]:
    lines = read(text).lines
    return [(one.instrument, one.players[1]) for one in lines if one.players and one.family in ("woodwind", "brass")]


@pytest.mark.parametrize(
    "text",
    [
        "2,2,2,2-4,2,3,1-timp-str",
        "2,2,2,2,4,2,3,1-timp, perc - str",
        "2(picc).2(ca).2(bcl).2(cbn) 4 2 3 1 timp 2perc str",
        "2.2.2.2 4 2 3 1 timp perc hp str",
        "ww 2222 br 4231 timp perc str",
        "fl 2 ob 2 cl 2 bn 2 hn 4 tpt 2 tbn 3 tba 1 timp perc str",
    ],
)
def test_families_are_told_apart(text: str) -> None:
    assert winds(text) == USUAL


def test_a_fifth_figure_before_a_name_counts_its_players() -> None:
    assert winds("2,2,2,2-4,2,3,1,1-timp,2-perc-str") == USUAL


def test_two_kinds_that_are_joined_take_one_place() -> None:
    assert winds("3222 - 4 2crt+2tpt 3 1 - timp - str")[4:] == [
        ("horn", 4),
        ("cornet", 2),
        ("trumpet", 2),
        ("trombone", 3),
        ("tuba", 1),
    ]


def test_brass_named_before_the_figures_takes_no_place() -> None:
    assert winds("3 tpt (offstage), 2222 4231 timp str")[1:] == USUAL


def test_a_tuba_named_after_the_figures_leaves_nothing_to_remark() -> None:
    assert read("2.2.2.2 - 4.4.2.btbn.tuba").warnings == ()


def test_a_packed_pair_before_the_harp_is_timpanist_and_percussionists() -> None:
    reading = read("3333 4331 12 hp str")

    assert [(one.instrument, one.players) for one in reading.lines][8:11] == [
        ("timpani", (1, 1)),
        ("percussion", (2, 2)),
        ("harp", (1, 1)),
    ]
    assert [remark.code for remark in reading.warnings] == ["percussion-figures"]


def test_double_woodwind_leaves_the_figures_to_the_brass() -> None:
    assert winds("double woodwind, 4231, timp, str") == USUAL
