"""Sketches as pictures: shapes are filled, their holes stay open, the same sketch gives the same bytes."""

from __future__ import annotations

from io import BytesIO

from PIL import Image

from catalogue.documents.renderers.bitmaps import PIXELS, sketch_png
from catalogue.drawings.sketch import Outline, Sketch


def square(start: float, end: float) -> tuple[tuple[str, tuple[float, ...]], ...]:
    return (("M", (start, start)), ("L", (end, start)), ("L", (end, end)), ("L", (start, end)), ("Z", ()))


def ink_at(sketch: Sketch, *places: float) -> list[bool]:
    image = Image.open(BytesIO(sketch_png(sketch)))
    return [image.getpixel((round(place * PIXELS), round(place * PIXELS))) == 0 for place in places]


def test_a_shape_is_black_and_its_hole_white() -> None:
    ring = Sketch(20, 20, (Outline((*square(2, 18), *square(8, 12))),))

    assert ink_at(ring, 1, 5, 10, 15) == [False, True, False, True]


def test_a_curve_bulges_as_it_is_drawn() -> None:
    bow = Outline((("M", (0, 10)), ("C", (0, 0, 20, 0, 20, 10)), ("Z", ())))

    assert ink_at(Sketch(20, 20, (bow,)), 9, 11) == [True, False]


def test_the_same_sketch_gives_the_same_bytes() -> None:
    sketch = Sketch(20, 20, (Outline(square(2, 18)),))

    assert sketch_png(sketch) == sketch_png(sketch)
