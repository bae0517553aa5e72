"""Makes one line of the numbered players or parts of an instrument, ``Oboe 1, Oboe 2``, ``1st horn``, ``flute 1,2``."""

from __future__ import annotations

from catalogue.instrumentation.doublings import doublings_in
from catalogue.instrumentation.drafts import Draft, Forces
from catalogue.instrumentation.model import Chair
from catalogue.instrumentation.players_meant import Section
from catalogue.instrumentation.seating import apply, own_section


def merge_seats(forces: Forces) -> None:
    """Make one line of numbered players or parts of an instrument, ``Oboe 1, Oboe 2``, ``1st horn``, ``flute 1,2``."""
    if not [draft for draft in forces.drafts if draft.seats or draft.number_after]:
        return
    merged: dict[tuple[str, str | None, str], Draft] = {}
    kept: list[Draft] = []
    totals = players_of_parts(forces)
    for draft in forces.drafts:
        seats = draft.seats or draft.number_after
        if not seats or draft.slug == "percussion":
            kept.append(draft)
            continue
        key = (draft.slug, draft.group, draft.role)
        if key not in merged and sits_with(draft, seats, kept):
            continue
        if key in merged:
            join(merged[key], draft, seats)
        else:
            merged[key] = draft
            first_seats(draft, seats)
            kept.append(draft)
    for key, draft in merged.items():
        if key in totals:
            draft.numbers = totals[key]
            draft.counted(sum(most for _, most in totals[key]))
        finish_seats(draft, forces)
    forces.drafts[:] = kept


def sits_with(draft: Draft, seats: tuple[int, ...], before: list[Draft]) -> bool:
    """Give a player who doubles to those counted before him, ``2 flutes, piccolo/flute 3``: he is one of them or next.

    True where there are such players; of him nothing but what he plays and his number is told.
    """
    same = [one for one in before if (one.slug, one.group, one.role) == (draft.slug, draft.group, draft.role)]
    told = len(same) == len(seats) == len(draft.chairs) == 1 and draft.chairs[0].chair == seats[0]
    if not told or same[0].count is None or same[0].least < same[0].most or not 1 < seats[0] <= same[0].most + 1:
        return False
    counted = same[0]
    if any(chair.chair in (None, seats[0]) for chair in counted.chairs) or draft.notes or draft.optional:
        return False
    counted.chairs = sorted([*counted.chairs, *draft.chairs], key=lambda chair: chair.chair or 0)
    counted.counted(max(counted.most, seats[0]))
    return True


def players_of_parts(forces: Forces) -> dict[tuple[str, str | None, str], list[tuple[int, int]]]:
    """Return how many players numbered parts have that are counted each, ``2nd cornet (2), 3rd cornet (2)``."""
    found: dict[tuple[str, str | None, str], list[Draft]] = {}
    for draft in forces.drafts:
        if len(draft.seats) == 1 and not draft.number_after and draft.slug != "percussion" and not draft.optional:
            found.setdefault((draft.slug, draft.group, draft.role), []).append(draft)
    several = {key: parts for key, parts in found.items() if len(parts) > 1 and any(one.most > 1 for one in parts)}
    several = {key: parts for key, parts in several.items() if not any(one.chairs for one in parts)}
    return {key: [(one.least, one.most) for one in parts] for key, parts in several.items()}


def first_seats(draft: Draft, seats: tuple[int, ...]) -> None:
    draft.chairs = [seated(chair, seats) for chair in draft.chairs]
    draft.number_after, draft.seats, draft.spare = (), seats, len(seats) * draft.optional


def seated(chair: Chair, seats: tuple[int, ...]) -> Chair:
    """Return a chair with its number among the seats named, ``horn 3, 4/Wagner tuba``: the fourth."""
    if chair.chair in seats or (chair.chair is None and len(seats) > 1):
        return chair
    at = min(chair.chair or 1, len(seats)) - 1
    return Chair(seats[at], chair.plays, chair.note)


def join(first: Draft, draft: Draft, seats: tuple[int, ...]) -> None:
    """Add the seats of a further draft to the first of its instrument."""
    first.seats = (*first.seats, *(seat for seat in seats if seat not in first.seats))
    first.chairs += [seated(chair, seats) for chair in draft.chairs]
    first.end = draft.end
    first.spare += len(seats) * draft.optional
    first.optional = first.optional and draft.optional
    first.section_clauses += draft.section_clauses
    first.notes += [note for note in draft.notes if note not in first.notes]


def finish_seats(draft: Draft, forces: Forces) -> None:
    if draft.count is None or draft.most < len(draft.seats):
        draft.counted(max(len(draft.seats), 1))
    if draft.spare and not draft.optional:
        draft.counted(max(draft.most - draft.spare, 0), draft.most)
    if len(draft.seats) > 1:
        forces.dresses.add("numbered")
        forces.numbered += draft.seats
    section = Section(own_section(draft), draft.slug, draft.most)
    for clause in draft.section_clauses:
        apply(draft, doublings_in(clause, section, forces) or [], forces, clause[0].start, clause[-1].end)
    draft.chairs = sorted(draft.chairs, key=lambda chair: chair.chair or 0)
    draft.seats = ()
