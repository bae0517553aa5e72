"""The letterhead of the house that sends a paper: its name, where it is and how it is reached, its registration."""

from __future__ import annotations

from catalogue.documents.model import Style, Text, joined, value
from catalogue.facts import ComposerFacts


def letterhead(composer: ComposerFacts) -> tuple[Text, ...]:
    """The lines of the composer's house that say something; none without a house."""
    house = composer.house
    if house is None:
        return ()
    reached = (*written_lines(house.address), house.telephone, house.email, house.website)
    lines = (value(house.name, Style.STRONG), joined(tuple(map(value, reached)), ", "), value(house.registration))
    return tuple(line for line in lines if line)


def written_lines(text: str) -> tuple[str, ...]:
    """The lines of an address as it was typed.

    >>> written_lines("4 Quay Street\\n\\n Leith ")
    ('4 Quay Street', 'Leith')
    """
    return tuple(line.strip() for line in text.splitlines() if line.strip())
