"""Whether the words that a work sets may be printed on a day.

A text is cleared where its permission is granted and has not run out, where it is free of rights, or where it is the
composer's own. A translation has a right of its own (Berne Convention, article 2(3)) and is cleared by itself.
"""

from __future__ import annotations

from datetime import date

from catalogue.record_facts import TextSourceFacts
from catalogue.terms import Clearance
from catalogue.timing import PartialDate

FREE = (Clearance.PUBLIC_DOMAIN, Clearance.OWN_TEXT)


def may_be_printed(clearance: Clearance, expires: PartialDate | None, today: date) -> bool:
    """Say whether a text is cleared on a day; ``expires`` is the last day of the permission."""
    if clearance is Clearance.GRANTED:
        return expires is None or expires.last >= today
    return clearance in FREE


def doubt_about_permission(
    clearance: Clearance, granted: PartialDate | None, expires: PartialDate | None, today: date
) -> str:
    """Return a sentence where a permission that was granted has run out, or cannot have been as it is noted.

    >>> from catalogue.timing import read_date
    >>> doubt_about_permission(Clearance.GRANTED, read_date("2020"), read_date("2024"), date(2026, 3, 9))
    'The permission has run out: the words are not printed until it is granted anew.'
    >>> doubt_about_permission(Clearance.GRANTED, read_date("2026"), read_date("2025"), date(2026, 3, 9))
    'The permission ends before it was granted.'
    >>> doubt_about_permission(Clearance.GRANTED, read_date("2020"), read_date("2026"), date(2026, 3, 9))
    ''
    """
    if clearance is not Clearance.GRANTED or expires is None:
        return ""
    if granted is not None and expires.last < granted.first:
        return "The permission ends before it was granted."
    if not may_be_printed(clearance, expires, today):
        return "The permission has run out: the words are not printed until it is granted anew."
    return ""


def words_may_be_printed(source: TextSourceFacts, today: date) -> bool:
    """Say whether the words are there and may be printed."""
    return bool(source.body.strip()) and may_be_printed(source.clearance, source.expires, today)


def translation_may_be_printed(source: TextSourceFacts, today: date) -> bool:
    """Say whether the translation is there and may be printed."""
    return bool(source.translation.strip()) and may_be_printed(source.translation_clearance, None, today)
