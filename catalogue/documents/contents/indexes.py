"""The indexes of a works list: by instrument, and by author of text.

The players of an orchestra are not indexed, since every orchestral work would stand under each of them; soloists are.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterator

from catalogue.documents.contents.forces import WHOLE_BODIES
from catalogue.documents.contents.titles import short_title
from catalogue.documents.labels import Labels
from catalogue.documents.model import Block, Line, Lines, Section, Style, Text, joined, plain, value, wording
from catalogue.facts import WorkFacts
from catalogue.instrumentation.vocabulary import called
from catalogue.terms import Category

SECTIONS_OF_STRINGS = {"violin-1": "violin", "violin-2": "violin"}


def indexes(works: tuple[WorkFacts, ...], says: Labels) -> tuple[Block, ...]:
    """Two sections, each only if it has a line."""
    instruments: dict[str, list[WorkFacts]] = defaultdict(list)
    authors: dict[str, list[WorkFacts]] = defaultdict(list)
    for work in works:
        for name in dict.fromkeys(instruments_of(work, says)):
            instruments[name].append(work)
        if work.text_author:
            authors[work.text_author].append(work)
    heads = (("Index by instrument", instruments), ("Index by author of text", authors))
    return tuple(
        Section(wording(says.word(head)), (Lines(tuple(index_lines(found, says))),)) for head, found in heads if found
    )


def instruments_of(work: WorkFacts, says: Labels) -> Iterator[str]:
    """The names of what is played, doublings included, with a capital."""
    if work.instrumentation is None:
        return
    whole = work.category in (*WHOLE_BODIES, Category.STAGE)
    for line in work.instrumentation.lines:
        if line.family == "electronics" or (whole and line.role != "soloist"):
            continue
        played = (line.instrument, *(slug for chair in line.chairs for slug in chair.plays))
        for slug in played:
            name = called(SECTIONS_OF_STRINGS.get(slug, slug), says.language).singular
            yield name[:1].upper() + name[1:]


def index_lines(found: dict[str, list[WorkFacts]], says: Labels) -> Iterator[Line]:
    """Each name with the titles that stand under it, both in alphabetical order."""
    for name in sorted(found, key=str.casefold):
        titles = sorted((short_title(work.title) for work in found[name]), key=lambda text: plain(text).casefold())
        head: Text = value(name, Style.STRONG)
        yield Line("", joined((head, joined(tuple(titles), says.semicolon)), "\N{EN SPACE}"))
