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
