"""What an import has done, or would do: row by row, and together."""

from __future__ import annotations

from collections import Counter
from dataclasses import dataclass
from enum import StrEnum

from catalogue.exchange.columns import Heading, Kind
from catalogue.exchange.problems import Problem


class Outcome(StrEnum):
    """What became of a row."""

    NEW = "new"
    CHANGED = "changed"
    SAME = "same"


@dataclass(frozen=True, slots=True)
class Done:
    """One row: its number, what it is about, what became of it, and the number of the record."""

    row: int
    title: str
    outcome: Outcome
    record: int = 0


@dataclass(frozen=True, slots=True)
class Report:
    """``stored`` is false where there are errors, and in a trial run. ``asked`` counts bare durations left unread,

    ``others`` the rows that name another composer than the chosen one.
    """

    kind: Kind
    done: tuple[Done, ...]
    errors: tuple[Problem, ...]
    warnings: tuple[Problem, ...]
    unknown_columns: tuple[str, ...]
    rows: int
    asked: int
    stored: bool
    heading: Heading
    others: int = 0

    def count(self, outcome: Outcome) -> int:
        return Counter(one.outcome for one in self.done)[outcome]
