"""Reads whom of the counted players a clause names in running text, ``3 oboes, including English horn``, as a bracket.

member clause = [ "," ] , ( "including" | "davon" | "dont" | "of which" | number , "of them" ) , [ number ] , name ,
                { joining word , [ number ] , name } ;

The names are of the section before it, and nothing in it doubles: what ``(including English horn)`` says it says too.
"""

from __future__ import annotations

from catalogue.instrumentation.chair_lists import WHICH_ARE, WORDS_OF_CONTAINING, contents
from catalogue.instrumentation.lexicon import AND, OF
from catalogue.instrumentation.names import Name, name_at
from catalogue.instrumentation.phrases import count_at, is_key
from catalogue.instrumentation.players_meant import linked
from catalogue.instrumentation.rows import keys_of
from catalogue.instrumentation.tokens import Bracket, Node, Nodes, Row
from catalogue.instrumentation.vocabulary import instrument

LONGEST_NAME = 5
LONGEST = 12
"""Nodes that are looked at for what a clause says."""
WITH = {"with"}
LEADING = OF | WORDS_OF_CONTAINING


def members_in_brackets(nodes: tuple[Node, ...]) -> tuple[Node, ...]:
    """Return the nodes with each such clause in a bracket after the name before it."""
    if keys_of(nodes).isdisjoint(WHICH_ARE):
        return nodes
    found: list[Node] = []
    at = 0
    while at < len(nodes):
        start = at + nodes[at].is_mark(",")
        end = clause_end(nodes, start, section_before(nodes, at)) if at and begins(nodes, start) else None
        if end is None:
            found.append(nodes[at])
            at += 1
            continue
        first, last = nodes[start], nodes[end - 1]
        found.append(Bracket("(", Row(nodes[start:end]), first.start, last.end, True))
        at = end
    return Row(found) if len(found) < len(nodes) else nodes


def begins(nodes: Nodes, at: int) -> bool:
    """Whether words that name some of the counted players begin here."""
    if at >= len(nodes) or nodes[at].kind not in ("word", "number") or is_key(nodes[at], WITH):
        return False
    leads = nodes[at].key in LEADING or count_at(nodes, at) is not None
    return leads and contents(nodes[at : at + LONGEST])[0]


def clause_end(nodes: Nodes, at: int, section: str) -> int | None:
    """Return the end of the names of a clause, all of them of the section; ``None`` where it says something else."""
    inside = contents(nodes[at : at + LONGEST])[1]
    if not section or linked(inside, 0)[0] is not None:
        return None
    last, end = None, 0
    while (name := member_at(inside, end, section)) is not None:
        last, end = name.stop, name.end
        if end >= len(inside) or not is_key(inside[end], AND):
            break
        end += 1
    return None if last is None else next(one + 1 for one in range(at, len(nodes)) if nodes[one].end == last)


def member_at(nodes: Nodes, at: int, section: str) -> Name | None:
    """Return the name of one of the players, over its number."""
    counted = count_at(nodes, at)
    name = name_at(nodes, counted.end if counted is not None else at, section)
    slug = (name.surely(section) or name.slugs[0]) if name is not None else ""
    return name if slug and slug != section and instrument(slug).section == section else None


def section_before(nodes: Nodes, at: int) -> str:
    """Return the section of the name that ends before a place, over the point of an abbreviation."""
    end = at - (nodes[at - 1].is_mark("."))
    starts = range(max(0, end - LONGEST_NAME), end)
    name = next((one for start in starts if (one := name_at(nodes, start)) is not None and one.end == end), None)
    return instrument(name.slugs[0]).section if name is not None else ""
