"""A plural of size after a plural is said of it and no singer; ``solo`` before a body is said of the player before."""

from __future__ import annotations

import pytest

from catalogue.instrumentation import read
from tests.unit.instrumentation.counts import counts


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        ("2 trombones tenores, trombón bajo", {"trombone": 2, "bass-trombone": 1}),
        ("2 flautas contraltos, 2 flautas bajas", {"alto-flute": 2, "bass-flute": 2}),
        ("2 saxofones tenores", {"tenor-saxophone": 2}),
        ("2 tromboni bassi, 2 clarinetti bassi", {"bass-trombone": 2, "bass-clarinet": 2}),
    ],
)
def test_plural_of_size_belongs_to_the_noun(text: str, expected: dict[str, int]) -> None:
    assert counts(text) == expected


def test_unknown_size_is_kept_with_a_remark() -> None:
    reading = read("2 bugles altos")

    assert [(line.instrument, line.note) for line in reading.lines] == [("flugelhorn", "altos")]
    assert [one.code for one in reading.warnings] == ["remark"]


@pytest.mark.parametrize("text", ["2222 4220 timp pf solo archi", "pf solo str", "pf solo orchestra"])
def test_solo_before_a_body_is_said_of_the_player_before(text: str) -> None:
    reading = read(text)

    assert [line.instrument for line in reading.lines if line.role == "soloist"] == ["piano"]
    assert {line.note for line in reading.lines if line.family == "strings"} == {""}
