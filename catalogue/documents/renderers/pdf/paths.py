"""Paths as operators (ISO 32000-1, section 8.5.2), y upwards: polygons, circles, rectangles."""

from __future__ import annotations

from collections.abc import Iterable
from functools import lru_cache

ARC = 0.5522847498
"""How far the handles of a curve lie from its ends that stands for a quarter of a circle of radius 1."""

Place = tuple[float, float]


@lru_cache(40000)
def number(value: float) -> str:
    """A number as it is written, to a thousandth.

    >>> number(50), number(-12.34567), number(0.0001)
    ('50', '-12.346', '0')
    """
    return f"{round(value, 3) + 0.0:.9g}"


def place(x: float, y: float) -> str:
    return f"{number(x)} {number(y)}"


def polygon(points: Iterable[Place], *, closed: bool = False) -> str:
    """Straight from point to point, and back to the first where it closes.

    >>> polygon([(0, 0), (4, 0), (4, 3)], closed=True)
    '0 0 m 4 0 l 4 3 l h'
    """
    first, *others = [place(x, y) for x, y in points]
    return " ".join([f"{first} m", *[f"{one} l" for one in others], *(["h"] if closed else [])])


def circle(x: float, y: float, radius: float) -> str:
    """Four curves around a middle."""
    handle = ARC * radius
    east, north, west, south = (x + radius, y), (x, y + radius), (x - radius, y), (x, y - radius)
    curves = (
        ((x + radius, y + handle), (x + handle, y + radius), north),
        ((x - handle, y + radius), (x - radius, y + handle), west),
        ((x - radius, y - handle), (x - handle, y - radius), south),
        ((x + handle, y - radius), (x + radius, y - handle), east),
    )
    return " ".join([f"{place(*east)} m", *map(curve, curves), "h"])


def curve(points: tuple[Place, Place, Place]) -> str:
    """From where the path is to the last of the points, drawn by the others."""
    return f"{' '.join([place(x, y) for x, y in points])} c"


def rectangle(x: float, y: float, wide: float, high: float) -> str:
    """With its lower left corner at the place."""
    return f"{place(x, y)} {place(wide, high)} re"
