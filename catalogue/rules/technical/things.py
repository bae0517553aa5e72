"""A list of equipment read into things: of what kind, how many, of which qualities and sizes.

What things are called is in ``equipment.toml``; what is called none of these is no thing here and is compared by its
words. A number that is not said is one for a single thing and unknown for several.
"""

from __future__ import annotations

import re
import tomllib
from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field, replace
from enum import Enum
from functools import cache
from importlib.resources import files

from catalogue.rules.search import fold
from catalogue.rules.technical.reading import COUNTED
from catalogue.rules.technical.terms import Need

COUNTS = {"a": 1, "an": 1, "one": 1, "two": 2, "pair of": 2, "stereo pair of": 2, "pair": 2, "three": 3, "four": 4,
          "five": 5, "six": 6, "eight": 8, "ein": 1, "eine": 1, "zwei": 2, "ein paar": 2, "drei": 3, "vier": 4,
          "acht": 8, "une": 1, "deux": 2, "une paire de": 2, "trois": 3, "quatre": 4, "huit": 8}  # fmt: skip
TIMES = re.compile(r"^[x\N{MULTIPLICATION SIGN}]\s+")
PARTS = re.compile(r"[;,]|\s\+\s|\s(?:and|und|et|&)\s")
HEAD_ENDS = re.compile(r"\s(?:with|on|for|of|in|mit|fur|auf|pour|sur|avec)\s")
WORD = re.compile(r"[^\W_]+(?:\.[^\W_]+)?")
MEASURED = re.compile(r"(\d{1,3}(?:\.\d)?)[\s-]*([^\W\d_]+)")


class Fit(Enum):
    """Whether a thing is one that is wanted; UNSAID where the list does not say enough."""

    YES = "yes"
    UNSAID = "unsaid"
    NO = "no"


@dataclass(frozen=True, slots=True)
class Thing:
    """One kind of thing; ``number`` is none where several are meant and nobody says how many."""

    kind: str
    number: int | None = 1
    qualities: frozenset[str] = frozenset()
    measures: Mapping[str, float] = field(default_factory=dict)

    def unsaid(self, wanted: Thing) -> list[str]:
        """What is wanted of it and not said, in words."""
        figures = [f"{count:g} {name}" for name, count in wanted.measures.items() if name not in self.measures]
        return [*sorted(wanted.qualities - self.qualities), *figures]

    def fits(self, wanted: Thing) -> Fit:
        """Whether it is of the kind, has the qualities and is large enough."""
        others = {sort_of(one) for one in self.qualities}
        differs = any(sort_of(one) in others for one in wanted.qualities - self.qualities)
        small = any(self.measures.get(name, count) < count for name, count in wanted.measures.items())
        if self.kind != wanted.kind or differs or small:
            return Fit.NO
        return Fit.UNSAID if self.unsaid(wanted) else Fit.YES


# ---- the table


@dataclass(frozen=True, slots=True)
class Names:
    """The table, its names as words in a row: kinds, and qualities with the sort of which only one holds."""

    kinds: Mapping[tuple[str, ...], str]
    qualities: Mapping[tuple[str, ...], str]
    sorts: Mapping[str, str]
    measures: Mapping[str, str]


@cache
def names() -> Names:
    table = tomllib.loads((files("catalogue.rules.technical") / "equipment.toml").read_text(encoding="utf-8"))
    kinds = {words(name): kind for kind, found in table["kinds"].items() for name in found}
    kinds |= {words(name): kind for name, kind in table["nouns"].items()}
    listed = [(sort, quality, found) for sort, of in table["qualities"].items() for quality, found in of.items()]
    return Names(
        kinds=kinds,
        qualities={words(name): quality for _sort, quality, found in listed for name in found},
        sorts={quality: sort for sort, quality, _found in listed},
        measures={name: measure for measure, found in table["measures"].items() for name in found},
    )


def sort_of(quality: str) -> str:
    return names().sorts[quality]


# ---- reading


def words(text: str) -> tuple[str, ...]:
    """Return the words of a text in small letters and in the singular.

    >>> words("Full-range loudspeakers")
    ('full', 'range', 'loudspeaker')
    """
    return tuple(singular(word) for word in WORD.findall(fold(text)))


def singular(word: str) -> str:
    if word.endswith("xes"):
        return word[:-2]
    return word[:-1] if len(word) > 2 and word.endswith("s") and not word.endswith(("ss", "us")) else word


def things_in(need: Need) -> tuple[Thing, ...]:
    """Return the things of one line of a list; none where nothing in it is called as a known thing.

    >>> [(one.kind, one.number) for one in things_in(Need("loudspeakers full-range, 2 subwoofers, 24-channel desk", 8))]
    [('loudspeaker', 8), ('subwoofer', 2), ('mixing desk', 1)]
    """
    found: list[Thing] = []
    usual: int | None = need.number
    for place, part in enumerate(parts_of(need)):
        count, rest = counted(part) if place else (times(need.number, part), counted(part)[1])
        kind, is_several = kind_in(rest)
        described = qualities_in(part), measures_in(part)
        if kind and (not found or count is not None or kind != found[-1].kind):
            found.append(
                Thing(kind, number_of(count, is_several, usual if shares_count(need, place) else None), *described)
            )
        elif found:
            last = found[-1]
            found[-1] = replace(
                last, qualities=last.qualities | described[0], measures={**described[1], **last.measures}
            )
    return tuple(found)


def parts_of(need: Need) -> Iterator[str]:
    for part in PARTS.split(f"{need.name}; {need.detail}"):
        if part.strip():
            yield part.strip()


def shares_count(need: Need, place: int) -> bool:
    """Whether a part without a number of its own shares that of its line, as in 20 chairs and music stands."""
    return place < len([part for part in PARTS.split(need.name) if part.strip()])


def times(number: int, part: str) -> int | None:
    """Return how many a line is of: its number, times two where each is a pair; none where it says only the plural."""
    own, _rest = counted(part)
    if own is not None:
        return number * own
    return number if number > 1 else None


def counted(part: str) -> tuple[int | None, str]:
    """Return the number that a part begins with, and the rest.

    >>> counted("6 x small condensers"), counted("pair of wedges"), counted("24-channel desk")
    ((6, 'small condensers'), (2, 'wedges'), (None, '24-channel desk'))
    """
    text = TIMES.sub("", part)
    match = COUNTED.fullmatch(text)
    if match:
        return int(match[1]), match[2]
    folded = fold(text)
    for said in sorted(COUNTS, key=len, reverse=True):
        if folded.startswith(f"{said} "):
            return COUNTS[said], text[len(said) + 1 :]
    return None, text


def number_of(count: int | None, is_several: bool, usual: int | None) -> int | None:
    if count is not None:
        return count
    if not is_several:
        return 1
    return usual if usual is not None and usual > 1 else None


def kind_in(text: str) -> tuple[str, bool]:
    """Return what a part names, and whether it is several; an empty text for nothing that is known.

    >>> kind_in("condenser microphones on stands"), kind_in("music stand light"), kind_in("twelve-inch")
    (('microphone', True), ('stand light', False), ('', False))
    """
    head = WORD.findall(fold(HEAD_ENDS.split(text)[0]))
    plain = tuple(singular(word) for word in head)
    for ends in range(len(plain), 0, -1):
        for begins in range(ends):
            kind = names().kinds.get(plain[begins:ends])
            if kind:
                return kind, head[ends - 1] != plain[ends - 1] or is_plural(plain[begins:ends], kind)
    return "", False


def is_plural(name: tuple[str, ...], kind: str) -> bool:
    """Whether a German name is the plural of another of the same kind.

    >>> is_plural(("notenpulte",), "music stand"), is_plural(("notenpult",), "music stand")
    (True, False)
    """
    *first, last = name
    shorter = ((*first, last.removesuffix(end)) for end in ("e", "en", "n") if last.endswith(end))
    return any(names().kinds.get(one) == kind for one in shorter)


def qualities_in(text: str) -> frozenset[str]:
    said = words(text)
    spans = (
        (begins, ends) for begins in range(len(said)) for ends in range(begins + 1, min(begins + 4, len(said) + 1))
    )
    return frozenset(
        names().qualities[said[begins:ends]] for begins, ends in spans if said[begins:ends] in names().qualities
    )


def measures_in(text: str) -> dict[str, float]:
    """Return the figures of a part.

    >>> measures_in("24-channel desk"), measures_in("16 inputs")
    ({'inputs': 24.0}, {'inputs': 16.0})
    """
    found = ((names().measures.get(singular(unit)), float(number)) for number, unit in MEASURED.findall(fold(text)))
    return {name: count for name, count in found if name is not None}
