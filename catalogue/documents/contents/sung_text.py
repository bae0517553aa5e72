"""The words that a work sets, beside their translation, as far as whoever has the rights allows it."""

from __future__ import annotations

import re
from collections.abc import Iterator
from datetime import date
from itertools import zip_longest

from catalogue.documents.labels import Labels
from catalogue.documents.model import (
    Block,
    Cell,
    Column,
    Group,
    Paragraph,
    Section,
    Style,
    Table,
    Text,
    Voice,
    joined,
    value,
    wording,
)
from catalogue.record_facts import TextSourceFacts
from catalogue.rules.clearances import translation_may_be_printed, words_may_be_printed

LONGEST = 400
"""A line of more letters is prose, and goes on in another row."""


def text_sections(sources: tuple[TextSourceFacts, ...], today: date, says: Labels) -> Iterator[Section]:
    """Each text that may be printed, under its title and author; the first begins a page, others go on below."""
    printed = [one for one in sources if words_may_be_printed(one, today)]
    for place, one in enumerate(printed):
        head = value(one.title, Style.TITLE, one.language) or wording(says.word("The words"))
        yield Section(head, tuple(blocks_of_text(one, today, says)), aside=authors(one, says), runs_on=bool(place))


def authors(source: TextSourceFacts, says: Labels) -> Text:
    """Who wrote the words and who translated them."""
    by = says.say("Text by {author}", author=source.author) if source.author else ()
    translated = says.say("translated by {translator}", translator=source.translator) if source.translator else ()
    return joined((by, translated), ", ")


def blocks_of_text(source: TextSourceFacts, today: date, says: Labels) -> Iterator[Block]:
    """The words, beside them their translation if that is cleared too, and below them the line that is asked for."""
    translation = source.translation if translation_may_be_printed(source, today) else ""
    yield table_of_text(source, translation, says)
    if source.credit:
        yield Paragraph(value(source.credit), Voice.NOTE)


def table_of_text(source: TextSourceFacts, translation: str, says: Labels) -> Table:
    """Stanza beside stanza, line beside line."""
    columns = [Column("words", language_head(source.language, "Text", says), by_script=True)]
    if translation:
        head = language_head(source.translation_language, "Translation", says)
        columns.append(Column("translation", head, by_script=True))
    pairs = zip_longest(stanzas(source.body), stanzas(translation), fillvalue=())
    tags = (source.language, source.translation_language)[: len(columns)]
    return Table(tuple(columns), tuple(Group((), tuple(rows(pair, tags))) for pair in pairs))


def language_head(tag: str, otherwise: str, says: Labels) -> Text:
    name = says.language_name(tag) if tag else ""
    return value(name[:1].upper() + name[1:]) or wording(says.word(otherwise))


def rows(pair: tuple[tuple[str, ...], tuple[str, ...]], tags: tuple[str, ...]) -> Iterator[tuple[Cell, ...]]:
    for lines in zip_longest(*pair, fillvalue=""):
        yield tuple(
            Cell((value(line, language=tag),)) if line else Cell() for line, tag in zip(lines, tags, strict=False)
        )


def stanzas(body: str) -> tuple[tuple[str, ...], ...]:
    """The lines of each stanza; an empty line parts stanzas.

    >>> stanzas("Ebb,\\nflow.\\n\\nEbb.")
    (('Ebb,', 'flow.'), ('Ebb.',))
    """
    parts = re.split(r"\n\s*\n", body.strip())
    return tuple(
        tuple(piece for line in part.splitlines() for piece in pieces(line.strip()) if piece) for part in parts
    )


def pieces(line: str) -> Iterator[str]:
    """A line, or the pieces of one that is too long for a row, parted at spaces."""
    while len(line) > LONGEST:
        place = line.rfind(" ", 1, LONGEST)
        end = place if place > 0 else LONGEST
        yield line[:end].rstrip()
        line = line[end:].lstrip()
    yield line
