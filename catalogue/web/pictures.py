"""Drawings as they stand in a page."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import date
from functools import lru_cache
from typing import Any

from django.utils.safestring import SafeString, mark_safe

from catalogue.documents.contents import forces
from catalogue.documents.labels import labels
from catalogue.drawings import ninety_days, timeline
from catalogue.drawings.player_strip import Strip, counted, player_strip, to_svg
from catalogue.instrumentation import Instrumentation

IN_A_LIST, IN_A_KEY = 1.2, 1.6  # pixels to the unit
SIGNS = (
    (forces.SAMPLE_DISC, "a player"),
    (forces.SAMPLE_RING, "a player who also plays another instrument"),
    (forces.SAMPLE_ABOVE, "a soloist, above the line"),
    (forces.SAMPLE_SMALL, "a player who may be left out"),
    (forces.SAMPLE_CHOIR, "a choir part"),
    (forces.SAMPLE_OPEN, "a section of open size"),
    (forces.SAMPLE_MEDIA, "electronics"),
)


@lru_cache(maxsize=4096)
def strip_svg(instrumentation: Instrumentation, scale: float, title: str = "") -> SafeString:
    """Draw the players; ``title`` is read to those who cannot see them (by default how many they are)."""
    return svg_of(player_strip(instrumentation, title or counted(instrumentation)), scale)


def svg_of(drawing: Strip, scale: float) -> SafeString:
    return drawn(to_svg(drawing, scale=scale))


def drawn(svg: str) -> SafeString:
    """Let a drawing into a page: it is made of numbers, and its texts are escaped where they are drawn."""
    return mark_safe(svg)  # noqa: S308 - as said above


def line_svg(
    today: date, concerts: Sequence[ninety_days.Concert], due: Sequence[date], *, title: str, **words: Any
) -> SafeString:
    """Draw the line of the coming days twice, for wide pages and for narrow ones; a page shows one of them."""
    pictures = (
        ninety_days.ninety_days(today, concerts, due, width=width) for width in (ninety_days.WIDE, ninety_days.NARROW)
    )
    return drawn("".join(ninety_days.to_svg(picture, title=title, **words) for picture in pictures))


def course_svg(course: timeline.Course, *, title: str) -> SafeString:
    """Draw a work's timeline twice, for wide pages and for narrow ones; a page shows one of them."""
    widths = (("roomy", timeline.WIDE), ("tight", timeline.NARROW))
    pictures = [(look, timeline.timeline(course, width=width)) for look, width in widths]
    return drawn("".join(timeline.to_svg(picture, title=title, look=look) for look, picture in pictures))


@lru_cache(maxsize=16)
def strip_key(language: str) -> tuple[tuple[SafeString, str], ...]:
    """Return each mark of the player strip with what it means, in the words that documents use."""
    says = labels(language)
    return tuple((svg_of(drawing, IN_A_KEY), says.word(meaning)) for drawing, meaning in SIGNS)
