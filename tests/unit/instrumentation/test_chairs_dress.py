"""The dress with chairs by figure in round brackets."""

from __future__ import annotations

import pytest

from catalogue.instrumentation import read
from catalogue.instrumentation.chairs_dress import write_chairs


@pytest.mark.parametrize(
    ("typed", "written"),
    [
        ("2(II=picc).2.2.2 - hp", "2(2picc).2.2.2 – hp"),
        ("3(III=picc,afl).2.2(II=bcl).2", "3(3picc+afl).2.2(2bcl).2"),
        ("3[1.2/pic.pic] 2 2 2", "3(1.2/picc.picc).2.2.2"),
        ("fl(=picc).vn.pf", "fl(picc) – vn – pf"),
        ("2(picc).2.2.2", "2(picc).2.2.2"),
        ("4(I,III=picc).2.2.2", "4(1/picc.2.3/picc.4).2.2.2"),
    ],
    ids=["one chair", "two doublings", "an auxiliary alone", "one player", "nobody named", "figures that add up"],
)
def test_chairs_are_told_by_figure(typed: str, written: str) -> None:
    forces = read(typed)
    assert write_chairs(forces) == written
    assert read(written) == forces
