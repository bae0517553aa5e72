"""Loudspeakers around the audience, seen from above, the stage at the top: each at its angle, with its name."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from math import cos, radians, sin

from catalogue.drawings.sketch import Circle, Part, Sketch, Stroke, Words, fitted

EDGE = 54.0
SIZE = 11.0
HIGH = 0.62
"""How far in a loudspeaker above the others is drawn, as a share of the way to the middle."""


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
        """Draw the ring; what stands higher than the ears is drawn further in."""
        radius = width / 2 - EDGE
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


def loudspeaker(one: Loudspeaker, middle: tuple[float, float], radius: float) -> Iterator[Part]:
    """A loudspeaker that looks to the middle, its name outside, its angle inside."""
    out = radius * (1 - (1 - HIGH) * min(abs(one.elevation) / 90 * 2, 1))
    x, y = at(middle, out, one.azimuth)
    yield from cabinet(x, y, one.azimuth)
    name_x, name_y = at(middle, out + 22, one.azimuth)
    yield Words(name_x, name_y + SIZE / 3, fitted(one.name, 60, SIZE), SIZE, strong=True)
    if one.angle:
        inner_x, inner_y = at(middle, out - 26, one.azimuth)
        yield Words(inner_x, inner_y + SIZE / 3, one.angle, SIZE - 2)


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
