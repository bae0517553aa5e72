"""A call's rules on the works together, and how much each work that answers is worth to it."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass, field

from catalogue.facts import CatalogueFacts, WorkFacts
from catalogue.rules.calls.figures_of_works import clock, has_electronics, wanted
from catalogue.rules.calls.screening import Screening
from catalogue.rules.calls.terms import Call, SetRule
from catalogue.rules.calls.verdicts import Verdict
from catalogue.rules.phrases import listed
from catalogue.rules.portfolio import Choice, Item, Need, Wish
from catalogue.terms import Category, PerformanceStatus

MOST_PERFORMANCES = 5
LOWEST_MARK, USUAL_MARK, HIGHEST_MARK = 1, 3, 5
USUAL_LARGE = 10  # players of a large ensemble where the call does not say (common practice)


@dataclass(frozen=True, slots=True)
class Weights:
    """What counts, each from 0 to 5: how strong a work is, how new, how often played, whether and how well recorded."""

    strength: int = 3
    recent: int = 2
    played: int = 1
    recorded: int = 2
    quality: int = 1
    contrast: int = 2


@dataclass(frozen=True, slots=True)
class Marks:
    """A composer's own marks from 1 to 5, by the works' ids: of works, and the best mark of a work's recordings.

    A work that is recorded stands in ``recordings`` also where none of its recordings is marked.
    """

    works: Mapping[int, int] = field(default_factory=dict)
    recordings: Mapping[int, int | None] = field(default_factory=dict)


@dataclass(frozen=True, slots=True)
class Standing:
    """What is known of a work that it may be weighed by; ``newness`` goes from 0, the oldest, to 1."""

    completed: int | None
    newness: float
    played: int
    is_recorded: bool
    strength: int | None
    quality: int | None


def items_of(
    found: Screening, catalogue: CatalogueFacts, weights: Weights, marks: Marks, *, also_doubtful: bool
) -> tuple[Item, ...]:
    """Return the works that answer a call with their weights; those that cannot be told where it is asked."""
    allowed = {Verdict.YES, Verdict.CANNOT_TELL} if also_doubtful else {Verdict.YES}
    works = [one.work for one in found.works if one.verdict in allowed]
    years = [work.completed.last.year for work in works if work.completed]
    span = (min(years), max(years)) if years else (0, 0)
    played = performances_by_work(catalogue)
    standings = {work.id: standing_of(work, span, played.get(work.id, 0), marks) for work in works}
    return tuple(
        Item(
            work.id,
            work.title.title,
            work.duration.seconds if work.duration else None,
            round(weight(standings[work.id], weights), 3),
            classes_of(work, found.call.set_rules, played.get(work.id, 0)),
            tuple(reasons(standings[work.id], weights)),
        )
        for work in works
    )


def performances_by_work(catalogue: CatalogueFacts) -> dict[int, int]:
    found: dict[int, int] = {}
    for event in catalogue.performances:
        if event.status is PerformanceStatus.GIVEN:
            for item in event.programme:
                found[item.work_id] = found.get(item.work_id, 0) + 1
    return found


def standing_of(work: WorkFacts, years: tuple[int, int], played: int, marks: Marks) -> Standing:
    first, last = years
    completed = work.completed.last.year if work.completed else None
    return Standing(
        completed=completed,
        newness=((completed or first) - first) / (last - first) if last > first else 1.0,
        played=played,
        is_recorded=work.id in marks.recordings,
        strength=marks.works.get(work.id),
        quality=marks.recordings.get(work.id),
    )


def weight(one: Standing, weights: Weights) -> float:
    """Return a work's weight: 1, and up to each weight for what it stands for."""
    often = min(one.played, MOST_PERFORMANCES) / MOST_PERFORMANCES
    recorded = weights.recorded + weights.quality * share(one.quality) if one.is_recorded else 0
    return 1 + weights.strength * share(one.strength) + weights.recent * one.newness + weights.played * often + recorded


def share(mark: int | None) -> float:
    """Return what a mark is worth, from 0 to 1; what is not marked counts as the middle.

    >>> share(1), share(None), share(5)
    (0.0, 0.5, 1.0)
    """
    return ((mark or USUAL_MARK) - LOWEST_MARK) / (HIGHEST_MARK - LOWEST_MARK)


def reasons(one: Standing, weights: Weights) -> Iterator[str]:
    """Yield in words what adds to a work's weight or takes from it, as far as it counts."""
    if one.strength and weights.strength:
        yield f"you mark it {one.strength} of {HIGHEST_MARK}"
    if one.completed and weights.recent:
        yield f"completed in {one.completed}"
    if one.played and weights.played:
        yield "played once" if one.played == 1 else f"played {one.played} times"
    if one.is_recorded and one.quality and weights.quality:
        yield f"recorded, the best recording marked {one.quality} of {HIGHEST_MARK}"
    elif one.is_recorded and weights.recorded:
        yield "recorded"


def classes_of(work: WorkFacts, rules: Iterable[SetRule], played: int) -> frozenset[str]:
    """Return the classes of a work: its forces as a works list has them, and those that the call's rules ask for."""
    found = {f"forces: {work.category.value}"}
    players = work.instrumentation.players if work.instrumentation else None
    sung = work.instrumentation is not None and any(line.family == "voice" for line in work.instrumentation.lines)
    for rule in rules:
        if rule.kind == "large ensemble" and is_large(work, players, rule.players or USUAL_LARGE):
            found.add(rule.kind)
    if has_electronics(work):
        found.add("electronics")
    if sung:
        found.add("voice")
    if work.category is Category.SOLO:
        found.add("solo")
    if work.category is Category.CHAMBER:
        found.add("chamber")
    if played:
        found.add("live recording")
    return frozenset(found)


def is_large(work: WorkFacts, players: tuple[int, int] | None, least: int) -> bool:
    open_orchestra = work.category in (Category.ORCHESTRA, Category.SOLOIST_AND_ORCHESTRA)
    return open_orchestra if players is None else players[0] >= least


RECKONED = ("large ensemble", "electronics", "voice", "solo", "chamber", "live recording")


def wish_of(
    call: Call, items: Iterable[Item], weights: Weights, *, pinned: Iterable[int] = (), banned: Iterable[int] = ()
) -> Wish:
    """Return what a call asks of the works together."""
    most = call.works_max or max(call.works_min or 1, 1)
    needs = tuple(Need(rule.kind, rule.least) for rule in call.set_rules if rule.kind in RECKONED)
    forces = frozenset(name for one in items for name in one.classes if name.startswith("forces: "))
    return Wish(
        least=call.works_min or 1,
        most=most,
        total_min=call.total_min,
        total_max=call.total_max,
        needs=needs,
        pinned=frozenset(pinned),
        banned=frozenset(banned),
        contrasting=forces,
        contrast=float(weights.contrast),
    )


def explained(choice: Choice, wish: Wish, best: Choice) -> tuple[str, ...]:
    """Return in sentences what a set is, and what it gives up against the best one."""
    count = len(choice.items)
    total = wanted(wish.total_min, wish.total_max)
    minutes = f"{clock(choice.seconds)}{'' if count == 1 else ' together'}"
    lines = [f"{count} work{'' if count == 1 else 's'}, {minutes}{f' ({total} asked for)' if total else ''}."]
    kinds = sorted({name.removeprefix("forces: ") for one in choice.items for name in one.classes & wish.contrasting})
    lines.append(f"Forces: {', '.join(kinds)}.")
    for need in wish.needs:
        named = [one.title for one in choice.items if need.name in one.classes]
        lines.append(f"{need.name.capitalize()}: {', '.join(named)}.")
    lines += [f"{one.title}: {', '.join(one.reasons)}." for one in choice.items if one.reasons]
    unknown = [one.title for one in choice.items if one.seconds is None]
    lines += [f"No duration is recorded of {listed(unknown)}."] if unknown else []
    if choice.ids != best.ids:
        gone = [one.title for one in best.items if one.id not in choice.ids]
        come = [one.title for one in choice.items if one.id not in best.ids]
        lines.append(
            f"Against the first: {joined(come, 'comes in', 'come in')}, {joined(gone, 'is left out', 'are left out')}."
        )
    return (*lines, how_sure(choice, is_first=choice.ids == best.ids))


def how_sure(choice: Choice, *, is_first: bool) -> str:
    if not choice.proven:
        return "This is the best found; the search was stopped before it was proven."
    return "No set is worth more by your weights." if is_first else "Only the sets before it are worth more."


def joined(titles: list[str], one: str, several: str) -> str:
    """Say what comes or goes.

    >>> joined(["Rope", "Lamp", "Tide"], "comes in", "come in")
    'Rope, Lamp and Tide come in'
    """
    if not titles:
        return f"nothing {one}"
    return f"{listed(titles)} {one if len(titles) == 1 else several}"
