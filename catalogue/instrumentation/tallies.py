"""Compares the number of players that a text tells with those whom it names, ``ensemble of 15 players: 1.1.1.1 …``.

The number introduces the list and adds nobody to it; where the two do not agree one of them is wrong, and it is said.
"""

from __future__ import annotations

from catalogue.instrumentation.drafts import Draft, Forces, Told
from catalogue.instrumentation.model import Line, is_instrumentalist, is_singer, total
from catalogue.instrumentation.phrases import count_at
from catalogue.instrumentation.tokens import Nodes

FEWEST = 2


def tell(nodes: Nodes, start: int, end: int, forces: Forces) -> None:
    """Keep the one number of the nodes from ``start`` to ``end``, words that only introduce a list.

    A number after a word is that of a label, ``Part 2:``.
    """
    numbers = [one for at in range(start, end) if (one := count_at(nodes, at)) is not None and one.end <= end]
    end -= nodes[end - 1].is_mark(":")
    labels = len(numbers) == 1 and numbers[0].end == end and start < end - 1
    if labels and nodes[start].kind == "word" and nodes[end - 1].kind == "number":
        return
    if len(numbers) == 1 and numbers[0].least == numbers[0].most >= FEWEST:
        forces.told.append(Told(numbers[0].most, nodes[start].start, nodes[end - 1].end))


def say_of_numbers(forces: Forces) -> None:
    """Say of a number after a name that is no chair of those counted before it, ``3 flutes 37``."""
    for draft in forces.drafts:
        beyond = draft.count is not None and draft.number_after and max(draft.number_after) > max(draft.most, 1)
        if beyond and not draft.collective:
            message = "The number after the name was read as that of a part."
            forces.remark("number-not-read", message, draft.start, draft.end, "a number of players")
        elif len(draft.number_after) == 1 and draft.count is None and is_lone_part(draft, forces):
            message = f"The number was read as that of one part, number {draft.number_after[0]}."
            forces.remark("lone-part", message, draft.start, draft.end, "a number of players")


def is_lone_part(draft: Draft, forces: Forces) -> bool:
    """Whether the number after a name is above one and no other part of the instrument is named, ``Fl 1, Hr 4``."""
    others = [one for one in forces.drafts if one is not draft and one.slug == draft.slug]
    return draft.number_after[0] > 1 and not others and draft.slug != "percussion" and not draft.chairs


def say_of_body(nodes: Nodes, start: int, end: int, drafts: list[Draft], forces: Forces) -> None:
    """Say of a number before an ensemble that is neither that of its players nor of ensembles, ``2 string quartet``."""
    counted = count_at(nodes, start) if drafts and nodes[start].kind == "number" else None
    if counted is None or counted.end >= end or counted.least != counted.most or counted.most < FEWEST:
        return
    number = counted.most
    groups = len({draft.group for draft in drafts})
    told = {
        groups,
        sum(draft.most for draft in drafts),
        *(one for draft in drafts for one in (draft.most, draft.parts)),
    }
    said = any(str(number) in f"{draft.notes} {draft.group}" for draft in drafts) or str(number) in (
        forces.channels or ""
    )
    if number not in told and not said:
        message = "This number was not read as a number of players."
        forces.remark("number-not-read", message, nodes[start].start, nodes[start].end, "so many of them")


def say_of_later(forces: Forces) -> None:
    """Say of ``timp, 2 players;``, a number told after some of the players, that nothing was made of it."""
    for told in forces.told:
        before = [one for one in forces.drafts if one.end <= told.start]
        among = 0 < len(before) < len(forces.drafts) and before[-1].family != "voice"
        if among and str(told.number) != forces.channels:
            message = f"“{forces.written(told.start, told.end)}” was not read as the number of those before it."
            forces.remark("number-not-read", message, told.start, told.end, "the players of what stands before it")


def compare(forces: Forces, lines: tuple[Line, ...]) -> None:
    """Say where a number that was told is not that of all players, nor of those beside the soloists, nor of singers."""
    if not forces.told:
        return
    everybody = [line for line in lines if is_instrumentalist(line)]
    choices = ([*lines], everybody, [one for one in everybody if one.role == "ensemble"], [*filter(is_singer, lines)])
    sums = [total(one) for one in choices]
    if any(one is None for one in sums):
        say_of_later(forces)
        return
    for told in forces.told:
        if str(told.number) == forces.channels:
            continue
        if not any(one is not None and one[0] <= told.number <= one[1] for one in sums):
            named = sums[1][1] if sums[1] else 0
            message = f"“{forces.written(told.start, told.end)}” tells {told.number}; {named} players are named."
            forces.remark("numbers-differ", message, told.start, told.end)
