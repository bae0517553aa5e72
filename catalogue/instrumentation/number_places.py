"""Tells whether numbers stand after the names that they count or number, ``Fl.2, Ob.2``, ``Harp: 2``."""

from __future__ import annotations

from itertools import pairwise

from catalogue.instrumentation.drafts import Count, Draft
from catalogue.instrumentation.families import MAIN
from catalogue.instrumentation.lexicon import BODY_OF_STRINGS
from catalogue.instrumentation.phrases import FAMILY, count_at, ordinal_at
from catalogue.instrumentation.rows import remembered
from catalogue.instrumentation.tokens import Bracket, Nodes


@remembered
def numbers_after_names(nodes: Nodes) -> bool:
    """Whether every number of the row stands after a word and its point, ``Fl.2, Ob.2``; two, or nothing else."""
    nodes = before_strings(nodes)
    numbers = [at for at, node in enumerate(nodes) if node.kind == "number" and ordinal_at(nodes, at) is None]
    if numbers_glued(nodes, numbers) or numbers_between(nodes, numbers):
        return True
    ranges = {at for at in numbers if at > 1 and nodes[at - 1].is_mark("-") and nodes[at - 2].kind == "number"}
    pointed = [at in ranges or goes_on(nodes, at) or after_point(nodes, at) for at in numbers]
    if any(pointed) and len({nodes[at - 1 - nodes[at - 1].is_mark(".:")].key for at in numbers}) == len(numbers):
        pointed = [point or parted_name(nodes, at) for at, point in zip(numbers, pointed, strict=True)]
    apart = [at + 1 == len(nodes) or nodes[at + 1].kind != "word" or nodes[at + 1].spaced for at in numbers]
    several = len(numbers) > 1 or (numbers == [2] and len(nodes) == 3)
    return several and all(pointed) and all(apart) and not numbers_before_names(nodes, numbers)


def after_point(nodes: Nodes, at: int) -> bool:
    """Whether a number stands after a word and its point or colon."""
    return at > 1 and nodes[at - 1].is_mark(".:") and nodes[at - 2].kind == "word"


def goes_on(nodes: Nodes, at: int) -> bool:
    """Whether a number is the next after another that a comma parts from it, the 2 of ``Fl. 1, 2;``."""
    before = nodes[at - 2] if at > 1 and nodes[at - 1].is_mark(",&") else None
    numbers = [getattr(node, "text", "") for node in (before, nodes[at])]
    return before is not None and before.kind == "number" and int(numbers[1]) == int(numbers[0]) + 1


def before_strings(nodes: Nodes) -> Nodes:
    """Return the nodes up to the figures of the strings, which are no numbers after names, ``…, archi 8.6.4.4.2``."""
    pairs = pairwise(nodes)
    end = next((at for at, (one, two) in enumerate(pairs) if two.kind == "number" and one.key in BODY_OF_STRINGS), None)
    return nodes if end is None else nodes[:end]


def parted_name(nodes: Nodes, at: int) -> bool:
    """Whether a number stands after a word and a blank at the end of an item, ``Tuba 1,``."""
    ends = at + 1 == len(nodes) or nodes[at + 1].is_mark(",;\n")
    return at > 0 and nodes[at - 1].kind == "word" and ends


def numbers_part(nodes: Nodes, at: int) -> bool:
    """Whether a number stands after a word and a blank; brackets may follow it, ``Tuba 1 (in F),``."""
    end = next((one for one in range(at + 1, len(nodes)) if not isinstance(nodes[one], Bracket)), len(nodes))
    return at > 0 and nodes[at - 1].kind == "word" and (end == len(nodes) or nodes[end].is_mark(",;\n"))


def numbers_before_names(nodes: Nodes, numbers: list[int]) -> bool:
    """Whether numbers between pointed names belong to the next, ``Fl. Ob. 2 Vl.``: the first name has none."""
    first, last = numbers[0], numbers[-1] + 1
    return first > 2 and last < len(nodes) and nodes[last].kind == "word"


def numbers_between(nodes: Nodes, numbers: list[int]) -> bool:
    """Whether only blanks part names and numbers in turn, the first a name, ``fl 2 ob 2 cl 2 bn 2 timp``."""
    last = len(numbers) > 1 and numbers[-1] == len(nodes) - 1
    alternate = (len(numbers) > FAMILY - 1 or last) and numbers == list(range(1, 2 * len(numbers), 2))
    return alternate and all(nodes[at - 1].kind == "word" and nodes[at].spaced for at in numbers)


def numbers_glued(nodes: Nodes, numbers: list[int]) -> bool:
    """Whether every number is written to a word, ``Fl1, Fl2/Picc, Hn1-4``, or ends a range that begins so."""
    glued = [at for at in numbers if at and nodes[at - 1].kind == "word" and not nodes[at].spaced]
    ranges = [at for at in numbers if at > 1 and nodes[at - 1].is_mark("-") and nodes[at - 2].kind == "number"]
    ends = all(at + 1 == len(nodes) or nodes[at + 1].kind != "word" for at in numbers)
    return len(glued) > 2 and ends and len(glued) + len(ranges) == len(numbers)


def ends_item(nodes: Nodes, at: int) -> bool:
    """Whether a comma, a semicolon, a line's or the text's end stands here, brackets passed over."""
    while at < len(nodes) and isinstance(nodes[at], Bracket):
        at += 1
    return at >= len(nodes) or nodes[at].is_mark(",;\n") or (nodes[at].is_mark("-") and nodes[at].spaced)


def glued_number(nodes: Nodes, at: int, draft: Draft) -> int | None:
    """Take the number of a main instrument that is an item of its own beside figures, ``fl.1 (picc.), cl.1, 1.1.1``."""
    first = draft.name.first if draft.name is not None else 0
    apart = first == 0 or nodes[first - 1].is_mark(",;:\n") or (nodes[first - 1].is_mark("-") and nodes[first].spaced)
    counted = count_at(nodes, at + 1) if apart and draft.slug in MAIN and draft.count is None else None
    if counted is None or nodes[at + 1].spaced or not ends_item(nodes, counted.end):
        return None
    draft.count = counted
    return counted.end


def number_told(nodes: Nodes, at: int) -> Count | None:
    """Return the number after a colon that ends an item, ``Harp: 2;``."""
    counted = count_at(nodes, at + 1)
    ends = counted is not None and (counted.end >= len(nodes) or nodes[counted.end].is_mark(";\n"))
    return counted if ends and nodes[at + 1].kind == "number" else None
