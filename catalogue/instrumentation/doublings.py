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
    AND,
    ARTICLES,
    DOUBLING,
    DOUBLING_FILL,
    ONLY,
    OPTIONAL,
    OR,
    PLAYS_WORDS,
)
from catalogue.instrumentation.names import Name, name_at
from catalogue.instrumentation.numbers import ALL, BOTH, LAST, is_suffix, roman
from catalogue.instrumentation.phrases import count_at, is_key, is_small, keys_end, ordinal_at, phrase_end, token_at
from catalogue.instrumentation.senses import KEYED, Surroundings
from catalogue.instrumentation.tokens import Bracket, Node, Nodes, Token
from catalogue.instrumentation.vocabulary import key_of

MOST_SMALL_WORDS = 8
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


@dataclass(frozen=True, slots=True)
class Who:
    """The players meant, up to the node ``end``; ``count`` -1 stands for all of them."""

    chairs: tuple[int, ...]
    count: int
    end: int


@dataclass(frozen=True, slots=True)
class Section:
    """The section whose players are spoken of: its place, its instrument and its size."""

    place: str
    slug: str
    size: int


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
    linked_at = after_who if link is None else link
    figure = glued_figure(nodes, at) if who is None and link is None else None
    if figure is not None:
        linked_at = at + 1
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
        return Doubling(plays, count=figure, figure=True, note=note), end
    chairs, count = resolved(who, section)
    if end < len(nodes) and is_key(nodes[end], ONLY):
        only, end = True, end + 1
    if end < len(nodes) and nodes[end].kind == "note":
        note, end = forces.text[nodes[end].start + 1 : nodes[end].end - 1], end + 1
    return Doubling(plays, chairs, count, only, note=note, linked=link is not None), end


def resolved(who: Who | None, section: Section) -> tuple[tuple[int, ...], int]:
    if who is None:
        return (), 1
    if who.count == -1 or (not who.chairs and who.count >= section.size > 0):
        return tuple(range(1, section.size + 1)), 0
    return who.chairs, who.count


def glued_figure(nodes: Nodes, at: int) -> int | None:
    """Return the figure of ``3pic``, which is a chair or a number of players."""
    token, following = token_at(nodes, at), token_at(nodes, at + 1)
    if token is None or following is None or token.kind != "number" or following.kind != "word":
        return None
    return None if is_suffix(following) and key_of(following.text) not in ("a", "e", "d") else token.number


def linked(nodes: Nodes, at: int) -> tuple[int | None, bool]:
    """Return the end of ``=`` or of a doubling word with its small words, and whether it means *only*."""
    token = token_at(nodes, at)
    if token is None:
        return None, False
    start, only = at, False
    last = at + MOST_SMALL_WORDS
    while at < min(len(nodes), last):
        node = nodes[at]
        end = doubling_word_end(nodes, at)
        if node.is_mark("="):
            at += 1
        elif end is not None:
            only = only or (is_key(node, PLAYS_WORDS) and at == start)
            at = end
        elif (at > start and is_key(node, DOUBLING_FILL) and not name_starts(nodes, at)) or (
            at == start and is_key(node, DOUBLING_FILL) and ahead_doubles(nodes, at)
        ):
            at += 1
        else:
            break
    return (at if at > start else None), only


def doubling_word_end(nodes: Nodes, at: int) -> int | None:
    """Return the end of a doubling word; the ``double`` of a double bass is none."""
    end = phrase_end(nodes, at, DOUBLING)
    if end is None:
        return None
    found = name_at(nodes, at)
    return end if found is None or found.end <= end else None


def name_starts(nodes: Nodes, at: int) -> bool:
    """Whether a small word such as ``alto`` or ``la`` begins a longer name here."""
    found = name_at(nodes, at)
    return found is not None and found.end > at + 1


def ahead_doubles(nodes: Nodes, at: int) -> bool:
    """Whether a doubling word stands within the next few words."""
    for index in range(at, min(len(nodes), at + 4)):
        if nodes[index].is_mark("=") or doubling_word_end(nodes, index) is not None:
            return True
        if not is_key(nodes[index], DOUBLING_FILL):
            return False
    return False


def who_at(nodes: Nodes, at: int, section: Section) -> Who | None:
    """Return the players named before a doubling; *only* may stand before them."""
    at = articles_end(nodes, at + 1 if is_key(token_at(nodes, at), ONLY) else at)
    if is_key(token_at(nodes, at), BOTH):
        return Who((), -1, noun_end(nodes, at + 1, section))
    if is_key(token_at(nodes, at), ALL):
        counted = count_at(nodes, at + 1)
        return Who((), -1, noun_end(nodes, counted.end if counted else at + 1, section))
    if is_key(token_at(nodes, at), LAST) and section.size:
        return Who((section.size,), 1, noun_end(nodes, at + 1, section))
    chairs = chairs_at(nodes, at, section)
    if chairs is not None:
        return chairs
    counted = count_at(nodes, at)
    if counted is None:
        return None
    end = noun_end(nodes, counted.end, section)
    ahead = linked(nodes, end)[0] is not None
    return Who((), counted.least, end) if ahead else None


def articles_end(nodes: Nodes, at: int) -> int:
    """Pass over a few articles and words such as ``number`` before a chair."""
    last = at + MOST_SMALL_WORDS
    while at < min(len(nodes), last):
        token = token_at(nodes, at)
        if token is None or not (is_small(token, ARTICLES) or token.is_word("number", "no", "nr", "chair", "player")):
            break
        if token.text in ("a", "an", "un", "une", "una", "uno") and count_at(nodes, at):
            break
        at += 2 if token.is_word("no", "nr") and at + 1 < len(nodes) and nodes[at + 1].is_mark(".") else 1
    return at


def noun_end(nodes: Nodes, at: int, section: Section) -> int:
    """Pass over ``of them``, ``flute``, ``players`` after the players meant."""
    last = at + MOST_SMALL_WORDS
    while at < min(len(nodes), last):
        node = nodes[at]
        found = name_at(nodes, at)
        if (
            found
            and section.slug in found.slugs
            and (found.end == len(nodes) or linked(nodes, found.end)[0] is not None)
        ):
            at = found.end
        elif is_key(
            node, {"of", "them", "which", "players", "player", "flautists", "von", "ihnen", "davon", "entre"}
        ) or is_key(node, {"cada", "uno", "dei", "quali", "dentre", "spieler", "musicians", "delle", "quelli"}):
            at += 1
        else:
            break
    return at


def chairs_at(nodes: Nodes, at: int, section: Section) -> Who | None:
    """Return chairs by Roman numeral, ordinal or figure, ``II,III``, ``2nd & 3rd``, ``2,3,&4``."""
    chairs: list[int] = []
    end = at
    while (found := chair_at(nodes, end, section)) is not None:
        value, after = found
        chairs.append(value)
        end = after
        following = after
        while following < len(nodes) and (nodes[following].is_mark(",+/-") or is_key(nodes[following], AND)):
            following += 1
        following = articles_end(nodes, following)
        if following == after or chair_at(nodes, following, section) is None:
            break
        if nodes[after].is_mark("-") and (upper := chair_at(nodes, following, section)) is not None:
            chairs += range(value + 1, min(upper[0], value + 20))
        end = following
    if not chairs:
        return None
    return Who(tuple(dict.fromkeys(chairs)), len(chairs), noun_end(nodes, end, section))


def chair_at(nodes: Nodes, at: int, section: Section) -> tuple[int, int] | None:
    """Return the number of one chair and its end."""
    start, at = at, chair_noun_end(nodes, at, section)
    token = token_at(nodes, at)
    if token is None:
        return None
    if at > start and token.kind == "number":
        return token.number, at + 1
    numeral = roman(token.text) if token.kind == "word" else None
    if numeral is not None:
        following = token_at(nodes, at + 1)
        dot = following is not None and following.is_mark(".") and linked(nodes, at + 2)[0] is not None
        return numeral, at + 2 if dot else at + 1
    ordinal = ordinal_at(nodes, at)
    if ordinal is not None:
        following = token_at(nodes, ordinal[1])
        dot = following is not None and following.is_mark(".") and ordinal[1] + 1 < len(nodes)
        return ordinal[0], ordinal[1] + 1 if dot else ordinal[1]
    if token.kind != "number" or len(token.text) > 2:
        return None
    return plain_chair(nodes, at, token)


def plain_chair(nodes: Nodes, at: int, token: Token) -> tuple[int, int] | None:
    """Return a chair in plain figures, told by what follows: ``2=``, ``2.``, ``2,3=``."""
    following = token_at(nodes, at + 1)
    if following is None:
        return None
    said = at > 0 and nodes[at - 1].is_word("number", "no", "nr", "player", "chair")
    said = said and linked(nodes, at + 1)[0] is not None
    if said or following.is_mark("=") or linked_by_equals(nodes, at + 1):
        return token.number, at + 1
    if following.is_mark(".") and linked(nodes, at + 2)[0] is not None:
        return token.number, at + 2
    return None


def linked_by_equals(nodes: Nodes, at: int) -> bool:
    """Whether only further figures and joining marks stand before an equals sign or a doubling word."""
    joined = False
    while at < len(nodes):
        node = nodes[at]
        if node.is_mark("=") or doubling_word_end(nodes, at) is not None:
            return joined
        if node.is_mark(",+&/") or is_key(node, AND):
            joined = True
        elif node.kind != "number":
            return False
        at += 1
    return False


def chair_noun_end(nodes: Nodes, at: int, section: Section) -> int:
    """Pass over the section's own name before a chair, the ``fl.`` of ``fl.III`` and of ``flute 3 doubling``."""
    found = name_at(nodes, at)
    if found is None or section.slug not in found.slugs:
        return at
    end = found.end + 1 if found.end < len(nodes) and nodes[found.end].is_mark(".") else found.end
    following = token_at(nodes, end)
    if following is None:
        return at
    figure = following.kind == "number" and linked(nodes, end + 1)[0] is not None
    figure = figure and int(following.text[:3]) <= section.size
    return end if figure or (following.kind == "word" and roman(following.text)) else at


def names_at(
    nodes: Nodes, at: int, section: Section, forces: Forces, *, linked: bool
) -> tuple[tuple[str, ...], int, str] | None:
    """Return the instruments listed here, the end of the list, and a note on them."""
    plays: list[str] = []
    notes: list[str] = []
    while at < len(nodes):
        at = fill_end(nodes, at, notes)
        found = name_at(nodes, at, section.place) if at < len(nodes) else None
        if found is None:
            break
        means = found.means(Surroundings(forces.language, section.place, percussion=True))
        plays.append(keyed(means, nodes, found.end))
        at = after_name(nodes, found, notes)
        following = link_end(nodes, at, section)
        if following is None:
            break
        if is_key(token_at(nodes, at), OR):
            notes.append("or")
        at = following
    if not plays:
        return unknown_name(nodes, at, forces) if linked else None
    return tuple(dict.fromkeys(plays)), at, " ".join(notes)


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
    if token is None or token.kind != "number" or not token.spaced:
        return False
    return at + 1 == len(nodes) or nodes[at + 1].is_mark(",;)")


def note_bracket(bracket: Bracket, notes: list[str]) -> None:
    if phrase_end(bracket.nodes, 0, OPTIONAL) is not None:
        notes.append("optional")


def link_end(nodes: Nodes, at: int, section: Section) -> int | None:
    """Return where the next instrument of the same player begins, ``None`` where a new player does."""
    start = at
    while at < len(nodes) and (nodes[at].is_mark(",+/.&") or is_key(nodes[at], AND | OR)):
        at += 1
    if at == start or at >= len(nodes):
        return None
    if who_at(nodes, at, section) is not None or glued_figure(nodes, at) is not None:
        return None
    return at if name_at(nodes, fill_end(nodes, at, []), section.place) else None


def unknown_name(nodes: Nodes, at: int, forces: Forces) -> tuple[tuple[str, ...], int, str] | None:
    """Return an instrument that is not in the vocabulary as one of its own, with a remark."""
    words: list[Token] = []
    while at < len(nodes) and (token := token_at(nodes, at)) is not None and token.kind == "word":
        words.append(token)
        at += 1
    if not words or len(words) > 4:
        return None
    slug = "-".join(key_of(word.text) for word in words)
    written = " ".join(word.text for word in words)
    forces.remark(
        "unknown-instrument",
        f"“{written}” is not a known instrument; it is kept as written.",
        words[0].start,
        words[-1].end,
    )
    return (slug,), at, ""


def clause_end(nodes: Nodes, at: int) -> int:
    """Return the end of a clause in running text: a comma that begins no new chair, a full stop, a new line."""
    while at < len(nodes) and not nodes[at].is_mark(",;\n·•:"):
        at += 1
    if 0 < at < len(nodes) and nodes[at].is_mark(",") and ordinal_at(nodes, at - 1) is not None:
        further = articles_end(nodes, at + 1)
        return clause_end(nodes, at + 1) if ordinal_at(nodes, further) is not None else at
    return at


def nodes_text(nodes: tuple[Node, ...]) -> tuple[int, int]:
    """Return the place of a stretch of nodes."""
    return nodes[0].start, nodes[-1].end
