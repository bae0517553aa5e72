"""What a playing is to be called whatever the records make of it, and why: set by hand, and shown as such.

The words stand as they were typed. How far they reach is read from them as from a billing, so that a document can tell
which of several performances it calls the first.
"""

from __future__ import annotations

import re
from dataclasses import dataclass

from catalogue.rules.billing import Billing, Scope, read_billing
from catalogue.rules.playings import Playing
from catalogue.rules.premiere_wording import Title
from catalogue.rules.search import fold

NO_FIRST = re.compile(
    r"^(?:no|not|none|nothing|never|kein|keine|nicht|pas|aucune?|non|nessuna?|ningun|ninguna)\b|^[-–—]$"
)
NAMED_REACHES = (
    (re.compile(r"\bnational\b"), (Title.NATIONAL, Title.CITY)),
    (re.compile(r"\bcity\b"), (Title.CITY,)),
)
REACHES = {
    Scope.WORLD: (Title.WORLD, Title.NATIONAL, Title.CITY),
    Scope.BARE: (Title.WORLD, Title.NATIONAL, Title.CITY),
    Scope.NATIONAL: (Title.NATIONAL, Title.CITY),
    Scope.CITY: (Title.CITY,),
}

WITHOUT_A_PLACE = {Scope.BARE, Scope.OWN}


@dataclass(frozen=True, slots=True)
class Override:
    """``wording`` as typed, ``reason`` why; ``titles`` are those that the words claim.

    ``claims_a_first`` is false of "no first performance", and of words that name no first at all.
    """

    wording: str
    reason: str
    titles: tuple[Title, ...] = ()
    claims_a_first: bool = False

    @property
    def printed(self) -> str:
        """What a document says: nothing where the words only say that it was no first."""
        return "" if NO_FIRST.match(fold(self.wording)) else self.wording


def override_of(playing: Playing) -> Override | None:
    """Return what was set by hand for a playing, None where the records speak for themselves."""
    words = playing.item.claim_override.strip()
    if not words:
        return None
    reason = playing.item.claim_reason.strip()
    billing = (
        None if NO_FIRST.match(fold(words)) else read_billing(words, city=playing.event.city, region=playing.region)
    )
    return Override(words, reason, titles_claimed(playing, billing), claims_a_first=billing is not None)


def titles_claimed(playing: Playing, billing: Billing | None) -> tuple[Title, ...]:
    """Return the titles that words claim; a first that says nothing of where is the first anywhere."""
    if billing is None:
        return ()
    if not playing.complete:
        return (Title.PART,)
    if billing.of_version:
        return (Title.VERSION,)
    folded = fold(playing.item.claim_override)
    named = next((titles for pattern, titles in NAMED_REACHES if pattern.search(folded)), ())
    return named if named and billing.scope in WITHOUT_A_PLACE else REACHES.get(billing.scope, ())
