"""A bar of a row: what has been is filled, what is to come stands hollow at its end.

A bar stands between a name and its figure, so it carries no words and says nothing that the figure does not. Lengths
are percentages, so that it takes the width that it is given; the longest bar of a list takes all of it.
"""

from __future__ import annotations

from dataclasses import dataclass

HIGH, EDGE = 12, 1.5  # pixels: a bar, and the stroke round its hollow end


@dataclass(frozen=True, slots=True)
class Bar:
    """How much of the width is filled and where the hollow end stops, in per cent."""

    filled: float
    end: float


def bar(past: int, coming: int, most: int) -> Bar:
    """Place a bar among others, of which the longest counts ``most``.

    >>> bar(3, 1, 8)
    Bar(filled=37.5, end=50.0)
    """
    whole = max(most, past + coming, 1)
    return Bar(round(past * 100 / whole, 2), round((past + coming) * 100 / whole, 2))


def to_svg(drawing: Bar) -> str:
    """Write a bar as an SVG element of a page."""
    filled = f'<rect class="ink" width="{drawing.filled:g}%" height="{HIGH}"/>' if drawing.filled else ""
    hollow = (
        f'<rect class="hollow" x="{drawing.filled:g}%" y="{EDGE / 2}" width="{drawing.end - drawing.filled:g}%" '
        f'height="{HIGH - EDGE}"/>'
    )
    marks = filled + (hollow if drawing.end > drawing.filled else "")
    return f'<svg class="bar" width="100%" height="{HIGH}" aria-hidden="true" focusable="false">{marks}</svg>'
