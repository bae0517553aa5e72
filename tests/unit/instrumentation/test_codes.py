"""Code lists of libraries: a heading in capitals includes the code after it, and a capital V is a voice."""

from __future__ import annotations

import pytest

from tests.unit.instrumentation.counts import counts


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        ("FL fl,pf", {"flute": 1, "piano": 1}),
        ("CEMB cemb", {"harpsichord": 1}),
        ("VL 2vl,pf", {"violin": 2, "piano": 1}),
        ("V 3V,pf", {"voice": 3, "piano": 1}),
        ("FL, fl", {"flute": 2}),
    ],
)
def test_heading_includes_the_code_after_it(text: str, expected: dict[str, int]) -> None:
    assert counts(text) == expected


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        ("2V,vl,pf", {"voice": 2, "violin": 1, "piano": 1}),
        ("V,vla,pf", {"voice": 1, "viola": 1, "piano": 1}),
        ("2V,Va,Vc", {"violin": 2, "viola": 1, "cello": 1}),
    ],
)
def test_capital_v_is_a_voice_among_other_codes(text: str, expected: dict[str, int]) -> None:
    assert counts(text) == expected


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        ("Kl. in Es, 3 Kl. in B", {"e-flat-clarinet": 1, "clarinet": 3}),
        ("Kl. (Es), Kl. (B)", {"e-flat-clarinet": 1, "clarinet": 1}),
        ("Cl. en mib, Fl. en sol", {"e-flat-clarinet": 1, "alto-flute": 1}),
        ("Fl, Kl, Vl, Kl", {"flute": 1, "clarinet": 1, "violin": 1, "piano": 1}),
    ],
)
def test_key_after_an_abbreviation_tells_the_instrument(text: str, expected: dict[str, int]) -> None:
    assert counts(text) == expected
