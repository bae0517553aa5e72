"""What an import has done, or would do: row by row, and together."""

from __future__ import annotations

from collections import Counter
from dataclasses import dataclass
from enum import StrEnum

from catalogue.exchange.columns import Kind
from catalogue.exchange.problems import Problem


class Outcome(StrEnum):
    NEW = "new"
    CHANGED = "changed"
    SAME = "same"


@dataclass(frozen=True, slots=True)
class Done:
    """One row: its number, what it is about, and what became of it."""

    row: int
    title: str
    outcome: Outcome


@dataclass(frozen=True, slots=True)
class Report:
    """``stored`` is false where there are errors, and in a trial run. ``asked`` counts bare durations left unread."""

    kind: Kind
    done: tuple[Done, ...]
    errors: tuple[Problem, ...]
    warnings: tuple[Problem, ...]
    unknown_columns: tuple[str, ...]
    rows: int
    asked: int
    stored: bool

    def count(self, outcome: Outcome) -> int:
        return Counter(one.outcome for one in self.done)[outcome]
