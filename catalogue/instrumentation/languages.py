"""Finds out the language of a text from its joining words and from spellings that only one language has."""

from __future__ import annotations

from collections import Counter

from catalogue.instrumentation.lexicon import keyed
from catalogue.instrumentation.names import name_at
from catalogue.instrumentation.tokens import Node, Token, flatten
from catalogue.instrumentation.vocabulary import key_of, languages_of

MARKERS = {
    "en-GB": keyed("for and or doubling also doubles with players strings two three four five seven eight"),
    "de": keyed("für und oder auch mit spieler große streicher zwei drei vier fünf sechs sieben acht"),
    "fr": keyed("pour et ou aussi avec également cordes seconde deux trois quatre cinq sept huit"),
    "it": keyed("per e o anche con esecutori archi due quattro cinque sei sette otto"),
    "es": keyed("para y o también con ejecutantes cuerda cuerdas dos tres cuatro cinco seis siete ocho"),
}


class Speech:
    """The language of a text: as it was said, or found out when it is first asked for."""

    __slots__ = ("found", "nodes")

    def __init__(self, nodes: tuple[Node, ...] = (), language: str | None = None) -> None:
        self.nodes = nodes
        self.found = language

    @property
    def language(self) -> str:
        """One of ``vocabulary.LANGUAGES``."""
        if self.found is None:
            self.found = language_of(self.nodes)
        return self.found


def language_of(nodes: tuple[Node, ...]) -> str:
    """Return the language that most of the words speak for, British English where nothing does."""
    votes: Counter[str] = Counter()
    words = flatten(nodes)
    at = 0
    while at < len(words):
        token = words[at]
        if isinstance(token, Token) and token.kind == "word":
            for language, markers in MARKERS.items():
                votes[language] += 2 * (key_of(token.text) in markers)
        found = name_at(words, at) if token.kind == "word" else None
        if found is not None:
            vote(found.written, found.slugs, votes)
        at = found.end if found is not None else at + 1
    best, number = max(votes.items(), key=lambda item: (item[1], item[0] == "en-GB"), default=("en-GB", 0))
    return best if number else "en-GB"


def vote(written: str, slugs: tuple[str, ...], votes: Counter[str]) -> None:
    key = key_of(written)
    spoken = {language for slug in slugs for language in languages_of().get((key, slug), frozenset()) if language}
    spoken = {"en-GB" if language == "en-US" else language for language in spoken}
    if len(spoken) == 1:
        votes[spoken.pop()] += 3
    elif len(spoken) == 2:
        for language in spoken:
            votes[language] += 1
