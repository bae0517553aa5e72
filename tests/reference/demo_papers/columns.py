"""The lines of a paper with sections that stand side by side told one after the other.

Read from where each word stands (pdftotext -bbox): the text that pdftotext lays out mixes what stands side by side.
"""

from __future__ import annotations

import re
import subprocess
from collections.abc import Iterator
from dataclasses import dataclass
from html import unescape

WORD = re.compile(r'<word xMin="([\d.]+)" yMin="([\d.]+)" xMax="([\d.]+)" yMax="([\d.]+)">(.*?)</word>')
HEAD_HIGH = 15.0
"""Words of heads are at least so high, in points, those of text and tables are not."""
APART = 4.0
"""What parts the cells of a row, in points."""


@dataclass(frozen=True)
class Word:
    x: float
    end: float
    foot: float
    high: float
    text: str

    @property
    def numbers_head(self) -> bool:
        return self.high > HEAD_HIGH and self.text.isdecimal()


Line = list[Word]


def lines_of(pdf: bytes) -> list[str]:
    """The lines of all pages, in the order in which they are read."""
    return [written(line) for page in pages_of(pdf) for line in in_order(rows(page)) if line]


def heads_of(pdf: bytes) -> list[list[tuple[str, tuple[int, float]]]]:
    """The words of heads, line by line, each with its page and how far down it stands."""
    told = pages_of(pdf)
    return [
        [(word.text, (number, round(word.foot))) for word in line if word.high > HEAD_HIGH]
        for number, page in enumerate(told)
        for line in rows(page)
    ]


def pages_of(pdf: bytes) -> list[str]:
    told = subprocess.run(["pdftotext", "-bbox", "-", "-"], input=pdf, capture_output=True, check=True).stdout
    return told.decode().split("<page ")[1:]


def rows(page: str) -> list[Line]:
    """The words of a page by the line on which they stand."""
    found: list[Line] = []
    words = [
        Word(float(x), float(end), float(foot), float(foot) - float(top), unescape(text))
        for x, top, end, foot, text in WORD.findall(page)
    ]
    for word in sorted(words, key=lambda one: (one.foot, one.x)):
        if found and abs(found[-1][0].foot - word.foot) < 3:
            found[-1].append(word)
        else:
            found.append([word])
    return [sorted(line, key=lambda one: one.x) for line in found]


def in_order(lines: list[Line]) -> Iterator[Line]:
    """Give the lines: where two heads stand side by side, all on the left of the second one first."""
    left: list[Line] = []
    right: list[Line] = []
    edge = 0.0
    for line in lines:
        numbers = [word.x for word in line if word.numbers_head]
        if numbers and numbers[0] == line[0].x:
            yield from (*left, *right)
            left, right, edge = [], [], numbers[1] if len(numbers) > 1 else 0.0
        if not edge:
            yield line
            continue
        left.append([word for word in line if word.x < edge - 1])
        right.append([word for word in line if word.x >= edge - 1])
    yield from (*left, *right)


def written(line: Line) -> str:
    text, end = "", None
    for word in line:
        text += ("" if end is None else " " if word.x - end < APART else "    ") + word.text
        end = word.end
    return text
