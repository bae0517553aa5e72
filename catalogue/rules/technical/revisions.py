"""What is different between a rider as it was last sent and as it is now."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

Lists = Mapping[str, Sequence[str]]


@dataclass(frozen=True, slots=True)
class Difference:
    """Under one head of the rider: the lines that came in, and those that went."""

    head: str
    new: tuple[str, ...]
    gone: tuple[str, ...]


def differences(before: Lists, now: Lists) -> tuple[Difference, ...]:
    """The heads under which something is different, in the order of the rider.

    >>> differences({"Inputs": ["1 violin", "2 cello"]}, {"Inputs": ["1 violin", "2 viola"]})
    (Difference(head='Inputs', new=('2 viola',), gone=('2 cello',)),)
    """
    heads = dict.fromkeys((*now, *before))
    found = (difference(head, before.get(head, ()), now.get(head, ())) for head in heads)
    return tuple(one for one in found if one.new or one.gone)


def difference(head: str, before: Sequence[str], now: Sequence[str]) -> Difference:
    return Difference(
        head,
        tuple(line for line in now if line not in before),
        tuple(line for line in before if line not in now),
    )
