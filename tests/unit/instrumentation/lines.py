"""Generated forces for properties: any line that the reader can produce."""

from __future__ import annotations

from dataclasses import replace

from hypothesis import strategies as st

from catalogue.instrumentation import Chair, Instrumentation, Line, family_of, instruments

SECTIONS = ("violin-1", "violin-2", "viola", "cello", "double-bass")
WINDS = ("flute", "oboe", "clarinet", "bassoon", "horn", "trumpet", "trombone", "tuba")
AUXILIARIES = {
    "flute": ("piccolo", "alto-flute"),
    "oboe": ("cor-anglais",),
    "clarinet": ("e-flat-clarinet", "bass-clarinet"),
    "bassoon": ("contrabassoon",),
    "horn": ("wagner-tuba",),
    "trumpet": ("flugelhorn", "piccolo-trumpet"),
    "trombone": ("bass-trombone", "euphonium"),
    "tuba": ("contrabass-tuba",),
}
NOT_BY_NAME = (
    "orchestra",
    "wind-band",
    "brass-band",
    "big-band",
    "basso-continuo",
    "percussion",
    "timpani",
    "conductor",
)
NAMED = tuple(
    slug
    for slug, row in instruments().items()
    if slug not in (*WINDS, *SECTIONS, *NOT_BY_NAME, "violin")
    and row.family in ("woodwind", "brass", "plucked", "keyboard")
    and not slug.endswith("-instrument")
)
NOTES = st.sampled_from(["", "", "", "in A", "two octaves; low C", "4 drums"])


@st.composite
def wind_lines(draw: st.DrawFn) -> tuple[Line, ...]:
    """Return the winds of an orchestra in score order, with doublings by chair or by nobody in particular."""
    lines = []
    for slug in WINDS:
        size = draw(st.integers(0, 5))
        if size:
            lines.append(Line(slug, family_of(slug), (size, size), chairs=draw(chairs_of(slug, size))))
        if draw(st.integers(0, 4)) == 0 and size:
            extra = draw(st.sampled_from(AUXILIARIES[slug]))
            lines.append(Line(extra, family_of(extra), (1, 1)))
    return unlike(lines)


@st.composite
def chairs_of(draw: st.DrawFn, slug: str, size: int) -> tuple[Chair, ...]:
    kind = draw(st.sampled_from(["none", "none", "named", "somebody", "only"]))
    also = draw(st.sampled_from(AUXILIARIES[slug]))
    if kind == "none" or (kind == "somebody" and size == 1):
        return ()
    if kind == "somebody":
        return (Chair(None, (slug, also)),)
    seat = draw(st.integers(1, size))
    plays = (also,) if kind == "only" and size > 1 else (slug, also)
    return tuple(Chair(one, plays if one == seat else (slug,)) for one in range(1, size + 1))


@st.composite
def other_lines(draw: st.DrawFn) -> tuple[Line, ...]:
    """Return keyboards, plucked and further instruments with every quality that a line can have."""
    slugs = draw(st.lists(st.sampled_from(NAMED), unique=True, max_size=5))
    lines = []
    for slug in slugs:
        least = draw(st.integers(1, 4))
        most = least + draw(st.sampled_from([0, 0, 0, 1, 2]))
        optional = draw(st.integers(0, 5)) == 0
        lines.append(
            Line(
                slug,
                family_of(slug),
                (0, most) if optional else (least, most),
                role=draw(st.sampled_from(["ensemble", "ensemble", "ensemble", "soloist", "offstage"])),
                optional=optional,
                amplified=draw(st.integers(0, 5)) == 0,
                note=draw(NOTES),
            )
        )
    return tuple(lines)


@st.composite
def percussion_lines(draw: st.DrawFn) -> tuple[Line, ...]:
    lines = []
    if draw(st.booleans()):
        players = draw(st.sampled_from([(1, 1), (2, 2)]))
        lines.append(Line("timpani", "percussion", players, note=draw(NOTES)))
    if draw(st.booleans()):
        players = draw(st.sampled_from([None, (1, 1), (2, 2), (3, 4)]))
        lines.append(Line("percussion", "percussion", players, note=draw(NOTES)))
    return tuple(lines)


@st.composite
def string_lines(draw: st.DrawFn) -> tuple[Line, ...]:
    """Return a body of strings: open, by figures in players or desks, or single players."""
    kind = draw(st.sampled_from(["none", "open", "players", "desks", "least", "single"]))
    if kind == "none":
        return ()
    if kind == "open":
        return tuple(Line(slug, "strings", None) for slug in SECTIONS)
    if kind == "single":
        return tuple(Line(slug, "strings", (1, 1)) for slug in draw(st.lists(st.sampled_from(SECTIONS), unique=True)))
    unit = "desks" if kind == "desks" else "players"
    strength = "least" if kind == "least" else "stated"
    first = draw(st.integers(4, 16))
    numbers = (first, first, max(first - 2, 1), max(first - 3, 1), max(first - 5, 1))
    return tuple(
        Line(slug, "strings", (number, number), unit=unit, strength=strength)
        for slug, number in zip(SECTIONS, numbers, strict=True)
    )


@st.composite
def voice_lines(draw: st.DrawFn) -> tuple[Line, ...]:
    solos = draw(st.lists(st.sampled_from(["voice-soprano", "voice-tenor", "voice-mezzo-soprano"]), unique=True))
    lines = [Line(slug, "voice", (1, 1), role="soloist") for slug in solos]
    if draw(st.booleans()):
        lines.append(Line("narrator", "voice", (1, 1), role="narrator"))
    if draw(st.booleans()):
        parts = draw(st.integers(1, 2))
        lines += [Line(f"choir-{part}", "voice", None, parts=parts) for part in ("soprano", "alto", "tenor", "bass")]
    return tuple(lines)


def unlike(lines: list[Line]) -> tuple[Line, ...]:
    """Leave out a line that would be added to an earlier one of the same instrument."""
    return tuple(line for at, line in enumerate(lines) if all(line.instrument != one.instrument for one in lines[:at]))


@st.composite
def forces(draw: st.DrawFn) -> Instrumentation:
    """Return forces of any make-up, at least one line."""
    lines = (
        *draw(wind_lines()),
        *draw(percussion_lines()),
        *draw(other_lines()),
        *draw(voice_lines()),
        *draw(string_lines()),
    )
    distinct = unlike(list(lines))
    if len(distinct) == 1 and distinct[0].role == "soloist" and distinct[0].family != "voice":
        distinct = (replace(distinct[0], role="ensemble"),)
    return Instrumentation(distinct or (Line("flute", "woodwind"),))
