"""The operators that draw a player strip, from its upper left corner, y upwards (ISO 32000-1, section 8.5).

The strips of works with the same forces are the same wherever they stand, so that each is written once and then moved
to its place.
"""

from __future__ import annotations

from collections.abc import Iterator
from functools import lru_cache

from catalogue.documents.renderers.pdf.paths import circle, number, polygon
from catalogue.drawings.player_strip import (
    BAR_THICK,
    DISC,
    LINE_THICK,
    RING,
    RING_THICK,
    SMALL,
    TRIANGLE_HIGH,
    TRIANGLE_WIDE,
    Point,
    Span,
    Strip,
)

ROUND = 1
"""The cap of a stroke that ends in a half circle."""


@lru_cache(4000)
def strip_path(strip: Strip, scale: float) -> str:
    return " ".join(filter(None, parts(strip, scale)))


def parts(strip: Strip, scale: float) -> Iterator[str]:
    """Ledger lines, discs, rings, bars and triangles, in this order."""
    yield spans(strip.lines, LINE_THICK * scale, scale)
    yield discs(strip.discs, DISC * scale, scale)
    yield discs(strip.small, SMALL * scale, scale)
    yield rings(strip.rings, scale)
    yield spans(strip.bars, BAR_THICK * scale, scale)
    yield from (triangle(left, scale) for left in strip.triangles)


def spans(told: tuple[Span, ...], thick: float, scale: float) -> str:
    """Level strokes of one thickness."""
    path = [polygon(((one.x * scale, -one.y * scale), (one.end * scale, -one.y * scale))) for one in told]
    return f"{number(thick)} w {' '.join(path)} S" if path else ""


def discs(centres: tuple[Point, ...], radius: float, scale: float) -> str:
    """Strokes without length under round caps: the shortest way to draw a disc."""
    path = [polygon([(one.x * scale, -one.y * scale)] * 2) for one in centres]
    return f"{ROUND} J {number(2 * radius)} w {' '.join(path)} S 0 J" if path else ""


def rings(centres: tuple[Point, ...], scale: float) -> str:
    path = [circle(one.x * scale, -one.y * scale, RING * scale) for one in centres]
    return f"{number(RING_THICK * scale)} w {' '.join(path)} S" if path else ""


def triangle(left: Point, scale: float) -> str:
    """A triangle that points to the right, the middle of its left side at the place."""
    x, middle, half = left.x * scale, -left.y * scale, TRIANGLE_HIGH * scale / 2
    return f"{polygon(((x, middle + half), (x + TRIANGLE_WIDE * scale, middle), (x, middle - half)))} f"
