"""Numbers of registries as a page shows them: as they were typed, and beside each what cannot be right with it."""

from __future__ import annotations

from dataclasses import dataclass

from catalogue.rules.identifiers import Identifier, doubt_about, write_identifier


@dataclass(frozen=True, slots=True)
class Number:
    """``doubt`` is a sentence about a wrong form or check digit, ``usual`` how the number is usually written.

    Both are empty where there is nothing to say.
    """

    kind: Identifier
    text: str
    doubt: str
    usual: str


def numbers(*typed: tuple[Identifier, str]) -> tuple[Number, ...]:
    """Return those of the numbers that are known."""
    return tuple(Number(kind, text, doubt_about(kind, text), usual_form(kind, text)) for kind, text in typed if text)


def usual_form(kind: Identifier, text: str) -> str:
    written = write_identifier(kind, text)
    return "" if written == text else written
