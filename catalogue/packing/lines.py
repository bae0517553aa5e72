"""One line of a pack: what the call asks for, and the file that answers it or what is missing."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from enum import StrEnum

from catalogue.exchange.zip_stream import Content
from catalogue.rules.calls.packs import Asked, Part, Piece

Make = Callable[[], Content]


class State(StrEnum):
    """How it stands with something that a call asks for."""

    IN = "in the pack"
    READY = "ready"
    LACKS = "lacks"
    TO_DO = "to be done by you"
    LEFT_OUT = "left out"


@dataclass(frozen=True, slots=True)
class Draft:
    """A file as it will be: what it is made from in words, and how its content is got."""

    part: Part
    told: str
    content: Make
    suffix: str = "pdf"


@dataclass(frozen=True, slots=True)
class Gap:
    """What is not there: the reason, what would mend it, and where (the kind of record, as pages call it)."""

    reason: str
    mend: str = ""
    place: str = ""
    state: State = State.LACKS


@dataclass(frozen=True, slots=True)
class Line:
    """A line of the pack. ``file`` is the name there, empty where there is no file."""

    asked: Asked
    state: State
    told: str
    work: str = ""
    work_id: int | None = None
    mend: str = ""
    place: str = ""
    file: str = ""
    draft: Draft | None = None

    @property
    def piece(self) -> Piece:
        return self.asked.piece

    @property
    def is_open(self) -> bool:
        """Whether something is still to be done about it."""
        return self.state in (State.LACKS, State.TO_DO)
