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


def words_may_be_printed(source: TextSourceFacts, today: date) -> bool:
    """Say whether the words are there and may be printed."""
    return bool(source.body.strip()) and may_be_printed(source.clearance, source.expires, today)


def translation_may_be_printed(source: TextSourceFacts, today: date) -> bool:
    """Say whether the translation is there and may be printed."""
    return bool(source.translation.strip()) and may_be_printed(source.translation_clearance, None, today)
