"""One text on a sheet of its own: a programme note, a biography, a statement, as calls and portals want them apart."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Literal

from catalogue.documents.contents.cover_sheet import Setting
from catalogue.documents.contents.prose import blocks_of
from catalogue.documents.labels import labels
from catalogue.documents.model import Document, Opening, Text, Voice, plain, value, wording

WORDS = {"note": "Programme note", "biography": "Biography", "statement": "Statement"}


def text_sheet(
    parts: Sequence[str],
    *,
    kind: Literal["note", "biography", "statement"],
    setting: Setting,
    title: Text = (),
    signed: str = "",
    language: str = "",
) -> Document:
    """Print the paragraphs of a text under its title; ``kind`` says what it is, ``language`` is the text's own."""
    says = labels(setting.language)
    word = wording(says.word(WORDS[kind]))
    head = title or word
    return Document(
        kind="text-sheet",
        title=plain(head),
        author=signed,
        language=says.language,
        paper=setting.paper,
        blocks=(
            Opening(head, value(signed), subtitle=word if title else ()),
            *blocks_of(parts, Voice.PROSE, language=language),
        ),
        running=(value(signed), head),
    )
