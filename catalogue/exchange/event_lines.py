"""A performance in one line: ``12 May 2027 19:30 Old Granary, Zurich: Kestrel Ensemble, Ash Ferry``.

Date and time come first, then the place up to a colon, then who plays what. Of what stands behind the colon the works
are told by the titles that the catalogue knows; whatever cannot be told apart is left to whoever looks at the form.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Collection, Iterable, Iterator
from dataclasses import dataclass

from catalogue.exchange.performance_rows import divided_place
from catalogue.rules.search import fold
from catalogue.timing import DateError, MomentError, read_clock_time, read_date

LONGEST = 1_000
MOST_WORDS = 5  # of a date: Saturday, 12 May 2027
AT = re.compile(r"(?:at|um|à|alle|a las)\s+", re.IGNORECASE)
CLOCK_FIGURES = re.compile(r"[0-9]{1,2}[:.][0-9]{2}")
COLON = re.compile(r":(?=\s|$)")
EDGES = " \t,;:–—-"


@dataclass(frozen=True, slots=True)
class EventLine:
    """What a line says, each as it is typed into its own field of a form."""

    date: str = ""
    time: str = ""
    hall: str = ""
    city: str = ""
    country: str = ""
    performers: tuple[str, ...] = ()
    works: tuple[str, ...] = ()


Named = Callable[[str], bool]


def read_event_line(
    text: str, *, language: str, is_work: Named = lambda _text: False, halls: Collection[str] = ()
) -> EventLine:
    """Return what a line says; ``is_work`` knows titles, ``halls`` are folded names of halls.

    >>> read_event_line("12 May 2027 19:30 Old Granary, Zurich: Kestrel Ensemble", language="en-GB")
    EventLine(date='12 May 2027', time='19:30', hall='Old Granary', city='Zurich', country='',
              performers=('Kestrel Ensemble',), works=())
    """
    rest = " ".join(text[:LONGEST].split())
    date, rest = split_off(rest, lambda words: is_date(words, language))
    clock, rest = split_off(AT.sub("", rest, count=1) if AT.match(rest) else rest, is_clock_time)
    place, _colon, programme = parted(rest)
    performers, works = told_apart(programme, is_work)
    hall, city, country = where(place, halls)
    return EventLine(date, clock, hall, city, country, performers, works)


def split_off(text: str, reads: Named) -> tuple[str, str]:
    """Split off the most words at the beginning that can be read, and what stands between them and the rest."""
    words = text.split(" ")
    for count in range(min(MOST_WORDS, len(words)), 0, -1):
        beginning = " ".join(words[:count]).strip(EDGES)
        if beginning and reads(beginning):
            return beginning, " ".join(words[count:]).strip(EDGES)
    return "", text


def is_date(text: str, language: str) -> bool:
    try:
        return read_date(text, language=language) is not None
    except DateError:
        return False


def is_clock_time(text: str) -> bool:
    """Say whether a text is a time of day, or is meant for one: a mistake in it is told at its own field."""
    if CLOCK_FIGURES.fullmatch(text):
        return True
    try:
        return read_clock_time(text) is not None
    except MomentError:
        return False


def parted(text: str) -> tuple[str, str, str]:
    """Part place and programme at the first colon that a blank follows."""
    colon = COLON.search(text)
    return (text[: colon.start()], ":", text[colon.end() :]) if colon else (text, "", "")


def where(text: str, halls: Collection[str]) -> tuple[str, str, str]:
    """Return hall, city and country; a single name is a city unless a hall is called so."""
    if fold(text) in halls:
        return text.strip(EDGES), "", ""
    hall, city, country = divided_place(text, has_city=False)
    return (city, "", country) if not hall and fold(city) in halls else (hall, city, country)


def told_apart(text: str, is_work: Named) -> tuple[tuple[str, ...], tuple[str, ...]]:
    """Return performers and works; where no title is known the last of several is taken for one."""
    parts = list(joined_where_known([part.strip() for part in re.split(r"[,;]", text) if part.strip()], is_work))
    works = [part for part in parts if is_work(part)]
    if not works and len(parts) > 1:
        works = parts[-1:]
    return tuple(part for part in parts if part not in works), tuple(works)


def joined_where_known(parts: list[str], is_work: Named) -> Iterator[str]:
    """Give the parts, those that are one title together as one: a title may hold commas."""
    start = 0
    while start < len(parts):
        ends = range(len(parts), start + 1, -1)
        end = next((end for end in ends if is_work(", ".join(parts[start:end]))), start + 1)
        yield ", ".join(parts[start:end])
        start = end


def lines_of(text: str) -> Iterable[tuple[int, str]]:
    """Give the lines that are not empty, with their numbers from 1."""
    return ((number, line.strip()) for number, line in enumerate(text.splitlines(), start=1) if line.strip())
