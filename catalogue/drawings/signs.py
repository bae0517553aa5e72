"""Signs of musical notation, drawn on a stave before a note.

Lengths in units of 250 to the stave space, the middle line at 0, y upwards as in the outlines; the SVG turns it over.
The outlines come from a font under the SIL Open Font License, whose text stands beside them, and from the forms that
are drawn by rule; names and code points are those of the Standard Music Font Layout.
"""

from __future__ import annotations

import json
import tomllib
from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from functools import cache
from pathlib import Path
from typing import Any
from xml.sax.saxutils import quoteattr

from catalogue.drawings.sign_forms import FORMS
from catalogue.drawings.sketch import Outline, Part, Sketch, Stroke

FOLDER = Path(__file__).parent
SPACE, LINES = 250, (-500, -250, 0, 250, 500)
EDGE, GAP, LINE_THICK, REACH = 120, 70, 32, 720
NOTE, CLEF = "E0A4", "E050"
KEY_WIDE, KEY_HIGH, KEY_TOP, KEY_NOTE = 20, 8.2, 2.2, 11.0
"""A stave of a notation key, in spaces: how wide and high it is, where its upper line lies, where the note stands."""
STEM, STEM_THICK, KEY_LINE, KEY_GAP = 3.5, 0.12, 0.13, 0.46
ABOVE = 0.75
"""How far above the stave a mark begins, in spaces."""
STEM_FROM = {
    "noteheadXBlack": 0.42, "noteheadTriangleUpBlack": -0.48, "noteheadTriangleDownBlack": 0.48,
    "noteheadSlashHorizontalEnds": 1.0,
}  # fmt: skip
"""How far above its middle a stem leaves a head that is no oval, in spaces."""
NOTES = {"beam": (8.0, 9.9, 11.6, 13.1), "over": (8.0, 13.4)}
"""Where the notes stand of a sign that takes several."""

Step = tuple[Any, ...]
Point = tuple[float, float]


@dataclass(frozen=True, slots=True)
class Sign:
    """A sign that can be drawn; ``cents`` is what it usually alters.

    ``place`` is where it stands: ``before`` the note, ``above`` it, on the ``stem``, as the ``beam`` of four notes, or
    ``over`` two notes. A notehead is the head itself.
    """

    code: str
    name: str
    words: str
    cents: int | None = None
    place: str = "before"

    @property
    def is_head(self) -> bool:
        return self.name.startswith("notehead")


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
    outlines = {
        code: Glyph(tuple(tuple(step) for step in one["path"]), one["adv"] * em)
        for code, one in found["glyphs"].items()
    }
    return outlines | {code: Glyph(steps, wide) for code, (steps, wide) in FORMS.items()}


def sign_drawing(name: str) -> SignDrawing | None:
    """Return an accidental before a note on the middle line, others alone; ``None`` for a sign that is not known."""
    sign = signs().get(name)
    if sign is None:
        return None
    shown = (sign.code, NOTE) if sign.place == "before" and not sign.is_head else (sign.code,)
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

    def noted(self, note: float, space: float) -> Iterator[Part]:
        """The note or notes with the sign where it belongs."""
        sign = signs()[self.name]
        glyph, head = glyphs()[sign.code], glyphs()[NOTE]
        if sign.is_head:
            yield outline(glyph, KEY_NOTE, note, space)
            if sign.name != "noteheadWhole":
                yield stem(KEY_NOTE + glyph.wide / SPACE, note, space, above=STEM_FROM.get(sign.name, 0.0))
            return
        for x in NOTES.get(sign.place, (KEY_NOTE,)):
            yield outline(head, x, note, space)
            yield stem(x + head.wide / SPACE, note, space)
        yield outline(glyph, *mark_place(sign, glyph, head, note), space)


def mark_place(sign: Sign, glyph: Glyph, head: Glyph, note: float) -> Point:
    """Where the origin of a sign lies that is no head, in spaces."""
    at_stem = head.wide / SPACE - STEM_THICK / 2
    middle = KEY_NOTE + (head.wide - glyph.wide) / SPACE / 2
    return {
        "above": (middle, KEY_TOP - ABOVE),
        "stem": (KEY_NOTE + at_stem, note - 2.1),
        "beam": (NOTES["beam"][0] + at_stem, note - STEM + 0.15),
        "over": (NOTES["over"][0] + 0.6, KEY_TOP - ABOVE),
    }.get(sign.place, (KEY_NOTE - KEY_GAP - glyph.wide / SPACE, note))


def stem(right: float, note: float, space: float, *, above: float = 0.0) -> Stroke:
    """A stem upwards at the right of a head, from so far above its middle."""
    x = right - STEM_THICK / 2
    return Stroke(((x * space, (note - above) * space), (x * space, (note - STEM) * space)), STEM_THICK * space)


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
