"""What a reading of a call's words says of people: players or not, named or only *any instrument*, how many."""

from __future__ import annotations

from catalogue.instrumentation import Instrumentation
from catalogue.instrumentation.playing import choice_families


def is_players(found: Instrumentation) -> bool:
    """Whether a reading is one of people who play or sing, not of a device or a bare number."""
    return any(line.family != "electronics" and line.instrument != "conductor" for line in found.lines)


def is_named(found: Instrumentation) -> bool:
    """Whether a reading names instruments or voices, not only *any instrument* or *a wind instrument*."""
    people = [line for line in found.lines if line.family != "electronics"]
    return is_players(found) and not all(choice_families(line.instrument) for line in people)


def most_of(found: Instrumentation) -> int:
    return sum(line.players[1] if line.players else 4 for line in found.lines)


def is_loose(found: Instrumentation) -> bool:
    """Whether a reading has kept words as a remark, which a call's sentence rarely means."""
    return any(
        (line.note and not line.note.startswith(("max", "any"))) or any(chair.note for chair in line.chairs)
        for line in found.lines
    )
