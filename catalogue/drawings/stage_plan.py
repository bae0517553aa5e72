"""A stage seen from above, the audience at the foot: players, microphones, loudspeakers, desk and power, true to scale.

A square of the grid is a metre. Players who have no place of their own stand in arcs around the middle of the front
edge, row by row, each from left to right; those who stand before all others stand in a line at the edge.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Iterable, Iterator, Sequence
from dataclasses import dataclass, replace
from math import ceil, cos, pi, sin

from catalogue.drawings.sketch import Anchor, Circle, Part, Sketch, Stroke, Words, box, fitted

SIZE, SMALL = 10.5, 8.5
TOP, FOOT, SIDE = 6.0, 40.0, 14.0
IN_A_ROW = 9
OUTLETS = re.compile(r"\b(\d{1,2})\s*(?:x|\N{MULTIPLICATION SIGN}|outlets?|sockets?)", re.IGNORECASE)
MARGIN = 1.0
APART = 1.4
"""Metres between those who stand in a line, and from the middle to the first of them."""
BESIDE, CLEAR = 34.0, 6.0
"""Up to so many units above or below, something stands beside a name; so much stays free between the two."""
START: Anchor = "start"
END: Anchor = "end"
ALONE = 0.55
"""How far back the middle of a row goes that is the only one, as a share of the stage."""
WIDEST, NARROWER = 0.84, 0.34
"""The share of half an ellipse that the front row takes, and how much less the last one does."""


@dataclass(frozen=True, slots=True)
class Thing:
    """Something on the stage at metres right of the middle and behind the front edge.

    ``mark`` is player, microphone, loudspeaker, monitor, desk, power, conductor or thing; ``number`` stands in it,
    ``channels`` beside it; ``count`` is how many players stand there; ``room`` is how many units wide its name may be,
    which the drawing finds.
    """

    name: str
    x: float
    y: float
    mark: str = "player"
    number: str = ""
    channels: str = ""
    count: int = 1
    room: float = 0.0


@dataclass(frozen=True, slots=True)
class Stage:
    """``width`` and ``depth`` in metres; ``front`` is what is written at the front edge."""

    width: float
    depth: float
    things: tuple[Thing, ...]
    front: str = "front of stage, audience"

    def sketch(self, width: float) -> Sketch:
        """Draw the stage so many units wide."""
        scale = (width - 2 * SIDE) / self.width
        height = TOP + self.depth * scale
        parts: list[Part] = [
            box(SIDE, TOP, self.width * scale, self.depth * scale, thick=1.4),
            *grid(self, scale),
            *sight(self.things, scale, self),
        ]
        for thing in self.things:
            roomy = replace(thing, room=room_of(thing, self, scale))
            parts += MARKS[thing.mark](roomy, *place(thing, self, scale), scale)
        parts.append(Stroke(((SIDE, height + 5), (width - SIDE, height + 5)), 2.4))
        parts.append(Words(width / 2, height + 20, self.front, SIZE, italic=True))
        parts += scale_bar(width / 2 - scale, height + 31, scale)
        return Sketch(width, height + FOOT, tuple(parts))


def place(thing: Thing, stage: Stage, scale: float) -> tuple[float, float]:
    return SIDE + (thing.x + stage.width / 2) * scale, TOP + (stage.depth - thing.y) * scale


def room_of(thing: Thing, stage: Stage, scale: float) -> float:
    """How wide a name may be that no other mark or name stands beside, and that ends within the picture."""
    x, y = place(thing, stage, scale)
    others = (place(one, stage, scale) for one in stage.things if one is not thing)
    beside = [abs(there - x) - CLEAR for there, height in others if abs(height - y) < BESIDE]
    return min([2 * min(x, stage.width * scale + 2 * SIDE - x), *beside])


def grid(stage: Stage, scale: float) -> Iterator[Stroke]:
    """A thin line a metre, from the middle outwards and from the front edge back."""
    right, bottom = SIDE + stage.width * scale, TOP + stage.depth * scale
    half = int(stage.width / 2)
    for metre in range(-half, half + 1):
        x = SIDE + (stage.width / 2 + metre) * scale
        yield Stroke(((x, TOP), (x, bottom)), 0.5, faint=True)
    for metre in range(1, ceil(stage.depth)):
        y = bottom - metre * scale
        yield Stroke(((SIDE, y), (right, y)), 0.5, faint=True)


def scale_bar(left: float, y: float, scale: float) -> Iterator[Part]:
    for metre in range(3):
        yield Stroke(((left + metre * scale, y - 3), (left + metre * scale, y + 3)), 0.7)
    yield Stroke(((left, y), (left + 2 * scale, y)), 0.7)
    yield Words(left + 2 * scale + 5, y + 3, "2 m", SMALL, "start")


def sight(things: Sequence[Thing], scale: float, stage: Stage) -> Iterator[Stroke]:
    """Lines from the conductor to the outermost players, which have to stay free."""
    conductor = next((one for one in things if one.mark == "conductor"), None)
    players = [one for one in things if one.mark == "player"]
    if conductor is None or not players:
        return
    ends = min(players, key=lambda one: one.x), max(players, key=lambda one: one.x)
    for outermost in dict.fromkeys(ends):
        yield Stroke((place(conductor, stage, scale), place(outermost, stage, scale)), 0.5, dashed=True)


# ---- marks


def player(thing: Thing, x: float, y: float, scale: float) -> Iterator[Part]:
    """A circle with the player's number; a section is a box with how many."""
    if thing.count > 1:
        wide = min(2.6 * scale, 92)
        yield box(x - wide / 2, y - 9, wide, 18)
        yield Words(x - wide / 2 + 4, y + 3.2, thing.number, SMALL, START, strong=True)
        yield Words(x + 6, y + 3.5, fitted(f"{thing.count} {thing.name}", wide - 18, SIZE - 1), SIZE - 1)
    else:
        yield Circle(x, y, 8.5, 1.2)
        yield Words(x, y + 3.2, thing.number, SMALL, strong=True)
        yield Words(x, y + 18.5, fitted(thing.name, max(1.6 * scale, 46, thing.room), SMALL), SMALL)
    if thing.channels:
        yield from microphone(
            replace(thing, name=""), x + (11 if thing.count < 2 else wide_of(scale) / 2 + 6), y - 9, scale
        )


def wide_of(scale: float) -> float:
    return min(2.6 * scale, 92)


def microphone(thing: Thing, x: float, y: float, _scale: float) -> Iterator[Part]:
    """A solid triangle with the channels beside it."""
    yield Stroke(((x - 3.2, y + 3), (x + 3.2, y + 3), (x, y - 3.4)), 0.6, closed=True, filled=True)
    words = " ".join(part for part in (thing.channels, thing.name) if part)
    yield Words(x + 5, y + 3, words, SMALL, "start")


def loudspeaker(thing: Thing, x: float, y: float, _scale: float) -> Iterator[Part]:
    yield box(x - 5, y - 8, 10, 7)
    yield Stroke(((x - 4, y - 1), (x + 4, y - 1), (x + 8, y + 6), (x - 8, y + 6)), 1.0, closed=True)
    yield Words(x, y + 17, thing.name, SMALL)


def monitor(thing: Thing, x: float, y: float, _scale: float) -> Iterator[Part]:
    """A wedge, wider at its foot."""
    yield Stroke(((x - 8, y + 5), (x + 8, y + 5), (x + 5, y - 4), (x - 5, y - 4)), 1.1, closed=True)
    yield Words(x, y + 16, " ".join(part for part in (thing.name, thing.channels) if part), SMALL)


def desk(thing: Thing, x: float, y: float, scale: float) -> Iterator[Part]:
    wide = max(1.2 * scale, 44)
    yield box(x - wide / 2, y - 8, wide, 16)
    yield Words(x, y + 3.2, fitted(thing.name, wide - 4, SMALL), SMALL)


def power(thing: Thing, x: float, y: float, _scale: float) -> Iterator[Part]:
    """A square with the two holes of a socket, and how many outlets there are; at the right they stand to the left."""
    yield box(x - 5, y - 5, 10, 10)
    yield Circle(x - 1.8, y, 0.7, 1.2)
    yield Circle(x + 1.8, y, 0.7, 1.2)
    aside, anchor = (8, START) if thing.x < 0 else (-8, END)
    outlets = OUTLETS.search(thing.name)
    yield Words(x + aside, y + 3, outlets[1] if outlets else fitted(thing.name, 80, SMALL), SMALL, anchor)


def conductor(thing: Thing, x: float, y: float, _scale: float) -> Iterator[Part]:
    yield Circle(x, y, 8.5, 1.2)
    yield Circle(x, y, 3.0, 1.2)
    yield Words(x, y + 18.5, thing.name, SMALL)


def thing_mark(thing: Thing, x: float, y: float, scale: float) -> Iterator[Part]:
    wide = max(1.4 * scale, 40)
    yield box(x - wide / 2, y - 8, wide, 16)
    yield Words(x, y + 3.2, fitted(thing.name, wide - 4, SMALL), SMALL)


MARKS: dict[str, Callable[[Thing, float, float, float], Iterator[Part]]] = {
    "player": player,
    "microphone": microphone,
    "loudspeaker": loudspeaker,
    "monitor": monitor,
    "desk": desk,
    "power": power,
    "conductor": conductor,
    "thing": thing_mark,
}


# ---- where players stand who have no place of their own


def in_rows(rows: Iterable[Sequence[Thing]], *, depth: float, width: float) -> tuple[Thing, ...]:
    """Place players in arcs around the middle of the front edge, the first row nearest, at most nine in an arc."""
    arcs = [part for row in rows for part in parted(row)]
    found: list[Thing] = []
    for place, here in enumerate(arcs):
        share = (place + 1) / len(arcs)
        across = (width / 2 - MARGIN) * (0.55 + 0.45 * share)
        deep = (depth - 2 * MARGIN) * (0.35 + 0.65 * share if len(arcs) > 1 else ALONE)
        spread = WIDEST if len(arcs) == 1 else WIDEST - NARROWER * place / (len(arcs) - 1)
        found += (arc(one, position, len(here), across, deep, spread) for position, one in enumerate(here))
    return tuple(found)


def parted(row: Sequence[Thing]) -> Iterator[Sequence[Thing]]:
    """A row as one arc, or as several alike where it is too long for one."""
    each = ceil(len(row) / max(1, ceil(len(row) / IN_A_ROW)))
    return (row[start : start + each] for start in range(0, len(row), each or 1))


def in_front(things: Sequence[Thing], *, width: float) -> tuple[Thing, ...]:
    """Place those who stand before all others along the front edge, the middle left free for whoever conducts."""
    half = ceil(len(things) / 2)
    apart = min(APART, (width / 2 - MARGIN - APART) / max(1, half - 1)) if half > 1 else APART
    sides = [-(APART + apart * (half - 1 - place)) for place in range(half)]
    places = (*sides, *(APART + apart * place for place in range(len(things) - half)))
    return tuple(replace(one, x=round(x, 1), y=MARGIN) for one, x in zip(things, places, strict=True))


def arc(thing: Thing, position: int, of: int, across: float, deep: float, spread: float) -> Thing:
    """A place on half an ellipse, the first at the left; ``spread`` is the share of it that is used."""
    angle = pi * (0.5 + spread * (0.5 - (position / (of - 1) if of > 1 else 0.5)))
    return replace(thing, x=round(across * cos(angle), 1) + 0.0, y=round(MARGIN + deep * sin(angle), 1))
