"""Loudspeakers around the audience, seen from above, the stage at the top: each at its angle, with its name."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from math import cos, radians, sin

from catalogue.drawings.sketch import Anchor, Circle, Part, Sketch, Stroke, Words, fitted

EDGE = 46.0
SIZE = 11.0
ASIDE = 0.3
OUTSIDE = 15
"""From the ring to the name of a loudspeaker."""
LEAST_RADIUS = 34.0
STRONG_WIDE = 0.62
"""The usual width of a strong letter, in sizes of its type."""
AT_EAR = 15
"""Degrees up to which a loudspeaker belongs to the ring; what hangs higher is drawn where it is seen from above."""


ROOM = 70.0
"""The width of a name above or below the ring; beside it a name has all that is left."""


@dataclass(frozen=True, slots=True)
class Loudspeaker:
    """``azimuth`` in degrees, 0 the stage, minus the left seen from the audience; ``angle`` is it in words."""

    name: str
    azimuth: float
    elevation: float = 0.0
    angle: str = ""


@dataclass(frozen=True, slots=True)
class Ring:
    """The loudspeakers of a layout, and the words that are drawn with them."""

    loudspeakers: tuple[Loudspeaker, ...]
    stage: str = "stage"
    audience: str = "audience"

    def sketch(self, width: float) -> Sketch:
        """Draw the ring, and what hangs above it further in."""
        radius = max(LEAST_RADIUS, min([width / 2 - EDGE, *(room_for(one, width) for one in self.loudspeakers)]))
        middle = width / 2, EDGE + radius
        parts: list[Part] = [
            Circle(*middle, radius, 0.6, dashed=True),
            Words(middle[0], 14, self.stage, SIZE, italic=True),
            Stroke(((middle[0] - 34, 20), (middle[0] + 34, 20)), 1.6),
            Words(middle[0], middle[1] + 4, self.audience, SIZE, italic=True),
        ]
        for one in self.loudspeakers:
            parts += loudspeaker(one, middle, radius)
        return Sketch(width, 2 * (EDGE + radius), tuple(parts))


def room_for(one: Loudspeaker, width: float) -> float:
    """The radius at which the name of a loudspeaker beside the ring ends within the picture."""
    across = abs(sin(radians(one.azimuth)))
    if across < ASIDE or one.elevation > AT_EAR:
        return width
    return (width / 2 - len(one.name) * SIZE * STRONG_WIDE) / across - OUTSIDE


def loudspeaker(one: Loudspeaker, middle: tuple[float, float], radius: float) -> Iterator[Part]:
    """A loudspeaker that looks to the middle: its name and angle outside, inside for one that hangs above the ring."""
    is_high = one.elevation > AT_EAR
    out = radius * cos(radians(one.elevation))
    x, y = at(middle, out, one.azimuth)
    yield from cabinet(x, y, one.azimuth)
    across, along = sin(radians(one.azimuth)), -cos(radians(one.azimuth))
    away = -16 if is_high else OUTSIDE
    anchor: Anchor = "middle" if abs(across) < ASIDE or is_high else "start" if across > 0 else "end"
    name_x, name_y = x + away * across, y + away * along + (SIZE * (0.3 + 0.55 * along))
    angle = "" if is_high else one.angle
    room = {"start": 2 * middle[0] - name_x, "end": name_x, "middle": ROOM}[anchor]
    yield Words(name_x, name_y - (SIZE * 0.45 if angle else 0), fitted(one.name, room, SIZE), SIZE, anchor, strong=True)
    if angle:
        yield Words(name_x, name_y + SIZE * 0.5, angle, SIZE - 2.5, anchor)


def at(middle: tuple[float, float], distance: float, azimuth: float) -> tuple[float, float]:
    return middle[0] + distance * sin(radians(azimuth)), middle[1] - distance * cos(radians(azimuth))


def cabinet(x: float, y: float, azimuth: float) -> Iterator[Stroke]:
    """A box with its horn towards the middle."""
    for corners in (((-6, 2), (6, 2), (6, -7), (-6, -7)), ((-5, 2), (5, 2), (9, 9), (-9, 9))):
        turned = (turn(corner, azimuth) for corner in corners)
        yield Stroke(tuple((x + across, y + along) for across, along in turned), 1.1, closed=True)


def turn(corner: tuple[float, float], azimuth: float) -> tuple[float, float]:
    across, along = corner
    angle = radians(azimuth)
    return across * cos(angle) - along * sin(angle), across * sin(angle) + along * cos(angle)
