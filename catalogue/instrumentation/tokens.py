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

import unicodedata
from collections.abc import Iterable, Sequence
from dataclasses import dataclass, field

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


@dataclass(frozen=True, slots=True)
class Token:
    """A word, a number or one mark. ``spaced`` tells whether a blank stands before it; a new line is a mark too."""

    kind: str
    text: str
    start: int
    end: int
    spaced: bool = False
    lower: str = ""

    def is_mark(self, marks: str) -> bool:
        """Whether the token is one of the marks, given as one string."""
        return self.kind == "mark" and self.text in marks

    def is_word(self, *words: str) -> bool:
        """Whether the token is one of the words, given in lower case."""
        return self.kind == "word" and self.lower in words

    @property
    def key(self) -> str:
        """The key that the token's text is found under among names and phrases."""
        return key_of(self.text)

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

    def is_mark(self, marks: str) -> bool:
        """A bracket is no mark; asked so that tokens and brackets can stand in one sequence."""
        return False

    def is_word(self, *words: str) -> bool:
        """A bracket is no word."""
        return False


Node = Token | Bracket
Nodes = Sequence[Node]


class Row(tuple[Node, ...]):
    """Nodes in order, with a memory of what was found at their places (see ``rows``)."""

    memory: dict[object, object]

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


def is_letter(character: str) -> bool:
    return character.isalpha() or unicodedata.category(character)[0] == "M" or character in "♭♯#"


def word_end(text: str, at: int) -> int:
    while at < len(text):
        joins = text[at] == "'" and at + 1 < len(text) and text[at + 1].isalpha() and at > 0 and text[at - 1].isalpha()
        if not (is_letter(text[at]) or joins):
            break
        at += 1
    return at


def digits_end(text: str, at: int) -> int:
    while at < len(text) and text[at] in "0123456789":
        at += 1
    return at


def flat_tokens(given: str) -> list[Token]:
    """Return the tokens of the text in order, brackets as marks."""
    text = "".join(plain(one) for one in given)
    tokens: list[Token] = []
    at, spaced = 0, False
    while at < len(text):
        character = text[at]
        if character.isspace() and character != "\n":
            at, spaced = at + 1, True
            continue
        if character in "0123456789":
            end, kind = digits_end(text, at), "number"
        elif character == "“" and "”" in text[at:]:
            end, kind = text.index("”", at) + 1, "note"
        elif character.isalpha():
            end, kind = word_end(text, at), "word"
        else:
            end, kind = at + 1, "mark"
        tokens.append(Token(kind, text[at:end], at, end, spaced, text[at:end].lower()))
        at, spaced = end, False
    return tokens


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
