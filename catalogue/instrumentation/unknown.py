"""What to do with words that are no name: mend a slip of the pen, keep an unknown instrument, or refuse.

A word that differs from a known name by one letter, or that runs two known words together, is read as meant, with a
remark. An unknown instrument in a list of known ones is kept as written. Everything else is an error at its place.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from catalogue.instrumentation import page_labels
from catalogue.instrumentation.denials import leave_out
from catalogue.instrumentation.drafts import Count, Draft
from catalogue.instrumentation.headings import ALL_HEADINGS, PLURALS, WHOLES, colon
from catalogue.instrumentation.lexicon import AND, BODY_OF_STRINGS, OR, SOLO
from catalogue.instrumentation.model import InstrumentationError
from catalogue.instrumentation.names import Name, name_at
from catalogue.instrumentation.phrases import count_at, is_key, keys_end, phrase_end, token_at
from catalogue.instrumentation.senses import sectional
from catalogue.instrumentation.sizes import size_of
from catalogue.instrumentation.spelling import SHORTEST_TO_MEND, near, nearest, two_words
from catalogue.instrumentation.tokens import Bracket, Row, Token
from catalogue.instrumentation.unnamed import unnamed_body
from catalogue.instrumentation.vocabulary import key_of

if TYPE_CHECKING:
    from catalogue.instrumentation.scanning import Scan

LONGEST_NAME = 4
SHORTEST_IN_LIST = 3
OF_A_KIND = {"instruments", "instrumente", "strumenti", "instrumentos"}
PARTING = ".,;:/-+\n·•*&|…"
VOICE_LETTERS = {
    "S": "voice-soprano",
    "M": "voice-mezzo-soprano",
    "A": "voice-alto",
    "T": "voice-tenor",
    "B": "voice-bass",
}


OPENING = WHOLES | ALL_HEADINGS
JOINING = AND | SOLO


def unknown_at(scan: Scan, at: int) -> int:
    """Deal with a word that nothing else could read and return where to go on."""
    token = token_at(scan.nodes, at)
    if token is None or token.kind == "number":
        counted = count_at(scan.nodes, at)
        word = token_at(scan.nodes, counted.end) if counted is not None else None
        if counted is None or word is None or word.kind != "word":
            return lone_number(scan, at)
        return unknown_name(scan, counted.end, counted)
    for attempt in (character, size_of_kind, voice_with_prefix, by_section_only, unnamed_body, mended):
        after = attempt(scan, at, token)
        if after is not None:
            return after
    if scan.last is not None and (not scan.separator.strip() or either(scan)) and not fills_line(scan, at):
        return remark_on_last(scan, at)
    return unknown_name(scan, at)


def fills_line(scan: Scan, at: int) -> bool:
    """Whether words with a capital fill a line under a page's label: an instrument, no remark on the line before it."""
    first = scan.nodes[at]
    capital = isinstance(first, Token) and first.text[:1].isupper()
    if not (capital and scan.scope.by_line and "\n" in scan.separator) or either(scan):
        return False
    end = page_labels.line_end(scan.nodes, at)
    words = scan.nodes[at:end]
    letters = sum(len(word.key) for word in words)
    return len(words) <= LONGEST_NAME and letters >= SHORTEST_TO_MEND and all(word.kind == "word" for word in words)


def stray_mark(scan: Scan, at: int) -> int:
    """Deal with a mark that parts nothing, ``?`` or ``!``: a remark where it stands at an item, else an error."""
    end = at
    while end < len(scan.nodes) and scan.nodes[end].kind == "mark" and not scan.nodes[end].is_mark(PARTING):
        end += 1
    start, stop = scan.nodes[at].start, scan.nodes[end - 1].end
    written = scan.forces.text[start:stop]
    beside = (scan.last is not None and not scan.separator.strip()) or glued_to_item(scan, end)
    if not beside and scan.last is not None and not set(written) <= set("()[]{} "):
        raise scan.forces.fail(f"“{written}” is not a known instrument.", start, stop, ("the name of an instrument",))
    scan.forces.remark("mark-not-read", f"“{written}” was not read.", start, stop)
    return end


def glued_to_item(scan: Scan, at: int) -> bool:
    """Whether something that may be an item follows a mark without a separator."""
    following = scan.nodes[at] if at < len(scan.nodes) else None
    return following is not None and (isinstance(following, Bracket) or following.kind in ("word", "number"))


def either(scan: Scan) -> bool:
    """Whether ``or`` stands before, so that the words are another choice and no instrument beside the others."""
    return "∨" in scan.separator


def lone_number(scan: Scan, at: int) -> int:
    node = scan.nodes[at]
    if scan.last is not None:
        scan.last.notes.append(scan.forces.written(node.start, node.end))
        scan.forces.remark("number-not-read", "This number was not read as a number of players.", node.start, node.end)
        return at + 1
    raise scan.forces.fail(
        "A number stands here without an instrument.", node.start, node.end, ("the name of an instrument",)
    )


def size_of_kind(scan: Scan, at: int, token: Token) -> int | None:
    """Read a size that only the ensemble of one instrument gives a meaning to, ``Klarinettenchor (Es, 3 B, Alt)``."""
    section, start = scan.forces.kind
    slug = size_of(token.key, section, scan.forces) if section and token.start >= start else None
    if slug is None:
        return None
    scan.add(Draft(slug, token.start, token.end, name=Name((slug,), token.text, at, at + 1, token.start, token.end)))
    return at + 1


def character(scan: Scan, at: int, token: Token) -> int | None:
    """Read ``The King (bass)`` of a cast: the voice stands in the bracket, whom it sings is a note."""
    end = at
    while (word := token_at(scan.nodes, end)) is not None and word.kind == "word" and end - at < LONGEST_NAME:
        end += 1
    told = scan.nodes[end] if end < len(scan.nodes) else None
    name = name_at(told.nodes, 0) if isinstance(told, Bracket) else None
    voice = next((slug for slug in name.slugs if slug.startswith("voice-")), None) if name is not None else None
    if not token.text[0].isupper() or name is None or voice is None or not isinstance(told, Bracket):
        return None
    if name.end < len(told.nodes):
        return None
    written = scan.forces.written(token.start, told.start)
    scan.add(Draft(voice, token.start, told.end, name=Name((voice,), name.written, at, end, token.start, told.start)))
    scan.forces.drafts[-1].notes.append(written)
    return end + 1


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
    marked = scan.separator.strip().endswith(("+", ".", ","))
    if not scan.formula or not (marked or among_figures(scan, at)) or key_of(token.text) not in sectional():
        return None
    draft = Draft("", token.start, token.end, name=Name((), token.text, at, at + 1, token.start, token.end), extra=True)
    scan.add(draft)
    return at + 1


def among_figures(scan: Scan, at: int) -> bool:
    """Whether only blanks part a word from a figure before it and from a figure or a family's end after it."""
    following = scan.nodes[at + 1] if at + 1 < len(scan.nodes) else None
    beside = scan.last is not None and scan.last.figure and not scan.separator.strip()
    ends = following is None or following.kind == "number" or following.is_mark("-/;\n|")
    return beside and ends and getattr(scan.nodes[at], "spaced", False)


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
    scan.nodes = Row((*scan.nodes[:at], *parts, *scan.nodes[at + 1 :]))
    return scan.step(at)


def remark_on_last(scan: Scan, at: int) -> int:
    """Keep what follows an item without a separator as a note on it."""
    end = at
    while end < len(scan.nodes) and not scan.nodes[end].is_mark(",;\n·•:+"):
        if end > at and scan.nodes[end].is_mark("-.") and starts_item(scan, end + 1):
            break
        end += 1
    last = scan.last
    assert last is not None  # noqa: S101 — the caller has looked
    first = at
    while either(scan) and first > 0 and not is_key(scan.nodes[first - 1], OR):
        first -= 1
    start, stop = scan.nodes[first].start, scan.nodes[end - 1].end
    if leave_out(last, scan.nodes[first:end], scan.forces):
        return end
    if last.figure:
        raise not_known(scan, scan.forces.written(start, stop), start, stop)
    for draft in scan.forces.drafts:
        if (draft.start, draft.end) == (last.start, last.end):
            draft.notes.append(("or " if either(scan) else "") + scan.forces.written(start, stop))
    message = f"“{scan.forces.written(start, stop)}” was kept as a remark on what stands before it."
    scan.forces.remark("remark", message, start, stop)
    return end


def starts_item(scan: Scan, at: int) -> bool:
    if at >= len(scan.nodes):
        return False
    found = name_at(scan.nodes, at)
    return (found is not None and len(found.written) > 1) or phrase_end(scan.nodes, at, BODY_OF_STRINGS) is not None


def unknown_name(scan: Scan, at: int, count: Count | None = None) -> int:
    """Keep an unknown instrument of a list as written; refuse a text in which nothing is known."""
    words: list[Token] = []
    end = at
    while end < len(scan.nodes) and len(words) < LONGEST_NAME:
        token = token_at(scan.nodes, end)
        if token is None or token.kind != "word" or (end > at and ends_unknown(scan, token, end)):
            break
        words.append(token)
        end += 1
    start, stop = scan.nodes[at].start, scan.nodes[max(end, at + 1) - 1].end
    written = scan.forces.written(start, stop)
    dotted = scan.formula and scan.separator == "." and end < len(scan.nodes) and scan.nodes[end].is_mark(".")
    if not words or dotted or not plausible(written, scan, end):
        raise not_known(scan, written or scan.forces.text[start:stop], start, stop)
    if (not count or words[-1].key in PLURALS) and colon(scan.nodes, phrase_end(scan.nodes, end, OPENING) or end):
        scan.forces.remark("not-read", f"“{written}” was not read as part of the forces.", start, stop)
        return end
    slug = "-".join(key_of(word.text) for word in words)
    several = words[-1].key in OF_A_KIND and len(words) > 1
    scan.add(Draft(slug, start, stop, name=Name((slug,), written, at, end, start, stop), count=count, open=several))
    scan.forces.remark(
        "unknown-instrument", f"“{written}” is not a known instrument; it is kept as written.", start, stop
    )
    return end


def ends_unknown(scan: Scan, token: Token, at: int) -> bool:
    """Whether an unknown name ends before a word: a key, ``and``, or a known name that does not only say what it is."""
    if key_of(token.text) in OF_A_KIND:
        return False
    return keys_end(scan.nodes, at) is not None or starts_item(scan, at) or key_of(token.text) in JOINING


def not_known(scan: Scan, written: str, start: int, stop: int) -> InstrumentationError:
    """Return the error for words that name nothing, with the names that are spelled nearly so."""
    expected = (*nearest(written), "the name of an instrument", "a number of players")
    return scan.forces.fail(f"“{written}” is not a known instrument.", start, stop, expected)


def plausible(written: str, scan: Scan, end: int) -> bool:
    """Whether unknown words may be an instrument: long enough, and beside something that is known."""
    letters = key_of(written)
    beside = bool(scan.forces.drafts) or any(
        isinstance(node, Bracket) or starts_item(scan, index) for index, node in enumerate(scan.nodes[end:], end)
    )
    parted = bool(scan.separator) and not scan.separator.strip(" ,;\n§")
    listed = len(scan.forces.drafts) > 1 and parted and ("\n" in scan.separator or not scan.formula)
    return len(letters) >= (SHORTEST_IN_LIST if listed else SHORTEST_TO_MEND - 1) and beside
