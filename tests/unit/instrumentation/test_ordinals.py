"""A point makes an ordinal of a number where the numbers of one instrument run from one."""

from __future__ import annotations

import pytest

from catalogue.instrumentation import read, shorthand


@pytest.mark.parametrize(
    ("text", "written"),
    [
        ("1. Fl. (auch Picc.), 2. Fl. (auch Altfl.), Ob., Str.", "2(I=picc, II=afl).1.0.0 – str"),
        ("1. Violine, 2. Violine, Viola", "vnI.vnII.va"),
        ("2. Picc. 2. 2. 2. – 2. 2. 0. 0. – Str.", "2.picc.2.2.2 – 2.2.0.0 – str"),
    ],
)
def test_a_pointed_number_is_an_ordinal_or_a_place(text: str, written: str) -> None:
    assert shorthand(read(text)) == written
