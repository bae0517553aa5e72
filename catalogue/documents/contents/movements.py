"""The numerals of movements, which stand before a name that does not begin with its own number."""

from __future__ import annotations

import re


def numeral_beside(number: int, name: str) -> str:
    """The Roman numeral of a movement; nothing where its name says which it is.

    >>> numeral_beside(2, "Slack"), numeral_beside(2, "Scene 2: Lunch"), numeral_beside(2, "II. Slack")
    ('II', '', '')
    >>> numeral_beside(1, "Psalm 23")
    'I'
    """
    own = rf"\s*(?:[^\W\d]+ )?(?:{number}|{roman(number)})\b"
    return "" if re.match(own, name, re.IGNORECASE) else roman(number)


def roman(number: int) -> str:
    """A number in Roman numerals.

    >>> roman(14)
    'XIV'
    """
    written = ""
    for worth, sign in zip(
        (100, 90, 50, 40, 10, 9, 5, 4, 1), ["C", "XC", "L", "XL", "X", "IX", "V", "IV", "I"], strict=True
    ):
        times, number = divmod(number, worth)
        written += sign * times
    return written
