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

from catalogue.drawings.sketch import Outline, Part, Sketch, Stroke

FOLDER = Path(__file__).parent
SPACE, LINES = 250, (-500, -250, 0, 250, 500)
EDGE, GAP, LINE_THICK, REACH = 120, 70, 32, 720
NOTE, CLEF = "E0A4", "E050"
KEY_WIDE, KEY_HIGH, KEY_TOP, KEY_NOTE = 20, 8.2, 2.2, 11.0
"""A stave of a notation key, in spaces: how wide and high it is, where its upper line lies, where the note stands."""
STEM, STEM_THICK, KEY_LINE, KEY_GAP = 3.5, 0.12, 0.13, 0.46

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


@dataclass(frozen=True, slots=True)
class KeyStave:
    """A sign of a notation key on a stave with a treble clef: before the note g′, or as its head."""

    name: str

    def sketch(self, width: float) -> Sketch:
        """Draw the stave so many units wide."""
        space = width / KEY_WIDE
        note = KEY_TOP + 3
        lines = (KEY_TOP + place for place in range(5))
        parts: list[Part] = [Stroke(((0, y * space), (width, y * space)), KEY_LINE * space) for y in lines]
        parts.append(outline(glyphs()[CLEF], 0.5, note, space))
        parts += self.noted(note, space)
        return Sketch(width, KEY_HIGH * space, tuple(parts))

    def noted(self, note: float, space: float) -> list[Part]:
        sign = signs()[self.name]
        glyph = glyphs()[sign.code]
        is_head = sign.name.startswith("notehead")
        head = glyph if is_head else glyphs()[NOTE]
        found: list[Part] = [outline(head, KEY_NOTE, note, space)]
        if not is_head:
            found.append(outline(glyph, KEY_NOTE - KEY_GAP - glyph.wide / SPACE, note, space))
        if sign.name != "noteheadWhole":
            x = KEY_NOTE + head.wide / SPACE - STEM_THICK / 2
            found.append(Stroke(((x * space, note * space), (x * space, (note - STEM) * space)), STEM_THICK * space))
        return found


def key_stave(name: str) -> KeyStave | None:
    """Return a sign as a notation key shows it; ``None`` for one that is not known."""
    return KeyStave(name) if name in signs() else None


def outline(glyph: Glyph, x: float, y: float, space: float) -> Outline:
    """Place an outline with its origin at x and y in spaces, ``space`` units to the space."""

    def there(numbers: list[float]) -> tuple[float, ...]:
        units = (number / SPACE for number in numbers)
        return tuple((y - one if place % 2 else x + one) * space for place, one in enumerate(units))

    return Outline(tuple((letter, there(numbers)) for letter, *numbers in glyph.steps))


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
