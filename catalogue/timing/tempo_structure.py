"""Puts the statements of a tempo map together into movements, and refuses what does not fit together."""

from __future__ import annotations

from dataclasses import dataclass, field

from catalogue.timing.tempo_maps import (
    Attacca,
    Cut,
    Free,
    Gap,
    Measured,
    Movement,
    MovementMark,
    Passage,
    Repeat,
    Statement,
    Upbeat,
)

MOST_PLAYED = 20_000  # bars, repeats played out: more than works have, few enough to reckon at once
MOST_ORDERS = 200  # repeats and cuts in one movement, likewise


@dataclass(frozen=True, slots=True)
class Numbered:
    """A statement and the line on which it stands, from 1."""

    statement: Statement
    line: int


class StructureFault(ValueError):
    """A statement that does not fit the others; ``reason`` is a sentence without the number of its line."""

    def __init__(self, reason: str, line: int) -> None:
        super().__init__(reason)
        self.reason = reason
        self.line = line


@dataclass(slots=True)
class Draft:
    """A movement while its lines are gathered; repeats and cuts wait until all bars are known."""

    line: int
    name: str = ""
    before: Attacca | Gap | None = None
    upbeat: Measured | None = None
    passages: list[Passage] = field(default_factory=list)
    repeats: list[Numbered] = field(default_factory=list)
    cuts: list[Numbered] = field(default_factory=list)


def movements_of(statements: tuple[Numbered, ...]) -> tuple[Movement, ...]:
    """Return the movements that the statements make up, in order. Raises StructureFault."""
    drafts = [Draft(line=1)]
    join: Numbered | None = None
    for one in statements:
        if join is not None and not isinstance(one.statement, MovementMark):
            raise StructureFault("“attacca” and “gap” stand before a movement.", join.line)
        if isinstance(one.statement, Attacca | Gap):
            join = one
        elif isinstance(one.statement, MovementMark):
            drafts = _begun(drafts, one.statement, one.line, join)
            join = None
        else:
            _add(drafts[-1], one.statement, one.line)
    if join is not None:
        raise StructureFault("“attacca” and “gap” stand before a movement.", join.line)
    movements = tuple(_finished(draft) for draft in drafts)
    _refuse_too_many(drafts, movements)
    return movements


def _begun(drafts: list[Draft], mark: MovementMark, line: int, join: Numbered | None) -> list[Draft]:
    """Begin a movement; what stands before the first one holds nothing and goes."""
    before = join.statement if join and isinstance(join.statement, Attacca | Gap) else None
    begun = Draft(line=line, name=mark.name, before=before)
    last = drafts[-1]
    if len(drafts) > 1 or last.passages or last.upbeat or last.repeats or last.cuts:
        return [*drafts, begun]
    if join is not None:
        raise StructureFault("nothing comes before the first movement.", join.line)
    return [begun]


def _add(draft: Draft, statement: Statement, line: int) -> None:
    if isinstance(statement, Measured | Free):
        _refuse_wrong_bar(draft, statement, line)
        draft.passages.append(statement)
    elif isinstance(statement, Upbeat):
        if draft.upbeat is not None:
            raise StructureFault("this movement has an upbeat already.", line)
        draft.upbeat = statement.passage
    elif len(draft.repeats) + len(draft.cuts) >= MOST_ORDERS:
        raise StructureFault(f"a movement has at most {MOST_ORDERS} repeats and cuts.", line)
    elif isinstance(statement, Repeat):
        draft.repeats.append(Numbered(statement, line))
    else:
        draft.cuts.append(Numbered(statement, line))


def _refuse_wrong_bar(draft: Draft, passage: Passage, line: int) -> None:
    expected = draft.passages[-1].last + 1 if draft.passages else 1
    if passage.first == 0:
        raise StructureFault("bars are counted from 1; a pickup is an “upbeat”.", line)
    if passage.first > expected:
        missing = _bars(expected, passage.first - 1)
        raise StructureFault(f"{missing} missing before this line.", line)
    if passage.first < expected:
        raise StructureFault(f"bar {passage.first} has been given already; bar {expected} is next.", line)


def _bars(first: int, last: int) -> str:
    return f"bar {first} is" if first == last else f"bars {first} to {last} are"


def _finished(draft: Draft) -> Movement:
    if not draft.passages and draft.upbeat is None:
        raise StructureFault("there are no bars here; write a line such as “1-16  4/4  q=72”.", draft.line)
    repeats = _repeats(draft)
    cuts = tuple(one.statement for one in draft.cuts if isinstance(one.statement, Cut))
    movement = Movement(draft.name, draft.before, tuple(draft.passages), draft.upbeat, repeats, cuts)
    for one in draft.repeats + draft.cuts:
        _refuse_outside(movement, one)
    return movement


def _refuse_outside(movement: Movement, one: Numbered) -> None:
    if not isinstance(one.statement, Repeat | Cut):
        return
    for bar in (one.statement.first, one.statement.last):
        if not movement.first <= bar <= movement.last:
            raise StructureFault(
                f"there is no bar {bar}; the bars go from {movement.first} to {movement.last}.", one.line
            )


def _repeats(draft: Draft) -> tuple[Repeat, ...]:
    """Return the repeats, each wholly inside another or wholly outside it."""
    kept: dict[tuple[int, int], Repeat] = {}
    for one in draft.repeats:
        if not isinstance(one.statement, Repeat):
            continue
        repeat = one.statement
        _refuse_wrong_ending(repeat, one.line)
        if any(_cross(repeat, other) for other in kept.values()):
            raise StructureFault("this repeat crosses another; one has to lie inside the other or apart.", one.line)
        bars = (repeat.first, repeat.last)
        kept[bars] = _together(kept[bars], repeat, one.line) if bars in kept else repeat
    return tuple(kept.values())


def _together(one: Repeat, other: Repeat, line: int) -> Repeat:
    """Return what two lines about the same bars say together."""
    if (one.times != 2 and other.times != 2) or (one.ending and other.ending):
        raise StructureFault(f"bars {one.first} to {one.last} are repeated already, in another way.", line)
    return Repeat(one.first, one.last, max(one.times, other.times), one.ending or other.ending)


def _refuse_wrong_ending(repeat: Repeat, line: int) -> None:
    if repeat.ending is None:
        return
    first, last = repeat.ending
    if not repeat.first < first or last != repeat.last:
        reason = f"the first ending has to be the last bars of {repeat.first}-{repeat.last}, and not all of them."
        raise StructureFault(reason, line)


def _cross(one: Repeat, other: Repeat) -> bool:
    apart = one.last < other.first or other.last < one.first
    inside = one.first <= other.first and other.last <= one.last
    around = other.first <= one.first and one.last <= other.last
    return not (apart or inside or around)


# ---- the order of playing


def played_bars(movement: Movement) -> list[int]:
    """Return the bars in the order in which they are played, cuts left out."""
    order = _expanded(movement.first, movement.last, movement.repeats)
    cut_bars = {bar for cut in movement.cuts for bar in range(cut.first, cut.last + 1)}
    return [bar for bar in order if bar not in cut_bars]


def played_count(first: int, last: int, repeats: tuple[Repeat, ...]) -> int:
    """Return how many bars are played, cuts counted, without going through them one by one."""
    count = last - first + 1
    for repeat, inner in _outermost(repeats):
        once = played_count(repeat.first, repeat.last, inner)
        count += once * repeat.times - (repeat.last - repeat.first + 1)
    return count


def _expanded(first: int, last: int, repeats: tuple[Repeat, ...]) -> list[int]:
    order: list[int] = []
    bar = first
    for repeat, inner in _outermost(repeats):
        order += range(bar, repeat.first)
        once = _expanded(repeat.first, repeat.last, inner)
        order += once * (repeat.times - 1) + [one for one in once if not _in_ending(one, repeat)]
        bar = repeat.last + 1
    return order + list(range(bar, last + 1))


def _in_ending(bar: int, repeat: Repeat) -> bool:
    return repeat.ending is not None and bar >= repeat.ending[0]


def _outermost(repeats: tuple[Repeat, ...]) -> list[tuple[Repeat, tuple[Repeat, ...]]]:
    """Return the repeats that lie in no other, in order, each with those inside it."""
    by_place = sorted(repeats, key=lambda repeat: (repeat.first, -repeat.last))
    found: list[tuple[Repeat, tuple[Repeat, ...]]] = []
    for repeat in by_place:
        if found and repeat.last <= found[-1][0].last:
            outer, inner = found[-1]
            found[-1] = (outer, (*inner, repeat))
        else:
            found.append((repeat, ()))
    return found


def _refuse_too_many(drafts: list[Draft], movements: tuple[Movement, ...]) -> None:
    total = 0
    for draft, movement in zip(drafts, movements, strict=True):
        total += played_count(movement.first, movement.last, movement.repeats)
        if total > MOST_PLAYED:
            raise StructureFault(f"with its repeats the map has more than {MOST_PLAYED} bars.", draft.line)
