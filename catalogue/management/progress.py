"""How far a long job has come: one line on a terminal, nothing elsewhere."""

from __future__ import annotations

from time import monotonic
from typing import Any, Self

QUIET_FOR = 2.0  # seconds in which a job is simply done
BETWEEN = 0.2
WIDTH = 30


class Progress:
    """A bar on the standard error of a terminal, for what takes longer than two seconds; without ``total``, a count."""

    def __init__(self, stream: Any, what: str, *, total: int | None) -> None:
        self.stream, self.what, self.total = stream, what, total
        self.done = 0
        self.next_at = monotonic() + QUIET_FOR
        self.shown = False
        self.on_terminal = stream.isatty()

    def __enter__(self) -> Self:
        return self

    def __exit__(self, *_fault: object) -> None:
        if self.shown:
            self.stream.write("\r" + " " * (len(self.what) + WIDTH + 30) + "\r", ending="")

    def step(self) -> None:
        self.done += 1
        if self.on_terminal and monotonic() >= self.next_at:
            self.next_at = monotonic() + BETWEEN
            self.shown = True
            self.stream.write("\r" + self.line(), ending="")

    def line(self) -> str:
        if self.total is None:
            return f"{self.what}: {self.done}"
        filled = WIDTH * min(self.done, self.total) // max(self.total, 1)
        return f"{self.what} [{'#' * filled}{'.' * (WIDTH - filled)}] {self.done} of {self.total}"
