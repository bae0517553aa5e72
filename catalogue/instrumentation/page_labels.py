"""Reads what only an instrumentation page has: the labels of families, the total, how far an instrument sounds from it.

A label stands on a line of its own with a colon, after the name of a body where there are several: ``Strings:``,
``Orchestra 2: Brass:``. The words are those in which pages are written, in every language.
"""

from __future__ import annotations

import functools
from dataclasses import replace

from catalogue.instrumentation.grammar import tables
from catalogue.instrumentation.lexicon import BODY_NOUNS
from catalogue.instrumentation.names import name_at
from catalogue.instrumentation.phrases import is_key, token_at
from catalogue.instrumentation.scope import Scope
from catalogue.instrumentation.tokens import Nodes, Token
from catalogue.instrumentation.vocabulary import key_of

TOTAL = "total"
SOUNDS = {
    "sound", "sounds", "sounding", "klingt", "klingen", "klingend", "sonne", "sonnent", "sonnant", "suona", "suonano",
    "suena", "suenan",
}  # fmt: skip
OCTAVES = {"octave", "octaves", "oktave", "oktaven", "ottava", "ottave", "unottava", "octava", "octavas"}


@functools.cache
def labels() -> dict[str, str]:
    """Return the family that each label stands for, by the label's key."""
    found: dict[str, str] = {}
    for words in tables().values():
        found |= {key_of(label): family for family, label in words["families"].items()}
        found[key_of(words[TOTAL])] = TOTAL
    return found


def label_at(nodes: Nodes, at: int, scope: Scope) -> tuple[Scope, int] | None:
    """Return the scope that a label at the beginning of a line opens and its end; a total is passed over."""
    if at and not nodes[at - 1].is_mark("\n"):
        return None
    end = line_end(nodes, at)
    if end == len(nodes) or end < at + 2 or not nodes[end - 1].is_mark(":"):
        return None
    start = next((one + 1 for one in range(end - 2, at - 1, -1) if nodes[one].is_mark(":")), at)
    family = labels().get(key(nodes, start, end - 1))
    if family is None:
        return None
    if family == TOTAL:
        return scope, line_end(nodes, end + 1)
    group = written(nodes, at, start - 1) if start > at else None
    role = "soloist" if family == "solo" else "ensemble"
    return replace(scope, role=role, group=group, role_ends="", optional=False, heading=family, by_line=True), end


def line_end(nodes: Nodes, at: int) -> int:
    """Return where a line ends, the last at the end of the text."""
    while at < len(nodes) and not nodes[at].is_mark("\n"):
        at += 1
    return at


def key(nodes: Nodes, start: int, end: int) -> str:
    return "".join(node.key for node in nodes[start:end])


def written(nodes: Nodes, start: int, end: int) -> str:
    """Return the label of a body, its noun in English, in small letters but for the letter of ``group B``."""
    tokens = [node for node in nodes[start:end] if isinstance(node, Token)]
    if len(tokens) > 1 and tokens[0].key in BODY_NOUNS:
        tokens[0] = tokens[0]._replace(text=BODY_NOUNS[tokens[0].key])
    words = "".join((" " if token.spaced and at else "") + token.text for at, token in enumerate(tokens))
    return words[:1].lower() + words[1:]


def says_octave(nodes: Nodes) -> bool:
    """Whether the nodes only say how far from the written notes an instrument sounds, ``sounds an octave higher``."""
    named = name_at(nodes, 0)
    verbs = (token_at(nodes, 0), token_at(nodes, named.end) if named is not None else None)
    return any(is_key(verb, SOUNDS) for verb in verbs) and any(is_key(node, OCTAVES) for node in nodes)
