"""What tests compare of a reading: the players of each instrument, ``None`` where they are open."""

from __future__ import annotations

from catalogue.instrumentation import read


def counts(text: str) -> dict[str, int | None]:
    """Return the most players of each instrument of a text, string sections by name."""
    return {line.instrument: line.players[1] if line.players else None for line in read(text).lines}
