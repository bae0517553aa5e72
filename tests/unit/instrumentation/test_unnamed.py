"""Ensembles of an unknown kind are kept with their number, and with a remark that nobody is named."""

from __future__ import annotations

import pytest

from catalogue.instrumentation import InstrumentationError, read


@pytest.mark.parametrize(
    ("text", "players", "note"),
    [
        ("tango quintet", (5, 5), "tango quintet"),
        ("quinteto de tango, flauta", (5, 5), "quinteto de tango"),
        ("rock band and orchestra", None, "rock band"),
        ("SATB, South Seas ensemble", None, "South Seas ensemble"),
    ],
)
def test_ensemble_of_an_unknown_kind_is_kept_with_a_remark(
    text: str, players: tuple[int, int] | None, note: str
) -> None:
    reading = read(text)

    assert [(line.players, line.note) for line in reading if line.instrument == "instrument"] == [(players, note)]
    assert [text[one.start : one.end] for one in reading.warnings if one.code == "unnamed"] == [note]


@pytest.mark.parametrize("text", ["tango", "tango rock", "rock bands of the town"])
def test_words_without_a_body_are_refused(text: str) -> None:
    with pytest.raises(InstrumentationError):
        read(text)
