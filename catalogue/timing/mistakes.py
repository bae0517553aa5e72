"""A typed text that cannot be read: one sentence for the person who typed it, and the place."""

from __future__ import annotations


class Mistake(ValueError):
    """A text that cannot be read between ``start`` and ``end`` (characters, counted from 0).

    ``reason`` is one sentence that a form shows unchanged.

    >>> print(Mistake("“x” is no number.", "12 x", 3, 4))
    “x” is no number.
    12 x
       ^
    """

    def __init__(self, reason: str, text: str, start: int, end: int) -> None:
        super().__init__(reason)
        self.reason = reason
        self.text = text
        self.start = start
        self.end = end

    def __str__(self) -> str:
        return f"{self.reason}\n{self.text}\n{' ' * self.start}{'^' * max(1, self.end - self.start)}"
