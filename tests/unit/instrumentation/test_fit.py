"""Whether players can play a work: the rules one by one, and against every possible seating on small cases."""

from __future__ import annotations

from itertools import permutations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from catalogue.instrumentation.electronics import channel_count
from catalogue.instrumentation.fit import Fit, Held, Missing, fit
from catalogue.instrumentation.model import Chair, Instrumentation, Line
from catalogue.instrumentation.vocabulary import family_of

Named = tuple[int | None, tuple[str, ...]]


def line(slug: str, players: int | tuple[int, int] | None = 1, *chairs: Named, **more: object) -> Line:
    """Return a line: players as one number or a range, chairs as (number, instruments)."""
    numbers = (players, players) if isinstance(players, int) else players
    named = tuple(Chair(number, plays) for number, plays in chairs)
    return Line(slug, family_of(slug), numbers, chairs=named, **more)  # type: ignore[arg-type]


def forces(*lines: Line | str, **more: object) -> Instrumentation:
    return Instrumentation(tuple(line(one) if isinstance(one, str) else one for one in lines), **more)  # type: ignore[arg-type]


def strings(*numbers: int | None, strength: str = "stated", unit: str = "players") -> tuple[Line, ...]:
    slugs = ("violin-1", "violin-2", "viola", "cello", "double-bass")
    return tuple(line(slug, count, unit=unit, strength=strength) for slug, count in zip(slugs, numbers, strict=True))


STRING_NAMES = ("violin-1", "violin-2", "viola", "cello", "double-bass")


def short(found: Fit) -> list[tuple[str, int | None]]:
    return [(one.instrument, one.players) for one in found.missing]


def test_what_is_missing_is_told_chair_by_chair() -> None:
    work = forces(line("bassoon", 3, (3, ("contrabassoon",))), line("harp", 2))
    found = fit(work, forces(line("bassoon", 2), line("harp")))
    assert found == Fit(
        fits=False,
        missing=(
            Missing("contrabassoon", 1, "Contrabassoon 3: no player available.", ("contrabassoon",)),
            Missing("harp", 1, "Harps: one too few.", ("harp",)),
        ),
        assignment=(
            Held("bassoon", 1, 2, ("bassoon",), "bassoon", 1),
            Held("harp", 1, 1, ("harp",), "harp", 1),
        ),
    )


def test_the_one_flautist_with_a_piccolo_cannot_sit_on_two_chairs() -> None:
    work = forces(line("flute", 2, (1, ("flute", "alto-flute")), (2, ("flute", "piccolo"))))
    found = fit(work, forces(line("flute", 3, (3, ("flute", "piccolo", "alto-flute")))))
    assert (found.fits, len(found.missing)) == (False, 1)
    assert found.missing[0].instrument in ("piccolo", "alto-flute")


def test_a_chair_is_changed_where_another_player_has_the_doubling() -> None:
    work = forces(line("oboe", 2, (1, ("oboe", "cor-anglais"))))
    found = fit(work, forces(line("oboe", 2, (2, ("oboe", "cor-anglais")))))
    assert found.fits is True
    assert {(one.chair, one.player_chair) for one in found.assignment} == {(1, 2), (2, 1)}


def test_an_auxiliary_alone_is_played_by_whoever_doubles_it() -> None:
    work = forces(line("flute", 3, (3, ("piccolo",))))
    assert fit(work, forces(line("flute", 3, (3, ("flute", "piccolo"))))).fits is True
    assert short(fit(work, forces(line("flute", 3)))) == [("piccolo", 1)]


def test_usual_doublings_are_those_of_the_section_only() -> None:
    clarinets = forces(line("clarinet", 2, (1, ("clarinet", "e-flat-clarinet")), (2, ("clarinet", "bass-clarinet"))))
    assert fit(clarinets, forces(line("clarinet", 2)), usual_doublings=True).fits is True
    contrabass = forces(line("clarinet", 1, (1, ("clarinet", "contrabass-clarinet"))))
    assert short(fit(contrabass, forces("clarinet"), usual_doublings=True)) == [("contrabass-clarinet", 1)]
    assert short(fit(forces("tuba"), forces("euphonium"), usual_doublings=True)) == [("tuba", 1)]


def test_the_timpanist_is_apart_unless_it_is_agreed() -> None:
    work, players = forces("timpani", line("percussion", 3)), forces(line("percussion", 4))
    assert short(fit(work, players)) == [("timpani", 1)]
    assert fit(work, players, timpani_among_percussion=True).fits is True
    assert short(fit(forces(line("percussion", 3)), forces("timpani", line("percussion", 2)))) == [("percussion", 1)]


def test_a_remark_counts_the_timpanist_among_the_percussionists() -> None:
    work = forces("timpani", line("percussion", 3))
    assert fit(work, forces(line("percussion", 4, note="timpanist included"))).fits is True
    assert short(fit(work, forces(line("percussion", 4, note="not doubling timpani")))) == [("timpani", 1)]


def test_a_percussionist_plays_the_tuned_instruments_and_perhaps_the_cimbalom() -> None:
    assert fit(forces("marimba", "vibraphone"), forces(line("percussion", 2))).fits is True
    assert fit(forces("cimbalom"), forces("percussion")).fits is None
    assert fit(forces("percussion"), forces("marimba")).fits is False


def test_timpani_in_a_percussionists_kit_are_his() -> None:
    work = forces(line("percussion", 2, (1, ("percussion", "timpani"))))
    assert fit(work, forces(line("percussion", 2))).fits is True


def test_a_keyboard_player_plays_every_keyboard_but_not_the_accordion() -> None:
    players = forces(line("keyboard", 2))
    assert fit(forces("celesta", "harpsichord"), players).fits is True
    assert fit(forces("accordion"), players).fits is False
    assert fit(forces("celesta"), forces("piano")).fits is False
    assert fit(forces("celesta"), forces("piano"), usual_doublings=True).fits is True


def test_a_general_name_leaves_open_which_kind_is_there() -> None:
    assert fit(forces("saxophone"), forces("alto-saxophone")).fits is True
    found = fit(forces("baritone-saxophone"), forces("saxophone"))
    assert found == Fit(
        fits=None,
        assignment=(Held("baritone-saxophone", 1, 1, ("baritone-saxophone",), "saxophone", 1),),
        open=("Baritone saxophone: the available forces leave open whether there is a player.",),
    )


def test_an_optional_line_asks_for_nobody_and_an_optional_player_may_stay_away() -> None:
    optional = line("didgeridoo", (0, 1), optional=True)
    assert fit(forces("flute", optional), forces("flute")).fits is True
    assert fit(forces("flute", "didgeridoo"), forces("flute", optional)).fits is None
    assert fit(forces("flute", "didgeridoo"), forces("flute", optional), as_limits=True).fits is True


def test_a_range_asks_for_its_least_and_offers_it_for_sure() -> None:
    two_to_four = forces(line("percussion", (2, 4)))
    assert fit(two_to_four, forces(line("percussion", 2))).fits is True
    assert fit(forces(line("percussion", 4)), two_to_four).fits is None
    assert fit(forces(line("percussion", 4)), two_to_four, as_limits=True).fits is True
    assert short(fit(forces(line("percussion", 5)), two_to_four)) == [("percussion", 1)]


def test_an_uncounted_line_of_the_work_cannot_be_told() -> None:
    found = fit(forces(line("percussion", None)), forces(line("percussion", 3)))
    assert (found.fits, found.open) == (None, ("The work does not say how many players of percussion it needs.",))
    assert fit(forces(line("percussion", None)), forces("flute")).fits is False


def test_who_stands_in_plays_the_alternative() -> None:
    """The assignment says who plays what: of “piano or harp” a harpist the harp, a pianist the piano."""
    work = forces(line("piano", 1, alternatives=("harp",)))

    assert [fit(work, forces(line(one, 1))).assignment for one in ("harp", "piano")] == [
        (Held("piano", 1, 1, ("harp",), "harp", 1),),
        (Held("piano", 1, 1, ("piano",), "piano", 1),),
    ]


def test_an_alternative_stands_in_for_the_instrument() -> None:
    work = forces(line("piano", 1, alternatives=("harp",)))
    assert fit(work, forces("harp")).fits is True
    assert fit(forces("harp"), work).fits is None
    assert fit(forces("harp"), work, as_limits=True).fits is True
    assert fit(work, work).fits is True


def test_a_soloist_is_not_taken_from_the_ranks() -> None:
    work = forces(line("bass-clarinet", role="soloist"), line("clarinet", 2))
    available = forces(line("clarinet", 3, (3, ("clarinet", "bass-clarinet"))))
    assert fit(work, available).missing == (
        Missing("bass-clarinet", 1, "No soloist is available: bass clarinet.", ("bass-clarinet",), "soloist"),
    )


def test_a_piece_for_one_player_needs_no_soloist_from_outside() -> None:
    assert fit(forces(line("cello", role="soloist")), forces("piano", "cello")).fits is True


def test_strings_short_of_a_written_strength_are_a_remark() -> None:
    found = fit(forces(*strings(14, 12, 10, 8, 6)), forces(*strings(12, 12, 10, 8, 4)))
    assert (found.fits, found.missing) == (True, ())
    assert found.remarks == (
        "Violins I: 12 players for the 14 written.",
        "Double basses: 4 players for the 6 written.",
    )


@pytest.mark.parametrize("strength", ["least", "stated"])
def test_strings_short_of_a_needed_strength_are_missing(strength: str) -> None:
    work, players = forces(*strings(8, 6, 4, 4, 2, strength=strength)), forces(*strings(6, 6, 4, 3, 2))
    assert short(fit(work, players, strings_required=True)) == [("violin-1", 2), ("cello", 1)]
    assert fit(work, players).fits is (strength == "stated")


def test_a_section_is_not_made_of_single_players() -> None:
    quartet = forces("violin-1", "violin-2", "viola", "cello", "double-bass")
    assert short(fit(forces(*strings(8, 6, 4, 4, 2)), quartet)) == [
        ("violin-1", 7), ("violin-2", 5), ("viola", 3), ("cello", 3), ("double-bass", 1),
    ]  # fmt: skip
    found = fit(forces(*strings(None, None, None, None, None)), quartet)
    assert short(found) == [(slug, None) for slug in STRING_NAMES]
    assert found.missing[0].why == "A section of violins I is needed; there are single players."


def test_an_open_section_fits_any_section() -> None:
    open_strings = forces(*strings(None, None, None, None, None))
    assert fit(open_strings, forces(*strings(6, 5, 4, 3, 2))).fits is True
    assert fit(forces(*strings(14, 12, 10, 8, 6)), open_strings).fits is True
    least = forces(*strings(14, 12, 10, 8, 6, strength="least"))
    assert fit(least, open_strings).fits is None


def test_violins_that_are_not_divided_serve_as_firsts_and_seconds() -> None:
    available = forces(line("violin", 30, unit="players"), line("viola", 12, unit="players"))
    work = forces(*strings(16, 14, 12, 0, 0, strength="least")[:3])
    assert fit(work, available).fits is True
    assert fit(forces(line("violin", 2), "viola", "cello"), forces(*strings(8, 6, 4, 4, 2))).fits is True


def test_desks_are_two_players_and_the_last_perhaps_one() -> None:
    work = forces(*strings(12, 10, 8, 6, 4, strength="least"))
    assert fit(work, forces(*strings(6, 5, 4, 3, 2, unit="desks"))).fits is None
    assert fit(work, forces(*strings(7, 6, 5, 4, 3, unit="desks"))).fits is True


def test_a_choir_is_no_soloist_and_soloists_are_no_choir() -> None:
    choir = forces(line("choir-soprano", None), line("choir-alto", None))
    assert fit(choir, choir).fits is True
    assert short(fit(choir, forces("voice-soprano", "voice-alto"))) == [("choir-soprano", None), ("choir-alto", None)]
    assert fit(forces("voice-soprano"), choir).fits is False


def test_more_channels_than_there_are_is_a_no_and_silence_is_a_remark() -> None:
    work = forces("cello", electronics="fixed", channels="8")
    assert fit(work, forces("cello", electronics="fixed", channels="4")).missing == (
        Missing("fixed-media", None, "8 channels are needed; 4 are available.", ("fixed-media",)),
    )
    assert fit(work, forces("cello")) == Fit(
        fits=True,
        assignment=(Held("cello", 1, 1, ("cello",), "cello", 1),),
        remarks=("The work needs fixed media (8 channels), of which the available forces say nothing.",),
    )
    assert fit(work, forces("cello", electronics="live")).fits is True
    assert fit(forces("cello", electronics="live"), forces("cello", electronics="fixed")).fits is False


def test_channels_are_counted_with_the_low_ones() -> None:
    assert [channel_count(one) for one in ("2", "7.1", "quadraphonic", "some", None)] == [2, 8, 4, None, None]


def test_players_with_nothing_to_do_are_named() -> None:
    assert fit(forces("flute"), forces(line("flute", 2), "harp")).unused == (("flute", 1), ("harp", 1))


def test_a_huge_number_is_no_huge_work() -> None:
    assert short(fit(forces(line("flute", 10**9)), forces(line("flute", 3)))) == [("flute", 10**9 - 3)]


# ---- against every possible seating

Part = tuple[str, tuple[tuple[str, ...], ...]]
CHAIRS = {
    "flute": [
        ("flute",),
        ("flute", "piccolo"),
        ("piccolo",),
        ("flute", "alto-flute"),
        ("flute", "piccolo", "alto-flute"),
    ],
    "clarinet": [("clarinet",), ("clarinet", "bass-clarinet"), ("bass-clarinet",), ("clarinet", "alto-saxophone")],
    "alto-saxophone": [("alto-saxophone",), ("alto-saxophone", "flute")],
}


def a_body(most: int) -> st.SearchStrategy[tuple[Part, ...]]:
    sections = [
        st.tuples(st.just(slug), st.lists(st.sampled_from(chairs), max_size=most).map(tuple))
        for slug, chairs in CHAIRS.items()
    ]
    return st.tuples(*sections)


def as_forces(body: tuple[Part, ...]) -> Instrumentation:
    return forces(*(line(slug, len(chairs), *enumerate(chairs, 1)) for slug, chairs in body if chairs))


def loss(seat: tuple[str, ...], player: tuple[str, ...] | None) -> tuple[int, int, int]:
    """Return (not fully held, nobody there, doublings lacking) for one seat."""
    if player is None or seat[0] not in player:
        return 1, 1, len(seat)
    lacking = len(set(seat) - set(player))
    return int(lacking > 0), 0, lacking


def total(losses: list[tuple[int, int, int]]) -> tuple[int, ...]:
    return tuple(sum(column) for column in zip(*losses, strict=True)) if losses else (0, 0, 0)


def least_loss(seats: list[tuple[str, ...]], players: list[tuple[str, ...]]) -> tuple[int, ...]:
    benches: list[tuple[str, ...] | None] = [*players, *[None] * len(seats)]
    return min(
        total([loss(*pair) for pair in zip(seats, order, strict=True)]) for order in permutations(benches, len(seats))
    )


@given(a_body(2), a_body(1))
def test_no_seating_is_better_than_the_one_that_is_told(wanted: tuple[Part, ...], offered: tuple[Part, ...]) -> None:
    seats = {(slug, number): plays for slug, chairs in wanted for number, plays in enumerate(chairs, 1)}
    players = {(slug, number): plays for slug, chairs in offered for number, plays in enumerate(chairs, 1)}
    if len(seats) > 4:
        seats = {key: plays for key, plays in seats.items() if key[1] == 1}
        wanted = tuple((slug, chairs[:1]) for slug, chairs in wanted)
    found = fit(as_forces(wanted), as_forces(offered))
    pairs = [
        ((one.instrument, one.chair + step), (one.player, one.player_chair + step))
        for one in found.assignment
        for step in range(one.count)
    ]
    assert len({seat for seat, _ in pairs}) == len({player for _, player in pairs}) == len(pairs)
    taken = dict(pairs)
    told = total([loss(plays, players[taken[seat]] if seat in taken else None) for seat, plays in seats.items()])
    least = least_loss(list(seats.values()), list(players.values()))
    assert told == least
    assert found.fits is (least[0] == 0)
    assert bool(found.missing) is (least[0] > 0)
