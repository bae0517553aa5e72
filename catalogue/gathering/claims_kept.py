"""What the playings in a list were the first of, without going through every playing of the works in it.

Of each work is known which of its playings may be first of their sort, and of each family of versions what its playings
hold. Both are found where they are asked for first, and brought forward by what was saved: what was played later than
another of its sort changes nothing, so only where a first itself is changed all playings of the work are looked through
again. A playing that is added is taken along, as one that may be a first.
"""

from __future__ import annotations

import json
from collections.abc import Collection, Iterable, Mapping, Sequence
from dataclasses import dataclass, field, replace
from datetime import date
from typing import Any, NamedTuple

from django.db.models.functions import Coalesce

from catalogue.gathering.families import living_playings, not_later, rows_of_families, told_families
from catalogue.gathering.kept_counts import Keeper
from catalogue.gathering.new_lines import Change, changes
from catalogue.gathering.once import Brought, Following, Step, once_for_each_state
from catalogue.gathering.versions import State, Version
from catalogue.models import Composer, Performance, ProgrammedWork, Venue, Work
from catalogue.rules.overrides import Override
from catalogue.rules.premiere_wording import Title
from catalogue.rules.premieres import Claim, claims_by_programmed
from catalogue.terms import PerformanceStatus

OF_EVENING = (
    "status", "first_day", "last_day", "date", "time", "kind", "audience", "country_then", "country", "city",
    "venue_id", "deleted_at",
)  # fmt: skip
OF_ROW = ("performance_id", "work_id", "extent", "part", "billing", "claim_override", "claim_reason")
OF_WORK = ("version_of_id", "title", "category", "version_label", "instrumentation", "deleted_at")
OF_HALL = ("city", "country", "region")
MOST_WORKS = 500
"""Of so many works, those that were asked for last, the playings are known."""
MOST_NAMED = 10_000
"""A database takes only so many keys in a question."""
MOST_LATER = 200
"""If more playings of a work were saved since, it is looked through again."""
FEWEST_KEPT = 500
"""If fewer playings may be first, no file is written."""

Rows = Sequence[int]
Told = list[Any]
"""A claim as a file tells it: of the hundreds that are known a page shows a few."""
Claims = Mapping[int, Told] | str
"""What the rows of a family hold, by the row; or the text of it, as it came from a file and was not looked into yet."""


@dataclass(frozen=True, slots=True)
class Firsts:
    """By work, which rows of programmes may be first (``first``), and which were saved since (``later``);
    by the first work of a family, what its rows hold on a ``day``, and by work, which family it is in.
    """

    first: Mapping[int, Rows] = field(default_factory=dict)
    later: Mapping[int, Rows] = field(default_factory=dict)
    family: Mapping[int, int] = field(default_factory=dict)
    held: Mapping[int, Claims] = field(default_factory=dict)
    day: date | None = None

    def may_be(self, works: Iterable[int]) -> list[int]:
        return [row for work in works for row in (*self.first.get(work, ()), *self.later.get(work, ()))]

    def on(self, day: date) -> Firsts:
        return self if self.day == day else replace(self, day=day, held={}, family={})

    def without(self, works: Collection[int], families: Collection[int]) -> Firsts:
        """Forget the playings of some works, and what the playings of some families hold."""
        return replace(
            self,
            first={work: rows for work, rows in self.first.items() if work not in works},
            later={work: rows for work, rows in self.later.items() if work not in works},
            held={family: claims for family, claims in self.held.items() if family not in families},
        )


class Shown(NamedTuple):
    """A row of a programme in a list; ``is_told`` where something was billed, or set by hand."""

    row: int
    work: int
    family: int
    is_told: bool


@once_for_each_state(64)
def claims_in_list(state: State, composer: Composer, performances: frozenset[int], today: date) -> Mapping[int, Claim]:
    """Return what each performance in a list of one composer's was the first of, by the row of its programme.

    Rows that are the first of nothing, and were not billed as anything, are left out. One query where all is known.
    """
    shown = shown_in(composer, performances)
    firsts = _brought.to(state, composer.pk).on(today)
    missing = {one.work for one in shown if one.family not in firsts.held}
    if missing:
        rows = rows_of_families([composer], missing)
        more = with_works(firsts, [row["pk"] for row in rows])
        is_costly, firsts = more is not firsts, with_families(more, composer, rows, today)
        _brought.learned(state, composer.pk, firsts, is_costly=is_costly, is_exact=True)
    claims = {family: by_row(firsts.held.get(family, {})) for family in {one.family for one in shown}}
    held = [(one.row, claims[one.family].get(one.row)) for one in shown]
    found = {row: claim_of(told) for row, told in held if told is not None}
    doubtful = {one.family for one in shown if one.is_told and one.row not in found}
    return found | told_beside(firsts, composer, [one for one in shown if one.family in doubtful], today)


def shown_in(composer: Composer, performances: Iterable[int]) -> list[Shown]:
    rows = ProgrammedWork.objects.filter(performance__in=performances, work__deleted_at__isnull=True).order_by()
    family = Coalesce("work__version_of", "work")
    told = rows.filter(work__composer=composer).values_list("pk", "work", family, "billing", "claim_override")
    return [Shown(row, work, first, bool(billing or by_hand)) for row, work, first, billing, by_hand in told]


def with_works(firsts: Firsts, works: Collection[int]) -> Firsts:
    """Find out which playings of some works may be first, where that is not known."""
    unknown = [work for work in works if work not in firsts.first]
    if not unknown:
        return firsts
    found: dict[int, list[int]] = {work: [] for work in unknown}
    for row, work in not_later(living_playings(unknown)).values_list("pk", "work"):
        found[work].append(row)
    others = {work: rows for work, rows in firsts.first.items() if work not in works}
    asked = {work: rows for work, rows in firsts.first.items() if work in works}
    first = dict([*others.items(), *asked.items(), *found.items()][-max(MOST_WORKS, len(works)) :])
    later = {work: rows for work, rows in firsts.later.items() if work in first and work not in found}
    return replace(firsts, first=first, later=later)


def with_families(firsts: Firsts, composer: Composer, rows: Sequence[dict[str, Any]], today: date) -> Firsts:
    """Reckon what the playings of some families hold, of which the columns of all works were fetched."""
    family = {row["pk"]: row["version_of"] or row["pk"] for row in rows}
    may_be = firsts.may_be(family)
    playings = among(may_be) if len(may_be) <= MOST_NAMED else not_later(living_playings(family))
    (facts,) = told_families([composer], rows, playings)
    owner = {item.id: family[item.work_id] for event in facts.performances for item in event.programme}
    held: dict[int, dict[int, Told]] = {one: {} for one in family.values()}
    for row, claim in claims_by_programmed(facts, today=today).items():
        if says_something(claim):
            held[owner[row]][row] = as_told(claim)
    return replace(firsts, held={**firsts.held, **held}, family={**firsts.family, **family})


def told_beside(firsts: Firsts, composer: Composer, shown: Sequence[Shown], today: date) -> dict[int, Claim]:
    """Reckon the claims of whole families in which something is shown that was billed but is no first."""
    if not shown:
        return {}
    rows = rows_of_families([composer], {one.work for one in shown})
    may_be = firsts.may_be(row["pk"] for row in rows)
    (facts,) = told_families([composer], rows, among([*may_be, *(one.row for one in shown)]))
    claims = claims_by_programmed(facts, today=today)
    return {one.row: claims[one.row] for one in shown if one.row in claims}


def among(rows: Iterable[int]) -> Any:
    return ProgrammedWork.objects.filter(pk__in=list(rows), performance__deleted_at__isnull=True)


def says_something(claim: Claim) -> bool:
    return bool(claim.wording or claim.also or claim.overridden or claim.contradicts)


# ---- from one version to another


def bring_forward(known: Firsts, since: Version, until: Version, composer: int) -> Step[Firsts] | None:
    evenings = changes(Performance, since, until, OF_EVENING, composer=composer)
    rows = changes(ProgrammedWork, since, until, OF_ROW)
    halls = changes(Venue, since, until, OF_HALL, composer=composer)
    works = changes(Work, since, until, OF_WORK, composer=composer)
    if evenings is None or rows is None or halls is None or works is None:
        return None
    if any(change.before is not None and change.before != change.now for change in halls):
        return None  # what is played there is of another sort now
    moved = {change.key: change for change in changed(evenings)}
    families = {
        known.family.get(change.key, change.key) if told is None else told[0] or change.key
        for change in changed(works)
        for told in (change.before, change.now)
    }
    after = followed(known, playings_of(moved, changed(rows)), moved, families)
    return Step(after, sum(map(len, (evenings, rows, halls, works))))


def changed(found: Sequence[Change]) -> list[Change]:
    return [change for change in found if change.before != change.now]


def playings_of(moved: Collection[int], rows: Sequence[Change]) -> set[tuple[int, int, int]]:
    """Return row, work and performance of all that stands, or stood, in programmes where something has changed."""
    told = [(change.key, values) for change in rows for values in (change.before, change.now) if values]
    evenings = {values[0] for _row, values in told} | set(moved)
    standing = ProgrammedWork.objects.filter(performance__in=evenings).values_list("pk", "work", "performance")
    return {*standing, *((row, values[1], values[0]) for row, values in told)} if evenings else set()


def followed(
    known: Firsts,
    playings: Iterable[tuple[int, int, int]],
    moved: Mapping[int, Change],
    of_works: Collection[int],
) -> Firsts:
    """Take along what was added, and forget the works of which a first has changed, and what these families hold."""
    later = {work: set(rows) for work, rows in known.later.items()}
    gone, families = set(), set(of_works)
    for row, work, performance in playings:
        families.add(known.family.get(work, work))
        if row not in known.first.get(work, ()):
            later.setdefault(work, set()).add(row)
        elif may_be_least(moved.get(performance)):
            gone.add(work)
    gone |= {work for work, rows in later.items() if len(rows) > MOST_LATER}
    kept = {work: sorted(rows) for work, rows in later.items() if work in known.first}
    return replace(known, later=kept).without(gone, families)


def may_be_least(change: Change | None) -> bool:
    """Whether others may be first now that were not, because this one ended before them: it had a day, and counted."""
    if change is None or change.before is None:
        return True
    status, first_day, *_others, deleted_at = change.before
    return status != PerformanceStatus.PLANNED.value and first_day is not None and deleted_at is None


# ---- as bytes


def written(firsts: Firsts) -> bytes | None:
    if sum(map(len, firsts.first.values())) < FEWEST_KEPT:
        return None
    held = [[family, as_text(claims)] for family, claims in firsts.held.items()]
    parts = {name: list(getattr(firsts, name).items()) for name in ("first", "later", "family")}
    day = firsts.day.isoformat() if firsts.day else None
    return json.dumps({**parts, "held": held, "day": day}).encode()


def read(content: bytes) -> Firsts:
    told = json.loads(content)
    return Firsts(
        first=dict(told["first"]),
        later=dict(told["later"]),
        family=dict(told["family"]),
        held=dict(told["held"]),
        day=date.fromisoformat(told["day"]) if told["day"] else None,
    )


def as_text(claims: Claims) -> str:
    return claims if isinstance(claims, str) else json.dumps(list(claims.items()))


def by_row(claims: Claims) -> Mapping[int, Told]:
    return dict(json.loads(claims)) if isinstance(claims, str) else claims


def as_told(claim: Claim) -> Told:
    *fields, by_hand = claim
    told = [list(one) if isinstance(one, tuple) else one for one in fields]
    return [*told, by_hand and [by_hand.wording, by_hand.reason, list(by_hand.titles), by_hand.claims_a_first]]


def claim_of(fields: Told) -> Claim:
    *told, by_hand = fields
    if by_hand is not None:
        wording, reason, titles, claims_a_first = by_hand
        by_hand = Override(wording, reason, tuple(map(Title, titles)), claims_a_first)
    return Claim._make([*(tuple(one) if isinstance(one, list) else one for one in told), by_hand])


_brought: Brought[Firsts] = Brought(
    Following(lambda _composer: Firsts(), bring_forward, written, read, begins_empty=True),
    Keeper("firsts", __file__),
    most=32,
)
