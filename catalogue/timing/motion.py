"""How time passes while music goes on: at a steady tempo, or at one that changes.

A position is a length of music from the beginning, in whole notes; a rate is whole notes a minute; time is seconds.

- steady at rate r:                     60·p/r
- from a to b evenly over n notes:      60·n/(b−a) · ln(1 + (b−a)·p/(n·a)), in all 60·n/(b−a) · ln(b/a)
- from a to b evenly in time:           r² grows evenly over the notes; in all 120·n/(a+b)

The last two are the integral of 1/r and the mean of a linear rate. Times that are not rational are rounded once, to the
nearest binary fraction, and exact from then on.
"""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction
from math import expm1, log1p, sqrt

from catalogue.timing.tempo_maps import Change, Measured


@dataclass(frozen=True, slots=True)
class Motion:
    """A passage in motion: ``length`` whole notes, from one rate to another."""

    length: Fraction
    start: Fraction
    end: Fraction
    change: Change | None = None

    @property
    def steady(self) -> bool:
        return self.change is None or self.start == self.end

    def seconds(self, position: Fraction) -> Fraction:
        """Return how long the music takes up to a position.

        >>> Motion(Fraction(6), Fraction(15), Fraction(23), Change.IN_TIME).seconds(Fraction(6))
        Fraction(360, 19)
        """
        if position <= 0:
            return Fraction(0)
        if self.steady:
            return 60 * position / self.start
        if self.change is Change.IN_TIME:
            return self._seconds_in_time(position)
        start, growth, length = float(self.start), float(self.end - self.start), float(self.length)
        return Fraction(60 * length / growth * log1p(growth * float(position) / (length * start)))

    def _seconds_in_time(self, position: Fraction) -> Fraction:
        if position == self.length:
            return 120 * self.length / (self.start + self.end)
        start, end, share = float(self.start), float(self.end), float(position / self.length)
        return Fraction(120 * float(position) / (start + sqrt(start**2 + (end**2 - start**2) * share)))

    def rate(self, position: Fraction) -> Fraction:
        """Return the rate at a position.

        >>> Motion(Fraction(6), Fraction(15), Fraction(23), Change.OVER_BEATS).rate(Fraction(3))
        Fraction(19, 1)
        """
        if self.steady:
            return self.start
        share = position / self.length
        if self.change is Change.IN_TIME:
            return Fraction(sqrt(self.start**2 + (self.end**2 - self.start**2) * share))
        return self.start + (self.end - self.start) * share

    def position(self, seconds: Fraction) -> Fraction:
        """Return how far the music has come after a time; the inverse of :meth:`seconds`."""
        if self.steady:
            return seconds * self.start / 60
        if self.change is Change.IN_TIME:
            total = 120 * self.length / (self.start + self.end)
            return seconds / 60 * (self.start + (self.end - self.start) * seconds / total / 2)
        growth = (self.end - self.start) / self.length
        return Fraction(float(self.start / growth) * expm1(float(growth * seconds / 60)))


def motion_of(passage: Measured) -> Motion:
    """Return the motion of all bars of a passage, without its hold."""
    length = passage.metre.length * (passage.last - passage.first + 1)
    towards = passage.towards or passage.tempo
    return Motion(length, passage.tempo.rate, towards.rate, passage.change)
