"""Doublings that a call tells in a sentence of their own, apart from its list of players.

``The flautist may double piccolo``, ``Doublings: flute 2 on piccolo, oboe 2 on English horn``, ``2. Flöte auch
Piccolo``.
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence
from dataclasses import replace

from catalogue.instrumentation import Instrumentation, Line, shorthand
from catalogue.rules.calls.limit_texts import reading, spoken, with_doublings
from catalogue.rules.calls.passages import Passage
from catalogue.rules.calls.words import has, plain


def with_spoken_doublings(text: str, passages: Sequence[Passage]) -> str:
    """Return the forces with the doublings of sentences such as *the flautist may double piccolo*."""
    found = reading(text)
    if found is None:
        return text
    for passage in passages:
        for named, what in told_in(passage.text):
            who = reading(named)
            if (
                who is None
                or len(who.lines) != 1
                or NUMBERED_PLAYER.match(plain(named))
                or has(r"only \w+ \d|no\b|none", plain(named))
            ):
                continue
            found = replace(found, lines=tuple(doubled(line, who.lines[0].instrument, what) for line in found.lines))
        for slug, chair, what in numbered_in(passage.text):
            found = replace(found, lines=tuple(doubled_by(line, slug, chair, what) for line in found.lines))
    return shorthand(found)


DOUBLES = (
    r"(?:doubles?|plays?|takes?|brings?|has|owns?|auch|prendre|prend|jouer|doubler|suonare|prendere|raddoppiare|tocar|"
    r"doblar|nehmen|spielen|spielt|wechseln)"
)
OWNER = r"(?:the|our|le|la|il|lo|el|der|die)"
SPOKEN_DOUBLING = re.compile(
    rf"(?:\b{OWNER}\s+|[;(,]\s*(?!(?:and\s+)?{OWNER}\b))(?P<who>[^\W_][\w ]{{2,20}}?)(?:\s+players?)?\s+(?:may|"
    rf"can|will|also|is able to|happily|gladly|"
    rf"darf|kann|peut|puo|può|puede)?\s*(?:also |aussi |anche |también )?{DOUBLES}\s+(?:on |the |le |la |il |el |"
    rf"das |die )?"
    rf"(?P<what>[^.;]+?)(?=,? (?:and |und |et |e |y )?{OWNER} [\w ]{{3,20}}? {DOUBLES}\b|[.;]|$)",
    re.IGNORECASE,
)


WITHOUT_VERB = re.compile(
    rf",?\s+(?:and|und|et|e|y)\s+{OWNER}\s+(?P<who>[^\W_]+)\s+(?:an?|the|le|la|l'|une?|ein\w*|il|el|el)\s+(?P<what>.+)",
    re.IGNORECASE,
)


def told_in(text: str) -> Iterator[tuple[str, str]]:
    """Yield who doubles and what: *the flute owns a piccolo and the clarinet a bass clarinet* tells of two."""
    for match in SPOKEN_DOUBLING.finditer(spoken(text)):
        who, what = match["who"], match["what"]
        while other := WITHOUT_VERB.search(what):
            yield who, what[: other.start()]
            who, what = other["who"], other["what"]
        yield who, what


def doubled(line: Line, slug: str, what: str) -> Line:
    if line.instrument != slug or line.chairs or not line.players:
        return line
    auxiliaries = reading(with_doublings(shorthand(Instrumentation((replace(line, players=(1, 1)),))), what))
    chairs = auxiliaries.lines[0].chairs if auxiliaries else ()
    return replace(
        line, chairs=tuple(replace(one, chair=number) for one in chairs for number in range(1, line.players[1] + 1))
    )


ORDINALS = {
    "first": 1, "second": 2, "third": 3, "fourth": 4, "erste": 1, "zweite": 2, "dritte": 3, "vierte": 4, "erstes": 1,
    "zweites": 2, "drittes": 3, "zweiter": 2, "dritter": 3, "premiere": 1, "deuxieme": 2, "seconde": 2, "troisieme": 3,
    "primo": 1, "secondo": 2, "seconda": 2, "terzo": 3, "terza": 3, "segundo": 2, "segunda": 2, "tercero": 3,
    "tercera": 3, "i": 1, "ii": 2, "iii": 3, "iv": 4,
}  # fmt: skip
ORDER = rf"(?:[1-4](?:\.|st|nd|rd|th|e|eme|[aoªº°])?|{'|'.join(sorted(ORDINALS, key=len, reverse=True))})"
NUMBERED_PLAYER = re.compile(rf"{ORDER}\s")
TAKES = (
    r"(?:on|=|/|doubling|taking|playing|nehmend|jouant|suonando|tocando|doubles?(?: on)?|also(?: plays?)?|plays?|"
    r"(?:may|can|will) (?:double|play|take)|takes?|auch|"
    r"nimmt|"
    r"spielt(?: auch)?|wechselt (?:zu|auf)|aussi|prend|joue(?: aussi)?|anche|prende|suona(?: anche)?|tambien|"
    r"toca(?: tambien)?|"
    r"dobla)"
)
ENDS = r"(?=\s*(?:[,;.)]|$|\b(?:and|und|et|e|y)\b))"
NUMBERED = re.compile(
    rf"(?<![\w.])(?P<chair>{ORDER})\s+(?P<who>[a-z][a-z ]{{2,14}}?)\s+{TAKES}\s+(?:the |a |an |le |la |l'|il |el )?"
    rf"(?P<what>[a-z][a-z' ]{{2,24}}?){ENDS}"
    rf"|(?<![\w.])(?P<named>[a-z]{{3,14}})\s+(?P<number>[1-4]|i{{1,3}}|iv)\s+{TAKES}\s+(?:the |a |an )?"
    rf"(?P<taken>[a-z][a-z' ]{{2,24}}?){ENDS}"
)


def numbered_in(text: str) -> Iterator[tuple[str, int, str]]:
    """Yield which instrument's which player takes what: ``("flute", 2, "piccolo")``."""
    for match in NUMBERED.finditer(plain(text)):
        at = match.start("who") if match["who"] else match.start("named")
        name = text[at : at + len(match["who"] or match["named"])]
        who = reading(name) or reading(plain(name))
        chair = number_of_chair(match["chair"] or match["number"])
        if who is not None and len(who.lines) == 1 and chair:
            yield who.lines[0].instrument, chair, match["what"] or match["taken"]


APART = re.compile(
    rf"\s*(?:(?:the|with the|die|der|das|mit der|le|la|l'|il|el|and|und|et|e|y)\s+)*(?:{NUMBERED.pattern})"
)


def without_numbered(passage: Passage) -> Passage:
    """Return a passage without the doublings that stand as items of their own, or behind a semicolon after the list."""
    parts = re.split(r"([,;](?!\d))", passage.text)
    kept = [part for part, before in zip(parts, ["", *parts], strict=False) if not is_doubling(part) or not before]
    if len(kept) < len(parts):
        passage = replace(passage, text="".join(kept))
    listed, semicolon, rest = passage.text.partition(";")
    told = semicolon and next(numbered_in(rest), None) is not None and next(numbered_in(listed), None) is None
    return replace(passage, text=listed) if told else passage


def is_doubling(part: str) -> bool:
    return APART.fullmatch(plain(part).rstrip(" .")) is not None


def number_of_chair(text: str) -> int:
    """
    >>> number_of_chair("2nd"), number_of_chair("zweite")
    (2, 2)
    """
    return int(text[0]) if text[0].isdecimal() else ORDINALS.get(text, 0)


def doubled_by(line: Line, slug: str, chair: int, what: str) -> Line:
    """Return a line with what its player of that number takes, where nobody of that number doubles yet."""
    known = any(one.chair in (chair, None) for one in line.chairs)
    if line.instrument != slug or not line.players or line.players[1] < chair or known:
        return line
    bare = shorthand(Instrumentation((replace(line, chairs=()),)))
    bare = f"{line.players[1]} {line.instrument.replace('-', ' ')}" if reading(bare) is None else bare
    told = reading(with_doublings(bare, f"{chair} {what}"))
    chairs = told.lines[0].chairs if told and told.lines else ()
    return replace(line, chairs=tuple(sorted((*line.chairs, *chairs), key=lambda one: one.chair or 0)))
