"""How a typed list is cut: a row a line, its parts between semicolons, or between tabs as a spreadsheet pastes them.

A line that ends with a colon is a head over the rows below it. Empty lines part nothing. A part knows its place in the
text, so that a mistake can be shown there.

>>> [[part.text for part in row.parts] for row in rows_of("1; violin; clip\\n2; cello")]
[['1', 'violin', 'clip'], ['2', 'cello']]
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import dataclass

from catalogue.timing.mistakes import Mistake

MOST_ROWS = 400
PART = re.compile(r"[^;\t]+")
PROVIDERS = frozenset(
    (
        "composer", "presenter", "hall", "house", "venue", "player", "players", "ensemble", "orchestra", "choir",
        "soloist", "conductor", "publisher", "festival", "technician", "studio",
    )
)  # fmt: skip
BY = re.compile(r"(?:by|brought by|provided by|hired from)(?: the)? (?!\d)(.+)", re.IGNORECASE)
FROM = re.compile(r"from (?:the )?(\w+)", re.IGNORECASE)
NUMBER = re.compile(r"(\d{1,3})(?:\s*[-\N{EN DASH}]\s*(\d{1,3}))?", re.ASCII)


class ListError(Mistake):
    """A row of a list that cannot be read."""


@dataclass(frozen=True, slots=True)
class Part:
    text: str
    start: int
    end: int


@dataclass(frozen=True, slots=True)
class ListRow:
    """A row with the head that it stands under."""

    head: str
    parts: tuple[Part, ...]
    whole: str

    def mistake(self, reason: str, part: Part | None = None) -> ListError:
        """The mistake that a part of the row is, or the row as a whole."""
        first, last = (part, part) if part else (self.parts[0], self.parts[-1])
        return ListError(reason, self.whole, first.start, last.end)


def rows_of(text: str) -> Iterator[ListRow]:
    """Cut a text into its rows. Raises ListError where there are more than a list holds."""
    head, place, found = "", 0, 0
    for line in text.splitlines(keepends=True):
        parts = tuple(parts_of(line, place))
        place += len(line)
        if not parts:
            continue
        if len(parts) == 1 and parts[0].text.endswith(":"):
            head = parts[0].text.rstrip(": ")
            continue
        found += 1
        row = ListRow(head, parts, text)
        if found > MOST_ROWS:
            raise row.mistake(f"A list has at most {MOST_ROWS} rows.")
        yield row


def parts_of(line: str, place: int) -> Iterator[Part]:
    for found in PART.finditer(line):
        text = found[0].strip()
        if text:
            start = place + found.start() + len(found[0]) - len(found[0].lstrip())
            yield Part(" ".join(text.split()), start, start + len(text))


def provider_in(text: str) -> str:
    """Who provides it, where a part says that: a word of the trade, alone or after *from*, or anybody after *by*.

    >>> provider_in("presenter"), provider_in("from the hall"), provider_in("by the piano firm")
    ('presenter', 'hall', 'piano firm')
    >>> provider_in("boom"), provider_in("from the get-in to the end")
    ('', '')
    """
    found = FROM.fullmatch(text)
    word = (found[1] if found else text).casefold()
    named = BY.fullmatch(text)
    return named[1] if named else word if word in PROVIDERS else ""


def numbers_in(row: ListRow) -> tuple[int, int]:
    """The channel or the channels that a row begins with. Raises ListError."""
    part = row.parts[0]
    found = NUMBER.fullmatch(part.text)
    if found is None:
        raise row.mistake(f"“{part.text}” is no channel; begin with its number, such as 5 or 5-8.", part)
    first, last = int(found[1]), int(found[2] or found[1])
    if first < 1 or last < first:
        raise row.mistake(f"Channels are counted upwards from 1, not “{part.text}”.", part)
    return first, last
