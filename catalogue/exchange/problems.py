"""What an import has to say of a row: errors, which store nothing, and warnings, each at its row and column."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field

from catalogue.exchange.columns import Row


@dataclass(frozen=True, slots=True, order=True)
class Problem:
    """``row`` as the spreadsheet program numbers it, ``column`` by its header; ``message`` is one sentence."""

    row: int
    column: str
    message: str


@dataclass(slots=True)
class Problems:
    """Collects the problems of a table; ``headers`` are its headers by column."""

    headers: Mapping[str, str]
    errors: list[Problem] = field(default_factory=list)
    warnings: list[Problem] = field(default_factory=list)

    def fail(self, row: Row, column: str, message: str) -> None:
        self.errors.append(Problem(row.number, self.headers.get(column, column), message))

    def warn(self, row: Row, column: str, message: str) -> None:
        self.warnings.append(Problem(row.number, self.headers.get(column, column), message))
