"""Player strips and timelines as sketches, for paper and for files that hold pictures only.

The marks are those of the page, at the same places.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from itertools import chain
from math import cos, pi, sin

from catalogue.drawings import player_strip
from catalogue.drawings.player_strip import Point, Span, Strip
from catalogue.drawings.sketch import Anchor, Circle, Part, Sketch, Stroke, Words
from catalogue.drawings.timeline import (
    CUE_BELOW,
    CUE_ROW,
    CUE_TICK,
    FIGURE_AFTER,
    FREE,
    MINUTE_BELOW,
    TICK,
    Picture,
)
from catalogue.drawings.timeline import FIGURE as FIGURE_WIDE
from catalogue.drawings.timeline import Words as TimelineWords

CORNERS = 24
"""Corners of the polygon that stands for a disc; at the size of a strip no eye tells them."""


@dataclass(frozen=True, slots=True)
class TimelineLook:
    """The type and the strokes of a timeline, in units; names are set in italics where paper has them so."""

    name: float = 13.0
    figure: float = 10.0
    curve: float = 1.2
    line: float = 1.2
    tick: float = 0.8
    slanting: bool = False


USUAL = TimelineLook()


def strip_sketch(strip: Strip, scale: float) -> Sketch:
    """The strip with ``scale`` units of the sketch to one of its own."""
    marks: Iterator[Part] = chain(
        (level(line, player_strip.LINE_THICK, scale) for line in strip.lines),
        (level(bar, player_strip.BAR_THICK, scale) for bar in strip.bars),
        (disc(one, player_strip.DISC, scale) for one in strip.discs),
        (disc(one, player_strip.SMALL, scale) for one in strip.small),
        (
            Circle(one.x * scale, one.y * scale, player_strip.RING * scale, player_strip.RING_THICK * scale)
            for one in strip.rings
        ),
        (triangle(one, scale) for one in strip.triangles),
    )
    return Sketch(strip.width * scale, strip.height * scale, tuple(marks))


def level(span: Span, thick: float, scale: float) -> Stroke:
    return Stroke(((span.x * scale, span.y * scale), (span.end * scale, span.y * scale)), thick * scale)


def disc(centre: Point, radius: float, scale: float) -> Stroke:
    turns = [2 * pi * corner / CORNERS for corner in range(CORNERS)]
    points = tuple(((centre.x + radius * cos(turn)) * scale, (centre.y + radius * sin(turn)) * scale) for turn in turns)
    return Stroke(points, 0, closed=True, filled=True)


def ring(centre: Point, scale: float) -> Circle:
    return Circle(centre.x * scale, centre.y * scale, player_strip.RING * scale, player_strip.RING_THICK * scale)


def triangle(left: Point, scale: float) -> Stroke:
    half = player_strip.TRIANGLE_HIGH / 2
    corners = ((left.x, left.y - half), (left.x + player_strip.TRIANGLE_WIDE, left.y), (left.x, left.y + half))
    return Stroke(tuple((x * scale, y * scale) for x, y in corners), 0, closed=True, filled=True)


def timeline_sketch(picture: Picture, look: TimelineLook = USUAL) -> Sketch:
    """The timeline as wide as it was placed for."""
    drawn = RedrawnTimeline(picture, look)
    return Sketch(picture.width, picture.height, tuple(drawn.parts()))


class RedrawnTimeline:
    """Draws the marks of one timeline; places along it are given in per cent."""

    def __init__(self, picture: Picture, look: TimelineLook) -> None:
        self.picture, self.look = picture, look

    def x(self, share: float) -> float:
        return share * self.picture.width / 100

    def parts(self) -> Iterator[Part]:
        picture, look = self.picture, self.look
        line, minutes = picture.line, picture.minutes_line
        yield from (Stroke(tuple((self.x(x), y) for x, y in one), look.curve) for one in picture.curve if len(one) > 1)
        yield from (self.figure(*one) for one in picture.figures)
        yield from self.line()
        for section in picture.sections:
            yield self.tick(section.x, line - TICK, line)
            yield from self.name(section, line - 4)
        for cue in picture.cues:
            yield self.tick(cue.x, line, line + CUE_TICK)
            yield from self.number(cue, line + CUE_BELOW + CUE_ROW * cue.row)
        for minute in picture.minutes:
            yield self.tick(minute.x, minutes, minutes + 5)
            yield from self.number(minute, minutes + MINUTE_BELOW - 2)

    def figure(self, share: float, y: float, said: str) -> Words:
        """A tempo where it is reached; one that has no room at the right end stands before that."""
        x = self.x(share) + FIGURE_AFTER
        is_last = x + len(said) * FIGURE_WIDE > self.picture.width
        place = self.picture.width if is_last else x
        return Words(place, y - 5, said, self.look.figure, "end" if is_last else "start")

    def line(self) -> Iterator[Part]:
        """The line, whole where the bar leads, two thin strokes where the clock does."""
        end, y, thick = 0.0, self.picture.line, self.look.line
        for start, until in self.picture.free:
            yield Stroke(((self.x(end), y), (self.x(start), y)), thick)
            sides = (-FREE, FREE)
            yield from (Stroke(((self.x(start), y + side), (self.x(until), y + side)), thick / 2) for side in sides)
            end = until
        if end < 100:
            yield Stroke(((self.x(end), y), (self.x(100), y)), thick)

    def tick(self, share: float, start: float, end: float) -> Stroke:
        return Stroke(((self.x(share), start), (self.x(share), end)), self.look.tick)

    def name(self, told: TimelineWords, y: float) -> Iterator[Words]:
        if told.words:
            yield Words(self.x(told.x) + 4, y, told.words, self.look.name, "start", italic=self.look.slanting)

    def number(self, told: TimelineWords, y: float) -> Iterator[Words]:
        if told.words:
            yield Words(self.x(told.x), y, told.words, self.look.figure, beside(told))


def beside(told: TimelineWords) -> Anchor:
    """Where words stand at their place: before it at the right end, after it at the left one, else in the middle."""
    return "end" if told.before else "middle" if told.x > 0.5 else "start"
