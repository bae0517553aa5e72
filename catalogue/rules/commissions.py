"""Commissions: whether what is noted of their days can be."""

from __future__ import annotations

from catalogue.timing import PartialDate


def due_too_early(agreed: PartialDate | None, due: PartialDate | None) -> str:
    """Return a sentence where a work was to be delivered before it was agreed upon, whatever the days are exactly.

    >>> from catalogue.timing import read_date
    >>> due_too_early(read_date("2026-06"), read_date("2025-05"))
    'It is to be delivered before it was agreed.'
    >>> due_too_early(read_date("2026-06"), read_date("2026"))
    ''
    """
    if agreed is None or due is None or due.last >= agreed.first:
        return ""
    return "It is to be delivered before it was agreed."
