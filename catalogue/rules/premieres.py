"""Which performances were first: reckoned from the records, never stored.

1. Only public events that took place count. Private, invited, rehearsal and reading events are kept and take no title.
2. The first complete playing anywhere is the *world* premiere, and with it the *national* and *city* premiere of its
   place. Later playings may be first in their state or city, whichever version was played.
3. A *version* other than the one first heard has a premiere of its own.
4. A playing of a *part* is first of that part only, and makes or takes away no title of the whole.
5. A date of a month or a year ranks as its interval; see :mod:`catalogue.rules.firsts`.
6. Events to come are reckoned apart: what they will be if they take place.
7. What was set by hand stands beside what is reckoned and changes nothing in it; see :mod:`catalogue.rules.overrides`.

The terms and their rank (world, national, city) are common practice of publishers and librarians.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Callable, Collection, Hashable, Iterable, Mapping, Sequence
from dataclasses import dataclass
from datetime import date
from typing import NamedTuple

from catalogue.facts import CatalogueFacts, WorkFacts
from catalogue.rules.billing import Billing
from catalogue.rules.contradictions import Rivals, contradiction
from catalogue.rules.firsts import Contest, contest, contest_by
from catalogue.rules.overrides import Override, override_of
from catalogue.rules.parts import parts_first_heard
from catalogue.rules.playings import NO_DATE, Playing, Standing, playings_of
from catalogue.rules.premiere_wording import Title, billing_of, is_proved, widest, word_title
from catalogue.terms import PerformanceKind

KINDS_OF_FIRST = {
    PerformanceKind.CONCERT: "first concert performance",
    PerformanceKind.STAGE: "first staging",
    PerformanceKind.BROADCAST: "first broadcast",
}


class Claim(NamedTuple):
    """What the records make of one work in one programme.

    ``reckoned`` holds what it was: world, national, city, version, part. ``expected`` holds the same of an event still
    to come, ``undecided`` the titles it may hold but for dates too vague to order. ``wording`` says the widest; it says
    "in these records" unless ``proved``. ``also`` is a first of its kind after the premiere, such as the first concert
    performance. ``contradicts`` is a sentence about a billing that the records do not bear out, ``why_not`` one about
    a playing that counts for nothing. ``overridden`` is what was set by hand, with its reason; none of these follow it.
    """

    reckoned: tuple[str, ...] = ()
    wording: str = ""
    proved: bool = False
    contradicts: str | None = None
    expected: tuple[str, ...] = ()
    undecided: tuple[str, ...] = ()
    also: str = ""
    why_not: str = ""
    overridden: Override | None = None

    @property
    def called(self) -> str:
        """What a page or document calls the playing: what was set by hand, else what the records make of it."""
        return self.overridden.printed if self.overridden else self.wording

    @property
    def titles(self) -> tuple[str, ...]:
        """What the playing was, as far as it took place: what was set by hand, else what is reckoned."""
        return self.overridden.titles if self.overridden else self.reckoned


NOTHING = Claim()
"""The claim of most playings."""


class Reckoned(NamedTuple):
    """One programmed work with its claim."""

    playing: Playing
    claim: Claim


def reckon(catalogue: CatalogueFacts, *, today: date) -> tuple[Reckoned, ...]:
    """Return the claim of every programmed work in date order, undated events last.

    ``today`` divides what was from what is to come.
    """
    playings = playings_of(catalogue, today=today)
    families: dict[int, list[Playing]] = defaultdict(list)
    for playing in playings:
        families[playing.family].append(playing)
    works = catalogue.works_by_id()
    claims: dict[int, Claim] = {}
    for family in families.values():
        claims |= family_claims(family, works)
    return tuple(Reckoned(playing, claims[playing.item.id]) for playing in playings)


def claims_by_programmed(catalogue: CatalogueFacts, *, today: date) -> dict[int, Claim]:
    """Return the claims by the id of the programmed work."""
    return {one.playing.item.id: one.claim for one in reckon(catalogue, today=today)}


def family_claims(family: Sequence[Playing], works: Mapping[int, WorkFacts]) -> dict[int, Claim]:
    """Return the claims of all playings of one work and its versions."""
    past = [one for one in family if one.standing is Standing.HAPPENED]
    coming = [one for one in family if one.standing is Standing.UPCOMING]
    both = (titles_of(past, (), works), titles_of(coming, past, works))
    holders = both[0][Title.WORLD].holders | both[1][Title.WORLD].holders
    held, expected = (by_playing((title, titles[title].holders) for title in Title) for titles in both)
    table = Table(
        held=held,
        expected=expected,
        undecided=by_playing((title, both[0][title].undecided | both[1][title].undecided) for title in Title),
        cities=cities_of(one for one in family if one.item.id in holders) if len(holders) > 1 else None,
        kinds=firsts_of_a_kind(past).holders,
        rivals=Rivals.of(family if any(one.item.billing for one in family) else ()),
        undated=any(one.complete and one.why_not == NO_DATE for one in family),
    )
    return {one.item.id: claim_of(one, table) for one in family}


Titles = Mapping[Title, Contest]
Held = Mapping[int, tuple[Title, ...]]


@dataclass(frozen=True, slots=True)
class Table:
    """Who holds what among the playings of one work, by the id of the programmed work, titles widest first.

    ``cities`` are those of the playings that hold or will hold the world premiere, sorted, None but where several
    share its day; ``kinds`` came first of their kind; ``undated`` where the work was also played on an unknown day.
    ``rivals`` are told where something was billed.
    """

    held: Held
    expected: Held
    undecided: Held
    cities: Collection[str] | None
    kinds: frozenset[int]
    rivals: Rivals
    undated: bool


def cities_of(playings: Iterable[Playing]) -> list[str]:
    """Return the cities of playings, sorted, each once."""
    return sorted({city for one in playings if (city := one.event.city)})


def by_playing(titles: Iterable[tuple[Title, Iterable[int]]]) -> Held:
    """Return the titles of each playing from the playings of each title."""
    found: dict[int, tuple[Title, ...]] = {}
    for title, ids in titles:
        alone = (title,)
        for id_ in ids:
            held = found.setdefault(id_, alone)
            if held is not alone:
                found[id_] = held + alone
    return found


def titles_of(playings: Sequence[Playing], earlier: Sequence[Playing], works: Mapping[int, WorkFacts]) -> Titles:
    """Return who holds each title among ``playings``, all of which come after ``earlier``."""
    whole = [one for one in playings if one.complete]
    before = [one for one in earlier if one.complete]
    opening = contest(before or whole)
    firsts = {one.work.id for one in (before or whole) if one.item.id in opening.holders | opening.undecided}
    versions = [one for one in whole if is_own_version(one.work, firsts, works)]
    return {
        Title.WORLD: Contest() if before else opening,
        Title.NATIONAL: contest_by(open_to(whole, before, state_of), state_of),
        Title.CITY: contest_by(open_to(whole, before, city_of), city_of),
        Title.VERSION: contest_by(open_to(versions, before, version_of), version_of),
        Title.PART: parts_first_heard(playings, earlier),
    }


def state_of(playing: Playing) -> Hashable:
    return playing.state


def city_of(playing: Playing) -> Hashable:
    return playing.city


def version_of(playing: Playing) -> Hashable:
    return playing.work.id


Key = Callable[[Playing], Hashable]


def open_to(playings: Sequence[Playing], before: Sequence[Playing], key: Key) -> list[Playing]:
    """Return the playings in whose state, city or version nobody played before."""
    if not before:
        return list(playings)
    taken = {key(one) for one in before}
    return [one for one in playings if key(one) not in taken]


def is_own_version(work: WorkFacts, firsts: set[int], works: Mapping[int, WorkFacts]) -> bool:
    """Say whether a version has a premiere of its own beside the version first heard.

    A work without a label whose versions were heard first is a version of its own where its scoring is known to differ.
    """
    if work.id in firsts:
        return False
    if work.version_label or work.version_of is not None:
        return True
    heard = [works[id_].instrumentation_text for id_ in firsts]
    return bool(work.instrumentation_text) and all(text and text != work.instrumentation_text for text in heard)


def firsts_of_a_kind(playings: Sequence[Playing]) -> Contest:
    """Return who gave the first concert, staging or broadcast; for the premiere itself nobody says so."""
    whole = [one for one in playings if one.complete and one.event.kind in KINDS_OF_FIRST]
    return contest_by(whole, lambda one: one.event.kind)


def claim_of(playing: Playing, table: Table) -> Claim:
    """Return the claim of one playing beside the others of its family."""
    id_, item = playing.item.id, playing.item
    held, expected, undecided = table.held.get(id_, ()), table.expected.get(id_, ()), table.undecided.get(id_, ())
    if not (held or expected or undecided or id_ in table.kinds or item.billing or item.claim_override):
        return Claim(why_not=playing.why_not) if playing.why_not else NOTHING
    billing = billing_of(playing)
    wording, proved = worded(playing, held or expected, billing, table)
    return Claim(
        reckoned=held,
        wording=wording if held else wording and f"to be the {wording}",
        proved=proved,
        contradicts=contradiction(playing, table.rivals, billing, holds=Title.VERSION in held or Title.PART in held),
        expected=expected,
        undecided=undecided,
        also=also_first(playing, held, table),
        why_not=playing.why_not,
        overridden=override_of(playing),
    )


def also_first(playing: Playing, held: Sequence[Title], table: Table) -> str:
    if Title.WORLD in held or playing.item.id not in table.kinds:
        return ""
    return KINDS_OF_FIRST[playing.event.kind]


def worded(playing: Playing, titles: Sequence[Title], billing: Billing | None, table: Table) -> tuple[str, bool]:
    """Return the words of the widest titles, and whether all of them are proved."""
    if not titles:
        return "", False
    said = widest(titles)
    if len(said) == 1:
        title = said[0]
        sure = is_proved(title, playing, billing, undated=table.undated)
        sharing = table.cities if title is Title.WORLD else None
        return word_title(title, playing, proved=sure, shared_with=sharing), sure
    proved = [is_proved(title, playing, billing, undated=table.undated) for title in said]
    words = [word_title(title, playing, proved=sure) for title, sure in zip(said, proved, strict=True)]
    return "; ".join(words), all(proved)
