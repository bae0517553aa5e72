"""The few facts without which a document must not be made."""

from __future__ import annotations


class DocumentNeeds(ValueError):
    """A document that cannot be made, with what is missing.

    ``reason`` is one sentence for whoever asked for the document; ``missing`` names each fact.
    """

    def __init__(self, reason: str, missing: tuple[str, ...]) -> None:
        super().__init__(reason)
        self.reason = reason
        self.missing = missing
