"""What may stand before a name: numbers, seats, keys, ``solo``, ``optional``, ``amplified``, articles.

qualities = { number | seat | key | qualifier | article } ;
"""

from __future__ import annotations

import functools
from dataclasses import dataclass

from catalogue.instrumentation.drafts import Count
from catalogue.instrumentation.lexicon import (
    AMPLIFIED,
    AND,
    ARTICLES,
    BETWEEN,
    BODY_OF_STRINGS,
    DESKS,
    ELECTRIC,
    KEYS_OF_PITCH,
    LEAST,
    OFFSTAGE,
    ONSTAGE,
    OPTIONAL,
    POSSIBLE,
    REMARKS,
    SETS,
    SOLISTS,
    SOLO,
    UP_TO,
    keyed,
)
from catalogue.instrumentation.names import name_at
from catalogue.instrumentation.numbers import cardinal, ordinal, roman
from catalogue.instrumentation.phrases import (
    FAMILY,
    beginnings,
    count_at,
    figures_before,
    fourth_of_family,
    is_key,
    is_small,
    limited_count,
    may_begin,
    ordinal_at,
    phrase_end,
    pitch_end,
    seats_at,
    token_at,
)
from catalogue.instrumentation.rows import remembered
from catalogue.instrumentation.tokens import Bracket, Nodes, Token
from catalogue.instrumentation.vocabulary import family_of

MOST_QUALITIES = 16
QUALIFIERS = (
    (OPTIONAL | POSSIBLE, "optional"),
    (AMPLIFIED, "amplified"),
    (ELECTRIC, "electric"),
    (SOLO, "solo"),
    (OFFSTAGE, "offstage"),
    (ONSTAGE, "onstage"),
)
ALL_QUALIFIERS = frozenset[str]().union(*(words for words, _ in QUALIFIERS))


CUT_SHORT = keyed("opt opts lib amp ampd ampl evtl fak fac facult facolt opc opz electr amplif")
"""The last words of qualifiers that are written with a point."""
WORDS_BEFORE = KEYS_OF_PITCH | ARTICLES | REMARKS | SOLO | {"any"}
LIMITS = UP_TO | LEAST | BETWEEN


SMALL = ARTICLES | REMARKS


@dataclass(slots=True)
class Qualities:
    """What stands before a name: number, seat and qualifiers."""

    count: Count | None = None
    seat: int | None = None
    optional: bool = False
    amplified: bool = False
    electric: bool = False
    copies: bool = False
    open: bool = False
    solo: bool = False
    soli: bool = False
    offstage: bool = False
    onstage: bool = False
    pairs: bool = False
    unit: str | None = None
    numbered: bool = False
    seats: tuple[int, ...] = ()
    pitch: tuple[int, int] | None = None
    bracket: Bracket | None = None


NOTHING_SAID = Qualities()


@functools.lru_cache(maxsize=1 << 13)
def may_qualify(word: str, key: str) -> bool:
    """Whether a word may stand before a name and say something of it: it may say yes in vain, never no."""
    if key in WORDS_BEFORE or key in beginnings(ALL_QUALIFIERS) or key in beginnings(LIMITS):
        return True
    return cardinal(word) is not None or ordinal(word) is not None or (word.isupper() and roman(word) is not None)


@remembered
def qualities_at(nodes: Nodes, at: int) -> tuple[Qualities, int]:
    """Return what stands before a name and where the name would begin."""
    first = nodes[at] if at < len(nodes) else None
    if first is None or first.kind == "mark":
        return NOTHING_SAID, at
    if first.kind == "word" and type(first) is Token and not may_qualify(first.text, first.key):
        return NOTHING_SAID, at
    found = Qualities()
    last = at + MOST_QUALITIES
    while at < min(len(nodes), last):
        step = quality_end(nodes, at, found)
        if step is None:
            break
        at = step
    return found, at


def quality_end(nodes: Nodes, at: int, found: Qualities) -> int | None:
    node = nodes[at]
    if isinstance(node, Bracket):
        return count_bracket(nodes, at, found)
    if node.kind == "mark":
        return None
    name = name_at(nodes, at)
    for words, quality in QUALIFIERS if may_begin(nodes, at, ALL_QUALIFIERS) else ():
        end = point_end(nodes, at, hyphen_end(nodes, phrase_end(nodes, at, words)))
        apart = end is not None and (name is None or name.end <= end or is_longer(nodes, end, name.end))
        if end is not None and apart and end < len(nodes) and continues(nodes, end):
            setattr(found, quality, True)
            found.soli = found.soli or is_key(node, SOLISTS)
            return end
    pitch = pitch_of_name(nodes, at)
    if pitch is not None and (name is None or name.end < pitch):
        found.pitch = (node.start, nodes[pitch - 1].end)
        return pitch
    if name is not None and not (node.kind == "word" and is_small(node, ARTICLES) and name.end == at + 1):
        return None
    if found.count is not None and is_key(node, DESKS):
        found.unit = "desks"
        return after_of(nodes, at + 1)
    if found.count is not None and node.is_word("pair", "pairs", "paar", "paires", "paia", "pares"):
        found.pairs = True
        return at + 1
    if found.count is not None and (sets := sets_end(nodes, at)) is not None:
        found.pairs = True
        return sets
    return number_end(nodes, at, found)


def sets_end(nodes: Nodes, at: int) -> int | None:
    """Return the end of ``sets of`` before timpani, of which a player has one."""
    start = after_of(nodes, at + 1) if is_key(nodes[at], SETS) else at
    name = name_at(nodes, start) if start > at else None
    return start if name is not None and name.slugs[0] == "timpani" else None


def is_longer(nodes: Nodes, at: int, end: int) -> bool:
    """Whether a name goes on beyond one that began earlier, ``soprano saxophone`` beyond ``solo soprano``."""
    name = name_at(nodes, at) if at < len(nodes) else None
    return name is not None and name.end > end


def hyphen_end(nodes: Nodes, end: int | None) -> int | None:
    """Pass over the hyphen that joins a qualifier to its name, ``Solo-Violine``."""
    if end is None or end + 1 >= len(nodes) or not nodes[end].is_mark("-"):
        return end
    joined = not nodes[end].spaced and not nodes[end + 1].spaced and name_at(nodes, end + 1) is not None
    return end + 1 if joined else end


def point_end(nodes: Nodes, at: int, end: int | None) -> int | None:
    """Pass over the point of a qualifier that is cut short and opens an item, ``fl, opt. picc``, ``amp. gtr``."""
    point = token_at(nodes, end) if end is not None else None
    if end is None or point is None or not point.is_mark(".") or nodes[end - 1].key not in CUT_SHORT:
        return end
    before = token_at(nodes, at - 1)
    opens = at == 0 or is_key(before, AND) or (before is not None and before.is_mark(",;:+\n/-&•·"))
    named = end + 1 < len(nodes) and (count_at(nodes, end + 1) is not None or name_at(nodes, end + 1) is not None)
    return end + 1 if opens and named else end


def pitch_of_name(nodes: Nodes, at: int) -> int | None:
    """Return the end of a key that stands before a name, ``B-flat trumpet``, ``B-Klarinetten``."""
    end = pitch_end(nodes, at)
    if end is not None and hyphenated(nodes, at, end):
        return end + 1
    named = end is not None and end < len(nodes) and nodes[end].kind == "word" and name_at(nodes, end) is not None
    return end if named else None


def hyphenated(nodes: Nodes, at: int, end: int) -> bool:
    """Whether a hyphen joins a key to a wind instrument, ``B-Klarinetten``, ``F-Hörner``."""
    key, joint, name = token_at(nodes, at), token_at(nodes, end), name_at(nodes, end + 1)
    if key is None or joint is None or name is None or not (joint.is_mark("-") and key.text[0].isupper()):
        return False
    return not (joint.spaced or nodes[end + 1].spaced) and family_of(name.slugs[0]) in ("woodwind", "brass")


def continues(nodes: Nodes, at: int) -> bool:
    """Whether a name, number or qualifier follows without a separator."""
    return nodes[at].kind in ("word", "number")


def number_end(nodes: Nodes, at: int, found: Qualities) -> int | None:
    node = nodes[at]
    if isinstance(node, Bracket):
        return None
    if node.is_word("any") and is_key(token_at(nodes, at + 1), {"number"}) and is_key(token_at(nodes, at + 2), {"of"}):
        found.open = True
        return at + 3
    if node.is_word("any") and count_at(nodes, at + 1) is not None:
        return at + 1
    seat = ordinal_at(nodes, at)
    if seat is not None and found.seat is None and seat[1] < len(nodes) and not nodes[seat[1]].is_mark(".,"):
        found.seat = seat[0]
        return seat[1]
    numeral = roman(node.text) if node.kind == "word" and node.text.isupper() else None
    if numeral is not None and found.seat is None and name_at(nodes, at + 1) is not None:
        found.seat, found.numbered = numeral, True
        return at + 1
    both = seats_at(nodes, at) if node.kind == "word" or ordinal_at(nodes, at) else None
    if both is not None and len(both[0]) == 2 and found.seat is None and name_at(nodes, both[1]) is not None:
        found.seats = both[0]
        return both[1]
    if found.count is None and found.seat is None:
        counted = count_at(nodes, at) or limited_count(nodes, at)
        if counted is not None and not is_measure(nodes, counted.end):
            found.count = counted
            if copies(nodes, at, counted.end):
                found.copies = True
                return counted.end + 1
            return after_of(nodes, counted.end)
    if is_small(node, SMALL) and not node.is_word("not", "no"):
        return at + 1
    return None


def copies(nodes: Nodes, start: int, at: int) -> bool:
    """Whether a number at the beginning of an item is joined to a name by a hyphen, ``8-flute``."""
    if fourth_of_family(nodes, start):
        return False
    if start and (not nodes[start - 1].is_mark(";,\n") or figures_before(nodes, start, ".,") % FAMILY):
        return False
    if at + 1 >= len(nodes) or not nodes[at].is_mark("-") or nodes[at].spaced or nodes[at + 1].spaced:
        return False
    return nodes[at + 1].kind == "word" and name_at(nodes, at + 1) is not None


def after_of(nodes: Nodes, at: int) -> int:
    token = token_at(nodes, at)
    return at + 1 if token is not None and token.is_word("of", "de", "di", "x", "×") and at + 1 < len(nodes) else at


def is_measure(nodes: Nodes, at: int) -> bool:
    """Whether the number before measures something: ``8-channel``, ``4-octave``, ``1/4``."""
    link, word = token_at(nodes, at), token_at(nodes, at + 1)
    if link is None or word is None or link.spaced or word.spaced:
        return False
    body = phrase_end(nodes, at + 1, BODY_OF_STRINGS) is not None
    return link.is_mark("-") and word.kind == "word" and name_at(nodes, at + 1) is None and not body


def count_bracket(nodes: Nodes, at: int, found: Qualities) -> int | None:
    """Take a bracket between a number and a name, ``4 (2) Trompeten``, ``2 (optional 4) clarinets``."""
    bracket = nodes[at]
    if not isinstance(bracket, Bracket) or found.count is None or found.bracket is not None:
        return None
    numbers = [one for one in bracket.nodes if type(one) is Token and (one.kind == "number" or cardinal(one.text))]
    if len(bracket.nodes) > 4 or len(numbers) != 1 or at + 1 >= len(nodes) or name_at(nodes, at + 1) is None:
        return None
    found.bracket = bracket
    return at + 1
