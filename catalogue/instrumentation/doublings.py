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

from catalogue.instrumentation.drafts import Forces
from catalogue.instrumentation.lexicon import (
    AMPLIFIED,
    AND,
    ARTICLES,
    DOUBLING,
    DOUBLING_FILL,
    ONLY,
    OPTIONAL,
    OR,
    REMARKS,
    SOLO,
)
from catalogue.instrumentation.names import Name, name_at
from catalogue.instrumentation.numbers import roman
from catalogue.instrumentation.phrases import count_at, is_key, is_small, keys_end, ordinal_at, phrase_end, token_at
from catalogue.instrumentation.players_meant import (
    Section,
    Who,
    articles_end,
    glued_figure,
    linked,
    name_starts,
    who_at,
)
from catalogue.instrumentation.senses import KEYED, Surroundings
from catalogue.instrumentation.spelling import near, nearest
from catalogue.instrumentation.tokens import Bracket, Nodes, Token
from catalogue.instrumentation.vocabulary import family_of, instrument, key_of

LONGEST_NAME = 5
LONGEST_CLAUSE = 60


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
        read = doubling_at(nodes, at, section, forces, bool(found))
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
    """Pass over separators and joining words."""
    while at < len(nodes):
        node = nodes[at]
        if node.is_mark(",.;:/+*\n-·") or is_key(node, AND):
            at += 1
        else:
            break
    return at


def doubling_at(
    nodes: Nodes, at: int, section: Section, forces: Forces, later: bool = False
) -> tuple[Doubling | None, int] | None:
    """Return one doubling and its end; ``None`` as the doubling for a remark that may be passed over."""
    if isinstance(nodes[at], Bracket):
        return None, at + 1
    who = who_at(nodes, at, section)
    after_who = who.end if who else at
    link, only = linked(nodes, after_who)
    if link is None and who is not None and who.chairs and parted_name(nodes, after_who, section):
        link = after_who + 1
    linked_at = after_who if link is None else link
    figure = glued_figure(nodes, at) if who is None and link is None else None
    if figure is not None:
        linked_at = at + 1
    said = count_at(nodes, at) if who is None and link is None and figure is None else None
    if said is not None:
        who, linked_at = Who((), said.least, said.end), said.end
    counted = count_at(nodes, linked_at) if link is not None else None
    if counted and counted.end < len(nodes) and name_at(nodes, counted.end, section.place):
        linked_at = counted.end
        if who is None or counted.least > 1:
            who = Who((), -1 if counted.least >= section.size else counted.least, linked_at)
    told = token_at(nodes, who.end) if who is not None else None
    if told is not None and told.kind == "note" and who is not None:
        note = forces.text[told.start + 1 : told.end - 1]
        return Doubling((section.slug,), *resolved(who, section), note=note), who.end + 1
    names = names_at(nodes, linked_at, section, forces, linked=link is not None)
    if names is None:
        return None
    plays, end, note = names
    if link is None and who is None and figure is None:
        return Doubling(plays, note=note), end
    if figure is not None:
        one = is_one_of_them(nodes, at)
        return Doubling(plays, count=figure, figure=not one, note=note, counted=one), end
    chairs, count = resolved(who, section)
    said_figure = who is not None and not who.chairs and who.count > 1 and nodes[at].kind == "number"
    if said_figure and section.told and who is not None and who.count == section.size:
        readings = (f"{who.count} players double", f"player {who.count} doubles")
        about = "The figure in the bracket was read as:"
        if not forces.decide("figure-in-bracket", about, readings, nodes[at].start, nodes[end - 1].end):
            chairs, count = (who.count,), 1
    if end < len(nodes) and is_key(nodes[end], ONLY):
        only, end = True, end + 1
    if end < len(nodes) and nodes[end].kind == "note":
        note, end = forces.text[nodes[end].start + 1 : nodes[end].end - 1], end + 1
    return Doubling(plays, chairs, count, only, note=note, linked=link is not None, counted=said is not None), end


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


def names_at(
    nodes: Nodes, at: int, section: Section, forces: Forces, *, linked: bool
) -> tuple[tuple[str, ...], int, str] | None:
    """Return the instruments listed here, the end of the list, and a note on them."""
    plays: list[str] = []
    notes: list[str] = []
    while at < len(nodes):
        at = numbered_part(nodes, fill_end(nodes, at, notes), section)
        found = name_at(nodes, at, section.place) if at < len(nodes) else None
        if found is None:
            break
        means = found.surely(section.place)
        means = means or found.means(Surroundings(forces.language, section.place, percussion=True))
        plays.append(keyed(means, nodes, found.end))
        at = after_name(nodes, found, notes)
        following = link_end(nodes, at, section)
        if following is None:
            break
        if is_key(token_at(nodes, at), OR):
            notes.append("or")
        at = following
    if not plays:
        return unknown_name(nodes, at, section, forces) if linked else None
    return tuple(dict.fromkeys(plays)), at, " ".join(notes)


def numbered_part(nodes: Nodes, at: int, section: Section) -> int:
    """Pass over the number of a part before its name, ``doubling second piccolo``."""
    part = ordinal_at(nodes, at)
    return part[1] if part is not None and name_at(nodes, part[1], section.place) is not None else at


def keyed(slug: str, nodes: Nodes, at: int) -> str:
    """Return what a key in a bracket makes of an instrument, ``cl(Eb)``."""
    node = nodes[at] if at < len(nodes) else None
    if not isinstance(node, Bracket) or node.spaced:
        return slug
    key = "".join(key_of(one.text) for one in node.nodes if isinstance(one, Token))
    return KEYED.get((slug, key), slug)


def fill_end(nodes: Nodes, at: int, notes: list[str]) -> int:
    while at < len(nodes):
        optional = phrase_end(nodes, at, OPTIONAL)
        if optional is not None:
            notes.append("optional")
            at = optional
        elif is_small(nodes[at], DOUBLING_FILL | ARTICLES) and not name_starts(nodes, at) and not own_name(nodes, at):
            at += 1
        else:
            break
    return at


def own_name(nodes: Nodes, at: int) -> bool:
    return at == len(nodes) - 1 and name_at(nodes, at) is not None


def after_name(nodes: Nodes, found: Name, notes: list[str]) -> int:
    """Pass over a key, a part number, a bracket and ``optional`` after a name."""
    at = found.end
    keys = keys_end(nodes, at)
    at = keys if keys is not None else at
    while at < len(nodes):
        node = nodes[at]
        optional = phrase_end(nodes, at, OPTIONAL)
        if isinstance(node, Bracket):
            note_bracket(node, notes)
            at += 1
        elif optional is not None:
            notes.append("optional")
            at = optional
        elif node.is_mark("*") or part_number(nodes, at) or (node.is_mark(".") and at + 1 == len(nodes)):
            at += 1
        else:
            break
    return at


def part_number(nodes: Nodes, at: int) -> bool:
    """Whether a figure after a name numbers the part: nothing but a separator follows it."""
    token = token_at(nodes, at)
    numeral = token is not None and token.kind == "word" and token.text.isupper() and roman(token.text) is not None
    if token is None or not (token.kind == "number" or numeral):
        return False
    return at + 1 == len(nodes) or nodes[at + 1].is_mark(",;)")


def note_bracket(bracket: Bracket, notes: list[str]) -> None:
    if phrase_end(bracket.nodes, 0, OPTIONAL) is not None:
        notes.append("optional")


def link_end(nodes: Nodes, at: int, section: Section) -> int | None:
    """Return where the next instrument of the same player begins, ``None`` where a new player does."""
    start = at
    while at < len(nodes) and (nodes[at].is_mark(",+/.&") or is_small(nodes[at], AND | OR)):
        at += 1
    if at == start or at >= len(nodes):
        return None
    if who_at(nodes, at, section) is not None or glued_figure(nodes, at) is not None:
        return None
    return at if name_at(nodes, fill_end(nodes, at, []), section.place) else None


def unknown_name(nodes: Nodes, at: int, section: Section, forces: Forces) -> tuple[tuple[str, ...], int, str] | None:
    """Return an instrument that is not in the vocabulary as one of its own, with a remark; in a bracket refuse it."""
    words: list[Token] = []
    while at < len(nodes) and (token := token_at(nodes, at)) is not None and token.kind == "word":
        words.append(token)
        at += 1
    if not words or len(words) > 4:
        return None
    slug = "-".join(key_of(word.text) for word in words)
    written = " ".join(word.text for word in words)
    meant = near(written)
    if meant:
        message = f"“{written}” was read as {meant[0].replace('-', ' ')}."
        forces.remark("spelling", message, words[0].start, words[-1].end)
        return (meant[0],), at, ""
    if section.told and any(is_key(word, SOLO | REMARKS | AMPLIFIED) for word in words):
        return None
    if section.told:
        reason = f"“{written}” is not a known instrument."
        expected = (*nearest(written, section.slug), "the name of an instrument")
        raise forces.fail(reason, words[0].start, words[-1].end, expected)
    forces.remark(
        "unknown-instrument",
        f"“{written}” is not a known instrument; it is kept as written.",
        words[0].start,
        words[-1].end,
    )
    return (slug,), at, ""


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
        at += 1
    return at
