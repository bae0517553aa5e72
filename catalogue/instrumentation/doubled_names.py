"""Reads the names of what a player doubles: one instrument or several, with the keys and remarks after them."""

from __future__ import annotations

from catalogue.instrumentation.drafts import Forces
from catalogue.instrumentation.lexicon import AMPLIFIED, AND, ARTICLES, DOUBLING_FILL, OPTIONAL, OR, REMARKS, SOLO
from catalogue.instrumentation.names import Name, name_at
from catalogue.instrumentation.numbers import roman
from catalogue.instrumentation.phrases import is_key, is_small, keys_end, ordinal_at, phrase_end, token_at
from catalogue.instrumentation.players_meant import Section, glued_figure, name_starts, who_at
from catalogue.instrumentation.senses import KEYED, Surroundings
from catalogue.instrumentation.spelling import near, nearest
from catalogue.instrumentation.tokens import Bracket, Nodes, Token
from catalogue.instrumentation.vocabulary import key_of

SMALL = DOUBLING_FILL | ARTICLES
JOINING = AND | OR
SAID = SOLO | REMARKS | AMPLIFIED


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
    """Return what a key after the name makes of an instrument, ``cl(Eb)``, ``Cl. in Es``, ``fl en sol``."""
    at = pointed_key(nodes, at)
    node = nodes[at] if at < len(nodes) else None
    end = keys_end(nodes, at)
    if isinstance(node, Bracket) and not node.spaced:
        told: Nodes = node.nodes
    elif end is not None:
        told = nodes[at + 1 : end]
    else:
        return slug
    key = "".join(key_of(one.text) for one in told if isinstance(one, Token))
    return KEYED.get((slug, key), slug)


def pointed_key(nodes: Nodes, at: int) -> int:
    """Pass over an abbreviation's point that a key follows, ``picc. tpt. in A``."""
    return at + (at < len(nodes) and nodes[at].is_mark(".") and keys_end(nodes, at + 1) is not None)


def fill_end(nodes: Nodes, at: int, notes: list[str]) -> int:
    while at < len(nodes):
        optional = phrase_end(nodes, at, OPTIONAL)
        if optional is not None:
            notes.append("optional")
            at = optional
        elif is_small(nodes[at], SMALL) and not name_starts(nodes, at) and not own_name(nodes, at):
            at += 1
        else:
            break
    return at


def own_name(nodes: Nodes, at: int) -> bool:
    return at == len(nodes) - 1 and name_at(nodes, at) is not None


def after_name(nodes: Nodes, found: Name, notes: list[str]) -> int:
    """Pass over a key, a part number, a bracket and ``optional`` after a name."""
    at = pointed_key(nodes, found.end)
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
    while at < len(nodes) and (nodes[at].is_mark(",+/.&") or is_small(nodes[at], JOINING)):
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
    if section.told and any(is_key(word, SAID) for word in words):
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
