"""Tells which numbers of a text stand more often in it than in the lines that were read of it.

A number is a number of players, a chair, a sum, a number of parts, or stands in a note or a label. Ordinals, the
``5`` of a five-string bass and all but the last of ``1, 2 & 3`` count nobody.
"""

from __future__ import annotations

import re
from collections import Counter
from collections.abc import Iterator
from itertools import accumulate

from catalogue.instrumentation.drafts import Forces
from catalogue.instrumentation.hands import HANDS
from catalogue.instrumentation.lexicon import AND
from catalogue.instrumentation.model import Line
from catalogue.instrumentation.names import name_at
from catalogue.instrumentation.numbers import CARDINAL, is_suffix
from catalogue.instrumentation.phrases import is_key
from catalogue.instrumentation.tokens import Bracket, Nodes, Token
from catalogue.instrumentation.vocabulary import key_of

DIGITS = re.compile(r"\d+")
MANY = 99
"""How often a number may stand that a note or a label repeats."""
LONGEST_NUMBER = 2
UNSURE = ("pair", "couple", "once", "sei", "elf")


def unheld_numbers(nodes: Nodes, forces: Forces, lines: tuple[Line, ...]) -> Iterator[Token]:
    """Yield the numbers above one that stand more often in the text than in the lines, the last of their kind."""
    held = numbers_held(lines, forces)
    wanted = Counter[int]()
    for token in numbers_in(nodes):
        if forces.is_told(token.start, token.end):
            continue
        values = [value_of(token)] if token.kind == "word" or len(token.text) <= LONGEST_NUMBER else []
        if not values or (token.kind == "number" and values[0] > 9 and not held[values[0]]):
            values = [int(digit) for digit in token.text]
        wanted.update(values)
        if any(value > 1 and wanted[value] > held[value] for value in values):
            yield token


def numbers_in(nodes: Nodes) -> Iterator[Token]:
    """Yield the numbers of the nodes and of the brackets in them; ordinals and ``5-string`` count nobody."""
    for at, node in enumerate(nodes):
        if isinstance(node, Bracket):
            yield from numbers_in(node.nodes)
        elif (node.kind == "number" and not is_glued(nodes, at)) or is_number_word(nodes, at):
            following = nodes[at + 1] if at + 1 < len(nodes) else None
            if not isinstance(following, Token) or not (is_suffix(following) or goes_on(nodes, at)):
                yield node


def value_of(token: Token) -> int:
    """Return the value of a number in figures or in words."""
    return CARDINAL.get(token.key, 0) if token.kind == "word" else token.number


def is_number_word(nodes: Nodes, at: int) -> bool:
    """Whether a word counts more than one: not the ``pair`` of *pairs of*, the Spanish ``once``, a player's hands."""
    key, following = nodes[at].key, nodes[at + 1] if at + 1 < len(nodes) else None
    if CARDINAL.get(key, 0) <= 1 or key in UNSURE or name_at(nodes, at) is not None:
        return False
    return following is None or not (isinstance(following, Bracket) or following.key in HANDS)


def is_glued(nodes: Nodes, at: int) -> bool:
    """Whether a number is written to the word before it and ends there, the part of ``pic2``."""
    before = nodes[at - 1] if at else None
    return isinstance(before, Token) and before.kind == "word" and not nodes[at].spaced


def goes_on(nodes: Nodes, at: int) -> bool:
    """Whether a hyphen joins a word to the number, or the next chair follows it: the 2 of ``1, 2 & 3``."""
    joint, after = nodes[at + 1], nodes[at + 2] if at + 2 < len(nodes) else None
    if not isinstance(after, Token):
        return False
    if joint.is_mark("-") and after.kind == "word" and not after.spaced:
        return True
    number = nodes[at]
    figures = isinstance(number, Token) and number.kind == after.kind == "number"
    next_of = figures and isinstance(number, Token) and after.number == number.number + 1
    return next_of and (joint.is_mark(",+&-/.") or is_key(joint, AND))


def numbers_held(lines: tuple[Line, ...], forces: Forces) -> Counter[int]:
    """Return how often each number stands in the lines: players, chairs, sums, parts, notes, labels."""
    held = Counter[int]()
    players = Counter[int](number for draft in forces.drafts for number in {draft.least, draft.most, draft.parts})
    players.update(most for draft in forces.drafts for _, most in draft.numbers)
    books = sum(draft.collective == "book" for draft in forces.drafts)
    players.update(range(1, books + 1))
    drums = (forces.text[one.start : one.end] for one in forces.drafts if one.slug == "timpani")
    players.update(int(number) for written in drums for number in DIGITS.findall(written)[:1])
    of_instrument, of_family = Counter[str](), Counter[str]()
    of_lines = Counter(line.instrument for line in lines)
    for line in lines:
        most = line.players[1] if line.players else 0
        of_instrument[line.instrument] += most
        of_family[line.family] += most
        held[most] += len(line.alternatives)
        held[2] += line.instrument == "violin-2"
        held.update(chair.chair for chair in line.chairs if chair.chair)
        held.update(Counter(chair.plays for chair in line.chairs).values())
        said = f"{line.note} {line.group or ''} {' '.join(chair.note for chair in line.chairs)}"
        held.update({int(number): MANY for number in DIGITS.findall(said) if len(number) <= LONGEST_NUMBER})
        held.update({CARDINAL[key]: MANY for key in map(key_of, said.split()) if key in CARDINAL})
    told = f"{forces.channels or ''} {' '.join(str(one.number) for one in forces.told)}"
    held.update({int(number): MANY for number in DIGITS.findall(told)})
    parts = sum(line.parts for line in lines if line.family == "voice")
    sums = {parts, *of_instrument.values(), *of_family.values(), len(lines), *accumulate(of_instrument.values())}
    held.update(sums - {*players})
    held.update(most for slug, most in of_instrument.items() if of_lines[slug] > 1 and most in players)
    held.update(set(forces.numbered) - {*players})
    held.update(number for number in forces.numbered if number in players)
    return held + players
