"""Reads the key of a wind instrument after its name: ``cl Bb``, ``Kl. in Es``, ``clarinetto Mib``, ``cl(Eb)``."""

from __future__ import annotations

from catalogue.instrumentation.drafts import Draft, Forces
from catalogue.instrumentation.names import name_at
from catalogue.instrumentation.phrases import pitch_end, token_at
from catalogue.instrumentation.senses import KEYED, NOTED
from catalogue.instrumentation.tokens import Nodes, Token
from catalogue.instrumentation.vocabulary import key_of

FLAT = {"bemol", "bemolle"}


def keyed_slug(draft: Draft, nodes: Nodes) -> str | None:
    """Return the instrument that a key makes of a clarinet or flute: ``cl(Eb)``, ``Klar[Es]``, ``flute in G``."""
    key = "".join(key_of(one.text) for one in nodes if isinstance(one, Token))
    slugs = draft.name.slugs if draft.name else ()
    return next((KEYED[(slug, key)] for slug in slugs if (slug, key) in KEYED), None)


def note_pitch(draft: Draft, forces: Forces, nodes: Nodes, start: int, end: int) -> None:
    """Keep a key as the instrument that is named by it, else as a remark: a score tells it (MOLA's guidelines)."""
    keyed = keyed_slug(draft, nodes[start:end])
    if keyed is not None and keyed not in (*NOTED, draft.slug):
        draft.slug = keyed
        return
    draft.notes.append("in " + forces.written(nodes[start].start, nodes[end - 1].end))


def pitch_tail(nodes: Nodes, at: int, draft: Draft, formula: bool) -> int | None:
    """Read a key without ``in``: ``cl Bb``, ``horn F``, ``clarinetto Mib``."""
    token = token_at(nodes, at)
    if token is None or token.kind != "word" or draft.slug in ("", "percussion", "timpani"):
        return None
    wind = draft.family in ("woodwind", "brass")
    end = (
        pitch_end(nodes, at)
        if (wind and token.spaced and token.text[0].isupper())
        or token.is_word("sib", "mib", "ut", "fa", "sol")
        or is_flat_key(nodes, at)
        else None
    )
    if end is None or (len(token.text) == 1 and end == at + 1 and not key_stands_alone(nodes, end)):
        return None
    named = name_at(nodes, at)
    if named is not None and named.end > end:
        return None
    keyed = keyed_slug(draft, nodes[at:end])
    if keyed is not None:
        draft.slug = keyed
    return end


def is_flat_key(nodes: Nodes, at: int) -> bool:
    """Whether a key of two words stands here, ``si bémol``."""
    following = token_at(nodes, at + 1)
    return nodes[at].is_word("si", "mi", "la", "ré", "re") and following is not None and following.key in FLAT


def pitch_after_point(nodes: Nodes, at: int, draft: Draft) -> int | None:
    """Read the key after an abbreviation's point, ``cl. sib``, ``Kl. B,``: a word that names nothing else here."""
    token = token_at(nodes, at)
    end = pitch_end(nodes, at) if draft.family in ("woodwind", "brass") and token is not None and token.spaced else None
    if token is None or end is None or not (end == len(nodes) or nodes[end].is_mark(",;\n/-")):
        return None
    named = name_at(nodes, at)
    transposing = draft.slug in ("clarinet", "horn", "trumpet", "cornet") and token.text in "ABCDEFG"
    if named is not None and (named.end > end or (len(token.text) == 1 and not transposing)):
        return None
    keyed = keyed_slug(draft, nodes[at:end])
    draft.slug = keyed or draft.slug
    return end


def key_stands_alone(nodes: Nodes, at: int) -> bool:
    """Whether a single letter after a wind instrument is a key: a number, a separator or nothing follows."""
    return at >= len(nodes) or nodes[at].kind == "number" or nodes[at].is_mark(",;\n/")
