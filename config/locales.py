"""The words of pages in other languages: compiled into the data folder when the program starts, where they changed."""

from __future__ import annotations

import os
from hashlib import sha256
from pathlib import Path

from babel.messages.mofile import write_mo
from babel.messages.pofile import read_po


def compiled_into(folder: Path, source: Path) -> Path:
    """Compile the catalogues of a folder (``<language>/LC_MESSAGES/django.po``) into another; return that folder."""
    for words in sorted(source.glob("*/LC_MESSAGES/*.po")):
        made = folder / words.relative_to(source).with_suffix(".mo")
        seal = made.with_suffix(".sha256")
        digest = sha256(words.read_bytes()).hexdigest()
        if not (made.exists() and seal.exists() and seal.read_text() == digest):
            compile_words(words, made)
            seal.write_text(digest)
    return folder


def compile_words(words: Path, made: Path) -> None:
    """Write a compiled catalogue beside its place and put it there at once, so that nobody reads half of it."""
    made.parent.mkdir(parents=True, exist_ok=True)
    draft = made.with_name(f"{made.name}.{os.getpid()}")
    with words.open("rb") as source, draft.open("wb") as target:
        write_mo(target, read_po(source, abort_invalid=True))
    draft.replace(made)
