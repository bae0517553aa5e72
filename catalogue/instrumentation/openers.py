"""Which words can begin something at all, so that most places are passed by without trying every reader there.

Each answer is looked up once a word or once a row. It may say yes in vain, never no: a test reads with and without.
"""

from __future__ import annotations

import functools
import re

from catalogue.instrumentation import collectives
from catalogue.instrumentation.alike import BODIES as ALIKE
from catalogue.instrumentation.channels import CHANNEL, LAYOUTS, layout_end
from catalogue.instrumentation.choirs import CHOIR_WORDS, DIVISI, DOUBLE
from catalogue.instrumentation.ensembles import RECORDED
from catalogue.instrumentation.hands import FOUR_HANDS, HANDS
from catalogue.instrumentation.headings import ALL_HEADINGS, NAMED_BODIES, WHOLES
from catalogue.instrumentation.introducing import GROUPS
from catalogue.instrumentation.kinds import CONSORTS
from catalogue.instrumentation.lexicon import (
    ANY,
    BODY_OF_STRINGS,
    ENSEMBLE,
    GENRES,
    GROUP,
    HEADINGS,
    MUST,
    OFFSTAGE,
    ONSTAGE,
    OR,
    ORCHESTRA,
    PIECES,
    SOLO,
    TREBLE,
)
from catalogue.instrumentation.limits import ALONE
from catalogue.instrumentation.numbers import roman
from catalogue.instrumentation.open_forces import BAND_NAMES, CATEGORIES, ENSEMBLE_NAMES, FAMILIES, KINDS, MIXED_SIZE
from catalogue.instrumentation.phrases import beginnings, count_at, token_at
from catalogue.instrumentation.qualities import may_qualify, qualities_at
from catalogue.instrumentation.rows import remembered
from catalogue.instrumentation.tokens import Node, Nodes, Token
from catalogue.instrumentation.vocabulary import keys
from catalogue.instrumentation.voice_ranges import RANGE_WORDS
from catalogue.instrumentation.voicings import FEMALE, FEMALE_VOICE, MALE, MALE_VOICE, MIXED, WHOLE_NAMES

VOICE_RUN = re.compile(r"(?:Mez|Mzs|Ms|Bar|Br|[SMATBC])+(?:CH)?")
HEADING_WHOLES = OFFSTAGE | ONSTAGE | SOLO | WHOLES | ALL_HEADINGS
HEADING_PHRASES = beginnings(HEADING_WHOLES)
HEADING_WORDS = GROUP | ORCHESTRA | NAMED_BODIES | {"br"}
BODIES = (
    RECORDED
    | MUST
    | WHOLE_NAMES
    | MIXED
    | MALE
    | FEMALE
    | FEMALE_VOICE
    | MALE_VOICE
    | BODY_OF_STRINGS
    | ORCHESTRA
    | BAND_NAMES
    | ANY
    | ENSEMBLE
    | ENSEMBLE_NAMES
    | SOLO
)
BODY_PHRASES = beginnings(BODIES) | beginnings(collectives.names())
BODY_WHOLES = BODIES | collectives.names()
BODY_WORDS = frozenset(
    {
        *ALONE,
        *ALIKE,
        *DIVISI,
        *FAMILIES,
        *MIXED_SIZE,
        *DOUBLE,
        *HEADINGS["woodwind"],
        *CATEGORIES,
        *PIECES,
        *TREBLE,
        *KINDS,
        *RANGE_WORDS,
    }
    | {"x", "×", "reed", "reeds", "book", "player", "doppelchor", "doppelchore"}
    | {
        "part",
        "parts",
        "partie",
        "parties",
        "parte",
        "partes",
        "parti",
        "stimme",
        "voice",
        "voices",
        "equal",
        "gleiche",
        "mixed",
    }
)


def opens_heading(token: Token) -> bool:
    """Whether a heading may begin with the word."""
    return token.key in HEADING_PHRASES or token.key in HEADING_WORDS or is_numeral(token)


def is_numeral(token: Token) -> bool:
    """Whether a word is a Roman numeral in capitals."""
    return token.text.isupper() and roman(token.text) is not None


def is_heading(key: str) -> bool:
    """Whether a word by itself may be a heading."""
    return key in HEADING_WHOLES or key in HEADING_WORDS


@functools.cache
def of_voices() -> frozenset[str]:
    """Return the beginnings of the names of choirs and of voices."""
    named = (key for key, slugs in keys().items() if slugs[0] in (*CHOIR_WORDS, "voice"))
    return beginnings(frozenset(form for key in named for form in (key, key + "s")))


def opens_body(word: str, key: str) -> bool:
    """Whether a body, an ensemble by name or a choir may begin with a word, or with a number before it."""
    return key in BODY_PHRASES or names_body(word, key)


@functools.lru_cache(maxsize=1 << 13)
def names_body(word: str, key: str) -> bool:
    """Whether a body, an ensemble or a choir may be named by a word alone, or by it and what is no word."""
    if key in BODY_WORDS or key in BODY_WHOLES or key in of_voices() or key in LAYOUTS or word.lower() in LAYOUTS:
        return True
    if key in HANDS or key in FOUR_HANDS:
        return True
    return VOICE_RUN.fullmatch(word) is not None or "stimmig" in word.lower() or key.startswith(("vokal", "solisten"))


@remembered
def sizes_in(nodes: Nodes) -> frozenset[int]:
    """Return the places of words for so many of one instrument (``quartet``), for a consort, or for loudspeakers."""
    return frozenset(at for at, node in enumerate(nodes) if says_size(nodes, at, node))


def says_size(nodes: Nodes, at: int, node: Node) -> bool:
    if type(node) is not Token or node.kind not in ("word", "number"):
        return False
    if node.kind == "number":
        return layout_end(nodes, at) is not None
    group = node.key in CONSORTS or node.key in GROUPS or node.key in GENRES or node.key.endswith("ensemble")
    return group or node.key in CHANNEL or collectives.size_of(node.text) is not None


def holds_size(nodes: Nodes) -> bool:
    """Whether the row holds a word for so many of one instrument, a consort, or loudspeaker channels."""
    return bool(sizes_in(nodes))


def size_ahead(nodes: Nodes, at: int) -> bool:
    """Whether such a word stands here or after it, before the next separator."""
    sizes = sizes_in(nodes)
    while sizes and at < len(nodes) and not nodes[at].is_mark(",;\n"):
        if at in sizes:
            return True
        at += 1
    return False


def leads_to_word(nodes: Nodes, at: int) -> bool:
    """Whether a phrase that begins with a word may go on: a word follows, or a mark that joins words."""
    following = nodes[at + 1] if at + 1 < len(nodes) else None
    return following is not None and (following.kind == "word" or following.is_mark("-.'"))


def may_be_body(nodes: Nodes, at: int) -> bool:
    """Whether ``ensembles.body_at`` may find something at a place."""
    node = nodes[at]
    if type(node) is not Token:
        return False
    if node.kind not in ("word", "number") or size_ahead(nodes, at):
        return True
    if node.kind == "word":
        alone = names_body(node.text, node.key) or node.key in OR or may_qualify(node.text, node.key)
        return alone or (node.key in BODY_PHRASES and leads_to_word(nodes, at))
    counted = count_at(nodes, at)
    if counted is None or counted.end != at + 1:
        return True
    following = [token_at(nodes, at + 1), token_at(nodes, qualities_at(nodes, at)[1])]
    if following[0] is not None and following[0].is_mark("-"):
        following.append(token_at(nodes, at + 2))
    return any(one.kind == "word" and opens_body(one.text, one.key) for one in following if one is not None)
