"""How a work's title is printed: original script first, then transliteration, then translation in round brackets.

A title that only names a genre (String Quartet No. 2) is upright inside a sentence and italic on a
line of its own, as any other title (common practice).
"""

from __future__ import annotations

import re
import tomllib
from functools import lru_cache
from importlib.resources import files

from catalogue.documents.model import Run, Style, Text, joined, plain, typeset, value, wording
from catalogue.facts import TitleFacts, WorkFacts

GENRES = tomllib.loads(files("catalogue.documents.contents").joinpath("genres.toml").read_text(encoding="utf-8"))
NUMBER = r"(?:,? (?:no\.|nr\.|n[°º.]|№)\s?\d+|\s\d+|\s[IVX]+)?"
GENERIC = re.compile(
    rf"(?:(?:{'|'.join(GENRES['before'])})[ -]?)?(?:{'|'.join(GENRES['genres'])}){NUMBER}", re.IGNORECASE
)


@lru_cache(4000)
def generic(title: str) -> bool:
    """Whether a title only names a genre, with or without a number.

    >>> generic("String Quartet No. 2"), generic("Quartet of Stones")
    (True, False)
    """
    return GENERIC.fullmatch(title.strip()) is not None


def full_title(title: TitleFacts, *, in_sentence: bool = False) -> Text:
    """The title in every script it has, with its translation."""
    if is_alone(title):
        return name_text(title.title, title.language, in_sentence=in_sentence, instead=None)
    names = own_names(title)
    shown = tuple(
        name_text(name, tag, in_sentence=in_sentence, instead="" if len(names) > 1 and not place else None)
        for place, (name, tag) in enumerate(names)
    )
    translated = translation(title)
    bracket = (Run(" ("), *value(translated), Run(")")) if translated else ()
    return (*joined(shown, " "), *bracket)


def short_title(title: TitleFacts) -> Text:
    """The title in its own script alone, as a sentence carries it."""
    if is_alone(title):
        return name_text(title.title, title.language, in_sentence=True, instead=None)
    (name, tag), *others = own_names(title)
    instead = others[0][0] if others else translation(title) or None
    return name_text(name, tag, in_sentence=True, instead=instead)


def sorting_title(title: TitleFacts) -> str:
    """What a list is sorted by: the signs of :func:`short_title`, small and capital letters alike."""
    return (typeset(title.title) if is_alone(title) else plain(short_title(title))).casefold()


def is_alone(title: TitleFacts) -> bool:
    """Whether there is but the one title."""
    return not (title.original or title.transliteration or title.translated)


def name_text(name: str, tag: str, *, in_sentence: bool, instead: str | None) -> Text:
    if not name:
        return ()
    style = Style.PLAIN if in_sentence and generic(name) else Style.TITLE
    return (Run(typeset(name), style, tag, value=True, instead=instead),)


def own_names(title: TitleFacts) -> tuple[tuple[str, str], ...]:
    """The title in its own script and in transliteration, each once, with its language tag.

    A main title beside an original and a translation is the transliteration, if no other is given.
    """
    name, tag = (title.original, title.original_language) if title.original else (title.title, title.language)
    beside = title.title if title.translated and title.title != title.translated else ""
    latin = title.transliteration or beside
    return ((name, tag),) if latin in ("", name) else ((name, tag), (latin, romanised(tag)))


def romanised(tag: str) -> str:
    """The tag of a language in Latin letters (BCP 47 script subtag)."""
    base = tag.partition("-")[0]
    return f"{base}-Latn" if base else ""


def translation(title: TitleFacts) -> str:
    shown = {name for name, _tag in own_names(title)}
    return next((text for text in (title.translated, title.title) if text and text not in shown), "")


def work_title(work: WorkFacts) -> Text:
    """The title on a line of its own, with the name of a later version upright in brackets."""
    text = full_title(work.title)
    return (*text, *wording(" ("), *value(work.version_label), *wording(")")) if version_named(work) else text


def version_named(work: WorkFacts) -> bool:
    return bool(work.version_of and work.version_label)
