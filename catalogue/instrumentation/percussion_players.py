"""What each percussionist plays, where a list tells it player by player: ``perc(2): 1: vib, BD; 2: glock, tam-tam``."""

from __future__ import annotations

import re
from itertools import takewhile

from catalogue.instrumentation.drafts import Draft, Forces
from catalogue.instrumentation.model import Chair
from catalogue.instrumentation.numbers import roman

WORD = r"(?:players?|perc(?:ussion(?:ist)?)?|perc\.|spieler|schlagzeug(?:er)?|schlz\.|esecutore|percussionniste|no\.)"
LABEL = re.compile(
    rf"(?:^|[;,.\n/|]\s*|\s)(?:{WORD}\s*)?(\d{{1,2}}|[IVX]{{1,4}})(?:\.?\s*[:=)]|\s+[–—-](?=\s)|\.(?=\s))\s*", re.I
)
FEWEST = 2


def by_player(listed: str) -> list[tuple[int, str]]:
    """Return what is listed for each of the players numbered from 1, nothing where the list is not cut so.

    >>> by_player("1: vib, 2 tom-toms; 2: glock")
    [(1, 'vib, 2 tom-toms'), (2, 'glock')]
    >>> by_player("vib, glock")
    []
    """
    found: list[tuple[int, int, int]] = []
    for label in LABEL.finditer(listed):
        seat = int(label[1]) if label[1].isdecimal() else roman(label[1]) or 0
        if seat == len(found) + 1:
            found.append((seat, label.start(), label.end()))
    if len(found) < FEWEST or found[0][1] > 0:
        return []
    ends = [start for _, start, _ in found[1:]] + [len(listed)]
    told = [(seat, listed[start:end].strip(" ;,.\n/|-–")) for (seat, _, start), end in zip(found, ends, strict=True)]
    return told if all(text for _, text in told) else []


def tell_players(draft: Draft, most: int | None) -> bool:
    """Give each percussionist of a section what the notes on it, in one bracket or several, list for that player.

    ``most`` is the number of players that the text gives, ``None`` where the list is all that tells it.
    """
    told = by_player("; ".join(draft.notes)) if draft.notes and not draft.chairs else []
    if not told or (most is not None and most != len(told)) or any("”" in text for _, text in told):
        return False
    draft.chairs = [Chair(seat, ("percussion",), text) for seat, text in told]
    draft.notes = []
    if most is None:
        draft.counted(len(told))
    return True


def say_of_numbers_apart(draft: Draft, forces: Forces) -> None:
    """Say so where a list tells more or fewer percussionists than are counted, and give each of those there his own."""
    told = by_player("; ".join(draft.notes)) if draft.notes and not draft.chairs and draft.count is not None else []
    if not told or draft.least != draft.most or len(told) == draft.most or any("”" in text for _, text in told):
        return
    message = f"{draft.most} percussionists are counted, and what {len(told)} of them play is listed."
    forces.remark("players-differ", message, draft.start, draft.end, f"{len(told)} players")
    if len(told) < draft.most:
        draft.chairs = [Chair(seat, ("percussion",), text) for seat, text in told]
        draft.notes = []


def drop_label(forces: Forces) -> None:
    """Leave out ``percussion:`` before those who play it, ``Percussion: timpani, 2 percussion``."""
    for at, draft in enumerate(forces.drafts):
        bare = draft.slug == "percussion" and draft.count is None and not (draft.notes or draft.brackets or draft.seats)
        if not bare or draft.number_after or not forces.text[draft.end :].lstrip(". ").startswith(":"):
            continue
        listed = takewhile(lambda one: one.slug in ("timpani", "percussion"), forces.drafts[at + 1 :])
        if any(one.slug == "percussion" and one.count is not None for one in listed):
            del forces.drafts[at]
            return
