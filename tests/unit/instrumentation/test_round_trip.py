"""What is written reads back to the same lines: a law, for generated forces in every dress and language."""

from __future__ import annotations

from dataclasses import replace

import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st

from catalogue.instrumentation import Chair, Instrumentation, Line, read, write_shorthand, write_words
from catalogue.instrumentation.chairs_dress import write_chairs
from catalogue.instrumentation.vocabulary import LANGUAGES, family_of, instrument

WINDS = ("flute", "oboe", "clarinet", "bassoon", "horn", "trumpet", "trombone", "tuba")
SINGLE = ("harp", "piano", "celesta", "accordion", "guitar", "alto-saxophone", "marimba", "harpsichord")
BODY = ("violin-1", "violin-2", "viola", "cello", "double-bass")
VOICES = ("soprano", "alto", "tenor", "bass")


@st.composite
def section(draw: st.DrawFn, slug: str) -> Line:
    """One to four players, some with usual auxiliaries, some who play an auxiliary alone, some doubling unnamed."""
    size = draw(st.integers(1, 4))
    usual = instrument(slug).usual
    plain = (slug,)
    plays = [plain] * size
    if usual and draw(st.booleans()):
        kinds = [plain, (slug, usual[0]), (slug, *usual[:2]), *([(usual[0],)] if size > 1 else [])]
        plays = [draw(st.sampled_from(kinds)) for _ in range(size)]
    if any(one != plain for one in plays) and plays[0][0] == slug:
        return Line(
            slug, family_of(slug), (size, size), chairs=tuple(Chair(seat, one) for seat, one in enumerate(plays, 1))
        )
    unnamed = (Chair(None, (slug, usual[0])),) if usual and size > 1 and draw(st.booleans()) else ()
    return Line(slug, family_of(slug), (size, size), chairs=unnamed)


@st.composite
def single(draw: st.DrawFn, slug: str) -> Line:
    """One or two players, with one thing said of them."""
    said = draw(st.sampled_from(["", "optional", "amplified", "alternative", "soloist", "offstage", "range"]))
    size = draw(st.integers(1, 2))
    line = Line(slug, family_of(slug), (size, size))
    return {
        "": line,
        "optional": replace(line, players=(0, size), optional=True),
        "amplified": replace(line, amplified=True),
        "alternative": replace(line, players=(1, 1), alternatives=("organ",)),
        "soloist": replace(line, role="soloist"),
        "offstage": replace(line, role="offstage"),
        "range": replace(line, players=(size, size + 2)),
    }[said]


@st.composite
def body(draw: st.DrawFn) -> tuple[Line, ...]:
    """A section of strings, open or with figures, or a string quartet, or none."""
    kind = draw(st.sampled_from(["none", "open", "stated", "preferred", "least", "desks", "quartet"]))
    if kind == "none":
        return ()
    if kind == "quartet":
        return tuple(Line(slug, "strings", (1, 1)) for slug in BODY[:4])
    if kind == "open":
        return tuple(Line(slug, "strings", None) for slug in BODY)
    unit = "desks" if kind == "desks" else "players"
    strength = kind if kind in ("preferred", "least") else "stated"
    least = draw(st.integers(2, 8))
    numbers = [(least + more,) * 2 for more in (4, 3, 2, 1, 0)]
    return tuple(
        Line(slug, "strings", number, unit=unit, strength=strength) for slug, number in zip(BODY, numbers, strict=True)
    )


@st.composite
def singers(draw: st.DrawFn) -> tuple[Line, ...]:
    """Soloists, a choir divided or not, both or neither."""
    solo = draw(st.sets(st.sampled_from(VOICES[:3]), max_size=2))
    soloists = tuple(Line(f"voice-{one}", "voice", (1, 1), role="soloist") for one in VOICES if one in solo)
    if draw(st.booleans()):
        return soloists
    divided = draw(st.integers(1, 2))
    return (*soloists, *(Line(f"choir-{one}", "voice", None, parts=divided) for one in VOICES))


@st.composite
def forces(draw: st.DrawFn) -> Instrumentation:
    winds = tuple(draw(section(slug)) for slug in WINDS if draw(st.booleans()))
    timpani = (Line("timpani", "percussion", (1, 1)),) if draw(st.booleans()) else ()
    size = draw(st.integers(0, 4))
    percussion = (Line("percussion", "percussion", (size, size)),) if size else ()
    slugs = draw(st.lists(st.sampled_from(SINGLE), unique=True, max_size=3))
    others = tuple(draw(single(slug)) for slug in slugs)
    device = draw(st.sampled_from([None, "fixed-media", "live-electronics"]))
    electronics = {"fixed-media": "fixed", "live-electronics": "live"}.get(device or "", "none")
    devices = (Line(device, "electronics", (0, 0)),) if device else ()
    lines = (*winds, *timpani, *percussion, *others, *draw(singers()), *draw(body()), *devices)
    channels = draw(st.sampled_from([None, "2", "8"])) if device else None
    known = lines or (Line("flute", "woodwind", (1, 1)),)
    return Instrumentation(known, electronics=electronics, channels=channels)


@pytest.mark.parametrize("language", LANGUAGES)
@settings(max_examples=40, deadline=None)
@given(forces())
def test_words_read_back_to_the_same_forces(language: str, told: Instrumentation) -> None:
    assert read(write_words(told, language), language=language) == told


@settings(max_examples=60, deadline=None)
@given(forces())
def test_chairs_by_figure_read_back_where_the_shorthand_does(told: Instrumentation) -> None:
    assume(read(write_shorthand(told)) == told)
    assert read(write_chairs(told)) == told


@pytest.mark.parametrize(
    "written", ["2cl(I=Ebcl+bcl)", "3cl(II=Ebcl+bcl)", "3cl(I=Ebcl+bcl, II=bcl)", "2tbn(I=btbn+euph)"]
)
def test_names_without_a_figure_are_not_taken_for_a_player_each(written: str) -> None:
    told = read(written)
    assert read(write_chairs(told)) == told


def test_the_key_of_a_part_follows_its_name_in_words() -> None:
    told = read("3cl(III=bcl) “in B flat” – 4hn “in F”, off-stage tpt “in C”")
    words = "3 clarinets in B flat, the third doubling bass clarinet; 4 horns in F; trumpet in C (offstage)"
    assert write_words(told, "en-GB") == words
    assert read(words) == told


@pytest.mark.parametrize("written", ["3.3.3.3 - 4.3.3.1 - timp+3 - str", "3333/4331/Tp+3/Str", "3333/4331/T+3/str"])
def test_a_timpanist_and_so_many_percussionists_are_told_after_figures(written: str) -> None:
    told = [(line.instrument, line.players) for line in read(written) if line.family == "percussion"]
    assert told == [("timpani", (1, 1)), ("percussion", (3, 3))]


def test_the_one_of_a_section_who_doubles_is_told_by_name_and_figure() -> None:
    (flutes,) = read("3 flutes (only flute 3 doubling piccolo and/or alto flute)")
    assert flutes.chairs[2] == Chair(3, ("flute", "piccolo", "alto-flute"))
    assert read("oboe 1, oboe 2 doubling cor anglais") == read("2 oboes (II=ca)")
