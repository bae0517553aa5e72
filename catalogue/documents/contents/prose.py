"""Texts of paragraphs: which of several is printed, and how one is shortened.

A text is shortened from its end, paragraph by paragraph and then sentence by sentence, so that what is left is what its
author wrote (common practice of programme editors).
"""

from __future__ import annotations

import re
from collections.abc import Iterable
from dataclasses import dataclass

from catalogue.documents.model import Paragraph, Style, Text, Voice, value

SENTENCE_END = re.compile(r"(?<=[.!?…。؟])[”’»\")]*\s+")


@dataclass(frozen=True, slots=True)
class Prose:
    """A text as written, its language (BCP 47, empty where nobody has said) and its author, if not the composer."""

    body: str
    language: str = ""
    author: str = ""

    @property
    def words(self) -> int:
        return len(self.body.split())


def chosen(texts: Iterable[Prose], language: str, most_words: int | None = None) -> Prose | None:
    """The text to print: in the language, else in one that nobody has named, else in another; as long as may be.

    Of those that are longer than ``most_words`` the shortest, to be shortened.

    >>> chosen((Prose("Ein Wort mehr", "de"), Prose("One word", "en")), "de-AT").body
    'Ein Wort mehr'
    """
    written = [text for text in texts if text.body.strip()]
    if not written:
        return None
    nearest = min(distance(text.language, language) for text in written)
    near = [text for text in written if distance(text.language, language) == nearest]
    fitting = [text for text in near if most_words is None or text.words <= most_words]
    return max(fitting, key=lambda text: text.words) if fitting else min(near, key=lambda text: text.words)


def distance(tag: str, language: str) -> int:
    """How far a text's language is from the one that is wanted: the same, one of its kind, not named, another."""
    if not tag:
        return 2
    if tag.lower() == language.lower():
        return 0
    return 1 if tag.lower().partition("-")[0] == language.lower().partition("-")[0] else 3


def paragraphs(body: str) -> tuple[str, ...]:
    """The paragraphs of a text, which empty lines part; other ends of lines are spaces.

    >>> paragraphs("One line\\nand another.\\n\\nA second paragraph.")
    ('One line and another.', 'A second paragraph.')
    """
    parts = (" ".join(part.split()) for part in re.split(r"\n\s*\n", body))
    return tuple(part for part in parts if part)


def shortened(body: str, most_words: int | None) -> tuple[str, ...]:
    """The paragraphs from the beginning on that have no more words than allowed, the last as many sentences as fit.

    >>> shortened("One two three. Four five.\\n\\nSix.", 4)
    ('One two three.',)
    """
    if most_words is None:
        return paragraphs(body)
    kept: list[str] = []
    room = most_words
    for paragraph in paragraphs(body):
        fitting = sentences_within(paragraph, room)
        room -= len(fitting.split())
        if fitting:
            kept.append(fitting)
        if fitting != paragraph:
            break
    return tuple(kept)


def sentences_within(paragraph: str, room: int) -> str:
    """As many sentences from the beginning as have no more words than there is room."""
    if len(paragraph.split()) <= room:
        return paragraph
    ends = [found.start() for found in SENTENCE_END.finditer(paragraph)]
    fitting = [paragraph[:end] for end in ends if len(paragraph[:end].split()) <= room]
    return fitting[-1] if fitting else ""


def blocks_of(parts: Iterable[str], voice: Voice, *, language: str = "", named: str = "") -> tuple[Paragraph, ...]:
    """Paragraphs of a voice; the name at the beginning of the first stands out."""
    made = []
    for place, part in enumerate(parts):
        begins = bool(named) and not place and part.startswith(named)
        text: Text = value(part, language=language)
        if begins:
            text = (*value(named, Style.STRONG), *value(part.removeprefix(named), language=language))
        made.append(Paragraph(text, voice))
    return tuple(made)
