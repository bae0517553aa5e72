"""Bodies that are alike or told apart by numerals, and the players of each."""

from __future__ import annotations

import pytest

from catalogue.instrumentation import read


def told(text: str) -> list[tuple[str, str | None, object]]:
    return [(line.instrument, line.group, line.players) for line in read(text).lines]


def in_groups(slug: str, size: int, groups: int) -> list[tuple[str, str | None, object]]:
    return [(slug, f"group {number}", (size, size)) for number in range(1, groups + 1)]


@pytest.mark.parametrize(
    "text",
    ["3 groups of 4 horns", "3 Gruppen zu je 4 Hörnern", "three quartets of horns", "3 horn quartets", "3x4 horns"],
)
def test_bodies_that_are_alike_are_groups(text: str) -> None:
    assert told(text) == in_groups("horn", 4, 3)


def test_numbers_of_players_are_no_bodies() -> None:
    assert told("2x perc, 2x pf") == [("percussion", None, (2, 2)), ("piano", None, (2, 2))]


@pytest.mark.parametrize(
    "text", ["Two orchestras: I: 2 fl; II: ob", "Orchestra I (2 fl, 0 bn), Orchestra II (ob, 0 bn)"]
)
def test_numerals_tell_orchestras_apart(text: str) -> None:
    assert told(text) == [("flute", "orchestra 1", (2, 2)), ("oboe", "orchestra 2", (1, 1))]


def test_a_single_numeral_is_no_body() -> None:
    assert told("Violin I: muted, viola") != told("I: violin\nII: viola")


@pytest.mark.parametrize(
    ("text", "saxophones"),
    [("sax(SATB)", ("soprano", "alto", "tenor", "baritone")), ("4 sax (AATB)", ("alto", "alto", "tenor", "baritone"))],
)
def test_letters_after_saxophones_are_their_sizes(text: str, saxophones: tuple[str, ...]) -> None:
    (line,) = read(text).lines
    assert [chair.plays for chair in line.chairs] == [(f"{size}-saxophone",) for size in saxophones]


@pytest.mark.parametrize("text", ["2 x (2 tpt, hn)", "2 × (2 trumpets, horn)", "brass: 2 x (2 tpt, hn)"])
def test_a_bracket_is_read_as_often_as_the_number_before_it_says(text: str) -> None:
    assert told(text) == [
        (slug, f"group {number}", (size, size)) for number in (1, 2) for slug, size in (("trumpet", 2), ("horn", 1))
    ]
