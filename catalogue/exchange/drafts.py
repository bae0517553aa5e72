"""Works read from a pasted text while somebody corrects them: each beside its words, kept as JSON in between."""

from __future__ import annotations

import json
from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import asdict, dataclass, field

from catalogue.exchange.pasted import proposals
from catalogue.exchange.pasted_entries import COLUMNS
from catalogue.exchange.tables import Table

AROUND = 24  # characters shown on either side of the words that a cell came from


@dataclass(frozen=True, slots=True)
class Draft:
    """A work: the words of the text, the heading that holds for it, what is to be stored, and whether it is at all."""

    words: str
    headings: Mapping[str, str] = field(default_factory=dict)
    work: Mapping[str, str] = field(default_factory=dict)
    left_out: bool = False


@dataclass(frozen=True, slots=True)
class Origin:
    """Where a cell came from: its words with some of those around them, or the heading that said so."""

    before: str
    words: str
    after: str
    is_heading: bool = False


def drafts_of(text: str) -> tuple[Draft, ...]:
    """Return the works that a text is read as. Raises TableError."""
    return tuple(Draft("\n".join(one.lines), dict(one.headings), one.work) for one in proposals(text))


def as_content(drafts: Iterable[Draft]) -> bytes:
    """Return drafts as the bytes in which a batch keeps them."""
    return json.dumps([asdict(one) for one in drafts], ensure_ascii=False).encode()


def drafts_in(content: bytes) -> tuple[Draft, ...]:
    """Return the drafts that a batch keeps."""
    return tuple(Draft(**one) for one in json.loads(content))


def table_of_drafts(drafts: Sequence[Draft]) -> Table:
    """Return the works as a table; the row of one that is left out is empty, so that the others keep their numbers."""
    used = [column for column in COLUMNS if column == "title" or any(one.work.get(column) for one in drafts)]
    rows = (tuple("" if one.left_out else one.work.get(column, "") for column in used) for one in drafts)
    return Table((tuple(used), *rows))


def origins_of(draft: Draft) -> dict[str, Origin]:
    """Return where each cell came from that still says what the text says; no two share their words."""
    return dict(origins(draft))


def origins(draft: Draft) -> Iterator[tuple[str, Origin]]:
    left = draft.words
    for column in COLUMNS:
        said = draft.work.get(column, "")
        if said and draft.headings.get(column) == said:
            yield column, Origin("", said, "", is_heading=True)
            continue
        start = left.find(said) if said else -1
        if start >= 0:
            end = start + len(said)
            left = f"{left[:start]}{chr(0) * len(said)}{left[end:]}"
            yield column, around(draft.words, start, end)


def around(words: str, start: int, end: int) -> Origin:
    first, last = max(start - AROUND, 0), min(end + AROUND, len(words))
    before = ("…" if first else "") + words[first:start]
    return Origin(before, words[start:end], words[end:last] + ("…" if last < len(words) else ""))
