"""Single letters after the figures of an orchestra stand for families, and are told; elsewhere they are voices."""

from __future__ import annotations

import pytest

from catalogue.instrumentation import read, shorthand


@pytest.mark.parametrize(
    ("text", "written", "codes"),
    [
        (
            "2.2.2.2 – 4.2.3.1 – P., S. (3) – Hfe. – Str.",
            "2.2.2.2 – 4.2.3.1 – timp.perc(3) – hp – str",
            ["abbreviation"],
        ),
        ("2.2.2.2/4.2.3.1/T+3/2H/S", "2.2.2.2 – 4.2.3.1 – timp.perc(3) – 2hp – str", ["abbreviation"]),
        ("2222 2200 T+2 str", "2.2.2.2 – 2.2.0.0 – timp.perc(2) – str", []),
        ("2 2 2 2 — 4 2 3 1 — 0+2 — str", "2.2.2.2 – 4.2.3.1 – perc(2) – str", ["percussion-figures"]),
        ("T+2", "timp.perc(2)", []),
        ("S, 2.2.2.2 – 2.0.0.0 – str", "S – 2.2.2.2 – 2.0.0.0 – str", []),
    ],
)
def test_letters_beside_figures_are_read_by_their_place(text: str, written: str, codes: list[str]) -> None:
    reading = read(text)
    assert (shorthand(reading), [remark.code for remark in reading.warnings]) == (written, codes)
