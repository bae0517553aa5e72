"""Which works stand on a public list, and the facts that are said of the list as a whole."""

from __future__ import annotations

import re
from dataclasses import dataclass
from datetime import date
from functools import lru_cache
from typing import Literal

from catalogue.documents.contents.dates import first_year, last_year
from catalogue.documents.contents.titles import sorting_title
from catalogue.documents.labels import Labels
from catalogue.documents.model import Text, value, wording
from catalogue.facts import CatalogueFacts, WorkFacts
from catalogue.terms import WorkStatus
from catalogue.timing import PartialDate, write_duration

Style = Literal["primes", "words"]

LEFT_OFF = (WorkStatus.WITHDRAWN, WorkStatus.JUVENILE)


@dataclass(frozen=True, slots=True)
class Chosen:
    """What a document takes in: what falls between two days, both included, and only these works if any are named.

    ``most`` is how many lines a list may have.
    """

    first: date | None = None
    last: date | None = None
    works: frozenset[int] | None = None
    most: int | None = None

    def takes(self, when: PartialDate | None, work: WorkFacts) -> bool:
        """Whether the date may lie in the range; what is undated does so only where there is no range."""
        if self.works is not None and work.id not in self.works:
            return False
        return self.lies_in(when)

    def lies_in(self, when: PartialDate | None) -> bool:
        """Whether a date may lie between the two days, whatever the work."""
        if when is None:
            return self.first is None and self.last is None
        return (self.first is None or when.last >= self.first) and (self.last is None or when.first <= self.last)


def listed_works(catalogue: CatalogueFacts) -> tuple[WorkFacts, ...]:
    """The works of a public list: withdrawn and juvenile ones are kept in the records and left off it."""
    return tuple(work for work in catalogue.works if work.status not in LEFT_OFF)


def latest_first(work: WorkFacts) -> tuple[int, tuple[int, str], str, int]:
    """Sorts by falling last year, falling number, then title; undated works come last."""
    number, rest = numbered(work.catalogue_number)
    return (-(last_year(work) or 0), (-number, rest), sorting_title(work.title), work.id)


def earliest_first_span(work: WorkFacts) -> tuple[int, tuple[int, str], str, int]:
    """As :func:`latest_first`, a span of years standing under its first."""
    return (-(first_year(work) or 0), *latest_first(work)[1:])


def rising_years(work: WorkFacts) -> tuple[int, tuple[int, str], str, int]:
    """Sorts by rising first year, rising number, then title; undated works come last."""
    number, rest = numbered(work.catalogue_number)
    return (first_year(work) or 9999, (number, rest), sorting_title(work.title), work.id)


@lru_cache(4000)
def numbered(number: str) -> tuple[int, str]:
    """The first figure in a catalogue number and the whole of it: op. 9 comes before op. 10."""
    figures = re.search(r"\d+", number)
    return (int(figures[0]) if figures else -1, number)


def number_text(work: WorkFacts, labels: Labels) -> Text:
    """A bare figure is said to be a number; any other form is the composer's own."""
    if work.catalogue_number.isdecimal():
        return labels.say("no. {number}", number=work.catalogue_number)
    return value(work.catalogue_number)


def mostly_approximate(works: tuple[WorkFacts, ...]) -> bool:
    """Whether the list says once that durations are approximate, instead of each entry saying it."""
    known = [work.duration for work in works if work.duration]
    return bool(known) and 2 * sum(duration.approximate for duration in known) > len(known)


def duration_text(work: WorkFacts, labels: Labels, *, approximate_list: bool, style: Style = "primes") -> Text:
    """The duration as a list prints it; of an open form its bounds, where both are known."""
    if work.least_duration and work.most_duration and work.least_duration != work.most_duration:
        bounds = (write_duration(one, style, labels.language) for one in (work.least_duration, work.most_duration))
        return value("\N{EN DASH}".join(bounds))
    if work.duration is None:
        return ()
    duration = type(work.duration)(work.duration.seconds) if approximate_list else work.duration
    return value(write_duration(duration, style, labels.language))


def sigla(works: tuple[WorkFacts, ...]) -> dict[str, str]:
    """A siglum for each publisher that occurs: its initials, or its name where two would share them."""
    publishers = sorted({work.publisher for work in works if work.publisher})
    initials = {name: "".join(re.findall(r"\b[^\W\d_]", name)).upper() for name in publishers}
    taken = [*initials.values(), "MS"]
    return {name: short if len(short) > 1 and taken.count(short) == 1 else name for name, short in initials.items()}


def list_summary(works: tuple[WorkFacts, ...], labels: Labels, *, by_category: bool = True) -> Text:
    """How many works of which years, in which order, and what the sigla mean."""
    years = sorted(year for work in works for year in (first_year(work), last_year(work)) if year)
    span = f"{years[0]}–{years[-1]}" if years and years[0] != years[-1] else "".join(map(str, years[:1]))
    sentences = [counted(works, span, labels, by_category=by_category)]
    if mostly_approximate(works):
        sentences.append(wording(labels.word("Durations are approximate.")))
    for name, short in sigla(works).items():
        if short != name:
            sentences.append(labels.say("{siglum}: {publisher}.", siglum=short, publisher=name))
    if sigla(works) and any(not work.publisher for work in works):
        sentences.append(wording(labels.word("MS: available from the composer.")))
    return tuple(run for index, one in enumerate(sentences) for run in (*(wording(" ") if index else ()), *one))


def counted(works: tuple[WorkFacts, ...], span: str, labels: Labels, *, by_category: bool) -> Text:
    number = number_of_works(works, labels)
    if not span:
        return (*number, *wording("."))
    if not by_category:
        return labels.say("{number}, {years}.", number=number, years=span)
    return labels.say("{number}, {years}, latest first within each category.", number=number, years=span)


def number_of_works(works: tuple[WorkFacts, ...], labels: Labels) -> Text:
    """How many works, at the beginning of a sentence."""
    number = labels.count("{n} work", "{n} works", len(works), spelled=True)
    return wording(number[:1].upper() + number[1:])
