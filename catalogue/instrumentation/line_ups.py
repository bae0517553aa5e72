"""Other line-ups of one text: ``fl, va, hp; or 2 vn, pf`` names two sets of players, either of which may play.

``or`` begins another line-up after a semicolon or on a new line, where it stands alone between two lists that ``and``
or points join, and between two ensembles: ``flute and piano or violin and piano``, ``string quartet or string
orchestra``. One name after it stands in for one line, ``harp or piano`` (see ``tails``).
"""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import replace
from typing import TYPE_CHECKING

from catalogue.instrumentation.lexicon import OR
from catalogue.instrumentation.limits import line_up_end
from catalogue.instrumentation.model import Instrumentation, InstrumentationError, Remark
from catalogue.instrumentation.phrases import is_key, is_small
from catalogue.instrumentation.rows import keys_of
from catalogue.instrumentation.tokens import Nodes

if TYPE_CHECKING:
    from catalogue.instrumentation.scanning import Scan

FEWEST = 2
MOST = 12
"""A text that names more line-ups than these names one, with many choices in it."""
PARTS_WHOLES = ";\n"
PARTS_ITEMS = ",;:\n•*"

Read = Callable[[str], Instrumentation]


def read_line_ups(text: str, nodes: Nodes, read: Read) -> Instrumentation | None:
    """Return the first line-up with the others as its alternatives, ``None`` where the text names only one.

    ``read`` reads one line-up.
    """
    if keys_of(nodes).isdisjoint(OR):
        return None
    places = [at for at in range(1, len(nodes) - 1) if begins_line_up(nodes, at)]
    cuts = [at for at in places if nodes[at - 1].is_mark(PARTS_WHOLES)] or between_lists(nodes, places)
    known: dict[str, Instrumentation | None] = {}
    while 0 < len(cuts) < MOST:
        written = [*stretches(text, nodes, cuts)]
        known |= {stretch: try_to_read(stretch, read) for stretch in written if stretch not in known}
        found = [known[stretch] for stretch in written]
        misread = [at for at, one in enumerate(found) if one is None or (at and len(one.lines) < FEWEST)]
        if not misread:
            return joined(text, nodes, cuts, [one for one in found if one is not None])
        del cuts[max(misread[0] - 1, 0)]
    return None


def begins_line_up(nodes: Nodes, at: int) -> bool:
    """Whether ``or`` stands here; a capital ``O`` is one only with a colon after it."""
    return is_key(nodes[at], OR) and (nodes[at + 1].is_mark(":") or is_small(nodes[at], OR))


def between_lists(nodes: Nodes, places: list[int]) -> list[int]:
    """Return the one ``or`` of a text in which nothing else parts one list from another."""
    if len(places) != 1 or any(node.is_mark(PARTS_ITEMS) or (node.is_mark("-") and node.spaced) for node in nodes):
        return []
    return places


def stretches(text: str, nodes: Nodes, cuts: list[int]) -> Iterator[str]:
    """Yield the text of each line-up, blanks before it, so that places stay what they are in the whole text."""
    starts = [0, *(nodes[at].end for at in cuts)]
    ends = [*(nodes[at].start for at in cuts), len(text)]
    for start, end in zip(starts, ends, strict=True):
        yield " " * start + text[start:end].rstrip(" ;,:\n")


def try_to_read(text: str, read: Read) -> Instrumentation | None:
    try:
        return read(text)
    except InstrumentationError:
        return None


def joined(text: str, nodes: Nodes, cuts: list[int], found: list[Instrumentation]) -> Instrumentation | None:
    """Return the first line-up with the others, and say of each that it was read so."""
    first, *others = found
    if len(first.lines) < FEWEST and not nodes[cuts[0] - 1].is_mark(PARTS_WHOLES):
        return None
    others = [replace(one, text=one.text.strip(" :\n")) for one in others]
    starts = [nodes[at + 1 + nodes[at + 1].is_mark(":")].start for at in cuts]
    remarks = [
        Remark(start, start + len(one.text), "alternative", told(one))
        for start, one in zip(starts, others, strict=True)
    ]
    warnings = (*first.warnings, *remarks, *(remark for one in others for remark in one.warnings))
    return replace(first, text=text, alternatives=tuple(others), warnings=warnings)


def told(one: Instrumentation) -> str:
    return f"“{' '.join(one.text.split())}” was read as another line-up, all of it instead of what stands before."


def another_line_up(scan: Scan, at: int) -> int | None:
    """Keep a whole list after ``or``, ``fl.ob.cl or hn.2tpt.tbn``, as a note: it replaces all that stand before."""
    last = scan.last
    if not is_small(scan.nodes[at], OR) or last is None or last.separator != "." or last.figure:
        return None
    end = line_up_end(scan.nodes, at + 1)
    if end is None:
        return None
    start, stop = scan.nodes[at].start, scan.nodes[end - 1].end
    written = scan.forces.written(start, stop)
    last.notes.append(written)
    message = f"“{written}” was kept as another choice of players, all of them instead of those before."
    scan.forces.remark("alternative", message, start, stop)
    return end
