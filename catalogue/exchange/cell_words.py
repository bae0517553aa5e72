"""Reads the cells that choose from a list of words: category, kind, audience, status, extent.

``cell_words.toml`` holds what people write. A remark after the word is kept ("cancelled (banned)"); a text that no word
begins is not guessed at.
"""

from __future__ import annotations

import re
import tomllib
from dataclasses import dataclass
from enum import StrEnum
from functools import cache
from importlib.resources import files

from catalogue.rules.search import fold
from catalogue.terms import Audience, Category, Extent, PerformanceKind, PerformanceStatus, WorkStatus

LISTS: dict[str, type[StrEnum]] = {
    "category": Category,
    "work_status": WorkStatus,
    "kind": PerformanceKind,
    "audience": Audience,
    "performance_status": PerformanceStatus,
    "extent": Extent,
}

COMPARED_WHOLE = {"category", "work_status"}  # a chamber opera is no chamber music
# What a heading of a list may say before its category ("works for orchestra", "obras de cámara"), folded.
LEAD = re.compile(
    r"(?:works|obras|werke|oeuvres|opere|composizioni|compositions|kompositionen) "
    r"(?:(?:for|para|fur|pour|per|with|mit|avec|con) )?(?:the |el |la )?"
)


@dataclass(frozen=True, slots=True)
class Chosen:
    """The word of the list, empty where none is meant, and what else the cell says."""

    word: str
    remark: str = ""


def choose(name: str, text: str) -> Chosen:
    """Return the word of a list that a cell means.

    >>> choose("performance_status", "Cancelled (influenza)")
    Chosen(word='cancelled', remark='influenza')
    >>> choose("extent", "partial: Nuages, Fêtes")
    Chosen(word='partial', remark='Nuages, Fêtes')
    """
    words, pattern = words_of(name)
    whole = fold(text)
    if whole in words:
        return Chosen(words[whole])
    if name == "category" and (category := words.get(LEAD.sub("", whole, count=1))):
        return Chosen(category)
    match = pattern.match(whole)
    if match is None or name in COMPARED_WHOLE:
        return Chosen("")
    # Folding may change the length of a text, so the remark is cut off after as many words as were read.
    return Chosen(words[match[1]], trimmed(after_words(text, len(match[1].split()))))


def after_words(text: str, count: int) -> str:
    parts = re.split(r"(\s+|(?=[:(,;]))", text.strip())
    seen = 0
    for place, part in enumerate(parts):
        seen += bool(part.strip())
        if seen > count:
            return "".join(parts[place:])
    return ""


def trimmed(remark: str) -> str:
    bare = remark.strip().lstrip(":;,–—-").strip()
    return bare[1:-1].strip() if bare.startswith("(") and bare.endswith(")") else bare


@cache
def words_of(name: str) -> tuple[dict[str, str], re.Pattern[str]]:
    """Return the words of a list by what is written for them, and the pattern of a cell that begins with one."""
    table = tomllib.loads((files("catalogue.exchange") / "cell_words.toml").read_text(encoding="utf-8"))[name]
    own = {fold(term.value): term.value for term in LISTS[name]}
    words = {fold(written): word for word, listed in table.items() for written in listed} | own
    longest_first = "|".join(re.escape(word) for word in sorted(words, key=len, reverse=True))
    return words, re.compile(rf"({longest_first})(?!\w)")
