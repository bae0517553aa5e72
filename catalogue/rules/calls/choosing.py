"""A call's rules on the works together, and how much each work that answers is worth to it."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

from catalogue.facts import CatalogueFacts, WorkFacts
from catalogue.rules.calls.figures_of_works import has_electronics, wanted
from catalogue.rules.calls.screening import Screening
from catalogue.rules.calls.terms import Call, SetRule
from catalogue.rules.calls.verdicts import Verdict
from catalogue.rules.portfolio import Choice, Item, Need, Wish
from catalogue.terms import Category, PerformanceStatus

MOST_PERFORMANCES = 5
USUAL_LARGE = 10  # players of a large ensemble where the call does not say (common practice)


@dataclass(frozen=True, slots=True)
class Weights:
    """What counts, each from 0 to 5: how new a work is, how often it was played, whether it is recorded."""

    recent: int = 2
    played: int = 1
    recorded: int = 2
    contrast: int = 2


def items_of(found: Screening, catalogue: CatalogueFacts, weights: Weights, *, also_doubtful: bool) -> tuple[Item, ...]:
    """Return the works that answer a call with their weights; those that cannot be told where it is asked."""
    allowed = {Verdict.YES, Verdict.CANNOT_TELL} if also_doubtful else {Verdict.YES}
    works = [one.work for one in found.works if one.verdict in allowed]
    years = [work.completed.last.year for work in works if work.completed]
    span = (min(years), max(years)) if years else (0, 0)
    played = performances_by_work(catalogue)
    recorded = {one.work_id for one in catalogue.recordings}
    return tuple(
        Item(
            work.id,
            work.title.title,
            work.duration.seconds if work.duration else None,
            round(weight(work, weights, span, played.get(work.id, 0), work.id in recorded), 3),
            classes_of(work, found.call.set_rules, played.get(work.id, 0)),
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


def weight(work: WorkFacts, weights: Weights, years: tuple[int, int], played: int, recorded: bool) -> float:
    """Return a work's weight: 1, and up to each weight for what it stands for."""
    first, last = years
    year = work.completed.last.year if work.completed else first
    recent = (year - first) / (last - first) if last > first else 1.0
    often = min(played, MOST_PERFORMANCES) / MOST_PERFORMANCES
    return 1 + weights.recent * recent + weights.played * often + weights.recorded * recorded


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
    minutes = f"{choice.seconds // 60}′{choice.seconds % 60:02}″"
    lines = [f"{count} work{'' if count == 1 else 's'}, {minutes} together{f' ({total} asked for)' if total else ''}."]
    kinds = sorted({name.removeprefix("forces: ") for one in choice.items for name in one.classes & wish.contrasting})
    lines.append(f"Forces: {', '.join(kinds)}.")
    for need in wish.needs:
        named = [one.title for one in choice.items if need.name in one.classes]
        lines.append(f"{need.name.capitalize()}: {', '.join(named)}.")
    unknown = [one.title for one in choice.items if one.seconds is None]
    lines += [f"No duration is recorded of {', '.join(unknown)}."] if unknown else []
    if choice.ids != best.ids:
        gone = [one.title for one in best.items if one.id not in choice.ids]
        come = [one.title for one in choice.items if one.id not in best.ids]
        lines.append(
            f"Against the first: {joined(come, 'comes in', 'come in')}, {joined(gone, 'is left out', 'are left out')}."
        )
    lines.append("No set is worth more by your weights." if choice.ids == best.ids and choice.proven else "")
    lines.append("" if choice.proven else "This is the best found; the search was stopped before it was proven.")
    return tuple(line for line in lines if line)


def joined(titles: list[str], one: str, several: str) -> str:
    """Say what comes or goes.

    >>> joined(["Rope", "Lamp", "Tide"], "comes in", "come in")
    'Rope, Lamp and Tide come in'
    """
    if not titles:
        return f"nothing {one}"
    named = " and ".join(part for part in (", ".join(titles[:-1]), titles[-1]) if part)
    return f"{named} {one if len(titles) == 1 else several}"
