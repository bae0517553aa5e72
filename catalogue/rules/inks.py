"""The one colour that stands beside black on a composer's papers, and whether it can be read on white.

The contrast is that of the Web Content Accessibility Guidelines 2.2 (relative luminance; success criterion 1.4.3).
"""

from __future__ import annotations

import re

WRITTEN = re.compile(r"#?([0-9a-fA-F]{6})")
LEAST = 4.5
"""The contrast that text of any size needs on its ground (success criterion 1.4.3)."""

Colour = tuple[float, float, float]


class InkError(ValueError):
    """A text that is no colour, or a colour too pale to be read on paper."""

    def __init__(self, reason: str, text: str) -> None:
        super().__init__(reason)
        self.reason, self.text, self.start, self.end = reason, text, 0, len(text)


def read_ink(text: str) -> str:
    """A colour as six hexadecimal digits after a hash. Raises InkError.

    >>> read_ink(" 45388A ")
    '#45388a'
    """
    found = WRITTEN.fullmatch(text.strip())
    if found is None:
        raise InkError(
            "Write a colour as six digits from 0 to f, two each for red, green and blue, such as #45388a.", text
        )
    ink = f"#{found[1].lower()}"
    contrast = contrast_on_white(colour(ink))
    if contrast < LEAST:
        reason = f"This colour is too pale: its contrast on white is {contrast:.1f} to 1, and text needs {LEAST} to 1."
        raise InkError(reason, text)
    return ink


def colour(ink: str) -> Colour:
    """Red, green and blue, from 0 to 1.

    >>> colour("#ff0033")
    (1.0, 0.0, 0.2)
    """
    red, green, blue = (int(ink[start : start + 2], 16) / 255 for start in (1, 3, 5))
    return red, green, blue


def hexadecimal(shade: Colour) -> str:
    """A colour as six digits after a hash.

    >>> hexadecimal((1.0, 0.0, 0.2))
    '#ff0033'
    """
    return "#" + "".join(f"{round(part * 255):02x}" for part in shade)


def contrast_on_white(shade: Colour) -> float:
    """How much darker than white a colour is: 1 for white, 21 for black."""
    linear = [part / 12.92 if part <= 0.04045 else ((part + 0.055) / 1.055) ** 2.4 for part in shade]
    luminance = 0.2126 * linear[0] + 0.7152 * linear[1] + 0.0722 * linear[2]
    return 1.05 / (luminance + 0.05)
