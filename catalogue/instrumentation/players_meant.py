"""Which players of a section are meant, before what they also play.

who   = chair , { ( "," | "+" | "&" | "and" ) , chair } | "both" | "all" | number , [ "of them" ] ;
chair = Roman numeral | ordinal | figure ;
link  = "=" | doubling word , { small word } ;
"""

from __future__ import annotations

import functools
from dataclasses import dataclass

from catalogue.instrumentation import collectives
from catalogue.instrumentation.drafts import Draft, Forces
from catalogue.instrumentation.lexicon import (
    AND,
    ARTICLES,
    BODY_OF_STRINGS,
    DOUBLING,
    DOUBLING_FILL,
    OF,
    ONLY,
    ORCHESTRA,
    PLAYS_WORDS,
)
from catalogue.instrumentation.names import name_at
from catalogue.instrumentation.numbers import ALL, BOTH, LAST, cardinal, is_suffix, ordinal, roman
from catalogue.instrumentation.phrases import beginnings, count_at, is_key, is_small, ordinal_at, phrase_end, token_at
from catalogue.instrumentation.rows import remembered
from catalogue.instrumentation.tokens import Node, Nodes, Token
from catalogue.instrumentation.vocabulary import family_of, key_of
from catalogue.instrumentation.voicings import is_voicing

MOST_SMALL_WORDS = 8
CHAIR_NOUNS = ("number", "no", "nr", "chair", "player")
OF_THEM = {"dont", "davon", "darunter"}
THEM = {"ellas", "ellos", "elles", "eux", "essi", "esse", "loro"}
OF_SOME = {
    "of", "them", "which", "players", "player", "flautists", "von", "ihnen", "davon", "entre", "cada", "uno", "dei",
    "quali", "dentre", "delles", "spieler", "musicians", "delle", "quelli",
    "whom", "cuales", "lesquels", "lesquelles", "desquels", "desquelles", "denen",
}  # fmt: skip
TWICE = {"double", "doble", "doppelt"}
BODIES = BODY_OF_STRINGS | ORCHESTRA
TELLING = ONLY | ARTICLES | BOTH | ALL | LAST


@dataclass(frozen=True, slots=True)
class Who:
    """The players meant, up to the node ``end``; ``count`` -1 stands for all of them."""

    chairs: tuple[int, ...]
    count: int
    end: int


@dataclass(frozen=True, slots=True)
class Section:
    """The section whose players are spoken of: its place, its instrument and its size.

    ``told`` is true in a bracket, where what a player doubles has to be known by name.
    """

    place: str
    slug: str
    size: int
    told: bool = False


SHORT = {"dbl", "dbls"}


@remembered
def may_double(nodes: Nodes) -> bool:
    """Whether the row holds an equals sign or the beginning of a doubling word: nothing doubles without one."""
    leading = beginnings(DOUBLING)
    return any(node.key in leading or node.is_mark("=") for node in nodes)


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
            only = is_key(node, PLAYS_WORDS) and (only or at == start)
            at = end + abbreviated(nodes, end)
        elif (at > start and is_key(node, DOUBLING_FILL) and not name_starts(nodes, at)) or (
            at == start and is_key(node, DOUBLING_FILL) and ahead_doubles(nodes, at)
        ):
            at += 1
        else:
            break
    return (at if at > start else None), only


def abbreviated(nodes: Nodes, end: int) -> bool:
    """Whether the point of an abbreviation stands after a doubling word, ``2nd dbl. picc``."""
    last = token_at(nodes, end - 1)
    short = last is not None and last.key in {"dbl", "dbls", "doubl", "altern"}
    return short and end + 1 < len(nodes) and nodes[end].is_mark(".") and nodes[end + 1].kind == "word"


def doubling_word_end(nodes: Nodes, at: int) -> int | None:
    """Return the end of a doubling word; the ``double`` of a double bass or of a double choir is none."""
    end = phrase_end(nodes, at, DOUBLING) or short_also(nodes, at)
    if end is None or (is_key(nodes[at], TWICE) and names_body(nodes, end)):
        return None
    if names_itself(nodes, at, end):
        return None
    if is_key(nodes[at], SHORT) and at > 0 and (is_player(nodes, at - 1) or seat_before(nodes, at - 1)):
        return end
    whole = phrase_end(nodes, at, collectives.names())
    found = name_at(nodes, at)
    return end if (found is None or found.end <= end) and (whole is None or whole <= end) else None


def names_itself(nodes: Nodes, at: int, end: int) -> bool:
    """Whether a doubling word that is a name too stands as one, the ``suona`` of ``flute, suona and guitar``.

    Nothing that its player could take follows: a mark, a bracket, a word that joins, the end.
    """
    found = name_at(nodes, at)
    if found is None or found.end != end:
        return False
    return end >= len(nodes) or nodes[end].kind != "word" or is_key(nodes[end], AND)


def short_also(nodes: Nodes, at: int) -> int | None:
    """Return the end of the German ``a.`` for *auch* after the number of a chair, ``2. a. Picc.``."""
    word, point = token_at(nodes, at), token_at(nodes, at + 1)
    seat = at > 1 and nodes[at - 1].is_mark(".") and nodes[at - 2].kind == "number"
    said = word is not None and word.text == "a" and point is not None and point.is_mark(".") and not point.spaced
    return at + 2 if seat and said else None


def is_player(nodes: Nodes, at: int) -> bool:
    """Whether a word for one of the players stands here, the ``one`` of ``one dbl. bass clarinet``."""
    token = token_at(nodes, at)
    return token is not None and (cardinal(token.text) == 1 or ordinal(token.text) is not None) and at == 0


def seat_before(nodes: Nodes, at: int) -> bool:
    """Whether an ordinal in figures ends here, ``2nd``."""
    token = token_at(nodes, at)
    return token is not None and is_suffix(token) and at > 0 and nodes[at - 1].kind == "number"


def names_body(nodes: Nodes, at: int) -> bool:
    """Whether a choir, its voicing or an orchestra stands here."""
    found, token = name_at(nodes, at), token_at(nodes, at)
    sung = found is not None and found.slugs[0].startswith("choir")
    return sung or (token is not None and (is_voicing(token.text) or is_key(token, BODIES)))


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


def may_tell_who(nodes: Nodes, at: int, section: Section) -> bool:
    """Whether players may be named here: a number, a word that tells some of them, the section's own name."""
    first = token_at(nodes, at)
    if first is None or first.kind not in ("word", "number"):
        return False
    if first.kind == "number" or tells_some(first.text, first.key):
        return True
    found = name_at(nodes, at)
    return found is not None and section.slug in found.slugs


@functools.lru_cache(maxsize=1 << 12)
def tells_some(word: str, key: str) -> bool:
    """Whether a word tells some of several players or may stand before one that does: ``both``, ``la``, ``second``."""
    if key in TELLING or word.lower() in CHAIR_NOUNS:
        return True
    return roman(word) is not None or ordinal(word) is not None or cardinal(word) is not None


def who_at(nodes: Nodes, at: int, section: Section) -> Who | None:
    """Return the players named before a doubling; *only* may stand before them."""
    at += is_key(token_at(nodes, at), OF_THEM)
    if not may_tell_who(nodes, at, section):
        return None
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
    ahead = linked(nodes, end)[0] is not None or (end > counted.end and name_at(nodes, end) is not None)
    return Who((), counted.least, end) if ahead else None


def articles_end(nodes: Nodes, at: int) -> int:
    """Pass over a few articles and words such as ``number`` before a chair."""
    last = at + MOST_SMALL_WORDS
    while at < min(len(nodes), last):
        token = token_at(nodes, at)
        if token is None or not (is_small(token, ARTICLES) or token.is_word(*CHAIR_NOUNS)):
            break
        if token.text in ("a", "an", "un", "une", "una", "uno") and count_at(nodes, at):
            break
        at += 2 if token.is_word("no", "nr") and at + 1 < len(nodes) and nodes[at + 1].is_mark(".") else 1
    return at


def of_them_end(nodes: Nodes, at: int) -> int:
    """Pass over ``of them``, ``davon``, ``d'entre elles``, ``dei quali``."""
    last = at + MOST_SMALL_WORDS
    while at < min(len(nodes), last):
        if is_key(nodes[at], OF) and is_key(token_at(nodes, at + 1), THEM):
            at += 2
        elif is_key(nodes[at], OF_SOME):
            at += 1
        else:
            break
    return at


def noun_end(nodes: Nodes, at: int, section: Section) -> int:
    """Pass over ``of them``, ``flute``, ``players`` after the players meant."""
    last = at + MOST_SMALL_WORDS
    while at < min(len(nodes), last):
        found = name_at(nodes, at)
        if (
            found
            and section.slug in found.slugs
            and (found.end == len(nodes) or linked(nodes, found.end)[0] is not None)
        ):
            at = found.end
        elif (after := of_them_end(nodes, at)) > at:
            at = after
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
        while following < len(nodes) and (nodes[following].is_mark(",+/-.") or is_key(nodes[following], AND)):
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
        dot = following is not None and following.is_mark(".")
        dot = dot and (linked(nodes, at + 2)[0] is not None or (section.told and names(nodes, at + 2, section)))
        return numeral, at + 2 if dot else at + 1
    ordinal = ordinal_at(nodes, at)
    if ordinal is not None:
        following = token_at(nodes, ordinal[1])
        dot = following is not None and following.is_mark(".") and ordinal[1] + 1 < len(nodes)
        return ordinal[0], ordinal[1] + 1 if dot else ordinal[1]
    if token.kind != "number" or len(token.text) > 2:
        return None
    return plain_chair(nodes, at, token, section)


def plain_chair(nodes: Nodes, at: int, token: Token, section: Section) -> tuple[int, int] | None:
    """Return a chair in plain figures, told by what follows: ``2=``, ``2.``, ``2,3=``."""
    following = token_at(nodes, at + 1)
    if following is None:
        return None
    said = at > 0 and nodes[at - 1].is_word("number", "no", "nr", "player", "chair")
    said = said and linked(nodes, at + 1)[0] is not None
    if said or following.is_mark("=") or linked_by_equals(nodes, at + 1):
        return token.number, at + 1
    parted = following.is_mark("/:") and section.told and 0 < token.number <= section.size
    if parted and names(nodes, at + 2, section):
        return token.number, at + 1
    if following.is_mark(".") and (linked(nodes, at + 2)[0] is not None or pointed_name(nodes, at, section)):
        return token.number, at + 2
    return None


def names(nodes: Nodes, at: int, section: Section) -> bool:
    """Whether an instrument is named here that a player of the section may take."""
    return name_at(nodes, at, section.place) is not None


def pointed_name(nodes: Nodes, at: int, section: Section) -> bool:
    """Whether the bracket begins with a chair and the name of what he plays, ``(2.ott)``; ``(1.2.ott)`` lists all."""
    first, name = token_at(nodes, at), name_at(nodes, at + 2, section.place)
    return at == 0 and first is not None and section.told and 1 < first.number <= section.size and name is not None


def joins(node: Node) -> bool:
    """Whether a mark or a word joins chairs, ``2,3``, ``2 and 3``."""
    return node.is_mark(",+&/-") or is_key(node, AND)


def linked_by_equals(nodes: Nodes, at: int) -> bool:
    """Whether only further figures and joining marks stand before an equals sign or a doubling word."""
    joined = at > 2 and nodes[at - 3].kind == "number" and joins(nodes[at - 2])
    while at < len(nodes):
        node = nodes[at]
        if node.is_mark("=") or doubling_word_end(nodes, at) is not None:
            return joined
        if joins(node):
            joined = True
        elif node.kind != "number" and not node.is_mark("."):
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


def percussion_clause(nodes: Nodes, at: int, last: Draft, forces: Forces) -> int | None:
    """Keep ``one doubling timpani`` as a note on the percussionists: what a player plays stands there."""
    who = who_at(nodes, at, Section(last.section, last.slug, last.most))
    link = linked(nodes, who.end)[0] if who is not None else None
    found = name_at(nodes, link) if link is not None else None
    if found is None or family_of(found.slugs[0]) != "percussion":
        return None
    last.notes.append(forces.written(nodes[at].start, found.stop))
    return found.end
