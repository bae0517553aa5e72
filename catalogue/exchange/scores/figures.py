"""Text and numbers inside the elements of a score, read with patience: what is no number counts as none."""

from __future__ import annotations

import re
from fractions import Fraction
from typing import Any

FIGURE = re.compile(r"\d{1,4}(?:\.\d{1,6})?")
MOST_DIGITS = 12

Element = Any  # lxml ships no types


def text_of(element: Element) -> str:
    """Return an element's text on one line, "" for none."""
    if element is None:
        return ""
    written = "".join(element.itertext()) if len(element) else element.text or ""
    return " ".join(written.split())[:500]


def figure(text: str | None) -> Fraction | None:
    """Return the first figure in a text (``"c. 60-66"`` is 60), ``None`` where there is none or it is nought."""
    found = FIGURE.search(text or "")
    return (Fraction(found[0]) or None) if found else None


def ticks(text: str | None) -> Fraction | int:
    """Return a number of divisions; what is no length counts as none."""
    if not text or len(text) > MOST_DIGITS:
        return 0
    try:
        return max(int(text), 0)
    except ValueError:
        return figure(text) or 0
