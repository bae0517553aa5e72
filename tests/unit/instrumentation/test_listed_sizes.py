"""Sizes after a colon, keys joined by hyphens, stage bands, make-ups that may be left out, solo before figures."""

from __future__ import annotations

import pytest

from catalogue.instrumentation import read
from tests.unit.instrumentation.counts import counts


def plays(text: str) -> list[str]:
    return [slug for line in read(text).lines for chair in line.chairs for slug in chair.plays]


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        ("3 saxofones: alto, tenor, barítono", ["alto-saxophone", "tenor-saxophone", "baritone-saxophone"]),
        ("4 recorders: S, A, T, B", ["soprano-recorder", "alto-recorder", "tenor-recorder", "bass-recorder"]),
        ("3 trombones: 2 tenor, 1 bass", ["trombone", "trombone", "bass-trombone"]),
        ("3 tromboni (2 tenori, 1 basso)", ["trombone", "trombone", "bass-trombone"]),
    ],
)
def test_sizes_after_a_colon_are_the_players(text: str, expected: list[str]) -> None:
    assert plays(text) == expected
    assert len(counts(text)) == 1


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        ("Es-Klarinette, 2 B-Klarinetten", {"e-flat-clarinet": 1, "clarinet": 2}),
        ("2 A-Klarinetten, 4 F-Hörner", {"clarinet": 2, "horn": 4}),
        ("3 Cl. in B-flat, B. Cl.", {"clarinet": 3, "bass-clarinet": 1}),
        ("2 trombones alto", {"alto-trombone": 2}),
        ("sopranos, tenors", {"voice-soprano": None, "voice-tenor": None}),
        ("I. u. II. Violine, Viola", {"violin-1": 1, "violin-2": 1, "viola": 1}),
        ("Str. (8 I. Vl., 6 II. Vl., 4 Va.)", {"violin-1": 8, "violin-2": 6, "viola": 4}),
        ("SATB with brass (4331)", {"horn": 4, "trumpet": 3, "trombone": 3, "tuba": 1}),
        ("Perc 1 vib, glock; Perc 2 mar", {"percussion": 2}),
        ("Player 1 (vib, glock); Player 2 (mar)", {"percussion": 2}),
        ("1er percussionniste: vibraphone; 2e percussionniste: marimba", {"percussion": 2}),
    ],
)
def test_players_are_counted(text: str, expected: dict[str, int | None]) -> None:
    assert {slug: number for slug, number in counts(text).items() if not slug.startswith("choir")} == expected


def test_solo_before_figures_is_said_of_the_player_before() -> None:
    for text in ("pf solo 2222 4231 str", "pf solo 2.2.2.2 – 4.2.3.1 – str"):
        assert [line.instrument for line in read(text).lines if line.role == "soloist"] == ["piano"]


def test_semicolon_ends_a_stage_band() -> None:
    lines = read("stage band: 2 cl, 2 hn; 2222 4231 str").lines

    assert {line.group for line in lines if line.instrument == "flute"} == {None}
    assert {line.players for line in lines if line.group == "stage band"} == {(2, 2)}


@pytest.mark.parametrize("text", ["offstage brass (ad lib): 2 tpt, 2 tbn", "off-stage (ad lib.): 2 tpt, 2 tbn"])
def test_label_off_stage_may_say_that_its_list_is_optional(text: str) -> None:
    assert {(line.role, line.optional) for line in read(text).lines} == {("offstage", True)}


def test_optional_after_a_make_up_is_said_of_all_of_it() -> None:
    lines = read("Orgel mit Blechbläsern (3 Trp., 3 Pos.) ad lib.").lines

    assert [line.optional for line in lines] == [False, True, True]
