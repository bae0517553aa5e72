"""Billings that the records do not bear out: reported with the reason, never changed.

A claim is weighed against the playings within its own reach: a "first concert performance" against concerts, a
"premiere of the revised version" against that version, a first of an ensemble or a hall against nothing.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from itertools import takewhile

from catalogue.facts import PerformanceFacts
from catalogue.rules.billing import Billing, Scope
from catalogue.rules.firsts import surely_before
from catalogue.rules.playings import Playing, Standing
from catalogue.rules.premiere_wording import names_the_state
from catalogue.terms import PerformanceStatus
from catalogue.timing import write_date

CHECKED_PLACES = {
    Scope.CONTINENT: "in the same country",
    Scope.NATIONAL: "in the same country",
    Scope.REGION: "in the same city",
    Scope.CITY: "in the same city",
    Scope.BARE: "in the same city",
}
HAPPENED_OR_MAY = {PerformanceStatus.GIVEN, PerformanceStatus.CONFIRMED}


def contradiction(playing: Playing, family: Sequence[Playing], billing: Billing | None, *, holds: bool) -> str | None:
    """Return why the records do not bear the billing out, or None.

    ``holds`` says whether the playing has the premiere of a version or part, which a plain claim may mean.
    """
    if billing is None or billing.scope is Scope.OWN or playing.event.status not in HAPPENED_OR_MAY:
        return None
    reason = why_no_title(playing, billing) or why_not_there(playing, billing)
    if not reason and not holds:
        reason = why_not_first(playing, family, billing)
    return f"Billed as “{playing.item.billing.strip()}”, but {reason}." if reason else None


def why_no_title(playing: Playing, billing: Billing) -> str:
    if playing.standing is Standing.NOT_COUNTED and playing.event.date and not billing.admits_private:
        return playing.why_not[0].lower() + playing.why_not[1:].removesuffix(".")
    if playing.complete or billing.of_part or billing.scope is Scope.BARE:
        return ""
    return f"only {playing.item.part.strip() or 'a part of the work'} was played"


def why_not_there(playing: Playing, billing: Billing) -> str:
    if billing.scope is not Scope.NATIONAL or not playing.state or names_the_state(billing, playing):
        return ""
    return "it took place in another country"


def why_not_first(playing: Playing, family: Sequence[Playing], billing: Billing) -> str:
    """``family`` is in date order, so what came earlier stands before the playing."""
    before = takewhile(lambda one: one is not playing, family)
    rivals = (one for one in before if one.standing is not Standing.NOT_COUNTED and one.complete)
    earlier = next((one for one in within_reach(rivals, playing, billing) if surely_before(one, playing)), None)
    if earlier is None:
        return ""
    where = f" {CHECKED_PLACES[billing.scope]}" if billing.scope in CHECKED_PLACES else ""
    return f"these records have an earlier public performance{where}: {placed(earlier.event)}"


def within_reach(rivals: Iterable[Playing], playing: Playing, billing: Billing) -> Iterable[Playing]:
    """Return the playings that would prove the claim wrong if they came earlier."""
    for one in rivals:
        in_place = {
            "in the same country": one.state == playing.state,
            "in the same city": one.city == playing.city,
        }.get(CHECKED_PLACES.get(billing.scope, ""), True)
        of_kind = billing.kind is None or one.event.kind is billing.kind
        of_version = not billing.of_version or one.work.id == playing.work.id
        if in_place and of_kind and of_version:
            yield one


def placed(event: PerformanceFacts) -> str:
    """Return date and city of an event, as far as they are known."""
    parts = (write_date(event.date) if event.date else "", event.city)
    return ", ".join(part for part in parts if part)
