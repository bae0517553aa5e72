"""Drawings as they stand in a page."""

from __future__ import annotations

from functools import lru_cache

from django.utils.safestring import SafeString, mark_safe

from catalogue.drawings.player_strip import counted, player_strip, to_svg
from catalogue.instrumentation import Instrumentation

IN_A_LIST, IN_A_READING, IN_A_TITLE = 1.2, 2.0, 3.0  # pixels to the unit


@lru_cache(maxsize=4096)
def strip_svg(instrumentation: Instrumentation, scale: float, title: str = "") -> SafeString:
    """Draw the players; ``title`` is read to those who cannot see them (by default how many they are)."""
    drawing = player_strip(instrumentation, title or counted(instrumentation))
    return mark_safe(to_svg(drawing, scale=scale))  # noqa: S308 - made of numbers, and the title is escaped there
