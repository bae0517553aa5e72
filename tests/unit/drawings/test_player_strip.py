"""Where each mark of a player strip stands, in drawing units."""

from __future__ import annotations

from hypothesis import given
from hypothesis import strategies as st

from catalogue.drawings.player_strip import Point, Span, Strip, player_strip, to_svg
from catalogue.instrumentation import Chair, Instrumentation, Line

STRINGS = ("violin-1", "violin-2", "viola", "cello", "double-bass")


def strings(*players: int | None) -> tuple[Line, ...]:
    return tuple(
        Line(slug, "strings", None if number is None else (number, number), unit="players")
        for slug, number in zip(STRINGS, players, strict=True)
    )


def test_a_quartet_hangs_from_a_line_with_a_section_a_column() -> None:
    quartet = Instrumentation((Line("violin", "strings", (2, 2)), Line("viola", "strings"), Line("cello", "strings")))

    assert player_strip(quartet, "string quartet") == Strip(
        width=20,
        height=19,
        lines=(Span(0, 20, 7.5),),
        discs=(Point(2.5, 11.5), Point(2.5, 16.5), Point(10, 11.5), Point(17.5, 11.5)),
        title="string quartet",
    )


def test_a_section_fills_columns_of_four_and_families_stand_farther_apart() -> None:
    forces = Instrumentation((Line("horn", "brass", (6, 6)), Line("timpani", "percussion")))

    strip = player_strip(forces)

    assert strip.discs == (
        Point(2.5, 11.5),
        Point(2.5, 16.5),
        Point(2.5, 21.5),
        Point(2.5, 26.5),
        Point(7.5, 11.5),
        Point(7.5, 16.5),
        Point(19.5, 11.5),
    )
    assert (strip.width, strip.height) == (22, 29)


def test_an_orchestra_is_as_wide_as_its_sections() -> None:
    winds = tuple(Line(slug, "woodwind", (3, 3)) for slug in ("flute", "oboe", "clarinet", "bassoon"))
    brass = tuple(
        Line(slug, "brass", (number, number))
        for slug, number in (("horn", 4), ("trumpet", 3), ("trombone", 3), ("tuba", 1))
    )
    others = (Line("timpani", "percussion"), Line("percussion", "percussion", (3, 3)), Line("harp", "plucked"))
    forces = Instrumentation((*winds, *brass, *others, Line("celesta", "keyboard"), *strings(14, 12, 10, 8, 6)))

    strip = player_strip(forces)

    assert (strip.width, strip.height, strip.title) == (192.5, 29, "79 players")


def test_who_also_plays_another_instrument_is_a_ring_and_who_plays_only_another_a_disc() -> None:
    forces = Instrumentation(
        (
            Line("flute", "woodwind", (2, 2), chairs=(Chair(2, ("flute", "piccolo")),)),
            Line("trombone", "brass", (2, 2), chairs=(Chair(2, ("bass-trombone",)),)),
        )
    )

    strip = player_strip(forces)

    assert strip.rings == (Point(2.5, 16.5),)
    assert strip.discs == (Point(2.5, 11.5), Point(14.5, 11.5), Point(14.5, 16.5))


def test_a_doubling_without_a_chair_falls_to_the_last_player() -> None:
    forces = Instrumentation((Line("flute", "woodwind", (2, 2), chairs=(Chair(None, ("flute", "piccolo")),)),))

    assert player_strip(forces).rings == (Point(2.5, 16.5),)


def test_soloists_stand_above_the_line_and_may_widen_it() -> None:
    soloists = (Line("voice-soprano", "voice", role="soloist"), Line("violin", "strings", (2, 2), role="soloist"))

    strip = player_strip(Instrumentation((*soloists, Line("piano", "keyboard"))))

    assert strip.discs == (Point(2.5, 3.5), Point(10, 3.5), Point(15, 3.5), Point(2.5, 11.5))
    assert (strip.width, strip.above) == (17.5, True)


def test_open_strings_are_one_long_bar_and_choir_parts_a_short_one_each() -> None:
    organ = Line("organ", "keyboard")
    choir = tuple(Line(f"choir-{voice}", "voice", None) for voice in ("soprano", "alto", "tenor", "bass"))

    choral = player_strip(Instrumentation((organ, *choir)))
    scored = player_strip(Instrumentation((Line("timpani", "percussion"), *strings(None, None, None, None, None))))

    assert choral.bars == (Span(12.6, 18.6, 11.5), Span(22.3, 28.3, 11.5), Span(32, 38, 11.5), Span(41.7, 47.7, 11.5))
    assert choral.width == 48.3
    assert scored.bars == (Span(12.6, 34.6, 11.5),)


def test_optional_players_are_small_and_off_stage_players_have_a_line_of_their_own() -> None:
    forces = Instrumentation(
        (
            Line("percussion", "percussion", (2, 3)),
            Line("trumpet", "brass", (1, 1), role="offstage"),
        )
    )

    strip = player_strip(forces)

    assert strip.small == (Point(2.5, 21.5),)
    assert strip.lines == (Span(0, 5, 7.5), Span(13, 18, 7.5))
    assert strip.discs[-1] == Point(15.5, 11.5)


def test_electronics_are_a_triangle_and_count_as_no_player() -> None:
    forces = Instrumentation(
        (Line("bass-clarinet", "woodwind"), Line("fixed-media", "electronics")), electronics="fixed"
    )

    strip = player_strip(forces)

    assert strip.triangles == (Point(12.6, 11.5),)
    assert (strip.width, strip.title) == (17, "1 player")


def test_the_svg_draws_every_kind_of_mark_in_one_path_and_escapes_its_title() -> None:
    strip = player_strip(
        Instrumentation((Line("flute", "woodwind", (1, 1), chairs=(Chair(1, ("flute", "piccolo")),)),)), "<b>&"
    )

    assert to_svg(strip, 1.2) == (
        '<svg class="strip" role="img" width="6" height="16.8" viewBox="0 0 5 14"><title>&lt;b&gt;&amp;</title>'
        '<path class="line" d="M0 7.5H5"/>'
        '<path class="ring" d="M1.05 11.5a1.45 1.45 0 1 0 2.9 0a1.45 1.45 0 1 0-2.9 0z"/></svg>'
    )


@given(st.lists(st.integers(0, 20), min_size=5, max_size=5))
def test_every_player_has_a_mark_inside_the_strip(players: list[int]) -> None:
    strip = player_strip(Instrumentation(strings(*players)))

    assert strip.marks == sum(players)
    assert all(0 < disc.x < strip.width and disc.y < strip.height for disc in strip.discs)
    assert len(set(strip.discs)) == len(strip.discs)
