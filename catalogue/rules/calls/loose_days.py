"""Days that a text names by their place in a month: one of them, or as part of the month, without a figure.

*The last Friday of June 2027* is one day. *The first week of June 2027*, *Mitte Mai*, *début avril* and *in June 2027*
are spans: a week is counted in sevens from the first of the month, early, middle and late are the days to the 10th,
to the 20th and the rest (common practice; no standard divides a month).
"""

from __future__ import annotations

import re
from dataclasses import dataclass
from datetime import date, timedelta
from functools import lru_cache

from catalogue.rules.calls.words import plain
from catalogue.timing import DateError, read_date

ORDINALS = (
    (r"first|1st|erste[nr]?|1\.|premiere?|1(?:re|ere?)|prim[aoe]r?[ao]?", 1),
    (r"second|2nd|zweite[nr]?|2\.|deuxieme|seconde?|2e|second[ao]|segund[ao]", 2),
    (r"third|3rd|dritte[nr]?|3\.|troisieme|3e|terz[ao]|tercer[ao]?", 3),
    (r"fourth|4th|vierte[nr]?|4\.|quatrieme|4e|quart[ao]|cuart[ao]", 4),
    (r"last|letzte[nr]?|derniere?|ultim[ao]", -1),
)
ORDINAL = "|".join(words for words, _ in ORDINALS)
WEEKDAYS = (
    r"monday|montag|lundi|lunedi|lunes", r"tuesday|dienstag|mardi|martedi|martes",
    r"wednesday|mittwoch|mercredi|mercoledi|miercoles", r"thursday|donnerstag|jeudi|giovedi|jueves",
    r"friday|freitag|vendredi|venerdi|viernes", r"saturday|samstag|sonnabend|samedi|sabato|sabado",
    r"sunday|sonntag|dimanche|domenica|domingo",
)  # fmt: skip
OF = r"(?:[\s-]+(?:of|in|im|des|de|d'|di|del(?: mes de)?|du mois de|the month of|l')(?:\s+|(?<=')))?[\s-]*"
WHEN = rf"{OF}(?P<month>[a-z]{{3,10}})\.?,?(?:\s+(?:of\s+|de\s+|del\s+)?(?P<year>(?:19|20)\d\d))?(?![\w/.-]*\d)"
WEEKDAY = re.compile(
    rf"(?<![\w.])(?P<ordinal>{ORDINAL})\s+(?P<weekday>{'|'.join(WEEKDAYS)})(?:\s+(?:of|in|im|de|di|d'|del|du))?\s*"
    rf"{WHEN}"
)
WEEK = re.compile(rf"(?<![\w.])(?P<ordinal>{ORDINAL})\s*(?:week|woche|semaine|settimana|semana){WHEN}")
MONTHS_WEEK = re.compile(rf"(?<![\w.])(?P<ordinal>{ORDINAL})\s+(?P<month>[a-z]{{3,10}})woche(?:\s+(?P<year>20\d\d))?")
PARTS = (
    (r"early|beginning|start|anfang|debut|inizio|inizi|principios?|comienzos|primi(?: giorni)?|primeros dias", 1),
    (r"mid|middle|mitte|mi|milieu|meta|mediados", 11),
    (r"late|second half", 21),
)
PART = re.compile(rf"(?<![a-z])(?P<part>{'|'.join(words for words, _ in PARTS)}){WHEN}")
MONTH = re.compile(r"(?<![\w.])(?P<month>[a-z]{3,10})\.?,?\s+(?:of\s+|de\s+|del\s+)?(?P<year>20\d\d)(?!\d)")

LATE = 20  # the last day of the middle of a month


@dataclass(frozen=True, slots=True)
class Span:
    """The days that words of a text mean, from the first to the last, and where the words stand."""

    first: date
    last: date
    start: int
    end: int


def spans_told(text: str, year: int | None = None) -> list[Span]:
    """Return the parts of months that a text names; ``year`` is that of a month without one.

    >>> [(str(one.first), str(one.last)) for one in spans_told("in the first week of June 2027, or mid-July", 2027)]
    [('2027-06-01', '2027-06-07'), ('2027-07-11', '2027-07-20')]
    """
    said = plain(text)
    found: list[Span] = []
    for pattern, span_in in ((WEEKDAY, weekday_of), (WEEK, week_of), (MONTHS_WEEK, week_of), (PART, part_of)):
        for match in pattern.finditer(said):
            month = month_of(match["month"], int(match["year"]) if match["year"] else year)
            free = not any(one.start < match.end() and match.start() < one.end for one in found)
            if month and free:
                found.append(Span(*span_in(match, *month), match.start(), match.end()))
    return sorted(found, key=lambda one: one.start)


def months_told(text: str) -> list[Span]:
    """Return the months that a text names, whole.

    >>> [(str(one.first), str(one.last)) for one in months_told("closes in June 2027")]
    [('2027-06-01', '2027-06-30')]
    """
    matches = [(match, month_of(match["month"], int(match["year"]))) for match in MONTH.finditer(plain(text))]
    return [Span(*month, match.start(), match.end()) for match, month in matches if month]


def weekdays_told(text: str) -> list[Span]:
    """Return the days that a text names by weekday and place in the month.

    >>> [str(one.first) for one in weekdays_told("by the last Friday of June 2027")]
    ['2027-06-25']
    """
    return [one for one in spans_told(text) if one.first == one.last]


def ordinal_of(words: str) -> int:
    return next(number for pattern, number in ORDINALS if re.fullmatch(pattern, words))


def weekday_of(match: re.Match[str], first: date, last: date) -> tuple[date, date]:
    wanted = next(index for index, names in enumerate(WEEKDAYS) if re.fullmatch(names, match["weekday"]))
    number = ordinal_of(match["ordinal"])
    if number < 0:
        day = last - timedelta((last.weekday() - wanted) % 7)
    else:
        day = first + timedelta((wanted - first.weekday()) % 7 + 7 * (number - 1))
    return day, day


def week_of(match: re.Match[str], first: date, last: date) -> tuple[date, date]:
    number = ordinal_of(match["ordinal"])
    begins = last - timedelta(6) if number < 0 else first + timedelta(7 * (number - 1))
    return begins, min(begins + timedelta(6), last)


def part_of(match: re.Match[str], first: date, last: date) -> tuple[date, date]:
    begins = next(day for words, day in PARTS if re.fullmatch(words, match["part"]))
    return first.replace(day=begins), last if begins > LATE else first.replace(day=begins + 9)


@lru_cache(maxsize=512)
def month_of(name: str, year: int | None) -> tuple[date, date] | None:
    """Return the first and the last day of a month by its name, nothing where the word names none."""
    if year is None:
        return None
    try:
        read = read_date(f"{name} {year}", language="en-GB")
    except DateError:
        return None
    return (read.first, read.last) if read.month and read.first != read.last else None
