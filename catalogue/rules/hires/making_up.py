"""The list that goes with a set: a row a part, with the numbers of its copies, and back from what is kept of it."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import asdict, fields, replace
from typing import Any

from catalogue.instrumentation.parts import Kind, Part, PartSet
from catalogue.rules.hires.terms import Item


def rows_of(parts: PartSet) -> tuple[Part, ...]:
    """Return the parts in score order, spare copies of strings after them."""
    return (*parts.parts, *parts.extra)


def copy_numbers(copies: int | None) -> str:
    """Return the numbers that the copies of a part bear; none where there is one copy only.

    >>> copy_numbers(7), copy_numbers(1)
    ('1–7', '')
    """
    return f"1–{copies}" if copies is not None and copies > 1 else ""


def part_values(part: Part) -> dict[str, Any]:
    """Return a part as values that JSON can hold.

    >>> part_of(part_values(Part(3, Kind.PLAYER, "oboe"))) == Part(3, Kind.PLAYER, "oboe")
    True
    """
    return asdict(part) | {"kind": part.kind.value, "plays": list(part.plays)}


def part_of(values: dict[str, Any]) -> Part | None:
    """Return the part that was kept, ``None`` where the row is of something else."""
    if not values:
        return None
    known = {name: values[name] for name in (one.name for one in fields(Part)) if name in values}
    return Part(**known | {"kind": Kind(values["kind"]), "plays": tuple(values.get("plays", ()))})


def is_extra(item: Item) -> bool:
    """Whether a row holds spare copies of a string part, which no total counts."""
    return item.part is not None and item.part.kind is Kind.SECTION and item.part.players is None


def set_of(items: Iterable[Item]) -> PartSet:
    """Return the set that a list is of: as it was made up, and once it is packed as it was sent."""
    sent = (item for item in items if item.sent is None or item.sent)
    parts = [(is_extra(item), as_sent(item.part, item.sent)) for item in sent if item.part is not None]
    return PartSet(
        tuple(part for extra, part in parts if not extra),
        tuple(part for extra, part in parts if extra),
    )


def as_sent(part: Part, copies: int | None) -> Part:
    return part if copies is None else replace(part, copies=copies)


def things_of(items: Iterable[Item]) -> tuple[tuple[str, int], ...]:
    """Return what is sent besides the parts, with how many of it."""
    return tuple((item.name, item.out) for item in items if item.part is None and item.out)
