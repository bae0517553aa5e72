"""What a document says, as lines that can be held against those of another day."""

from __future__ import annotations

from collections import Counter
from collections.abc import Sequence

from catalogue.documents.model import Document, Table, plain
from catalogue.documents.reading_order import table_texts, texts


def said(document: Document) -> tuple[str, ...]:
    """Return every text of a document in the order in which it is read, and what a spreadsheet is told besides.

    How it looks is no part of it: two of these are alike where the same was said on both days.
    """
    told = (plain(text) for block in document.blocks for text in texts(block))
    data = (plain(text) for text in table_texts(document.data)) if isinstance(document.data, Table) else ()
    return tuple(" ".join(line.split()) for line in (*told, *data) if line.strip())


def only_in(lines: Sequence[str], others: Sequence[str]) -> tuple[str, ...]:
    """Return the lines that the others do not have, or have less often, in their order.

    >>> only_in(("a", "b", "a"), ("a", "c"))
    ('b', 'a')
    """
    left, found = Counter(others), []
    for line in lines:
        if left[line]:
            left[line] -= 1
        else:
            found.append(line)
    return tuple(found)
