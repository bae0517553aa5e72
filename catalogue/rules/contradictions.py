"""Billings that the records do not bear out: reported with the reason, never changed.

A claim is weighed against the playings within its own reach: a "first concert performance" against concerts, a
"premiere of the revised version" against that version, a first of an ensemble or a hall against nothing.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from itertools import takewhile

from catalogue.facts import PerformanceFacts
from catalogue.rules.billing import Billing, Scope
from catalogue.rules.firsts import surely_before
from catalogue.rules.playings import Playing, Standing, in_date_order
from catalogue.rules.premiere_wording import names_the_state
from catalogue.terms import PerformanceStatus
from catalogue.timing import write_date

CHECKED_PLACES = {
    Scope.CONTINENT: "in the same country",
    Scope.NATIONAL: "in the same country",
    Scope.REGION: "in the same region",
    Scope.CITY: "in the same city",
    Scope.BARE: "in the same city",
}
HAPPENED_OR_MAY = {PerformanceStatus.GIVEN, PerformanceStatus.CONFIRMED}


@dataclass(frozen=True, slots=True)
class Rivals:
    """The complete playings of one work that count, in date order: all of them, and those of each place."""

    everywhere: Sequence[Playing]
    by_state: Mapping[str, Sequence[Playing]]
    by_region: Mapping[tuple[str, str] | None, Sequence[Playing]]
    by_city: Mapping[tuple[str, str] | None, Sequence[Playing]]

    @classmethod
    def of(cls, family: Sequence[Playing]) -> Rivals:
        everywhere = [one for one in family if one.standing is not Standing.NOT_COUNTED and one.complete]
        by_state: dict[str, list[Playing]] = defaultdict(list)
        by_region: dict[tuple[str, str] | None, list[Playing]] = defaultdict(list)
        by_city: dict[tuple[str, str] | None, list[Playing]] = defaultdict(list)
        for one in everywhere:
            by_state[one.state].append(one)
            by_region[one.region_key].append(one)
            by_city[one.city].append(one)
        return cls(everywhere, by_state, by_region, by_city)

    def within_reach(self, playing: Playing, billing: Billing) -> Sequence[Playing]:
        """Return those that would prove the claim wrong if they came earlier, as far as the place tells."""
        place = checked_place(playing, billing)
        if place == "in the same region":
            return self.by_region.get(playing.region_key, ())
        if place == "in the same country":
            return self.by_state.get(playing.state, ())
        return self.by_city.get(playing.city, ()) if place else self.everywhere


def contradiction(playing: Playing, rivals: Rivals, billing: Billing | None, *, holds: bool) -> str | None:
    """Return why the records do not bear the billing out, or None.

    ``holds`` says whether the playing has the premiere of a version or part, which a plain claim may mean.
    """
    if billing is None or billing.scope is Scope.OWN or playing.event.status not in HAPPENED_OR_MAY:
        return None
    reason = why_no_title(playing, billing) or why_not_there(playing, billing)
    if not reason and not holds:
        reason = why_not_first(playing, rivals, billing)
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


def why_not_first(playing: Playing, rivals: Rivals, billing: Billing) -> str:
    before = takewhile(lambda one: in_date_order(one) < in_date_order(playing), rivals.within_reach(playing, billing))
    of_its_sort = (one for one in before if is_of_the_sort(one, playing, billing))
    earlier = next((one for one in of_its_sort if surely_before(one, playing)), None)
    if earlier is None:
        return ""
    where = checked_place(playing, billing)
    return f"these records have an earlier public performance{where and f' {where}'}: {placed(earlier.event)}"


def checked_place(playing: Playing, billing: Billing) -> str:
    """Return where an earlier playing would contradict the claim; of a region that is not known, its city."""
    place = CHECKED_PLACES.get(billing.scope, "")
    return "in the same city" if place == "in the same region" and playing.region_key is None else place


def is_of_the_sort(one: Playing, playing: Playing, billing: Billing) -> bool:
    """Say whether a playing is of the kind and the version that the claim is about."""
    of_kind = billing.kind is None or one.event.kind is billing.kind
    return of_kind and (not billing.of_version or one.work.id == playing.work.id)


def placed(event: PerformanceFacts) -> str:
    """Return date and city of an event, as far as they are known."""
    parts = (write_date(event.date) if event.date else "", event.city)
    return ", ".join(part for part in parts if part)
