"""Gives a word for optional or amplified that stands after an item to that item, or to all: ``pf amplified``."""

from __future__ import annotations

from typing import TYPE_CHECKING

from catalogue.instrumentation.denials import DENYING
from catalogue.instrumentation.drafts import Draft
from catalogue.instrumentation.lexicon import AMPLIFIED, OPTIONAL, keyed
from catalogue.instrumentation.names import name_at
from catalogue.instrumentation.numbers import ALL
from catalogue.instrumentation.phrases import is_key, phrase_end, token_at

if TYPE_CHECKING:
    from catalogue.instrumentation.scanning import Scan

NOT = DENYING | keyed("not nicht non pas ne_pas never")
DEVICES = ("electronics", "other")


def said_after(scan: Scan, at: int) -> int | None:
    """Take a word for optional or amplified at a place and return its end; ``None`` where there is none."""
    for words, quality in ((OPTIONAL, "optional"), (AMPLIFIED, "amplified")):
        end = phrase_end(scan.nodes, at + is_key(scan.nodes[at], ALL), words)
        if end is None:
            continue
        if not is_key(token_at(scan.nodes, at - 1), NOT):
            for one in said_of(scan, at):
                setattr(one, quality, True)
            say_of_points(scan, at, end)
        return end
    return None


def said_of(scan: Scan, at: int) -> list[Draft]:
    """Return the item before a place, or all players where ``all`` stands before it, ``fl, vc, pf; all amplified``."""
    if ALL & {getattr(scan.nodes[one], "key", "") for one in (at - 1, at) if one >= 0}:
        return [one for one in scan.forces.drafts if one.family not in DEVICES]
    return scan.beside_last()


def say_of_points(scan: Scan, at: int, end: int) -> None:
    """Say of ``ob. opt. cl.``, where points part the items, that the word was read with the item before it."""
    before, after = token_at(scan.nodes, at - 1), token_at(scan.nodes, end)
    pointed = before is not None and after is not None and before.is_mark(".") and after.is_mark(".")
    if scan.last is None or not pointed or name_at(scan.nodes, end + 1) is None:
        return
    start, stop = scan.nodes[at].start, scan.nodes[end - 1].end
    message = f"“{scan.forces.written(start, stop)}” was read with what stands before it."
    scan.forces.remark("said-after", message, start, stop, "with what stands after it")
