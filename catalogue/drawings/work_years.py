"""A work over the years: when it was composed, heard, recorded and published, each on a line of its own.

A bar is a time, a disc something on a day, a ring something that is still to come, a disc in a ring the premiere. What
is known to a month or a year stands in its middle. The same picture serves a page and paper.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date, timedelta
from enum import Enum, auto

from catalogue.drawings.sketch import Circle, Part, Sketch, Stroke, Words, box

WIDE, NARROW = 1112.0, 328.0
SIZE, STEP, RADIUS, ROW = 13.0, 9.0, 4.0, 34.0
AXIS, PAD = 30.0, 8.0
YEARS_APART = 46.0  # units that the number of a year takes, with air
WIDEST = 0.62  # the width of a letter in a short name, in sizes of its type
STEPS = (1, 2, 5, 10, 20, 25, 50, 100)
HIGHEST = 4  # marks that stand on each other; further ones share the top


class Look(Enum):
    """How a mark is drawn."""

    BAR = auto()
    DISC = auto()
    RING = auto()
    PREMIERE = auto()


@dataclass(frozen=True, slots=True)
class Mark:
    """Something from one day to another, the same where it is one day."""

    first: date
    last: date
    look: Look = Look.DISC

    @property
    def middle(self) -> date:
        return self.first + (self.last - self.first) / 2


@dataclass(frozen=True, slots=True)
class Lane:
    """One line of the picture: what it is called, and what stands in it."""

    name: str
    marks: tuple[Mark, ...]


@dataclass(frozen=True, slots=True)
class WorkYears:
    """What is drawn: lanes from above; those without marks are left out."""

    lanes: tuple[Lane, ...]

    @property
    def first_year(self) -> int:
        return min(mark.first.year for lane in self.lanes for mark in lane.marks)

    @property
    def last_year(self) -> int:
        return max(mark.last.year for lane in self.lanes for mark in lane.marks)

    def sketch(self, width: float = WIDE) -> Sketch:
        """Place everything for so many units; there is at least one mark."""
        lanes = [lane for lane in self.lanes if lane.marks]
        left = 2 * PAD + WIDEST * SIZE * max(len(lane.name) for lane in lanes)
        axis = Axis(self.first_year, self.last_year, left, width - PAD)
        parts: list[Part] = []
        y = -STEP
        for lane in lanes:
            rows = stacked([axis.along(mark.middle) for mark in lane.marks])
            y += ROW + STEP * max((row for row in rows), default=0)
            parts += [Words(0, y + SIZE / 3, lane.name, SIZE, "start")]
            parts += [part for mark, row in zip(lane.marks, rows, strict=True) for part in drawn(mark, axis, y, row)]
        return Sketch(width, y + AXIS + SIZE, (*axis.parts(y + AXIS / 2 + PAD), *parts))


@dataclass(frozen=True, slots=True)
class Axis:
    """The years from left to right, the last one to its end."""

    first_year: int
    last_year: int
    left: float
    right: float

    @property
    def years(self) -> int:
        return self.last_year - self.first_year + 1

    def along(self, day: date) -> float:
        start = date(self.first_year, 1, 1)
        whole = (date(self.last_year, 12, 31) - start) / timedelta(days=1)
        return self.left + (self.right - self.left) * ((day - start) / timedelta(days=1)) / whole

    def parts(self, y: float) -> list[Part]:
        """Return the line with the numbers of years, as many as have room, and a short stroke at each."""
        most = max(1, int((self.right - self.left) / YEARS_APART))
        step = next((step for step in STEPS if self.years / step <= most), STEPS[-1])
        shown = [year for year in range(self.first_year, self.last_year + 1) if year % step == 0] or [self.first_year]
        parts: list[Part] = [Stroke(((self.left, y), (self.right, y)))]
        for year in shown:
            begins, middle = self.along(date(year, 1, 1)), self.along(date(year, 7, 1))
            parts.append(Stroke(((begins, y), (begins, y + STEP / 2))))
            parts.append(
                Words(middle if step == 1 else max(begins, self.left + SIZE), y + SIZE + PAD / 2, str(year), SIZE)
            )
        return parts


def stacked(places: Sequence[float]) -> list[int]:
    """Return for each mark how many stand below it: those that would touch it stand upon each other.

    >>> stacked([10, 12, 30, 13])
    [0, 1, 0, 2]
    """
    rows: list[float] = []
    found: dict[int, int] = {}
    for index in sorted(range(len(places)), key=lambda one: places[one]):
        free = next((row for row, end in enumerate(rows) if places[index] - end >= 2 * RADIUS + 1), len(rows))
        row = min(free, HIGHEST - 1)
        rows[row : row + 1] = [places[index]]
        found[index] = row
    return [found[index] for index in range(len(places))]


def drawn(mark: Mark, axis: Axis, y: float, row: int) -> list[Part]:
    """Return the signs of a mark in the row above the line at y."""
    if mark.look is Look.BAR:
        start, end = axis.along(mark.first), axis.along(mark.last)
        return [box(start, y - RADIUS / 2, max(end - start, RADIUS), RADIUS, filled=True)]
    x, level = axis.along(mark.middle), y - STEP * row
    disc = Circle(x, level, RADIUS / 2, RADIUS)
    if mark.look is Look.RING:
        return [Circle(x, level, RADIUS, 1.4)]
    return [Circle(x, level, RADIUS + 3, 1.2), disc] if mark.look is Look.PREMIERE else [disc]
