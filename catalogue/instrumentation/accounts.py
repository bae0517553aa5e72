"""Says of numbers and of names of instruments that a reading does not hold: whatever bent it, it is told.

Every number of a text is a number of players, a chair, a sum, or stands in a note, a label or under a remark; every
name is an instrument, something that a player doubles, a choice, or stands in such words. Nothing here knows how a
text is read: it holds the two against each other, so that a rule that drops or joins too much is seen.
"""

from __future__ import annotations

import re
from collections import Counter
from collections.abc import Iterator
from itertools import accumulate

from catalogue.instrumentation.denials import DENYING
from catalogue.instrumentation.drafts import Forces
from catalogue.instrumentation.headings import title_end
from catalogue.instrumentation.lexicon import AND, ARTICLES, SPOKEN
from catalogue.instrumentation.model import Line
from catalogue.instrumentation.names import Name, name_at
from catalogue.instrumentation.numbers import is_suffix
from catalogue.instrumentation.phrases import is_key, keys_end, pitch_end
from catalogue.instrumentation.tokens import Bracket, Node, Nodes, Token
from catalogue.instrumentation.vocabulary import family_of, instrument, key_of
from catalogue.instrumentation.voicings import is_letters

DIGITS = re.compile(r"\d+")
WORDS = re.compile(r"[\W\d_]+")
MANY = 99
"""How often a number may stand that a note or a label repeats."""
LONGEST_NUMBER = 2
SHORTEST_STEM = 3
BROAD = ("brass-instrument", "wind-instrument", "string-instrument", "treble-instrument", "bass-instrument", "voice")
WHOLE = ("saxophone", "recorder", "percussion", "electronics", "keyboard", "violin", "choir")
"""Names that stand for any instrument of their family or section."""
SAME_SIZE = {"child": "choir-children", "treble": "choir-soprano", "tenor": "trombone"}
"""Who is meant by a size where the body that has it is named otherwise: the tenor among trombones."""


def say_of_unaccounted(nodes: Nodes, forces: Forces, lines: tuple[Line, ...]) -> None:
    """Remark on each number and each name of the text that the lines do not hold."""
    start = title_end(nodes)
    for token in unheld_numbers(nodes[start:], forces, lines):
        message = "This number was not read as a number of players."
        forces.remark("number-not-read", message, token.start, token.end, "so many of those beside it")
    for name in unheld_names(nodes, start, forces, lines):
        message = f"“{forces.written(name.start, name.stop)}” was not read as one of the players."
        forces.remark("name-not-read", message, name.start, name.stop, "a player of its own, or a further doubling")


def unheld_numbers(nodes: Nodes, forces: Forces, lines: tuple[Line, ...]) -> Iterator[Token]:
    """Yield the numbers above one that stand more often in the text than in the lines, the last of their kind."""
    written = [one for one in numbers_in(nodes) if not is_told(one.start, one.end, forces)]
    if not written:
        return
    held = numbers_held(lines, forces)
    wanted = Counter[int]()
    for token in written:
        values = [token.number] if len(token.text) <= LONGEST_NUMBER else []
        if not values or (values[0] > 9 and not held[values[0]]):
            values = [int(digit) for digit in token.text]
        wanted.update(values)
        if any(value > 1 and wanted[value] > held[value] for value in values):
            yield token


def numbers_in(nodes: Nodes) -> Iterator[Token]:
    """Yield the numbers of the nodes and of the brackets in them; ordinals and ``5-string`` count nobody."""
    for at, node in enumerate(nodes):
        if isinstance(node, Bracket):
            yield from numbers_in(node.nodes)
        elif node.kind == "number" and not is_glued(nodes, at):
            following = nodes[at + 1] if at + 1 < len(nodes) else None
            if not isinstance(following, Token) or not (is_suffix(following) or goes_on(nodes, at)):
                yield node


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
    next_of = isinstance(number, Token) and after.kind == "number" and after.number == number.number + 1
    return next_of and (joint.is_mark(",+&-/") or is_key(joint, AND))


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
    told = f"{forces.channels or ''} {' '.join(str(one.number) for one in forces.told)}"
    held.update({int(number): MANY for number in DIGITS.findall(told)})
    sums = {*of_instrument.values(), *of_family.values(), len(lines), *accumulate(of_instrument.values())}
    held.update(sums - {*players})
    held.update(most for slug, most in of_instrument.items() if of_lines[slug] > 1 and most in players)
    return held + players


def unheld_names(nodes: Nodes, start: int, forces: Forces, lines: tuple[Line, ...]) -> Iterator[Name]:
    """Yield the names of instruments that no line, doubling, choice or note holds."""
    played = {slug for line in lines for slug in (line.instrument, *line.alternatives)}
    played |= {slug for line in lines for chair in line.chairs for slug in chair.plays}
    missing = [one for one in names_in(nodes, start) if not stands_for(one, played)]
    if not missing:
        return
    words = {word for word in map(key_of, words_held(lines)) if word}
    for name in missing:
        if not is_told(name.start, name.stop, forces) and not is_held(name, words):
            yield name


def names_in(nodes: Nodes, at: int) -> Iterator[Name]:
    """Yield the names in the nodes and in the brackets in them, in order; what is denied is not among them."""
    while at < len(nodes):
        node = nodes[at]
        name = None if isinstance(node, Bracket) else name_at(nodes, at)
        if isinstance(node, Bracket):
            yield from names_in(node.nodes, 0)
        elif is_key(node, DENYING):
            while at + 1 < len(nodes) and not nodes[at + 1].is_mark(",;\n–-"):
                at += 1
        elif (
            name is not None and len(name.written) > 1 and not (is_small_word(node, name, at) or is_label(nodes, name))
        ):
            yield name
        at = name.end if name is not None else at + 1


def is_small_word(node: Node, name: Name, at: int) -> bool:
    """Whether a name of one word is one of the small words around names, ``le``, ``of``."""
    return name.end == at + 1 and isinstance(node, Token) and len(node.key) < SHORTEST_STEM and is_key(node, ARTICLES)


def is_label(nodes: Nodes, name: Name) -> bool:
    """Whether a colon makes a heading of one word, ``Cast: soprano``, or a key another instrument of it, ``fl sol``."""
    if name.end >= len(nodes):
        return False
    heading = name.end == name.first + 1 and nodes[name.end].is_mark(":")
    return heading or pitch_end(nodes, name.end) is not None or keys_end(nodes, name.end) is not None


def stands_for(name: Name, played: set[str]) -> bool:
    """Whether one of those played is what the name means, or one of the body that it stands for."""
    sung = is_letters(name.written) and any(slug.startswith("choir") for slug in played)
    if sung or played.intersection(name.slugs):
        return True
    return any(is_broad(slug, played) for slug in name.slugs)


def is_broad(slug: str, played: set[str]) -> bool:
    """Whether a name may only introduce: an ensemble, a family, a section of which others are named."""
    row = instrument(slug)
    if row.family == "other" or slug in BROAD or slug in SPOKEN:
        return True
    if row.family == "voice":
        size = slug.removeprefix("voice-")
        sized = f"{SAME_SIZE.get(size, size)}-"
        return any(f"{one}-".startswith(sized) for one in played)
    if slug not in WHOLE:
        return False
    return any(
        family_of(one) == row.family and (not row.section or instrument(one).section == row.section) for one in played
    )


def words_held(lines: tuple[Line, ...]) -> Iterator[str]:
    """Yield the words of which the lines' instruments, doublings, notes and labels are made."""
    for line in lines:
        chairs = [text for chair in line.chairs for text in (chair.note, *chair.plays)]
        for text in (line.instrument, line.note, line.group or "", *line.alternatives, *chairs):
            yield from WORDS.split(text)


def is_held(name: Name, words: set[str]) -> bool:
    """Whether the words of the name, or their stems, stand in the lines: the ``sop`` of a soprano saxophone."""
    spelled = [key for word in WORDS.split(name.written) if (key := key_of(word))]
    if words.issuperset(spelled):
        return True
    longer = [word for word in words if len(word) >= SHORTEST_STEM]
    stems = [key for key in spelled if len(key) >= SHORTEST_STEM]
    return bool(stems) and all(any(word.startswith(key) or key.startswith(word) for word in longer) for key in stems)


def is_told(start: int, end: int, forces: Forces) -> bool:
    """Whether a remark stands over the place."""
    return any(remark.start < end and start < remark.end for remark in forces.remarks)
