"""The stage of a work as a drawing: its players by section or at their own places, and what else stands there."""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import replace

from catalogue.documents.contents.rider_words import usual
from catalogue.documents.labels import LANGUAGES, Labels
from catalogue.drawings.loudspeakers import Loudspeaker, Ring
from catalogue.drawings.stage_plan import Stage, Thing, in_front, in_rows
from catalogue.instrumentation import Instrumentation, Line
from catalogue.instrumentation.vocabulary import called
from catalogue.rules.search import fold
from catalogue.rules.technical.layouts import angle_text, speakers_of
from catalogue.rules.technical.terms import Input, Mark, Place, Setup, Speaker

SPAN = re.compile(r"(?<=\d)-(?=\d)")
CHAMBER = 16
"""Up to so many players each has a circle; more are drawn by section."""
CONDUCTED = 10
SIZES = ((6, 8.0, 6.0), (20, 12.0, 9.0), (999, 18.0, 12.0))
"""Usual stages for up to so many players, width and depth in metres (common practice)."""
ROWS = ("voice", "strings", "harp", "keyboard", "plucked", "woodwind", "brass", "percussion")
"""Who sits nearest to the audience, to begin with."""
SEATS = (("strings",), ("harp", "keyboard", "plucked", "woodwind"), ("brass", "percussion"))
"""The rows of a body that is conducted, the first nearest to the audience."""
FRONT = 60
"""Loudspeakers up to this angle stand at the front edge of the stage."""


def stage_of(forces: Instrumentation | None, setup: Setup | None, says: Labels) -> Stage | None:
    """The stage with everything on it; ``None`` where nothing is known to stand there."""
    lines = standing(forces) if forces else []
    people = sum(most_of(line) for line in lines)
    wide, deep = size_of(people, setup)
    conductor = conductor_of(forces, people, says)
    players = seated(lines, people, says, (wide, deep), is_conducted=bool(conductor))
    known = names_in(lines, says.language)
    things = placed((*players, *conductor), setup.places if setup else (), known, says)
    if not things:
        return None
    inputs = setup.inputs if setup else ()
    heard = tuple(with_channels(one, inputs, known) for one in numbered(things))
    front = tuple(at_front(speakers_of(setup), wide, says)) if setup else ()
    return Stage(wide, deep, (*heard, *front), says.word("front of stage, audience"))


def standing(forces: Instrumentation) -> list[Line]:
    """The lines of people on the stage, those nearest to the audience first."""
    lines = [
        line
        for line in forces.lines
        if line.family != "electronics" and line.role not in ("offstage", "conductor") and most_of(line)
    ]
    order = {family: place for place, family in enumerate(ROWS)}
    return sorted(lines, key=lambda line: (line.role != "soloist", order.get(line.family, len(ROWS) - 3)))


def seated(
    lines: list[Line], people: int, says: Labels, size: tuple[float, float], *, is_conducted: bool
) -> tuple[Thing, ...]:
    """Everybody at a usual place (common practice): singers in front, then strings, winds, brass, a choir behind all.

    A few who play without a conductor sit in one arc.
    """
    wide, deep = size
    if not is_conducted and people <= CONDUCTED:
        return in_rows([tuple(players_of(lines, people, says))], depth=deep, width=wide)
    rows: dict[int, list[Line]] = {}
    for line in lines:
        rows.setdefault(row_of(line), []).append(line)
    before = in_front(tuple(players_of(rows.pop(0, []), people, says)), width=wide)
    behind = [tuple(players_of(rows[row], people, says)) for row in sorted(rows)]
    return (*before, *in_rows(behind, depth=deep, width=wide))


def row_of(line: Line) -> int:
    """In which row a line sits; soloists and single voices stand before the rows."""
    if line.family == "voice" and line.instrument.startswith("choir"):
        return len(SEATS)
    if line.role == "soloist" or line.family == "voice":
        return 0
    return next((place for place, families in enumerate(SEATS, start=1) if line.family in families), len(SEATS))


def most_of(line: Line) -> int:
    return line.players[1] if line.players else 0


def size_of(people: int, setup: Setup | None) -> tuple[float, float]:
    _most, wide, deep = next(size for size in SIZES if people <= size[0] or size is SIZES[-1])
    if setup is None:
        return wide, deep
    return float(setup.stage_width or wide), float(setup.stage_depth or deep)


def players_of(lines: list[Line], people: int, says: Labels) -> Iterator[Thing]:
    for line in lines:
        count = most_of(line)
        if people > CHAMBER and count > 1:
            yield Thing(section_name(line, says.language), 0, 0, count=count)
            continue
        for number in range(1, count + 1):
            yield Thing(player_name(line, number, says.language), 0, 0)


def section_name(line: Line, language: str) -> str:
    names = called(line.instrument, language)
    return names.plural or names.singular


def player_name(line: Line, number: int, language: str) -> str:
    """A player by instrument, with a number where there are several."""
    name = called(line.instrument, language).singular
    return f"{name} {number}" if most_of(line) > 1 else name


def names_in(lines: list[Line], language: str) -> dict[str, str]:
    """What players and sections are called in any language that is printed, by what they are called in this one.

    A name of this language is itself, whatever it means in another (*Baritone* are several in German).
    """
    found = {}
    for line in lines:
        for other in LANGUAGES:
            found[fold(section_name(line, other))] = fold(section_name(line, language))
            for number in range(1, most_of(line) + 1):
                found[fold(player_name(line, number, other))] = fold(player_name(line, number, language))
    return found | {name: name for name in found.values()}


def conductor_of(forces: Instrumentation | None, people: int, says: Labels) -> tuple[Thing, ...]:
    asked = forces is not None and any(line.role == "conductor" for line in forces.lines)
    return (Thing(says.word("conductor"), 0, 0.8, mark="conductor"),) if asked or people >= CONDUCTED else ()


def placed(
    things: tuple[Thing, ...], places: tuple[Place, ...], known: dict[str, str], says: Labels
) -> tuple[Thing, ...]:
    """What has a place of its own stands there, and what is not among the players comes in addition."""
    own = {known.get(fold(place.name), fold(place.name)): place for place in places}
    moved = tuple(moved_to(thing, own.pop(fold(thing.name), None)) for thing in things)
    return (*moved, *(thing_at(one, says) for one in own.values()))


def moved_to(thing: Thing, place: Place | None) -> Thing:
    if place is None:
        return thing
    return replace(thing, x=float(place.x), y=float(place.y), channels=spanned(place.channels))


def thing_at(place: Place, says: Labels) -> Thing:
    mark = place.mark.value
    name = usual(place.name, says)
    return Thing(name, float(place.x), float(place.y), mark=mark, channels=spanned(place.channels))


def spanned(channels: str) -> str:
    """Channels as they are typed, an en dash in each span.

    >>> spanned("1-6, 9")
    '1–6, 9'
    """
    return SPAN.sub("\N{EN DASH}", channels)


def numbered(things: tuple[Thing, ...]) -> Iterator[Thing]:
    """Number the players from the first one on."""
    number = 0
    for thing in things:
        number += thing.mark == Mark.PLAYER
        yield replace(thing, number=str(number)) if thing.mark == Mark.PLAYER else thing


def with_channels(thing: Thing, inputs: tuple[Input, ...], known: dict[str, str]) -> Thing:
    """The channels of a player are those whose source is called so, alone or before a comma."""
    if thing.channels or thing.mark not in {Mark.PLAYER, Mark.CONDUCTOR}:
        return thing
    sources = ((fold(one.source).partition(",")[0], one) for one in inputs)
    found = [str(one.channels) for name, one in sources if known.get(name, name) == fold(thing.name)]
    return replace(thing, channels=", ".join(found))


def at_front(speakers: tuple[Speaker, ...], wide: float, says: Labels) -> Iterator[Thing]:
    """The loudspeakers that stand at the front edge, along it by their angles."""
    for speaker in speakers:
        angle = float(speaker.azimuth)
        if not speaker.is_low and abs(angle) <= FRONT and not speaker.elevation:
            x = max(-1.0, min(1.0, angle / 30)) * (wide / 2 - 0.5)
            yield Thing(usual(speaker.name, says), round(x, 2), -0.45, mark=Mark.LOUDSPEAKER.value)


def ring_of(speakers: tuple[Speaker, ...], says: Labels) -> Ring | None:
    """The loudspeakers around the audience; channels of low frequencies alone may stand anywhere and are left out."""
    around = tuple(
        Loudspeaker(
            usual(one.name, says), float(one.azimuth), float(one.elevation), says.figure(angle_text(one.azimuth))
        )
        for one in speakers
        if not one.is_low
    )
    return Ring(around, says.word("stage"), says.word("audience")) if around else None
