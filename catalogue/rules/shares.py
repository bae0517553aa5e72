"""Shares of those who made a work, as they are registered: together never more than the whole."""

from __future__ import annotations

from collections.abc import Iterable
from decimal import Decimal

WHOLE = Decimal(100)


def shares_disagree(shares: Iterable[Decimal | None]) -> str:
    """Return a sentence where the shares of the others leave nothing for the composer, or less than nothing.

    >>> shares_disagree([Decimal(50), None, Decimal("16.667")])
    ''
    >>> shares_disagree([Decimal(60), Decimal(50)])
    'The shares come to 110 per cent, 10 more than the whole.'
    """
    total = sum((share for share in shares if share is not None), Decimal(0))
    if total <= WHOLE:
        return ""
    return f"The shares come to {plain(total)} per cent, {plain(total - WHOLE)} more than the whole."


def plain(number: Decimal) -> str:
    return f"{number.normalize():f}"
