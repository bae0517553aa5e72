"""Reads who in a section also plays what: ``II=picc``, ``2nd doubling piccolo``, ``one of them also on piccolo``.

    doublings = doubling , { ( "," | "." | ";" | "+" | "and" ) , doubling } ;
    doubling  = [ who ] , [ "=" | doubling word ] , name , { ( "," | "+" | "/" | "and" | "or" ) , name } ;
    who       = chair , { ( "," | "+" | "&" | "and" ) , chair } | "both" | "all" | number , [ "of them" ] ;
    chair     = Roman numeral | ordinal | figure ;

A doubling word is ``doubling``, ``also``, ``auch``, ``aussi``, ``anche``, ``también`` and their kin. A figure written
to the name, ``3pic``, is the third player in some houses and three players in others: it is kept apart, ``figure``.
"""

from __future__ import annotations

from dataclasses import dataclass, replace

from catalogue.instrumentation.conventions import one_section
from catalogue.instrumentation.doubled_names import names_at
from catalogue.instrumentation.drafts import Forces
from catalogue.instrumentation.lexicon import (
    AND,
    DOUBLING,
    IN,
    ONLY,
)
from catalogue.instrumentation.names import Name, name_at
from catalogue.instrumentation.phrases import count_at, is_key, is_small, keys_end, ordinal_at, phrase_end, token_at
from catalogue.instrumentation.players_meant import (
    Section,
    Who,
    articles_end,
    glued_figure,
    linked,
    who_at,
)
from catalogue.instrumentation.plurals import is_plural
from catalogue.instrumentation.senses import KEYED
from catalogue.instrumentation.tokens import Bracket, Nodes
from catalogue.instrumentation.vocabulary import family_of, instrument

LONGEST_NAME = 5
LONGEST_CLAUSE = 60
PAIR = 2
ALSO = {"auch", "anche", "aussi", "tambien"}


@dataclass(frozen=True, slots=True)
class Doubling:
    """Some players of a section and what they play. ``chairs`` is empty where the text does not say who."""

    plays: tuple[str, ...]
    chairs: tuple[int, ...] = ()
    count: int = 1
    only: bool = False
    figure: bool = False
    note: str = ""
    linked: bool = False
    counted: bool = False


def doublings_in(nodes: Nodes, section: Section, forces: Forces) -> list[Doubling] | None:
    """Return the doublings that fill the nodes, ``None`` where they say something else."""
    found: list[Doubling] = []
    nodes, only = without_denial(nodes)
    at = skip(nodes, 0)
    while at < len(nodes):
        read = doubling_at(nodes, at, section, forces)
        if read is None:
            return None
        doubling, at = read
        if doubling is not None:
            found.append(doubling)
        at = skip(nodes, at)
    if found and only:
        found[-1] = replace(found[-1], only=True)
    return found or None


def without_denial(nodes: Nodes) -> tuple[Nodes, bool]:
    """Leave out ``not doubling`` at the end, and tell whether it stood there."""
    if len(nodes) > 2 and nodes[-2].is_word("not", "no") and phrase_end(nodes, len(nodes) - 1, DOUBLING):
        return nodes[:-2], True
    return nodes, False


def skip(nodes: Nodes, at: int) -> int:
    """Pass over separators and joining words; the ``E`` of ``E-flat clarinet`` joins nothing."""
    while at < len(nodes):
        node = nodes[at]
        if not (node.is_mark(",.;:/+*\n-·") or (is_key(node, AND) and not opens_name(nodes, at))):
            break
        at += 1
    return at


def opens_name(nodes: Nodes, at: int) -> bool:
    """Whether a name or a key of several words begins here, ``E-flat``."""
    found = name_at(nodes, at)
    hyphen = at + 2 < len(nodes) and nodes[at + 1].is_mark("-") and nodes[at + 2].key == "flat"
    return (found is not None and found.end > at + 1) or hyphen


@dataclass(frozen=True, slots=True)
class Lead:
    """What stands before the instruments of a doubling: who plays them, and the node ``at`` of the first name."""

    who: Who | None
    at: int
    linked: bool = False
    only: bool = False
    figure: int | None = None
    said: bool = False


def doubling_at(nodes: Nodes, at: int, section: Section, forces: Forces) -> tuple[Doubling | None, int] | None:
    """Return one doubling and its end; ``None`` as the doubling for a remark that may be passed over."""
    if isinstance(nodes[at], Bracket):
        return None, at + 1
    lead = lead_at(nodes, at, section)
    told = token_at(nodes, lead.who.end) if lead.who is not None else None
    if told is not None and told.kind == "note" and lead.who is not None:
        note = forces.text[told.start + 1 : told.end - 1]
        return Doubling((section.slug,), *resolved(lead.who, section), note=note), lead.who.end + 1
    lead = all_of_them(nodes, lead, section, forces)
    keys = only_keys(nodes, lead, section)
    if keys is not None:
        return None, keys
    names = names_at(nodes, lead.at, section, forces, linked=lead.linked)
    if names is None:
        return None
    plays, end, note = names
    if lead.figure is not None:
        one = is_one_of_them(nodes, at)
        return Doubling(plays, count=lead.figure, figure=not one, note=note, counted=one), end
    if lead.who is None and not lead.linked:
        return Doubling(plays, note=note), end
    doubling = Doubling(plays, note=note, linked=lead.linked, counted=lead.said, only=lead.only)
    doubling = told_of(lead.who, doubling, nodes[at:end], section, forces)
    if end < len(nodes) and is_key(nodes[end], ONLY):
        doubling, end = replace(doubling, only=True), end + 1
    if end < len(nodes) and nodes[end].kind == "note":
        doubling, end = replace(doubling, note=forces.text[nodes[end].start + 1 : nodes[end].end - 1]), end + 1
    return doubling, end


def lead_at(nodes: Nodes, at: int, section: Section) -> Lead:
    """Return what stands before the instruments: ``II=``, ``2nd doubling``, ``3`` of ``3pic``, ``two of them``."""
    who = who_at(nodes, at, section)
    after_who = who.end if who else at
    link, only = linked(nodes, after_who)
    if link is None and who is not None and who.chairs and parted_name(nodes, after_who, section):
        link = after_who + 1
    if link is not None:
        return counted_lead(nodes, Lead(who, link, linked=True, only=only), section)
    figure = glued_figure(nodes, at) if who is None else None
    if figure is not None:
        return Lead(None, at + 1, figure=figure)
    said = count_at(nodes, at) if who is None else None
    return Lead(who, after_who) if said is None else Lead(Who((), said.least, said.end), said.end, said=True)


def counted_lead(nodes: Nodes, lead: Lead, section: Section) -> Lead:
    """Take the number of players that may stand after a doubling word, ``doubling 2 piccolos``."""
    counted = count_at(nodes, lead.at)
    if counted is None or counted.end >= len(nodes) or not name_at(nodes, counted.end, section.place):
        return lead
    who = lead.who
    if who is None or counted.least > 1:
        who = Who((), -1 if counted.least >= section.size else counted.least, counted.end)
    return replace(lead, who=who, at=counted.end)


def only_keys(nodes: Nodes, lead: Lead, section: Section) -> int | None:
    """Return the end of a key that a player also takes, ``1. auch in A``, where no instrument is named with it.

    Without a doubling word some keys are of another instrument, ``3rd in E flat``, and those are no mere keys.
    """
    if lead.who is None:
        return None
    found = (keys_end(nodes, at) for at in range(lead.who.end, min(lead.at + 1, len(nodes))) if is_key(nodes[at], IN))
    end = next((one for one in found if one is not None), None)
    if end is not None and not lead.linked and is_apart(nodes[lead.who.end + 1 : end], section):
        return None
    ends = end is not None and end >= lead.at and (end == len(nodes) or nodes[end].is_mark(",;."))
    return end if ends else None


def is_apart(key: Nodes, section: Section) -> bool:
    """Whether a key makes another instrument of the section's, the E flat clarinet, the flute in G."""
    return (section.slug, "".join(node.key for node in key)) in KEYED


def all_of_them(nodes: Nodes, lead: Lead, section: Section, forces: Forces) -> Lead:
    """Let all players double what stands in the plural, ``2 horns (doubling Wagner tubas)``; of three say so."""
    name = name_at(nodes, lead.at, section.place) if lead.who is None and lead.figure is None else None
    if name is None or section.size < PAIR or not is_plural(name) or instrument(name.slugs[0]).section != section.place:
        return lead
    about = f"“{name.written}” was read as said of"
    readings = ("all of the players", "one of the players")
    if section.size > PAIR and not forces.decide("all-double", about, readings, name.start, name.stop):
        return lead
    return replace(lead, who=Who((), -1, lead.at))


def told_of(who: Who | None, doubling: Doubling, nodes: Nodes, section: Section, forces: Forces) -> Doubling:
    """Give a doubling its players; a figure of all of them in a bracket may be the last one's chair."""
    chairs, count = resolved(who, section)
    figure = who is not None and not who.chairs and who.count > 1 and nodes[0].kind == "number"
    if figure and section.told and who is not None and who.count == section.size:
        readings = (f"{who.count} players double", f"player {who.count} doubles")
        about, chair = "The figure in the bracket was read as:", is_key(nodes[1], ALSO)
        usual = readings[::-1] if chair else readings
        if forces.decide("figure-in-bracket", about, usual, nodes[0].start, nodes[-1].end) is chair:
            chairs, count = (who.count,), 1
    return replace(doubling, chairs=chairs, count=count)


def parted_name(nodes: Nodes, at: int, section: Section) -> bool:
    """Whether a slash, a colon or a plus parts a chair from what it also plays, ``II/picc``, ``2: picc``."""
    return at < len(nodes) and nodes[at].is_mark("/:+") and name_at(nodes, at + 1, section.place) is not None


def is_one_of_them(nodes: Nodes, at: int) -> bool:
    """Whether ``1`` stands apart from the name, ``3 flutes (1 piccolo)``: one of them, no matter which chair."""
    first, second = token_at(nodes, at), token_at(nodes, at + 1)
    return first is not None and second is not None and first.number == 1 and second.spaced


def resolved(who: Who | None, section: Section) -> tuple[tuple[int, ...], int]:
    if who is None:
        return (), 1
    if who.count == -1 or (not who.chairs and who.count >= section.size > 0):
        return tuple(range(1, section.size + 1)), 0
    return who.chairs, who.count


def runs_on(nodes: Nodes, at: int) -> bool:
    """Whether a comma parts what one player doubles, ``piccolo, alto flute and bass flute;``.

    It does where semicolons part the players and only further sizes of the instrument follow, the last after *and*,
    and in the book of a reed player, who plays winds of any kind.
    """
    reed = of_reed(nodes, at)
    if not reed and not any(node.is_mark(";\n") for node in nodes):
        return False
    end = next((one for one in range(at, len(nodes)) if nodes[one].is_mark(";\n")), len(nodes))
    before = name_ending_at(nodes, at)
    sections, joined, at = {place_of(before.slugs[0]) if before else ""}, False, at + 1
    while at < end:
        found = name_at(nodes, at)
        if found is not None:
            sections.add(place_of(found.slugs[0]))
            at = found.end
        elif nodes[at].is_mark(",") or is_small(nodes[at], AND):
            joined, at = joined or not nodes[at].is_mark(","), at + 1
        elif isinstance(nodes[at], Bracket):
            at += 1
        else:
            return False
    return joined and (reed or len(sections) == 1) and "" not in sections


def place_of(slug: str) -> str:
    """Return the section of a wind, the family of a keyboard: what one player may change between."""
    return instrument(slug).section or ("keyboard" if family_of(slug) == "keyboard" else "")


def of_reed(nodes: Nodes, at: int) -> bool:
    """Whether the item that a node belongs to begins with ``reed``."""
    start = next((one for one in range(at, 0, -1) if nodes[one - 1].is_mark(";\n")), 0)
    return is_key(token_at(nodes, start), {"reed"})


def name_ending_at(nodes: Nodes, end: int) -> Name | None:
    """Return the longest name that ends before a node."""
    found = (name_at(nodes, start) for start in range(max(0, end - LONGEST_NAME), end))
    return next((name for name in found if name is not None and name.end == end), None)


def clause_end(nodes: Nodes, at: int) -> int:
    """Return the end of a clause in running text: a comma that begins no further chair, a semicolon, a new line."""
    last = min(len(nodes), at + LONGEST_CLAUSE)
    while at < last and not nodes[at].is_mark(";\n·•:"):
        goes_on = ordinal_at(nodes, at - 1) and ordinal_at(nodes, articles_end(nodes, at + 1))
        if nodes[at].is_mark(",") and not (goes_on or runs_on(nodes, at)):
            break
        if nodes[at].is_mark("/") and getattr(nodes[at], "spaced", False) and not one_section(nodes):
            break
        at += 1
    return at
