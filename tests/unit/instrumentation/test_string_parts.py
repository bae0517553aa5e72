"""Strings of library lists and of older music, with no more than a bass below them (common practice)."""

from __future__ import annotations

import pytest

from catalogue.instrumentation import Instrumentation, InstrumentationError, read

PARTS = "vnI(open).vnII(open).va(open)"


def codes(reading: Instrumentation) -> list[str]:
    return [remark.code for remark in reading.warnings]


@pytest.mark.parametrize(
    ("text", "written"),
    [
        ("Coro,2vl,vla,bc", f"choir – {PARTS} – cont"),
        ("SATB, 2vn, va, bc", f"SATB choir – {PARTS} – cont"),
        ("SATB, 2vl, bc", "SATB choir – vnI(open).vnII(open) – cont"),
        ("2fl,2ob,2cor,2vl,vla,bc", f"2fl.2ob – 2hn – {PARTS} – cont"),
    ],
)
def test_strings_above_a_continuo_are_sections_in_a_list_of_parts(text: str, written: str) -> None:
    reading = read(text)

    assert reading.lines == read(written).lines
    assert codes(reading) == ["string-parts"]


@pytest.mark.parametrize("text", ["2vl,vla,b", "2 Vl, Va, b", "2vl, vla e b", "2 vl., alto, b.", "vl, vl, vla, b"])
def test_a_bass_that_is_not_named_is_told(text: str) -> None:
    reading = read(text)

    assert [(line.instrument, line.players) for line in reading.lines] == [
        ("violin", (2, 2)),
        ("viola", (1, 1)),
        ("bass-instrument", (1, 1)),
    ]
    assert codes(reading) == ["bass"]


def test_the_bass_of_sections_is_open_too() -> None:
    reading = read("SATB,2ob,2cor,2vl,vla,vlc,b,org")

    assert {line.instrument: line.players for line in reading.lines[-6:]} == {
        "violin-1": None, "violin-2": None, "viola": None, "cello": None, "bass-instrument": None, "organ": (1, 1),
    }  # fmt: skip
    assert codes(reading) == ["string-parts", "bass"]


@pytest.mark.parametrize(
    "text",
    [
        "Chor, 2 Vl, Va, B.c.",
        "choir, 2 violins, viola, basso continuo",
        "2 ob, 2 cor, 2 v, va, bc",
        "2 oboes, 2 horns, 2 violins, viola and bass",
        "coro, 2 violini, viola e basso",
    ],
)
def test_single_strings_beside_many_are_told(text: str) -> None:
    assert codes(read(text)) == ["single-strings"]
    assert any(
        line.players is None for line in read(text, convention="other single-strings").lines if line.family == "strings"
    )


@pytest.mark.parametrize("text", ["2vl,vla,bc", "2vn, va, b.c."])
def test_a_trio_sonata_is_of_single_players(text: str) -> None:
    assert read(text).lines == read("2vn.va – cont").lines
    assert codes(read(text)) == []


def test_a_small_v_beside_violins_is_a_voice() -> None:
    assert read("4v,2vl,vla,bc").lines == read("4 voices – 2vn.va – cont").lines
    assert read("v, vl, pf").singers == (1, 1)


def test_a_letter_that_stands_for_nothing_is_refused() -> None:
    with pytest.raises(InstrumentationError):
        read("fl,b")


def test_parts_in_a_bracket_after_the_strings_are_told() -> None:
    assert codes(read("archi (2vl, vla, b)")) == ["remark"]
