"""Finds the longest name of an instrument at a place of the text.

A name may be several words joined by blanks, points, hyphens or an apostrophe (``B. Cl.``, ``tam-tam``, ``ob d'a``);
a line break, a comma or a bracket ends it. Part numbers are no names, except where a spelling holds one (``vn1``).
"""

from __future__ import annotations

import functools
import itertools
from typing import NamedTuple

from catalogue.instrumentation.lexicon import AND, OR, SOLO
from catalogue.instrumentation.numbers import cardinal
from catalogue.instrumentation.rows import remembered
from catalogue.instrumentation.senses import Surroundings, chosen, in_section, sectional
from catalogue.instrumentation.tokens import Bracket, Node, Nodes, Token
from catalogue.instrumentation.vocabulary import Instrument, family_of, instrument, instruments, key_of, keys

LONGEST = 7
SHORTEST_OF_COMPOUND = 3
JOINTS = ".-'/"


JOINING = AND | OR | SOLO


class Name(NamedTuple):
    """A name found: what it may mean, and the nodes from ``first`` up to ``end`` that spell it."""

    slugs: tuple[str, ...]
    written: str
    first: int
    end: int
    start: int
    stop: int

    def surely(self, section: str = "") -> str | None:
        """Return the instrument that the name means whatever is around it, ``None`` where that decides."""
        by_place = in_section(key_of(self.written), section) if section else None
        return by_place or (self.slugs[0] if len(self.slugs) == 1 else None)

    def means(self, around: Surroundings) -> str:
        """Return the instrument that the name means among these surroundings."""
        by_place = in_section(key_of(self.written), around.section) if around.section else None
        return by_place or chosen(self.slugs, self.written, around)


@functools.cache
def with_slash() -> frozenset[str]:
    """Return the spellings that hold a slash as part of the name."""
    return frozenset(one.lower() for row in instruments().values() for _, one in row.spellings if "/" in one)


@functools.cache
def beginnings() -> frozenset[str]:
    """Return all beginnings of all keys and of the keys of one section, with a plural s; nothing else leads on."""
    whole = {*keys(), *sectional()}
    return frozenset(key[:end] for key in whole for end in range(1, len(key) + 1)) | {key + "s" for key in whole}


@functools.cache
def leading_on() -> frozenset[str]:
    """Return the beginnings that are not the whole of a key, so that more words may follow."""
    return frozenset(key[:end] for key in beginnings() for end in range(1, len(key)))


@functools.cache
def from_figures() -> frozenset[str]:
    """Return all beginnings of the keys that begin with a figure."""
    return frozenset(one for one in beginnings() if one[0].isdigit())


@functools.cache
def with_hyphen() -> frozenset[str]:
    """Return the spellings that hold a hyphen."""
    return frozenset(one.lower() for row in instruments().values() for _, one in row.spellings if "-" in one)


@functools.cache
def with_point() -> frozenset[str]:
    """Return the spellings that hold a point."""
    return frozenset(one.lower() for row in instruments().values() for _, one in row.spellings if "." in one)


@functools.cache
def in_parts() -> frozenset[str]:
    """Return the keys of spellings of several words: ``clarinet.E`` is no ``clarinete``."""
    spellings = (one for row in instruments().values() for _, one in row.spellings)
    return frozenset(key_of(one) for one in spellings if any(mark in one for mark in " .-'/"))


def may_join(nodes: Nodes, at: int) -> bool:
    node = nodes[at]
    if isinstance(node, Bracket):
        return False
    return node.kind in ("word", "number") or (node.text in JOINTS and node.kind == "mark")


def spelling(nodes: Nodes, first: int, end: int) -> str:
    """Return the text between two nodes, single blanks for what stands between them."""
    parts = [
        (" " if node.spaced and index > first else "") + node.text
        for index, node in enumerate(nodes[first:end], first)
        if isinstance(node, Token)
    ]
    return "".join(parts)


@functools.lru_cache(maxsize=1 << 13)
def known(written: str) -> tuple[str, ...]:
    """Return the instruments that are spelled so; a plural in ``s`` that is not listed counts too."""
    key = key_of(written)
    found = keys().get(key, ())
    if not found and len(key) > 3 and key.endswith("s"):
        found = keys().get(key[:-1], ())
    return found


def joins_well(written: str, nodes: Nodes, first: int, end: int) -> bool:
    """Whether the marks inside belong to a name: a slash only where a spelling has one, no blank after a hyphen."""
    key = key_of(written)
    parted = any(one in written for one in " .-'/") and not {key, key.removesuffix("s")} & in_parts()
    if parted and not is_compound(written):
        return False
    if "/" in written:
        return written.lower().rstrip(".") in with_slash()
    if lists(nodes, first, end) and written.lower() not in with_point():
        return False
    for index in range(first + 1, end):
        node, before = nodes[index], nodes[index - 1]
        if before.is_mark("-") and (node.spaced or before.spaced):
            return False
        if before.is_mark(".") and node.kind == "number":
            return False
    letters = [node for node in nodes[first:end] if node.kind == "word"]
    if "-" in written and all(len(node.text) == 1 for node in letters if isinstance(node, Token)):
        return written.lower() in with_hyphen()
    last = nodes[end - 1]
    plural = last.is_word("s") and nodes[end - 2].is_mark(".")
    return not plural


def is_compound(written: str) -> bool:
    """Whether a hyphen joins two long words that are one elsewhere, the ``Alt-Saxophon`` of German."""
    words = written.split("-")
    return len(words) > 1 and all(len(word) >= SHORTEST_OF_COMPOUND and word.isalpha() for word in words)


def lists(nodes: Nodes, first: int, end: int) -> bool:
    """Whether points without a blank part two players: each word names one, and they are of one place or in order.

    ``picc.cl`` and ``fl.cb`` are two players, ``cb.cl`` and ``cl.picc`` one: no list puts those that way round.
    """
    pointed = [one for one in range(first + 1, end - 1) if nodes[one].is_mark(".") and not nodes[one + 1].spaced]
    if not pointed or end - first != 2 * len(pointed) + 1:
        return False
    words = [player_named(nodes[one]) for one in range(first, end, 2)]
    players = [one for one in words if one is not None]
    if len(players) < len(words):
        return False
    pairs = itertools.pairwise(players)
    return all(one.order < two.order or (one.section and one.section == two.section) for one, two in pairs)


def player_named(node: Node) -> Instrument | None:
    """Return the instrument that one word names, ``None`` where it may be a voice or a size (``bass``, ``alto``)."""
    found = known(node.text) if isinstance(node, Token) else ()
    return instrument(found[0]) if found and all(family_of(slug) != "voice" for slug in found) else None


@remembered
def name_at(nodes: Nodes, at: int, section: str = "") -> Name | None:
    """Return the longest name that begins at a node, or ``None``.

    A key that only a section gives a meaning to (``p`` in the flutes' place) is found when the section is given.
    """
    first = nodes[at] if at < len(nodes) else None
    if first is None or type(first) is not Token or first.kind != "word":
        return number_name(nodes, at) if first is not None and first.kind == "number" else None
    if first.key not in beginnings():
        return None
    name = name_of_word(nodes, at, first, section)
    if first.key in leading_on() and not (at and nodes[at - 1].kind != "mark" and joins_words(nodes, at)):
        name = longer_name(nodes, at, first, section) or name
    return name if name is None else before_next(nodes, name)


def name_of_word(nodes: Nodes, at: int, word: Token, section: str) -> Name | None:
    """Return the name that one word is by itself."""
    slugs = known(word.text)
    placed = in_section(word.key, section) if section and not slugs else None
    if placed is not None:
        return Name((placed,), word.text, at, at + 1, word.start, word.end)
    if not slugs or (len(word.key) == 1 and not letter_alone(nodes, at)):
        return None
    if cardinal(word.text) is not None and at + 1 < len(nodes) and nodes[at + 1].kind == "word":
        return None
    return Name(slugs, word.text, at, at + 1, word.start, word.end)


def longer_name(nodes: Nodes, at: int, first: Token, section: str) -> Name | None:
    """Return the longest name of several words."""
    best: Name | None = None
    for end in range(at + 2, min(len(nodes), at + LONGEST) + 1):
        last = nodes[end - 1]
        if not may_join(nodes, end - 1) or joins_words(nodes, end - 1):
            break
        if last.kind == "mark" or (last.kind == "number" and goes_on(nodes, end)):
            continue
        written = spelling(nodes, at, end)
        key = key_of(written)
        if key not in beginnings():
            break
        slugs = known(written)
        placed = in_section(key, section) if section and not slugs else None
        if placed is not None and (nodes[at + 1].is_mark("-") or len(first.text) == 1):
            best = Name((placed,), written, at, end, first.start, last.end)
        elif slugs and joins_well(written, nodes, at, end):
            best = Name(slugs, written, at, end, first.start, last.end)
    return best


def joins_words(nodes: Nodes, at: int) -> bool:
    """Whether a small letter by itself is a word that joins two others, the ``e`` of ``vl e vla``."""
    token, following = nodes[at], nodes[at + 1] if at + 1 < len(nodes) else None
    if not isinstance(token, Token) or token.text not in ("e", "y") or not token.spaced:
        return False
    apart = isinstance(following, Token) and following.kind in ("word", "number") and following.spaced
    return apart and following is not None and following.key not in ("flat", "b", "bemol", "bemolle")


def goes_on(nodes: Nodes, at: int) -> bool:
    """Whether a word is written to what stands before it."""
    return at < len(nodes) and nodes[at].kind == "word" and not nodes[at].spaced


def before_next(nodes: Nodes, name: Name) -> Name:
    """Leave the last word of a pointed name to the one after it where that needs it: ``cl`` and ``b.cl``."""
    last = name.end - 1
    pointed = last - 2 == name.first and nodes[last - 1].is_mark(".") and not nodes[last].spaced
    first = nodes[name.first]
    if not pointed or name.end >= len(nodes) or not nodes[name.end].is_mark(".") or not isinstance(first, Token):
        return name
    following = name_at(nodes, last)
    if following is None or following.end <= name.end or not known(first.text):
        return name
    return Name(known(first.text), first.text, name.first, name.first + 1, first.start, first.end)


def letter_alone(nodes: Nodes, at: int) -> bool:
    """Whether a single letter may be a name: a capital (or ``v``) that no word follows without a separator."""
    token, following = nodes[at], nodes[at + 1] if at + 1 < len(nodes) else None
    assert isinstance(token, Token)  # noqa: S101 — narrows the type
    if not (token.text.isupper() or token.text in "vph"):
        return False
    if token.text in "CMH" and not (following is None or following.kind != "word"):
        return False
    return following is None or following.kind != "word" or is_joining(following)


def is_joining(node: Node) -> bool:
    """Whether a word joins names: ``and``, ``or``, ``solo``."""
    return isinstance(node, Token) and key_of(node.text) in JOINING


def number_name(nodes: Nodes, at: int) -> Name | None:
    """Return a name that begins with a figure, such as ``1st violin`` or ``1/4 tone keyboard``."""
    first = nodes[at]
    if not isinstance(first, Token) or first.kind != "number" or first.text not in from_figures():
        return None
    best: Name | None = None
    for end in range(at + 2, min(len(nodes), at + LONGEST) + 1):
        if not may_join(nodes, end - 1):
            break
        written = spelling(nodes, at, end)
        key = key_of(written)
        if key not in from_figures():
            break
        if nodes[end - 1].kind == "word" and key in keys():
            best = Name(keys()[key], written, at, end, first.start, nodes[end - 1].end)
    return best
