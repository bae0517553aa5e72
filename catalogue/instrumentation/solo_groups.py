"""Reads groups of solo singers, ``4 soloists (SATB)``, ``vocal quartet``, ``8 voices: SSAATTBB``."""

from __future__ import annotations

import re

from catalogue.instrumentation import collectives
from catalogue.instrumentation.choirs import Found, Lead, glued, soloists
from catalogue.instrumentation.drafts import Draft, Forces
from catalogue.instrumentation.lexicon import AND, OF, SOLO
from catalogue.instrumentation.names import name_at
from catalogue.instrumentation.phrases import count_at, is_key, phrase_end, token_at
from catalogue.instrumentation.tokens import Bracket, Nodes, Token
from catalogue.instrumentation.voicings import is_letters, is_voicing, parts_of

VOCAL = {"vocal", "vocale", "vocali", "vocales"}


VOCAL_STEM = len("vokal")


def soloists_in_bracket(nodes: Nodes, at: int, forces: Forces, lead: Lead) -> Found | None:
    """Read ``4 soloists (SATB)``, ``8 voices: SSAATTBB``."""
    counted = count_at(nodes, at)
    told = voices_told(nodes, at) or vocal_group(nodes, at)
    if told is not None:
        return told
    end = phrase_end(nodes, counted.end if counted else at, SOLO)
    voices = name_at(nodes, end) if end is not None else None
    end = voices.end if voices is not None and voices.slugs[0] == "voice" else end
    bracket = nodes[end] if end is not None and end < len(nodes) else None
    if voices is not None and end == voices.end and isinstance(bracket, Token):
        text, after, _ = glued(nodes, end)
        return (soloists(text, nodes[at].start, nodes[after - 1].end), after, False) if is_voicing(text) else None
    if end is None or not isinstance(bracket, Bracket):
        return None
    words = [node for node in bracket.nodes if not node.is_mark(",.") and not is_key(node, AND)]
    letters = [node.text for node in words if isinstance(node, Token) and is_letters(node.text)]
    if not letters or len(letters) < len(words):
        return None
    return soloists("".join(letters), nodes[at].start, bracket.end), end + 1, False


def vocal_group(nodes: Nodes, at: int) -> Found | None:
    """Read ``vocal quartet``, ``quatuor vocal (SATB)``, ``Vokalquartett``: so many who sing alone."""
    first, second = token_at(nodes, at), token_at(nodes, at + 1)
    if first is None or first.kind != "word":
        return None
    size = collectives.size_of(first.text[VOCAL_STEM:]) if first.lower.startswith("vokal") else None
    end = at + 1
    if size is None and second is not None and (is_key(first, VOCAL) or is_key(second, VOCAL)):
        size, end = collectives.size_of((second if is_key(first, VOCAL) else first).text), at + 2
    if size is None:
        return solo_group(nodes, at)
    text, after = letters_at(nodes, end)
    if sum(parts_of(text).values()) == size:
        return soloists(text, first.start, nodes[after - 1].end), after, False
    draft = Draft("voice", first.start, nodes[end - 1].end)
    draft.counted(size)
    return [draft], end, False


def solo_group(nodes: Nodes, at: int) -> Found | None:
    """Read ``solo quartet (SATB)``, ``quatuor de solistes (SATB)``, ``Solistenquartett (SATB)``: the letters are it."""
    first = token_at(nodes, at)
    lead = phrase_end(nodes, at, SOLO)
    size_at = lead if lead is not None else at
    token = token_at(nodes, size_at)
    if first is None or token is None or token.kind != "word":
        return None
    compound = re.fullmatch(r"(?:solisten|soli|solo)(\w+)", first.lower)
    size = collectives.size_of(compound[1]) if compound is not None else collectives.size_of(token.text)
    end = at + 1 if compound is not None else size_at + 1
    after = phrase_end(nodes, end + is_key(token_at(nodes, end), OF), SOLO)
    if size is None or (lead is None and compound is None and after is None):
        return None
    text, stop = letters_at(nodes, after if after is not None else end)
    if not text or sum(parts_of(text).values()) != size:
        return None
    return soloists(text, first.start, nodes[stop - 1].end), stop, False


def letters_at(nodes: Nodes, at: int) -> tuple[str, int]:
    """Return the letters of a voicing that stands here, in a bracket or not, and where it ends."""
    at += at < len(nodes) and nodes[at].is_mark(":")
    node = nodes[at] if at < len(nodes) else None
    if isinstance(node, Bracket):
        text, end = "".join(one.text for one in node.nodes if type(one) is Token and one.kind == "word"), at + 1
    else:
        text, end, _ = glued(nodes, at) if node is not None else ("", at, "")
    return (text, end) if is_letters(text) else ("", at)


def voices_told(nodes: Nodes, at: int) -> Found | None:
    """Read ``8 voices: SSAATTBB``: letters that add up to the number of singers."""
    counted = count_at(nodes, at)
    voices = name_at(nodes, counted.end) if counted is not None else None
    if counted is None or voices is None or voices.slugs[0] != "voice":
        return None
    following = nodes[voices.end] if voices.end < len(nodes) else None
    if isinstance(following, Bracket):
        text, end, after = "".join(one.text for one in following.nodes if type(one) is Token), 0, voices.end + 1
    else:
        start = voices.end + (following is not None and following.is_mark(":"))
        text, end, _ = glued(nodes, start) if start < len(nodes) else ("", 0, "")
        after = end
    text = text.replace(",", "").replace(".", "")
    if not is_letters(text) or sum(parts_of(text).values()) != counted.most:
        return None
    return soloists(text, nodes[at].start, nodes[after - 1].end), after, False
