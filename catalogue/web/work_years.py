"""A work's life as a picture, a sentence and a table: composed, published, heard, recorded."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass

from django.utils.safestring import SafeString
from django.utils.text import capfirst
from django.utils.translation import gettext as _
from django.utils.translation import ngettext

from catalogue.drawings.sketch import to_svg
from catalogue.drawings.work_years import NARROW, WIDE, Lane, Look, Mark, WorkYears
from catalogue.facts import RecordingFacts, WorkFacts
from catalogue.timing import PartialDate
from catalogue.web.pictures import drawn
from catalogue.web.wording import date_text


@dataclass(frozen=True, slots=True)
class Heard:
    """A performance of the work: when, whether it is still to come, and whether it was the first anywhere."""

    when: PartialDate
    is_to_come: bool
    is_premiere: bool


@dataclass(frozen=True, slots=True)
class Life:
    """The picture for wide pages and for narrow ones, what it says in a sentence, and its figures, one a row."""

    roomy: SafeString
    tight: SafeString
    sentence: str
    rows: tuple[tuple[str, str], ...]


def life_of(
    work: WorkFacts,
    heard: Iterable[Heard],
    recordings: Iterable[RecordingFacts],
    published: Iterable[PartialDate],
    language: str,
) -> Life | None:
    """Return the life of a work; None where all that is known of it lies within one year."""
    played = sorted(heard, key=lambda one: one.when.sort_key)
    recorded = [day for one in recordings if (day := one.recorded or one.released) is not None]
    editions = list(published)
    if work.published and work.published.first.year not in {day.first.year for day in editions}:
        editions.append(work.published)
    picture = WorkYears(
        (
            Lane(_("Composed"), tuple(composed(work))),
            Lane(_("Performed"), tuple(mark_of(one.when, look_of(one)) for one in played)),
            Lane(_("Recorded"), tuple(mark_of(day) for day in recorded)),
            Lane(_("Published"), tuple(mark_of(day) for day in editions)),
        )
    )
    if not any(lane.marks for lane in picture.lanes) or picture.first_year == picture.last_year:
        return None
    rows = tuple(rows_of(work, played, recorded, editions, language))
    sentence = sentence_of(work, played, recorded, editions, language)
    roomy, tight = (drawn(to_svg(picture.sketch(width), title=sentence)) for width in (WIDE, NARROW))
    return Life(roomy, tight, sentence, rows)


def composed(work: WorkFacts) -> Iterator[Mark]:
    """Give the time from the first day of work to the last, and the revision."""
    days = [day for day in (work.begun, work.completed) if day]
    if days:
        yield Mark(days[0].first, max(days[0].last, days[-1].last), Look.BAR)
    if work.revised:
        yield Mark(work.revised.first, work.revised.last, Look.BAR)


def look_of(one: Heard) -> Look:
    return Look.RING if one.is_to_come else Look.PREMIERE if one.is_premiere else Look.DISC


def mark_of(day: PartialDate, look: Look = Look.DISC) -> Mark:
    return Mark(day.first, day.last, look)


def sentence_of(
    work: WorkFacts, played: list[Heard], recorded: list[PartialDate], editions: list[PartialDate], language: str
) -> str:
    """Return the picture in words, for those who cannot see it and those who would rather read."""
    past, coming = ([one for one in played if one.is_to_come is asked] for asked in (False, True))
    first = next((one for one in past if one.is_premiere), None)
    told = (
        _("composed %(when)s") % {"when": span(work.begun, work.completed, language)}
        if work.begun or work.completed
        else "",
        _("revised %(when)s") % {"when": date_text(work.revised, language)} if work.revised else "",
        _("first performed %(when)s") % {"when": date_text(first.when, language)} if first else "",
        ngettext("one performance", "%(number)s performances", len(past)) % {"number": len(past)} if past else "",
        ngettext("one to come", "%(number)s to come", len(coming)) % {"number": len(coming)} if coming else "",
        _("recorded %(when)s") % {"when": years_in(recorded)} if recorded else "",
        _("published %(when)s") % {"when": years_in(editions)} if editions else "",
    )
    return f"{capfirst('; '.join(part for part in told if part))}."


def span(begun: PartialDate | None, completed: PartialDate | None, language: str) -> str:
    """Return from when to when, or the one that is known."""
    days = list(dict.fromkeys(date_text(day, language) for day in (begun, completed) if day))
    return _("%(begun)s to %(completed)s") % {"begun": days[0], "completed": days[1]} if len(days) > 1 else days[0]


def years_in(days: Iterable[PartialDate]) -> str:
    return ", ".join(str(year) for year in sorted({day.first.year for day in days}))


def rows_of(
    work: WorkFacts, played: list[Heard], recorded: list[PartialDate], editions: list[PartialDate], language: str
) -> Iterator[tuple[str, str]]:
    """Give when and what, in order of time; performances by the year."""
    events = [
        *((day, words) for day, words in ((work.begun, _("begun")), (work.completed, _("completed"))) if day),
        *((day, _("revised")) for day in [work.revised] if day),
        *((day, _("recording")) for day in recorded),
        *((day, _("published")) for day in editions),
        *((one.when, heard_words(one)) for one in played),
    ]
    for day, words in sorted(events, key=lambda event: event[0].sort_key):
        yield date_text(day, language), words


def heard_words(one: Heard) -> str:
    if one.is_to_come:
        return _("performance to come")
    return _("first performance") if one.is_premiere else _("performance")
