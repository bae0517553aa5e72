"""What is refused, and the one sentence that says why."""

from __future__ import annotations


class Refused(ValueError):
    """Something that cannot be done or read; ``reason`` is one sentence that a form shows unchanged."""

    def __init__(self, reason: str) -> None:
        super().__init__(reason)
        self.reason = reason
