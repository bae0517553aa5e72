"""Electronics beside the players: which kind a work needs, and through how many channels.

Equipment that a text does not mention is no condition: it is told as a remark, not as something missing.
"""

from __future__ import annotations

import re
from collections.abc import Iterator

from catalogue.instrumentation.model import Instrumentation

NAMED = {"mono": 1, "monophonic": 1, "stereo": 2, "stereophonic": 2, "quad": 4, "quadraphonic": 4, "octophonic": 8}
KINDS = {"fixed": "fixed media", "live": "live electronics", "both": "fixed media and live electronics"}
SLUGS = {"fixed": "fixed-media", "live": "live-electronics", "both": "live-electronics"}


def channel_count(channels: str | None) -> int | None:
    """Return how many loudspeaker channels a text such as ``8``, ``5.1`` or ``stereo`` means, ``None`` if unsaid.

    >>> channel_count("8"), channel_count("5.1"), channel_count("stereo"), channel_count(None)
    (8, 6, 2, None)
    """
    if not channels:
        return None
    if channels.strip().lower() in NAMED:
        return NAMED[channels.strip().lower()]
    figures = re.match(r"\s*(\d{1,4})(?:\.(\d{1,2}))?(?!\d)", channels)
    return int(figures[1]) + int(figures[2] or 0) if figures else None


def electronics_missing(work: Instrumentation, available: Instrumentation) -> Iterator[tuple[str, str]]:
    """Yield (instrument, why) for what the available electronics lack; nothing where they are not mentioned."""
    if work.electronics == "none" or available.electronics == "none":
        return
    offered = {slug for line in available.lines for slug in (line.instrument, *line.alternatives)}
    live = available.electronics != "fixed" or "live-electronics" in offered
    if work.electronics in ("live", "both") and not live:
        yield "live-electronics", "Live electronics are needed; only fixed media are available."
    wanted, there = channel_count(work.channels), channel_count(available.channels)
    if wanted is not None and there is not None and wanted > there:
        yield SLUGS.get(work.electronics, "electronics"), f"{wanted} channels are needed; {there} are available."


def electronics_remarks(work: Instrumentation, available: Instrumentation) -> Iterator[str]:
    """Yield a sentence where the work needs electronics of which the available forces say nothing."""
    if work.electronics == "none":
        return
    kind = KINDS.get(work.electronics, "electronics")
    if available.electronics == "none":
        channels = f" ({work.channels} channels)" if work.channels else ""
        yield f"The work needs {kind}{channels}, of which the available forces say nothing."
    elif work.channels and not available.channels:
        yield f"The work needs {work.channels} channels; the available forces do not say how many there are."
