"""Cuts bare figures into families: the runs of a text that hold figures, the marks that part woodwind from brass.

A dash, a slash or a semicolon parts families unless it runs through single figures; where points part the places a
lone blank parts families too. Order and marks: common practice.
"""

from __future__ import annotations

from itertools import pairwise

from catalogue.instrumentation.drafts import Draft, Forces
from catalogue.instrumentation.vocabulary import family_of, instrument

WOODWIND = ("flute", "oboe", "clarinet", "bassoon")
WOODWIND_FIVE = ("flute", "oboe", "clarinet", "saxophone", "bassoon")
BRASS = ("horn", "trumpet", "trombone", "tuba")
BRASS_FIVE = ("horn", "trumpet", "trombone", "euphonium", "tuba")
MAIN = frozenset(WOODWIND + BRASS)
SHORTEST_PAIR = 6
"""Figures that are too many for one family and may be two."""
PAIR = 2
WINDS = ("woodwind", "brass")
Block = list[Draft]


def stretches_of(drafts: list[Draft]) -> list[Block]:
    """Return the runs of drafts that hold figures, wind extras among them and beside them included."""
    stretches: list[Block] = []
    current: Block = []
    for draft in drafts:
        fits = draft.figure or (is_wind(draft) and not draft.collective)
        other_group = current and (draft.group != current[0].group or draft.role != current[0].role)
        if not fits or other_group:
            stretches, current = [*stretches, current], []
        if fits:
            current.append(draft)
    stretches.append(current)
    return [stretch for stretch in stretches if any(draft.figure for draft in stretch)]


def is_wind(draft: Draft) -> bool:
    slugs = draft.name.slugs if draft.name else (draft.slug,)
    if draft.extra and draft.name and not draft.name.slugs:
        return True
    wind = any(instrument(slug).family in WINDS for slug in slugs if slug)
    shared = (
        draft.name is not None and len(draft.name.written) <= 6 and slugs[0].startswith(("voice-bass", "voice-alto"))
    )
    return wind or (shared and draft.extra)


def blocks_of(stretch: Block, forces: Forces) -> list[Block]:
    """Cut a stretch into families."""
    blocks: list[Block] = [[]]
    runs: dict[int, bool] = {}
    for index, draft in enumerate(stretch):
        if index and breaks(stretch, index, runs):
            blocks.append([])
        blocks[-1].append(draft)
    parts = [part for block in blocks for part in uneven(block)]
    return [cut for at, part in enumerate(parts) for cut in (timpanist_apart(part) if at else [part])]


def timpanist_apart(block: Block) -> list[Block]:
    """Cut off the timpanist and percussionists that a comma joins to the brass, ``4, 3, 3, 1, 1+3``."""
    if len(places_in(block)) != len(BRASS) + 1 or len(block) < len(BRASS) + PAIR:
        return [block]
    last = block[-PAIR:]
    told = all(draft.figure for draft in last) and last[1].extra and not last[0].extra and last[0].most < PAIR
    return [block[:-PAIR], last] if told else [block]


def breaks(stretch: Block, index: int, runs: dict[int, bool]) -> bool:
    """Whether a family ends before the draft at ``index``; ``runs`` keeps what is known of the marks of the stretch."""
    draft, before = stretch[index], stretch[index - 1]
    mark = mark_before(draft).strip()
    if any(one in draft.separator for one in ";:\n§"):
        return True
    if draft.extra and before.packed and draft.packed:
        return False
    if before.packed and draft.packed:
        return draft.start != before.end and not (before.brackets and before.end == draft.start)
    if not draft.figure and not (set(mark) & set("-/")):
        return False
    if named_apart(before, mark) and not any(one.figure for one in stretch[:index]):
        return True
    if mark and mark in "-/·":
        return not runs_through(stretch, index, runs)
    return "-" in mark or ("/" in mark)


def named_apart(draft: Draft, mark: str) -> bool:
    """Whether a brass player named before all figures, ``3 tpt (offstage), 2.2.2.2``, is none of the family after."""
    slugs = draft.name.slugs if draft.name is not None else ()
    return not draft.figure and mark == "," and bool(slugs) and family_of(slugs[0]) == "brass"


def runs_through(stretch: Block, index: int, runs: dict[int, bool]) -> bool:
    """Whether the mark before the draft also stands between its neighbours, so that it parts places.

    Auxiliaries among the figures, ``2 · 2 · 2 · bcl · 2``, and those added to a place, ``3-2+1-3``, are passed over.
    What is found is kept for all the places of the run.
    """
    if index in runs:
        return runs[index]
    mark = mark_before(stretch[index])
    run = [index]
    for step in (-1, 1):
        at = index + step
        while 0 < at < len(stretch) and (stretch[at].extra or mark_before(stretch[at]) == mark):
            run += [] if stretch[at].extra else [at]
            at += step
    members = {one for at in run for one in (at, at - 1)}
    plain = all(takes_place(stretch[at]) or is_auxiliary(stretch[at]) for at in members)
    found = len(run) >= 2 and plain and sum(stretch[at].figure for at in members) > len(run) // 2
    runs.update(dict.fromkeys(run if not stretch[index].extra else (index,), found))
    return found


def takes_place(draft: Draft) -> bool:
    """Whether a draft is a figure by itself or a player added to one."""
    return draft.extra or (draft.figure and not draft.packed)


def mark_before(draft: Draft) -> str:
    """Return the marks before a draft without the point of the abbreviation that they follow."""
    marks = draft.separator.lstrip(".")
    return marks or draft.separator


def is_auxiliary(draft: Draft) -> bool:
    """Whether a draft names one player by a wind instrument that has no place of its own."""
    slugs = draft.name.slugs if draft.name is not None else ()
    alone = not draft.figure and draft.count is None and not draft.collective
    return alone and bool(slugs) and slugs[0] not in MAIN and family_of(slugs[0]) in WINDS


def uneven(block: Block) -> list[Block]:
    """Cut a block at a lone blank where its places are parted by a mark, as in ``2,2,2,2 4,2,3,1``."""
    figures = places_in(block)
    first = blanks_begin(figures)
    if len(figures) >= SHORTEST_PAIR and first and len(figures) - first <= len(BRASS):
        at = next(at for at, draft in enumerate(block) if draft is figures[first])
        return [block[:at], block[at:]]
    if len(figures) < 7:
        return [block]
    marked = [draft for draft in figures[1:] if draft.separator.strip()]
    blanks = [draft for draft in figures[1:] if not draft.separator.strip()]
    if len(marked) >= 4 and 1 <= len(blanks) <= 2:
        cuts = [at for at, draft in enumerate(block) if any(draft is one for one in blanks)]
    elif len(figures) in (8, 9, 13):
        starts = [figures[4]] + ([figures[8]] if len(figures) == 13 else [])
        cuts = [at for at, draft in enumerate(block) if any(draft is one for one in starts)]
    else:
        return [block]
    edges = [0, *cuts, len(block)]
    return [block[start:end] for start, end in pairwise(edges) if end > start]


def blanks_begin(figures: list[Draft]) -> int:
    """Return from which figure on blanks part the figures of a block, where marks part those before; 0 elsewhere."""
    marked = [bool(draft.separator.strip()) for draft in figures[1:]]
    first = marked.index(False) if False in marked else 0
    return first + 1 if first and not any(marked[first:]) else 0


def places_in(block: Block) -> list[Draft]:
    """Return the drafts of a block that take a place: figures, and counted main instruments among them."""
    first = next((at for at, draft in enumerate(block) if draft.figure and not draft.extra), len(block))
    return [
        draft
        for at, draft in enumerate(block)
        if (draft.figure and not draft.extra)
        or (at > first and draft.count is not None and not draft.extra and (draft.slug in MAIN or joined_at(block, at)))
    ]


def joined_at(block: Block, at: int) -> bool:
    """Whether two counted kinds of one section are joined here and take its place together, ``2crt+2tpt``."""
    draft, further = block[at], block[at + 1] if at + 1 < len(block) else None
    if further is None or not further.extra or further.count is None or not (draft.slug and further.slug):
        return False
    section = instrument(draft.slug).section
    return not (draft.figure or further.figure) and section in MAIN and instrument(further.slug).section == section
