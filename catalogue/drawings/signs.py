"""Signs of musical notation, drawn on a stave before a note.

Lengths in units of 250 to the stave space, the middle line at 0, y upwards as in the outlines; the SVG turns it over.
The outlines come from a font under the SIL Open Font License, whose text stands beside them; names and code points are
those of the Standard Music Font Layout.
"""

from __future__ import annotations

import json
import tomllib
from collections.abc import Iterable
from dataclasses import dataclass
from functools import cache
from pathlib import Path
from typing import Any
from xml.sax.saxutils import quoteattr

FOLDER = Path(__file__).parent
SPACE, LINES = 250, (-500, -250, 0, 250, 500)
EDGE, GAP, LINE_THICK, REACH = 120, 70, 32, 720
NOTE = "E0A4"

Step = tuple[Any, ...]


@dataclass(frozen=True, slots=True)
class Sign:
    """A sign that can be drawn; ``cents`` is what it usually alters."""

    code: str
    name: str
    words: str
    cents: int | None = None


@dataclass(frozen=True, slots=True)
class Glyph:
    """An outline of moves, lines and curves, and how far the next one stands from it."""

    steps: tuple[Step, ...]
    wide: float


@dataclass(frozen=True, slots=True)
class SignDrawing:
    """Outlines with the place of each, on a stave as wide as the drawing."""

    width: float
    placed: tuple[tuple[float, Glyph], ...]


@cache
def signs() -> dict[str, Sign]:
    """Return the signs that can be drawn, by name, in the order of their code points."""
    rows = tomllib.loads((FOLDER / "signs.toml").read_text(encoding="utf-8"))["sign"]
    return {row["name"]: Sign(**row) for row in rows}


@cache
def glyphs() -> dict[str, Glyph]:
    found = json.loads((FOLDER / "sign_outlines.json").read_text(encoding="utf-8"))
    em = found["unitsPerEm"]
    return {
        code: Glyph(tuple(tuple(step) for step in one["path"]), one["adv"] * em)
        for code, one in found["glyphs"].items()
    }


def sign_drawing(name: str) -> SignDrawing | None:
    """Return the sign before a note on the middle line, a notehead alone; ``None`` for a sign that is not known."""
    sign = signs().get(name)
    if sign is None:
        return None
    shown = (sign.code,) if sign.name.startswith("notehead") else (sign.code, NOTE)
    placed, x = [], float(EDGE)
    for code in shown:
        glyph = glyphs()[code]
        placed.append((x, glyph))
        x += glyph.wide + GAP
    return SignDrawing(x - GAP + EDGE, tuple(placed))


def to_svg(drawing: SignDrawing, *, scale: float, title: str) -> str:
    """Write a drawing as SVG, ``scale`` pixels to the stave space; ``title`` is read to those who cannot see it."""
    wide, high = drawing.width / SPACE * scale, 2 * REACH / SPACE * scale
    stave = "".join(f"M0 {-y}H{number(drawing.width)}" for y in LINES)
    outlines = "".join(svg_path(glyph.steps, x) for x, glyph in drawing.placed)
    return (
        f'<svg class="sign" width="{number(wide)}" height="{number(high)}" '
        f'viewBox="0 {-REACH} {number(drawing.width)} {2 * REACH}" role="img" aria-label={quoteattr(title)}>'
        f'<path d="{stave}" stroke="currentColor" stroke-width="{LINE_THICK}" fill="none"/>'
        f'<path d="{outlines}" fill="currentColor"/></svg>'
    )


def svg_path(steps: Iterable[Step], x: float) -> str:
    return "".join(letter + " ".join(placed(numbers, x)) for letter, *numbers in steps)


def placed(numbers: list[float], x: float) -> list[str]:
    """Move across and turn over: x and y by turns."""
    return [number(-value if place % 2 else value + x) for place, value in enumerate(numbers)]


def number(value: float) -> str:
    return f"{value:.2f}".rstrip("0").rstrip(".")
