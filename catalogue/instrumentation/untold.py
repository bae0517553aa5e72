"""Says of words that left nothing in a reading: nothing of a text is dropped without a word.

A word leaves its trace as an instrument, a note, a label or a remark. One that is known, an instrument's name or a word
that the trade writes around names, may do its work without one. Any other word is told at its place.
"""

from __future__ import annotations

import functools
import re
from collections.abc import Iterable, Iterator

from catalogue.instrumentation import collectives
from catalogue.instrumentation.channels import CHANNEL, LAYOUTS
from catalogue.instrumentation.choir_names import PARTIES, STIMMIG
from catalogue.instrumentation.drafts import Forces
from catalogue.instrumentation.hands import FOUR_HANDS, HANDS
from catalogue.instrumentation.headings import title_end
from catalogue.instrumentation.lexicon import KEYS_OF_PITCH, SETS, SPOKEN
from catalogue.instrumentation.limits import FOLLOWING
from catalogue.instrumentation.model import Line
from catalogue.instrumentation.names import known
from catalogue.instrumentation.numbers import ALL, BOTH, LAST, cardinal, is_suffix, ordinal, roman
from catalogue.instrumentation.senses import sectional
from catalogue.instrumentation.tokens import Nodes, Token, flatten
from catalogue.instrumentation.vocabulary import instruments, key_of
from catalogue.instrumentation.voicings import is_letters

SHORTEST = 2
BREAKS = re.compile(r"[\W\d_]+")
AROUND = BOTH | ALL | LAST | HANDS | FOUR_HANDS | STIMMIG | PARTIES | FOLLOWING | CHANNEL | SETS | frozenset(LAYOUTS)
"""Words that single readers know besides."""
VOCAL = ("vokal", "solisten")
ENDINGS = (
    "ensemble", "orchester", "chor", "stimmig", "stimmige", "stimmigen", "stimmiger", "stimmiges", "stimmigem",
    "gruppe", "konzert",
)  # fmt: skip


def say_of_lost(nodes: Nodes, forces: Forces, lines: tuple[Line, ...]) -> None:
    """Remark on each run of words that are not known and of which the lines hold nothing."""
    strange = [one for one in words_of(nodes) if not is_known(one.text, one.key)]
    held = set(words_in(lines, forces))
    for words in runs(one for one in strange if one.key not in held and not forces.is_told(one.start, one.end)):
        start, end = words[0].start, words[-1].end
        message = f"“{forces.written(start, end)}” was not read as part of the forces."
        forces.remark("not-read", message, start, end)


def words_of(nodes: Nodes) -> list[Token]:
    """Return the words of the text, those of its title left out."""
    return [one for one in flatten(nodes[title_end(nodes) :]) if isinstance(one, Token) and one.kind == "word"]


def runs(words: Iterable[Token]) -> Iterator[list[Token]]:
    """Yield the words that only a blank parts, together."""
    run: list[Token] = []
    for word in words:
        if run and word.start > run[-1].end + 1:
            yield run
            run = []
        run.append(word)
    if run:
        yield run


@functools.lru_cache(maxsize=1 << 13)
def is_known(word: str, key: str) -> bool:
    """Whether a word is an instrument's, a number, or one that the trade writes around names."""
    if len(key) < SHORTEST or key in SPOKEN or key in AROUND or key in of_names() or known(word):
        return True
    if is_letters(word.removesuffix("CH")) or key in sectional() or key in KEYS_OF_PITCH or key in collectives.names():
        return True
    before, _, after = word.rpartition("'")
    if before and is_known(after, key_of(after)):
        return True
    number = cardinal(word) is not None or ordinal(word) is not None or roman(word.upper()) is not None
    size = collectives.size_of(word) is not None or key.endswith(ENDINGS) or key.startswith(VOCAL)
    return number or size or is_suffix(Token("word", word, 0, len(word), False, word.lower(), key))


@functools.cache
def of_names() -> frozenset[str]:
    """Return the single words of which names are made, ``basse`` of *clarinette basse*."""
    spelled = (spelling for row in instruments().values() for _, spelling in row.spellings)
    return frozenset(key_of(word) for spelling in spelled for word in BREAKS.split(spelling) if word)


def words_in(lines: tuple[Line, ...], forces: Forces) -> Iterator[str]:
    """Yield the keys of all words that a reading holds."""
    for line in lines:
        chairs = [text for chair in line.chairs for text in (chair.note, *chair.plays)]
        for text in (line.instrument, line.note, line.group or "", *line.alternatives, *chairs):
            yield from map(key_of, BREAKS.split(text))
    yield from map(key_of, BREAKS.split(forces.channels or ""))
