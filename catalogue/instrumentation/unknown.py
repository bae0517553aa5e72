"""What to do with words that are no name: mend a slip of the pen, keep an unknown instrument, or refuse.

A word that differs from a known name by one letter, or that runs two known words together, is read as meant, with a
remark. An unknown instrument in a list of known ones is kept as written. Everything else is an error at its place.
"""

from __future__ import annotations

import functools
from typing import TYPE_CHECKING

from catalogue.instrumentation.drafts import Count, Draft
from catalogue.instrumentation.lexicon import AND
from catalogue.instrumentation.names import Name, beginnings, name_at
from catalogue.instrumentation.numbers import cardinal
from catalogue.instrumentation.phrases import count_at, keys_end, token_at
from catalogue.instrumentation.senses import sectional
from catalogue.instrumentation.tokens import Bracket, Token
from catalogue.instrumentation.vocabulary import key_of, keys

if TYPE_CHECKING:
    from catalogue.instrumentation.scanning import Scan

SHORTEST_TO_MEND = 6
LONGEST_NAME = 4
LONGEST_WORD = 40
VOICE_LETTERS = {
    "S": "voice-soprano",
    "M": "voice-mezzo-soprano",
    "A": "voice-alto",
    "T": "voice-tenor",
    "B": "voice-bass",
}


def unknown_at(scan: Scan, at: int) -> int:
    """Deal with a word that nothing else could read and return where to go on."""
    token = token_at(scan.nodes, at)
    if token is None or token.kind == "number":
        counted = count_at(scan.nodes, at)
        word = token_at(scan.nodes, counted.end) if counted is not None else None
        if counted is None or word is None or word.kind != "word":
            return lone_number(scan, at)
        return unknown_name(scan, counted.end, counted)
    for attempt in (voice_with_prefix, by_section_only, mended):
        after = attempt(scan, at, token)
        if after is not None:
            return after
    if scan.last is not None and not scan.separator.strip():
        return remark_on_last(scan, at)
    return unknown_name(scan, at)


def lone_number(scan: Scan, at: int) -> int:
    node = scan.nodes[at]
    if scan.last is not None:
        scan.last.notes.append(scan.forces.written(node.start, node.end))
        scan.forces.remark("number-not-read", "This number was not read as a number of players.", node.start, node.end)
        return at + 1
    raise scan.forces.fail(
        "A number stands here without an instrument.", node.start, node.end, ("the name of an instrument",)
    )


def voice_with_prefix(scan: Scan, at: int, token: Token) -> int | None:
    """Read ``colS``, ``diforzaT``: a kind of voice written to its letter."""
    slug = VOICE_LETTERS.get(token.text[-1])
    if slug is None or len(token.text) < 3 or not token.text[:-1].islower():
        return None
    draft = Draft(slug, token.start, token.end, name=Name((slug,), token.text, at, at + 1, token.start, token.end))
    draft.notes.append(token.text[:-1])
    scan.add(draft)
    return at + 1


def by_section_only(scan: Scan, at: int, token: Token) -> int | None:
    """Read a word that only the section before it gives a meaning to, the ``Eb`` of ``3+Eb``."""
    if (
        not scan.formula
        or not scan.separator.strip().endswith(("+", ".", ","))
        or key_of(token.text) not in sectional()
    ):
        return None
    draft = Draft("", token.start, token.end, name=Name((), token.text, at, at + 1, token.start, token.end), extra=True)
    scan.add(draft)
    return at + 1


def mended(scan: Scan, at: int, token: Token) -> int | None:
    """Read a word with one wrong letter, or two words without their blank."""
    slugs = near(token.lower)
    if slugs:
        written = key_of(token.text)
        draft = Draft(slugs[0], token.start, token.end, name=Name(slugs, written, at, at + 1, token.start, token.end))
        scan.add(draft)
        scan.forces.remark(
            "spelling", f"“{token.text}” was read as {slugs[0].replace('-', ' ')}.", token.start, token.end
        )
        return at + 1
    parts = two_words(token)
    if parts is None:
        return None
    scan.forces.remark("spelling", f"“{token.text}” was read as two words.", token.start, token.end)
    scan.nodes = (*scan.nodes[:at], *parts, *scan.nodes[at + 1 :])
    return scan.step(at)


@functools.lru_cache(maxsize=1024)
def near(word: str) -> tuple[str, ...]:
    """Return the instruments whose spelling differs from the word by one letter; only for long words."""
    key = key_of(word)
    if not SHORTEST_TO_MEND - 1 <= len(key) <= 24:
        return ()
    for one in variants(key) if len(key) >= SHORTEST_TO_MEND else exchanged(key):
        if one in keys():
            return keys()[one]
    return ()


def exchanged(key: str) -> list[str]:
    """Return the word with two neighbouring letters exchanged: the one slip that a short word allows to mend."""
    return [key[:at] + key[at + 1] + key[at] + key[at + 2 :] for at in range(len(key) - 1)]


def variants(key: str) -> list[str]:
    """Return the word with one letter left out, two exchanged, one changed or one added."""
    letters = "abcdefghijklmnopqrstuvwxyz"
    cuts = [(key[:at], key[at:]) for at in range(len(key) + 1)]
    left_out = [head + rest[1:] for head, rest in cuts if rest]
    changed = [head + one + rest[1:] for head, rest in cuts if rest for one in letters]
    added = [head + one + rest for head, rest in cuts for one in letters]
    return left_out + exchanged(key) + changed + added


def two_words(token: Token) -> tuple[Token, Token] | None:
    """Return the two words that were written as one, ``andfour``, ``saxophonehorn``."""
    text = token.text
    if len(text) > LONGEST_WORD or key_of(text) in beginnings():
        return None
    for at in range(len(text) - 3, 2, -1):
        head, rest = text[:at], text[at:]
        joined = key_of(head) in AND and (cardinal(rest) is not None or key_of(rest) in keys())
        both = len(head) > 3 and len(rest) > 3 and key_of(head) in keys() and key_of(rest) in keys()
        if joined or both:
            middle = token.start + at
            return (
                Token("word", head, token.start, middle, token.spaced, head.lower()),
                Token("word", rest, middle, token.end, True, rest.lower()),
            )
    return None


def remark_on_last(scan: Scan, at: int) -> int:
    """Keep what follows an item without a separator as a note on it."""
    end = at
    while end < len(scan.nodes) and not scan.nodes[end].is_mark(",;\n·•:+"):
        if end > at and scan.nodes[end].is_mark("-.") and starts_item(scan, end + 1):
            break
        end += 1
    last = scan.last
    assert last is not None  # noqa: S101 — the caller has looked
    start, stop = scan.nodes[at].start, scan.nodes[end - 1].end
    for draft in scan.forces.drafts:
        if (draft.start, draft.end) == (last.start, last.end):
            draft.notes.append(scan.forces.written(start, stop))
    if any(starts_item(scan, index) for index in range(at + 1, end)):
        message = f"“{scan.forces.written(start, stop)}” was kept as a remark on what stands before it."
        scan.forces.remark("remark", message, start, stop)
    return end


def starts_item(scan: Scan, at: int) -> bool:
    if at >= len(scan.nodes):
        return False
    found = name_at(scan.nodes, at)
    return found is not None and len(found.written) > 1


def unknown_name(scan: Scan, at: int, count: Count | None = None) -> int:
    """Keep an unknown instrument of a list as written; refuse a text in which nothing is known."""
    words: list[Token] = []
    end = at
    while end < len(scan.nodes) and len(words) < LONGEST_NAME:
        token = token_at(scan.nodes, end)
        if end > at and keys_end(scan.nodes, end) is not None:
            break
        if (
            token is None
            or token.kind != "word"
            or (end > at and (starts_item(scan, end) or key_of(token.text) in AND))
        ):
            break
        words.append(token)
        end += 1
    start, stop = scan.nodes[at].start, scan.nodes[max(end, at + 1) - 1].end
    written = scan.forces.written(start, stop)
    if not words or not plausible(written, scan, end):
        expected = ("the name of an instrument", "a number of players")
        raise scan.forces.fail(
            f"“{written or scan.forces.text[start:stop]}” is not a known instrument.", start, stop, expected
        )
    slug = "-".join(key_of(word.text) for word in words)
    scan.add(Draft(slug, start, stop, name=Name((slug,), written, at, end, start, stop), count=count))
    scan.forces.remark(
        "unknown-instrument", f"“{written}” is not a known instrument; it is kept as written.", start, stop
    )
    return end


def plausible(written: str, scan: Scan, end: int) -> bool:
    """Whether unknown words may be an instrument: long enough, and beside something that is known."""
    letters = key_of(written)
    beside = bool(scan.forces.drafts) or any(
        isinstance(node, Bracket) or starts_item(scan, index) for index, node in enumerate(scan.nodes[end:], end)
    )
    return len(letters) >= SHORTEST_TO_MEND - 1 and beside
