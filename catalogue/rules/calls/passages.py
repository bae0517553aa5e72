"""A call's text in passages: sentences and list lines, each with the label it stands under.

A label is what stands before a colon, a word in capitals before its sentence (``DURATION.``), or a short question
that the next sentence answers (``Already performed?``). Lines that an e-mail has wrapped are joined again. Positions
count characters of the text as it was given.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import dataclass

from catalogue.rules.calls.words import plain

WRAPPED = re.compile(
    r"(?<=[^\n]{55})(?<![^\n]{100})(?<![.:;!?\n])\n(?=[ \t]*[^\s\d\-–—•*>(\[])(?![ \t]*[A-ZÄÖÜÉ][^:\n.]{0,40}:\s)"
    r"(?![ \t]*[^\W\d_][^|:\n]{0,40}?(?: {3,}| *\|)[^\n |])"
)
QUOTED = re.compile(r"^[ \t]*(?:>[ \t]?)+", re.MULTILINE)
ROW_BEGINS = re.compile(r"^[ \t]*\|(?=[^|\n]+\|)", re.MULTILINE)
ROW_ENDS = re.compile(r"\|[ \t]*$", re.MULTILINE)
NUMBERED = re.compile(
    r"\s*(?:(?:Art(?:icle|ikel|\.)?|Rule|Section|§)\s*\d+[a-z]?\s*[.:)]?|\(?(?:\d{1,2}|[a-zA-Z]|[ivx]{1,4})[.)](?=\s)"
    r"|[-–—•*·>]+)\s*",
    re.IGNORECASE,
)
SENTENCE = re.compile(r"[.!?]+[\"”’')\]]*\s+(?=[\"“(\[]?[A-ZÄÖÜÉÈÀÁÇ0-9>$£€])|\?\s+(?=\S)")
ABBREVIATED = re.compile(
    r"(?:^|[\s(])(?:art|max|min|div|ca|c|no|nr|approx|incl|inkl|ohne|st|dr|prof|bzw|ggf|z\. ?b|u\. ?a|d\. ?h|e\. ?g|"
    r"jan|feb|mar|apr|jun|jul|aug|sept?|oct|okt|nov|dec|dez|janv|fevr|avr|juil|gen|ott|dic|ene|ago|mrz|"
    r"i\. ?e|[ap]\.? ?m|perc|picc|str|timp|fl|ob|cl|bn|hn|tpt|tbn|op|vol|feat|[a-z])$",
    re.IGNORECASE,
)
ENDS_LIST = re.compile(r"(?<=\bstr)\.\s+(?:[A-ZÄÖÜ][a-zäöü]+)\s+[a-zäöü]")
"""A list of players that ends its sentence: *2.2.2.2 - 2.2.0.0 - str. Usual doublings are allowed*."""
MEASURED = re.compile(r"\d\s*(?:\w+\s)?(?:max|min|h)$", re.IGNORECASE)  # a figure that ends its sentence: 14 min.
ORDINAL = re.compile(r"(?:^|[\s(])\d{1,2}$")
UNCAPITALISED = re.compile(r"[.!?]+\s+(?=[^\W\d_])")
COLON = re.compile(r"(?P<label>[^\s:.!?(\d][^:.!?\n]{0,48}?)\s*(?:\([^)\n]{0,30}\))?\s*:(?=\s|$)")
TABLE = re.compile(r"(?P<label>[^\W\d_][^|:\n]{0,40}?)(?:\s*\|\s*|\s{3,})(?=[^\s|])")
HEADING = re.compile(
    r"(?:(?:entry|application|submission|registration)? ?fees?|eligibility|submissions?|deadline|duration|length|"
    r"instrumentation|forces|anonymity|age(?: limit)?|recordings?|scores?|electronics?|how to (?:apply|enter|submit)|"
    r"gebuhr(?:en)?|dauer|besetzung|altersgrenze|einsendeschluss|frais|duree|effectif|age|quota|durata|organico|"
    r"scadenza|"
    r"cuota|duracion|plantilla|plazo)"
)
CAPITALS = re.compile(r"[A-ZÄÖÜ][A-ZÄÖÜ /&-]{1,30}[.?!]?$")
HEADLINE = re.compile(r"[A-ZÄÖÜÀÉÈ][A-ZÄÖÜÀÉÈ '’/&-]{2,48}")
MOST_LABEL_WORDS = 6


@dataclass(frozen=True, slots=True)
class Passage:
    """A sentence or a line of a list; ``label`` is what it stands under, ``line`` the number of its line."""

    text: str
    start: int
    end: int
    label: str = ""
    line: int = 0
    numbering: str = ""

    @property
    def plain(self) -> str:
        """The passage with its label, in small letters without accents, to look for words in."""
        return plain(f"{self.label}: {self.text}" if self.label else self.text)


def unwrapped(text: str) -> str:
    """Return the text with the line breaks of wrapped paragraphs as spaces, as are marks of quoting and of tables.

    Positions stay.
    """
    even = text.replace("\r", " ").replace("\N{NO-BREAK SPACE}", " ").replace("\t", " ")
    for frame in (QUOTED, ROW_BEGINS, ROW_ENDS):
        even = frame.sub(lambda match: " " * len(match[0]), even)
    return WRAPPED.sub(" ", even)


def passages_of(text: str) -> tuple[Passage, ...]:
    """Return the passages of a text in order.

    >>> [(one.label, one.text) for one in passages_of("Length: up to 9 minutes. No fee.")]
    [('Length', 'up to 9 minutes.'), ('', 'No fee.')]
    """
    found: list[Passage] = []
    at, label = 0, ""
    lines = ["", *unwrapped(text).split("\n"), ""]
    for number, line in enumerate(lines[1:-1]):
        if found and is_headline(lines[number], line, lines[number + 2]):
            label = line.strip()
        else:
            label = "" if not line.strip() else yield_line(found, line, at, label, number)
        at += len(line) + 1
    return tuple(found)


def is_headline(above: str, line: str, below: str) -> bool:
    """Whether a line is a heading in capitals over the paragraph that follows it, apart from the one before."""
    words = line.strip()
    alone = not above.strip() and below.strip() and not HEADLINE.fullmatch(below.strip())
    return bool(alone) and HEADLINE.fullmatch(words) is not None and len(words.split()) <= MOST_LABEL_WORDS


def yield_line(found: list[Passage], line: str, at: int, above: str, number: int) -> str:
    """Add the passages of a line; return the label under which the next line stands."""
    numbered = NUMBERED.match(line)
    begin = numbered.end() if numbered else len(line) - len(line.lstrip())
    label, numbering = above, numbered[0].strip() if numbered else ""
    for start, end in sentences(line, begin):
        if end < len(line) and (end == begin or not line[start:end].strip()):
            continue
        own = COLON.match(line, start, end) or (TABLE.match(line, start, end) if start == begin else None)
        if own and len(own["label"].split()) <= MOST_LABEL_WORDS:
            label, start = own[0].rstrip(" :|").strip(), own.end()
            if not line[start:end].strip():
                return label
        elif is_label(line[start:end], start == begin):
            label = line[start:end].strip(" .")
            continue
        text = line[start:end].strip()
        if text:
            first = at + start + len(line[start:end]) - len(line[start:end].lstrip())
            found.append(Passage(text, first, first + len(text), label, number, numbering))
        label = "" if label != above or own else above
    return above if label == above else ""


def is_label(sentence: str, first: bool) -> bool:
    """Whether a sentence only says what the next one is about."""
    words = sentence.strip()
    if words.endswith("?"):
        return len(words.split()) <= 4
    if first and words.endswith(".") and HEADING.fullmatch(plain(words[:-1])):
        return True
    return bool(CAPITALS.fullmatch(words)) and words.endswith((".", "!")) and len(words.split()) <= 3


def sentences(line: str, begin: int) -> Iterator[tuple[int, int]]:
    """Yield where each sentence of a line begins and ends; a full stop of an abbreviation ends none."""
    start = begin
    ends = SENTENCE if line != line.lower() else UNCAPITALISED
    for match in ends.finditer(line, begin):
        before = line[start : match.start()]
        dotted = match[0].startswith(".") and len(match[0].strip()) == 1
        if (
            dotted
            and not ENDS_LIST.match(line, match.start())
            and (
                (ABBREVIATED.search(before) and not MEASURED.search(before))
                or (ORDINAL.search(before) and is_month_next(line, match.end()))
            )
        ):
            continue
        yield start, match.end()
        start = match.end()
    if line[start:].strip():
        yield start, len(line)


def is_month_next(line: str, at: int) -> bool:
    """Whether a word follows that a German number counts: ``31. März 2027``, ``das 40. Lebensjahr``."""
    return (
        re.match(
            r"[A-ZÄ][a-zä]{2,}\.? \d{4}|Lebensjahr|Geburtstag|[A-ZÄÖ][a-zäö]+ (?:auch|nimmt|spielt|mit)\b", line[at:]
        )
        is not None
    )
