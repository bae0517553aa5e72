from __future__ import annotations

from catalogue.actions.forces import forces_of, rows_of
from catalogue.instrumentation import Chair, Instrumentation, Line


def found(*lines: Line) -> list[tuple[str, str, int | None, int | None, bool]]:
    return [
        (row["instrument"], row["family"], row["least_players"], row["most_players"], row["is_doubling"])
        for row in rows_of(Instrumentation(lines))
    ]


def test_doublings_stand_beside_their_section() -> None:
    chairs = (Chair(1, ("oboe",)), Chair(2, ("oboe", "cor-anglais")))

    assert found(Line("oboe", "woodwind", (2, 2), chairs=chairs)) == [
        ("oboe", "woodwind", 2, 2, False),
        ("cor-anglais", "woodwind", 1, 1, True),
    ]


def test_chair_that_plays_something_else_only_is_no_doubling() -> None:
    chairs = (Chair(1, ("flute",)), Chair(2, ("flute", "piccolo")), Chair(3, ("piccolo",)))

    assert found(Line("flute", "woodwind", (3, 3), chairs=chairs)) == [
        ("flute", "woodwind", 2, 2, False),
        ("piccolo", "woodwind", 1, 1, False),
        ("piccolo", "woodwind", 1, 1, True),
    ]


def test_doubling_by_somebody_counts_one_player() -> None:
    assert found(Line("flute", "woodwind", (3, 3), chairs=(Chair(None, ("flute", "piccolo")),)))[1] == (
        "piccolo", "woodwind", 1, 1, True,
    )  # fmt: skip


def test_alternative_may_be_left_out() -> None:
    assert found(Line("piano", "keyboard", (1, 1), alternatives=("harp",))) == [
        ("piano", "keyboard", 1, 1, False),
        ("harp", "plucked", 0, 1, False),
    ]


def test_open_number_stays_open() -> None:
    assert found(Line("violin-1", "strings", None)) == [("violin-1", "strings", None, None, False)]


def test_role_goes_along() -> None:
    rows = rows_of(Instrumentation((Line("viola", "strings", (1, 1), role="soloist"),)))

    assert [row["role"] for row in rows] == ["soloist"]


def test_forces_are_unknown_where_nothing_is_read() -> None:
    assert (forces_of(None), rows_of(None)) == ((None, None, ""), [])


def test_forces_count_players_and_name_electronics() -> None:
    reading = Instrumentation((Line("flute", "woodwind", (1, 2)), Line("piano", "keyboard")), electronics="live")

    assert forces_of(reading) == (2, 3, "live")
