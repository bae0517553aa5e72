"""The set of parts: numbers in score order, a part a player, string copies by desk."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from catalogue.instrumentation import Chair, Instrumentation, Line, read
from catalogue.instrumentation.parts import Kind, Part, PartsError, part_list

STRINGS = ("violin-1", "violin-2", "viola", "cello", "double-bass")


def string_lines(*players: int | None) -> tuple[Line, ...]:
    return tuple(
        Line(slug, "strings", None if count is None else (count, count), unit="players", strength="stated")
        for slug, count in zip(STRINGS, players, strict=True)
    )


def copies(parts: tuple[Part, ...]) -> list[tuple[str, str, int | None]]:
    return [(part.label, part.instrument, part.copies) for part in parts]


def test_a_set_is_numbered_in_score_order_from_the_score_on() -> None:
    forces = Instrumentation(
        (
            *string_lines(8, 6, 4, 4, 2),
            Line("timpani", "percussion"),
            Line("horn", "brass", (2, 2)),
            Line("oboe", "woodwind"),
        )
    )

    found = part_list(forces)

    assert copies(found.parts) == [
        ("00", "", 1),
        ("01", "oboe", 1),
        ("02", "horn", 1),
        ("03", "horn", 1),
        ("04", "timpani", 1),
        ("05", "violin-1", 4),
        ("06", "violin-2", 3),
        ("07", "viola", 2),
        ("08", "cello", 2),
        ("09", "double-bass", 1),
    ]
    assert (found.total, found.scores, found.string_copies) == (17, 1, 12)


@pytest.mark.parametrize(
    ("players", "desks"),
    [
        # players and copies in a set: table of desks, common practice of orchestra libraries
        ((16, 14, 12, 10, 8), (8, 7, 6, 5, 4)),
        ((14, 12, 10, 8, 6), (7, 6, 5, 4, 3)),
        ((12, 10, 8, 6, 4), (6, 5, 4, 3, 2)),
        ((10, 8, 6, 5, 4), (5, 4, 3, 3, 2)),
        ((8, 6, 4, 3, 2), (4, 3, 2, 2, 1)),
        ((6, 5, 4, 3, 2), (3, 3, 2, 2, 1)),
        ((1, 1, 1, 1, 1), (1, 1, 1, 1, 1)),
    ],
)
def test_strings_read_two_to_a_desk_and_an_odd_player_has_a_desk(
    players: tuple[int, ...], desks: tuple[int, ...]
) -> None:
    found = part_list(Instrumentation(string_lines(None, None, None, None, None)), players)

    assert tuple(part.copies for part in found.parts[1:]) == desks
    assert tuple(part.players for part in found.parts[1:]) == players


def test_strengths_that_are_given_outweigh_the_text() -> None:
    found = part_list(Instrumentation(string_lines(14, 12, 10, 8, 6)), (8, 6, 4, 4, 2))

    assert [part.copies for part in found.parts[1:]] == [4, 3, 2, 2, 1]


def test_a_section_without_players_has_no_part() -> None:
    found = part_list(Instrumentation(string_lines(5, 0, 3, 3, 3)))

    assert copies(found.parts)[1:] == [
        ("01", "violin-1", 3),
        ("02", "viola", 2),
        ("03", "cello", 2),
        ("04", "double-bass", 2),
    ]


def test_basses_may_read_alone() -> None:
    found = part_list(Instrumentation(string_lines(8, 6, 4, 4, 3)), alone=frozenset({"double-bass"}))

    assert [part.copies for part in found.parts[1:]] == [4, 3, 2, 2, 3]


def test_strings_told_in_desks_need_a_copy_a_desk() -> None:
    lines = tuple(
        Line(slug, "strings", (desks, desks), unit="desks")
        for slug, desks in zip(STRINGS, (8, 8, 6, 5, 4), strict=True)
    )

    found = part_list(Instrumentation(lines))

    assert [(part.players, part.copies) for part in found.parts[1:]] == [(16, 8), (16, 8), (12, 6), (10, 5), (8, 4)]


def test_open_strings_without_strengths_are_refused() -> None:
    with pytest.raises(PartsError) as raised:
        part_list(Instrumentation(string_lines(None, None, None, None, None), "str"))

    assert raised.value.reason == "The number of violin 1 players is open: state the string strengths."
    assert (raised.value.text, raised.value.start, raised.value.end) == ("str", 0, 3)


def test_strengths_of_fewer_than_five_sections_are_refused() -> None:
    with pytest.raises(PartsError, match="five numbers, from first violins to double basses, not 2"):
        part_list(Instrumentation(string_lines(8, 6, 4, 4, 2)), (8, 6))


def test_solo_strings_have_a_part_a_player() -> None:
    quartet = Instrumentation((Line("violin", "strings", (2, 2)), Line("viola", "strings"), Line("cello", "strings")))

    found = part_list(quartet)

    assert [(part.instrument, part.chair, part.copies) for part in found.parts[1:]] == [
        ("violin", 1, 1),
        ("violin", 2, 1),
        ("viola", None, 1),
        ("cello", None, 1),
    ]


def test_a_doubling_stays_in_the_part_of_its_chair() -> None:
    flutes = Line("flute", "woodwind", (2, 2), chairs=(Chair(2, ("flute", "piccolo")),))

    found = part_list(Instrumentation((flutes,)))

    assert [part.plays for part in found.parts[1:]] == [("flute",), ("flute", "piccolo")]


def test_two_and_one_are_three_parts_where_two_with_one_doubling_are_two() -> None:
    beside = Instrumentation((Line("flute", "woodwind", (2, 2)), Line("piccolo", "woodwind")))
    doubling = Instrumentation((Line("flute", "woodwind", (2, 2), chairs=(Chair(None, ("flute", "piccolo")),)),))

    assert [part.plays for part in part_list(beside).parts[1:]] == [("piccolo",), ("flute",), ("flute",)]
    assert [part.plays for part in part_list(doubling).parts[1:]] == [("flute",), ("flute", "piccolo")]


def test_a_chair_that_plays_only_an_auxiliary_keeps_its_place_in_the_section() -> None:
    trombones = Line("trombone", "brass", (3, 3), chairs=(Chair(3, ("bass-trombone",)),))

    last = part_list(Instrumentation((trombones,))).parts[-1]

    assert (last.instrument, last.chair, last.plays) == ("trombone", 3, ("bass-trombone",))


def test_off_stage_and_optional_players_are_marked_after_those_on_stage() -> None:
    forces = Instrumentation(
        (
            Line("trumpet", "brass", (2, 2), role="offstage"),
            Line("trumpet", "brass", (2, 3)),
            Line("tuba", "brass", (0, 1), optional=True),
        )
    )

    found = [(part.instrument, part.chair, part.optional, part.off_stage) for part in part_list(forces).parts[1:]]

    assert found == [
        ("trumpet", 1, False, False),
        ("trumpet", 2, False, False),
        ("trumpet", 3, True, False),
        ("trumpet", 1, False, True),
        ("trumpet", 2, False, True),
        ("tuba", None, True, False),
    ]


def test_soloists_stand_above_the_strings_and_choir_has_a_copy_a_singer() -> None:
    forces = Instrumentation(
        (
            Line("cello", "strings", role="soloist"),
            Line("choir-soprano", "voice", (12, 12)),
            Line("choir-alto", "voice", None),
            *string_lines(2, 2, 2, 2, 2),
        )
    )

    found = part_list(forces)

    assert [(part.kind, part.copies) for part in found.parts[1:4]] == [
        (Kind.SOLOIST, 1),
        (Kind.CHOIR, 12),
        (Kind.CHOIR, None),
    ]
    assert found.total == 1 + 1 + 12 + 5


def test_electronics_bring_a_score_with_cues_and_the_media_and_a_conductor_no_part() -> None:
    forces = Instrumentation(
        (
            Line("conductor", "other", role="conductor"),
            Line("flute", "woodwind"),
            Line("live-electronics", "electronics"),
        ),
        electronics="live",
    )

    assert [part.kind for part in part_list(forces).parts] == [Kind.SCORE, Kind.PLAYER, Kind.CUE_SCORE, Kind.MEDIA]


def test_extra_copies_stand_outside_the_total() -> None:
    forces = Instrumentation(string_lines(8, 6, 4, 4, 2))

    found = part_list(forces, extra=1)

    assert found.total == part_list(forces).total
    assert [(part.instrument, part.copies) for part in found.extra] == [(slug, 1) for slug in STRINGS]


@given(st.lists(st.integers(0, 40), min_size=5, max_size=5))
def test_every_string_player_can_read_and_no_desk_has_more_than_two(players: list[int]) -> None:
    found = part_list(Instrumentation(string_lines(None, None, None, None, None)), tuple(players))

    sections = [part for part in found.parts if part.kind is Kind.SECTION]
    assert sum(part.players or 0 for part in sections) == sum(players)
    assert all(0 <= 2 * (part.copies or 0) - (part.players or 0) <= 1 for part in sections)


@pytest.mark.parametrize(
    ("text", "parts"),
    [
        ("piano 4 hands, flute", [("flute", None, ""), ("piano", None, "4 hands")]),
        ("2 pianos 8 hands", [("piano", 1, "8 hands at 2"), ("piano", 2, "8 hands at 2")]),
        ("2 pianos", [("piano", 1, ""), ("piano", 2, "")]),
    ],
)
def test_who_share_a_keyboard_share_its_part(text: str, parts: list[tuple[str, int | None, str]]) -> None:
    assert [(part.instrument, part.chair, part.note) for part in part_list(read(text)).parts[1:]] == parts
