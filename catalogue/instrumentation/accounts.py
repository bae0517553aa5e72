"""Says of numbers and of names of instruments that a reading does not hold: whatever bent it, it is told.

Every number of a text is a number of players, a chair, a sum, or stands in a note, a label or under a remark; every
name is an instrument, something that a player doubles, a choice, or stands in such words. Nothing here knows how a
text is read: it holds the two against each other, so that a rule that drops or joins too much is seen.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from itertools import pairwise

from catalogue.instrumentation.denials import DENYING
from catalogue.instrumentation.drafts import Forces
from catalogue.instrumentation.headings import title_end
from catalogue.instrumentation.held_numbers import DIGITS, unheld_numbers
from catalogue.instrumentation.lexicon import ARTICLES, SPOKEN
from catalogue.instrumentation.model import Line
from catalogue.instrumentation.names import Name, name_at
from catalogue.instrumentation.numbers import CARDINAL
from catalogue.instrumentation.phrases import is_key, keys_end, pitch_end
from catalogue.instrumentation.senses import in_section
from catalogue.instrumentation.tokens import Bracket, Nodes, Token
from catalogue.instrumentation.untold import is_known, say_of_lost
from catalogue.instrumentation.vocabulary import family_of, instrument, key_of
from catalogue.instrumentation.voicings import is_letters

WORDS = re.compile(r"[\W\d_]+")
PAIR = 2
PLAYED = ("woodwind", "brass", "strings", "keyboard")
UNCOUNTED = ("1", "0")
"""Numbers that stand in many texts for other things than players."""
SHORTEST_STEM = 3
BROAD = ("brass-instrument", "wind-instrument", "string-instrument", "treble-instrument", "bass-instrument", "voice")
WHOLE = ("saxophone", "recorder", "percussion", "electronics", "keyboard", "violin", "choir")
"""Names that stand for any instrument of their family or section."""
SAME_SIZE = {"child": "choir-children", "treble": "choir-soprano", "tenor": "trombone"}
"""Who is meant by a size where the body that has it is named otherwise: the tenor among trombones."""


def say_of_unaccounted(nodes: Nodes, forces: Forces, lines: tuple[Line, ...]) -> None:
    """Remark on each number, each name and each unknown word of the text that the lines do not hold."""
    start = title_end(nodes)
    say_of_run_on(forces)
    left = Left({one.name.start: one.name.end for one in forces.drafts if one.name is not None}, forces)
    left.look(nodes, start)
    if left.strange:
        say_of_lost(nodes, forces, lines)
    said = said_in(lines).lower() if left.numbers or left.names else ""
    if not set(left.numbers) <= set(DIGITS.findall(said)):
        for token in unheld_numbers(nodes[start:], forces, lines):
            message = "This number was not read as a number of players."
            forces.remark("number-not-read", message, token.start, token.end, "so many of those beside it")
    names = [one for one, row in left.names if one.written.lower() not in said and not is_aside(row, one)]
    for name in unheld_names(names, forces, lines):
        message = f"“{forces.written(name.start, name.stop)}” was not read as one of the players."
        forces.remark("name-not-read", message, name.start, name.stop, "a player of its own, or a further doubling")


def say_of_run_on(forces: Forces) -> None:
    """Say of a singer whom only a blank parts from an instrument, ``tenor tubas``: the two may be one name."""
    if not [one for one in forces.drafts if one.slug.startswith("voice-")]:
        return
    for one, two in pairwise(forces.drafts):
        if one.family == "voice" and not two.separator and two.name is not None and two.family in PLAYED:
            joined = one.name is not None and one.name.stop < two.start and not one.brackets and not two.figure
            if joined and two.start - one.end == 1 and len(getattr(one.name, "written", "")) > PAIR:
                message = f"“{forces.written(one.start, two.end)}” was read as a singer and an instrument."
                forces.remark("run-on", message, one.start, two.end, "one instrument")


class Left:
    """What is left of the numbers and names of a text when those of the drafts are taken away: mostly nothing."""

    def __init__(self, spans: dict[int, int], forces: Forces) -> None:
        self.spans = spans
        self.counts = [one.most for one in forces.drafts]
        self.numbers: list[str] = []
        self.names: list[tuple[Name, Nodes]] = []
        self.strange = False

    def look(self, nodes: Nodes, at: int) -> None:
        """Look at the nodes from a place on, and into the brackets among them."""
        size = len(nodes)
        while at < size:
            node = nodes[at]
            if type(node) is not Token:
                assert isinstance(node, Bracket)  # noqa: S101 — narrows the type
                self.look(node.nodes, 0)
            elif node.kind == "word":
                end = self.spans.get(node.start, 0)
                at = end if end > at else self.word(nodes, at, node)
                continue
            elif node.kind == "number" and node.text not in UNCOUNTED and not self.is_counted(node.text):
                self.numbers.append(node.text)
            at += 1

    def word(self, nodes: Nodes, at: int, node: Token) -> int:
        """Keep the name that begins with a word, and return the next place; what is denied is passed over."""
        if node.key in DENYING:
            self.strange = True
            while at + 1 < len(nodes) and not nodes[at + 1].is_mark(",;\n–-"):
                at += 1
            return at + 1
        name = name_at(nodes, at)
        if name is None:
            self.strange = self.strange or not is_known(node.text, node.key)
            if CARDINAL.get(node.key, 0) > 1 and not self.is_counted(str(CARDINAL[node.key])):
                self.numbers.append(node.text)
            return at + 1
        self.names.append((name, nodes))
        return name.end

    def is_counted(self, written: str) -> bool:
        """Whether drafts have a number, or each digit of a long one, that has not been taken away yet."""
        numbers = [int(written)] if len(written) <= PAIR else [int(digit) for digit in written if digit > "1"]
        for number in numbers:
            if number not in self.counts:
                return False
            self.counts.remove(number)
        return True


def said_in(lines: tuple[Line, ...]) -> str:
    """Return all notes and labels of the lines."""
    notes = [f"{one.note} {one.group or ''}" for one in lines if one.note or one.group]
    return " ".join(notes + [chair.note for one in lines for chair in one.chairs if chair.note])


def unheld_names(names: list[Name], forces: Forces, lines: tuple[Line, ...]) -> Iterator[Name]:
    """Yield the names of instruments that no line, doubling, choice or note holds."""
    if not names:
        return
    played = {slug for line in lines for slug in (line.instrument, *line.alternatives)}
    played |= {slug for line in lines for chair in line.chairs for slug in chair.plays}
    missing = [one for one in names if not stands_for(one, played)]
    words = {word for word in map(key_of, words_held(lines)) if word} if missing else set()
    for name in missing:
        if not forces.is_told(name.start, name.stop) and not is_held(name, words):
            yield name


def is_aside(nodes: Nodes, name: Name) -> bool:
    """Whether a name is a letter, a small word such as ``le`` or ``of``, a label, or told by its key."""
    node = nodes[name.first]
    single = name.end == name.first + 1
    small = single and len(node.key) < SHORTEST_STEM and is_key(node, ARTICLES)
    return len(name.written) < PAIR or small or is_label(nodes, name)


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
    return any(is_broad(slug, played) for slug in name.slugs) or is_of_section(name, played)


def is_of_section(name: Name, played: set[str]) -> bool:
    """Whether the section of one of those played gives the name the meaning of another, the horns' ``tenor tubas``."""
    sections = {instrument(one).section for one in played if name.end > name.first + 1}
    return any(in_section(key_of(name.written), one) in played for one in sections if one)


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
