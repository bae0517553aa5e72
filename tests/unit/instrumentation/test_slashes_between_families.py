"""Slashes that part families or players, and those that join what one player takes up."""

from __future__ import annotations

import pytest

from catalogue.instrumentation import read, write_shorthand


@pytest.mark.parametrize(
    ("text", "written"),
    [
        ("fl(pic).cl(bcl)/hn.tpt.tbn/perc/pf/2vn.va.vc", "fl(=picc).cl(=bcl) – hn.tpt.tbn – perc – pf – 2vn.va.vc"),
        ("fl.ob/tpt/pf", "fl.ob – tpt – pf"),
        ("fl./ob./cl./pf.", "fl.ob.cl – pf"),
    ],
)
def test_slashes_that_part_are_said_to(text: str, written: str) -> None:
    found = read(text)

    assert write_shorthand(found) == written
    assert [one.code for one in found.warnings] == ["slashes"]


@pytest.mark.parametrize(
    ("text", "written"), [("fl/picc.ob/ca.cl/bcl.bn", "fl(=picc).ob(=corA).cl(=bcl).bn"), ("fl.cl/bcl", "fl.cl(=bcl)")]
)
def test_slashes_within_a_family_join(text: str, written: str) -> None:
    assert write_shorthand(read(text)) == written


@pytest.mark.parametrize(
    ("text", "written"),
    [
        ("fl./cl./pf.", "fl.cl – pf"),
        ("Fl./Kl./Klav.", "fl.cl – pf"),
        ("flauto/clarinetto/pianoforte", "fl.cl – pf"),
        ("sop./cl./pf.", "S – cl – pf"),
        ("vn./va./vc.", "vn.va.vc"),
        ("fl/ob/vn", "fl or ob or vn"),
        ("hn/tpt/tbn", "hn or tpt or tbn"),
        ("fl/gtr", "fl – gtr"),
        ("tape/pf", "pf – fixed media"),
    ],
)
def test_two_or_three_names_between_slashes_are_told(text: str, written: str) -> None:
    reading = read(text)

    assert reading.lines == read(written).lines
    assert [remark.code for remark in reading.warnings] == ["slashes"]
    assert read(text, convention="other slashes").lines != reading.lines


@pytest.mark.parametrize("text", ["fl/picc", "pf/cel", "ob/corA", "tpt/flhn", "fl./picc./afl."])
def test_doublings_between_slashes_are_one_player(text: str) -> None:
    assert read(text).players == (1, 1)
    assert read(text).warnings == ()
