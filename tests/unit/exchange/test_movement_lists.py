"""Movements typed one a line. The dresses are common practice."""

from __future__ import annotations

import pytest

from catalogue.exchange.movement_lists import MovementListError, read_movements, write_movements
from catalogue.facts import MovementFacts
from catalogue.timing import Duration


@pytest.mark.parametrize(
    ("line", "title", "duration", "attacca"),
    [
        ("I. Spring 4:05", "I. Spring", Duration(245), False),
        ("II. Weir (5′15″, attacca)", "II. Weir", Duration(315), True),
        ("III. Delta", "III. Delta", None, False),
        ("4:05", "", Duration(245), False),
        ("I. 4:05", "I.", Duration(245), False),
        ("Three 5 min 30 s", "Three", Duration(330), False),
        ("Movement 2", "Movement 2", None, False),
        ("Scene 1 – ca. 4′", "Scene 1", Duration(240, approximate=True), False),
        ("Delta ....... 5′10″", "Delta", Duration(310), False),
        ("Prelude, attacca", "Prelude", None, True),
        ("1. Slow – attacca", "1. Slow", None, True),
        ("Finale: 1:02:30", "Finale", Duration(3750), False),
        ("Toccata (c. 3 minutes)", "Toccata", Duration(180, approximate=True), False),
        ("Nought 0′", "Nought 0′", None, False),
    ],
)
def test_line_is_split_into_title_duration_and_attacca(
    line: str, title: str, duration: Duration | None, attacca: bool
) -> None:
    assert read_movements(line) == (MovementFacts(1, title, duration, attacca),)


def test_lines_are_numbered_and_empty_ones_passed_over() -> None:
    assert [(one.number, one.title) for one in read_movements("Weir\n\n  \r\nDelta\n")] == [(1, "Weir"), (2, "Delta")]


def test_list_that_was_written_is_read_back() -> None:
    movements = (
        MovementFacts(1, "I. Spring", Duration(245), attacca=True),
        MovementFacts(2, "II.", Duration(60, approximate=True)),
        MovementFacts(3, "Delta"),
    )

    assert read_movements(write_movements(movements)) == movements


def test_title_that_is_too_long_is_refused_at_its_place() -> None:
    with pytest.raises(MovementListError) as refused:
        read_movements("Weir\n" + "x" * 501)

    assert (refused.value.reason, refused.value.start, refused.value.end) == (
        "The title of movement 2 is too long.",
        5,
        506,
    )
