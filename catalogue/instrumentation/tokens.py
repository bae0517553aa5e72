"""Cuts a text into words, numbers, marks and brackets, each with its place.

    text    = { word | number | mark | note | bracket } ;
    word    = letter , { letter | combining mark | apostrophe between letters } ;
    number  = digit , { digit } ;
    note    = "“" , any characters , "”" ;
    bracket = "(" , text , ")" | "[" , text , "]" | "{" , text , "}" ;

Dashes of every length are one mark, and so are the marks of other scripts and the common typographic variants;
the place of every token counts characters of the text as it was given. A bracket that is never closed reaches to
the end of its line.
"""

from __future__ import annotations

import functools
import re
import unicodedata
from collections.abc import Iterable, Sequence
from dataclasses import dataclass, field
from typing import Any, NamedTuple

from catalogue.instrumentation.vocabulary import key_of

LONGEST = 20_000
DEEPEST = 12
OPENING = {"(": ")", "[": "]", "{": "}"}
CLOSING = {")": "(", "]": "[", "}": "{"}
DASHES = "-‐‑‒–—−―‧・"
ALIKE = {
    "’": "'", "‘": "'", "ʼ": "'", "`": "'", "´": "'", "，": ",", "、": ",", "；": ";", "：": ":", "．": ".", "·": "·",
    "•": "•", "∙": "·", "⋅": "·", "●": "•", "‣": "•", "▪": "•", "♭": "♭", "／": "/", "（": "(", "）": ")", "＋": "+",
    "⁄": "/", "ª": "a", "º": "o",
    "°": "o", "✕": "×", "…": "…", "\u00a0": " ", "\u202f": " ", "\u2009": " ", "\t": " ", "\r": "\n", "\u2028": "\n",
    "\u2029": "\n", "\u000b": "\n", "\u000c": "\n", "＝": "=", "【": "[", "】": "]", "「": "(", "」": ")",
}  # fmt: skip
PLAIN_RUN = re.compile(r"([A-Za-z]++)(?![^\x00-\x7e]|['#])|([0-9]+)|( +)|([.,()=+;:/&\n-])")
"""Letters, figures, blanks or a mark that need no look at single characters."""
KINDS = ("", "word", "number", "", "mark")


class Token(NamedTuple):
    """A word, a number or one mark. ``spaced`` tells whether a blank stands before it; a new line is a mark too.

    ``key`` is what a word is found under among names and phrases (see ``vocabulary.key_of``); of the marks only ``&``
    has one, which joins like a word.
    """

    kind: str
    text: str
    start: int
    end: int
    spaced: bool = False
    lower: str = ""
    key: str = ""

    def is_mark(self, marks: str) -> bool:
        """Whether the token is one of the marks, given as one string."""
        return self.kind == "mark" and self.text in marks

    def is_word(self, *words: str) -> bool:
        """Whether the token is one of the words, given in lower case."""
        return self.kind == "word" and self.lower in words

    @property
    def number(self) -> int:
        """The value of a number token."""
        return int(self.text)


@dataclass(frozen=True, slots=True)
class Bracket:
    """A bracket with what stands in it; ``closed`` is false where its end was supplied."""

    opening: str
    nodes: tuple[Token | Bracket, ...]
    start: int
    end: int
    spaced: bool = False
    closed: bool = True
    kind: str = field(default="bracket", init=False)
    key: str = field(default="", init=False)

    def is_mark(self, marks: str) -> bool:
        """A bracket is no mark; asked so that tokens and brackets can stand in one sequence."""
        return False

    def is_word(self, *words: str) -> bool:
        """A bracket is no word."""
        return False


Node = Token | Bracket
Nodes = Sequence[Node]


class Row(tuple[Node, ...]):
    """Nodes in order, with a memory of what was found at their places and of what stands in them (see ``rows``).

    ``memory`` holds the answers of each finder by what it was asked; ``kinds``, ``keys`` and ``marks`` are the kinds of
    the nodes, the keys of the words and the marks, once they have been asked for.
    """

    memory: dict[object, dict[object, Any]]
    kinds: frozenset[str] | None = None
    keys: frozenset[str] | None = None
    marks: frozenset[str] | None = None

    def __new__(cls, nodes: Iterable[Node] = ()) -> Row:
        """Make a row that remembers nothing yet."""
        row = super().__new__(cls, nodes)
        row.memory = {}
        return row


def plain(character: str) -> str:
    """Return the one character that stands for this one, so that places stay as they are."""
    if character in DASHES:
        return "-" if character != "・" else ","
    if character in ALIKE:
        return ALIKE[character]
    if character < "\x7f":
        return character
    wide = unicodedata.normalize("NFKC", character)
    return wide if len(wide) == 1 and unicodedata.category(character)[0] in "NPZS" else character


class Plain(dict[int, str]):
    """What every character that has been met stands for, to translate texts with."""

    def __missing__(self, code: int) -> str:
        """Find out what a character stands for when it is first met."""
        return self.setdefault(code, plain(chr(code)))


PLAIN = Plain()


def is_letter(character: str) -> bool:
    return character.isalpha() or unicodedata.category(character)[0] == "M" or character in "♭♯#"


def word_end(text: str, at: int) -> int:
    while at < len(text):
        joins = text[at] == "'" and at + 1 < len(text) and text[at + 1].isalpha() and at > 0 and text[at - 1].isalpha()
        if not (is_letter(text[at]) or joins):
            break
        at += 1
    return at


def flat_tokens(given: str) -> list[Token]:
    """Return the tokens of the text in order, brackets as marks."""
    text = given.translate(PLAIN)
    tokens: list[Token] = []
    at, spaced, size = 0, False, len(text)
    while at < size:
        kind, end = next_token(text, at)
        if kind:
            written = text[at:end]
            tokens.append(Token(kind, written, at, end, spaced, *spelled(kind, written)))
        at, spaced = end, not kind
    return tokens


def next_token(text: str, at: int) -> tuple[str, int]:
    """Return the kind of the token that begins here, nothing for blanks, and its end."""
    run = PLAIN_RUN.match(text, at)
    if run is not None:
        return KINDS[run.lastindex or 0], run.end()
    character = text[at]
    if character.isspace() and character != "\n":
        return "", at + 1
    if character == "“" and "”" in text[at:]:
        return "note", text.index("”", at) + 1
    return ("word", word_end(text, at)) if character.isalpha() else ("mark", at + 1)


@functools.lru_cache(maxsize=1 << 14)
def spelled(kind: str, text: str) -> tuple[str, str]:
    """Return the small letters and the key of a token."""
    return text.lower(), key_of(text) if kind == "word" or text == "&" else ""


def stretch_of(token: Token, first: int, last: int) -> Token:
    """Return the token of some letters of a word, as if a blank stood before them unless they are the first."""
    written = token.text[first:last]
    spaced = token.spaced or first > 0
    return Token(token.kind, written, token.start + first, token.start + last, spaced, *spelled(token.kind, written))


def closing_of(tokens: list[Token]) -> dict[int, int]:
    """Return for each opening bracket the index of its closing one; a wrong or missing one is supplied."""
    found: dict[int, int] = {}
    stack: list[int] = []
    for index, token in enumerate(tokens):
        if token.kind != "mark":
            continue
        if token.text in OPENING and len(stack) < DEEPEST:
            stack.append(index)
        elif token.text in CLOSING and any(tokens[one].text == CLOSING[token.text] for one in stack):
            while tokens[stack[-1]].text != CLOSING[token.text]:
                stack.pop()
            found[stack.pop()] = index
    return found


def nested(tokens: list[Token], start: int, end: int, closing: dict[int, int], depth: int = 0) -> tuple[Node, ...]:
    nodes: list[Node] = []
    at = start
    while at < end:
        token = tokens[at]
        if token.kind == "mark" and token.text in OPENING and depth < DEEPEST:
            closed = at in closing and closing[at] < end
            last = closing[at] if closed else unclosed_end(tokens, at, end)
            inner = nested(tokens, at + 1, last, closing, depth + 1)
            place = tokens[last].end if closed else tokens[last - 1].end
            nodes.append(Bracket(token.text, inner, token.start, place, token.spaced, closed))
            at = last + 1 if closed else last
        else:
            nodes.append(token)
            at += 1
    return Row(nodes)


def unclosed_end(tokens: list[Token], at: int, end: int) -> int:
    """Return where a bracket without an end is taken to end: at its line's end, else at the text's."""
    for index in range(at + 1, end):
        if tokens[index].is_mark("\n"):
            return index
    return end


def nodes_of(text: str) -> tuple[Node, ...]:
    """Return the text as words, numbers, marks and nested brackets."""
    tokens = flat_tokens(text)
    return nested(tokens, 0, len(tokens), closing_of(tokens))


def flatten(nodes: Nodes) -> list[Token]:
    """Return the tokens of the nodes and of the brackets in them, in order, without the brackets themselves."""
    found: list[Token] = []
    for node in nodes:
        if isinstance(node, Bracket):
            found += flatten(node.nodes)
        else:
            found.append(node)
    return found
