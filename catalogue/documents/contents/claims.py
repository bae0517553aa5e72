"""What a performance was the first of, in the words of a line: what the records prove, or what was set by hand."""

from __future__ import annotations

from catalogue.documents.contents.history import Hearing
from catalogue.documents.labels import Labels
from catalogue.documents.model import Text, value, wording

WIDEST = (
    ("world", "world premiere", "first performance in these records"),
    ("version", "first performance of this version", "first performance of this version in these records"),
    ("national", "first performance in {country}", "first performance in {country} in these records"),
)


def claim_of(run: tuple[Hearing, ...], says: Labels) -> Text:
    """The widest first performance that is worth a line: world, version, then country; or what was set by hand.

    ``run`` are the performances of one production, in order.
    """
    one = next((hearing for hearing in run if hearing.override), run[0])
    if one.override:
        return value(one.override.printed)
    held = one.titles or (one.claim.expected if one.claim else ())
    for code, proved, unproved in WIDEST:
        if code in held:
            country = says.country(one.performance.country_then or one.performance.country)
            return says.say(proved if one.proved else unproved, country=wording(country))
    return ()
