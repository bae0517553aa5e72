"""Signs that are drawn by rule and compass: crossed and triangular heads, marks of bowing, beams that fan out.

They have the names and code points of the Standard Music Font Layout, and forms of their own, in its units of 250 to
the stave space. No two contours of a form overlap but for an inner one, which turns the other way round and stays open.
"""

from __future__ import annotations

from itertools import pairwise
from math import hypot

Point = tuple[float, float]
Step = tuple[str | float, ...]
Form = tuple[tuple[Step, ...], float]
"""The outline, and how far the next one stands from it."""
APART, BEAM = 160, 56
"""How far beams stand apart at their end, and how thick they are."""
ROUND = 0.5523
"""Where the handles of a curve lie that is a quarter of a circle, in radii."""


def shape(*corners: Point) -> tuple[Step, ...]:
    (x, y), *others = corners
    return (("M", x, y), *(("L", *corner) for corner in others), ("Z",))


def bar(start: Point, end: Point, thick: float) -> tuple[Step, ...]:
    """A straight bar from one point to another."""
    across, along = end[0] - start[0], end[1] - start[1]
    x, y = (part * thick / 2 / hypot(across, along) for part in (-along, across))
    return shape(
        (start[0] + x, start[1] + y), (start[0] - x, start[1] - y), (end[0] - x, end[1] - y), (end[0] + x, end[1] + y)
    )


def disc(x: float, y: float, radius: float, *, is_hole: bool = False) -> tuple[Step, ...]:
    """A circle of four curves; a hole goes round the other way."""
    turn = -1 if is_hole else 1
    ends = [(1, 0), (0, turn), (-1, 0), (0, -turn), (1, 0)]
    steps: list[Step] = [("M", x + radius, y)]
    for (a, b), (c, d) in pairwise(ends):
        handles = ((a + c * ROUND, b + d * ROUND), (c + a * ROUND, d + b * ROUND), (c, d))
        steps.append(("C", *(one for across, up in handles for one in (x + across * radius, y + up * radius))))
    return (*steps, ("Z",))


def loop(x: float, y: float, radius: float, thick: float) -> tuple[Step, ...]:
    """A circle that is open inside."""
    return (*disc(x, y, radius), *disc(x, y, radius - thick, is_hole=True))


def cross(x: float, y: float, reach: float, thick: float) -> tuple[Step, ...]:
    """Two bars that cross each other aslant, as one outline."""
    half = thick / 2**0.5
    quarter = [(reach - half, reach), (reach, reach - half), (half, 0.0)]
    corners = [turned(corner, turns) for turns in range(4) for corner in quarter]
    return shape(*((x + across, y + up) for across, up in corners))


def plus(x: float, y: float, reach: float, thick: float) -> tuple[Step, ...]:
    """Two bars that cross each other upright, as one outline."""
    half = thick / 2
    quarter = [(half, reach), (half, half), (reach, half)]
    corners = [turned(corner, turns) for turns in range(4) for corner in quarter]
    return shape(*((x + across, y + up) for across, up in corners))


def turned(corner: Point, turns: int) -> Point:
    """A corner after so many quarter turns to the right."""
    for _turn in range(turns):
        corner = corner[1], -corner[0]
    return corner


def fan(wide: float, beams: int) -> tuple[Step, ...]:
    """Beams that leave one beam together and stand apart at its end: a wedge with gaps that open on the way."""
    lowest = (1 - beams) * APART
    steps = shape((0, BEAM / 2), (wide, BEAM / 2), (wide, lowest - BEAM / 2), (0, -BEAM / 2))
    opens = BEAM / APART
    for place in range(beams - 1):
        upper, lower = -place * APART - BEAM / 2, -(place + 1) * APART + BEAM / 2
        apex = wide * opens, -place * APART * opens - BEAM / 2
        steps += shape(apex, (wide, lower), (wide, upper))
    return steps


def hairpin(wide: float, high: float, thick: float, *, opens: bool) -> tuple[Step, ...]:
    """Two strokes that meet in a point, its lower edge at 0: one that ``opens`` begins with the point."""
    reach, inside = high / 2, thick * wide / high
    corners = [(0.0, reach), (wide, high), (wide, high - thick), (inside, reach), (wide, thick), (wide, 0.0)]
    return shape(*(corners if opens else [(wide - x, y) for x, y in corners]))


FORMS: dict[str, Form] = {
    "E0A9": (cross(125, 0, 125, 46), 250),
    "E0B3": ((*loop(130, 0, 128, 30), *cross(130, 0, 66, 30)), 260),
    "E0B9": (shape((0, -112), (250, -112), (250, 112), (0, 112)), 250),
    "E0BE": (shape((0, -122), (280, -122), (140, 138)), 280),
    "E0C7": (shape((0, 122), (140, -138), (280, 122)), 280),
    "E0DB": (shape((0, 0), (140, -140), (280, 0), (140, 140)), 280),
    "E0DD": (
        (*shape((0, 0), (140, -140), (280, 0), (140, 140)), *shape((62, 0), (140, 78), (218, 0), (140, -78))),
        280,
    ),
    "E101": (shape((0, -250), (110, -250), (360, 250), (250, 250)), 360),
    "E222": (
        (
            *shape((-130, 90), (130, 160), (130, 240), (-130, 170)),
            *shape((-130, -75), (130, -5), (130, 75), (-130, 5)),
            *shape((-130, -240), (130, -170), (130, -90), (-130, -160)),
        ),
        260,
    ),
    "E53E": (hairpin(1250, 300, 34, opens=True), 1250),
    "E53F": (hairpin(1250, 300, 34, opens=False), 1250),
    "E5E5": (plus(150, 150, 150, 46), 300),
    "E610": (
        shape((0, 0), (26, 0), (26, 170), (274, 170), (274, 0), (300, 0), (300, 280), (0, 280)),
        300,
    ),
    "E612": (shape((0, 330), (110, 0), (130, 0), (240, 330), (195, 330), (122, 90), (30, 330)), 240),
    "E614": (loop(105, 105, 105, 26), 210),
    "E631": ((*loop(140, 120, 118, 26), *bar((140, 120), (140, 212), 30), *bar((140, 238), (140, 330), 30)), 280),
    "EAF4": (fan(1300, 4), 1300),
    "EB62": (shape((0, 45), (1000, 45), (1000, -10), (1200, 60), (1000, 130), (1000, 75), (0, 75)), 1200),
}  # fmt: skip
"""The forms by their code points."""
