"""What a playing was the first of, as a page says it: what was set by hand is shown as such."""

from __future__ import annotations

from collections.abc import Iterator

from django.utils.translation import gettext as _

from catalogue.rules.overrides import Override
from catalogue.rules.premieres import Claim


def briefly(claim: Claim) -> tuple[str, ...]:
    """Return what a list says of a playing."""
    if claim.overridden:
        return (_("%(words)s (set by hand)") % {"words": claim.called},) if claim.called else ()
    return tuple(words for words in (claim.wording, claim.also) if words)


def in_full(claim: Claim) -> tuple[str, ...]:
    """Return what the page of the performance says: what was set by hand and why, then what the records make of it."""
    told = tuple(reckoned_words(claim))
    if claim.overridden is None:
        return told
    records = _("by these records: %(words)s") % {"words": "; ".join(told) or _("no first performance")}
    return (by_hand(claim.overridden), records)


def reckoned_words(claim: Claim) -> Iterator[str]:
    vague = _("perhaps a first performance: dates are too vague to tell") if claim.undecided else ""
    yield from (words for words in (claim.wording, claim.also, "" if claim.wording else vague, claim.why_not) if words)


def by_hand(override: Override) -> str:
    words = _("set by hand: %(words)s, because %(reason)s")
    return words % {"words": override.wording, "reason": override.reason}


def is_doubted(claim: Claim) -> bool:
    """Say whether the billing needs a look: contradicted, and nobody has settled by hand what it was."""
    return claim.contradicts is not None and claim.overridden is None
