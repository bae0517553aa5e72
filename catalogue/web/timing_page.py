"""What the page of a work's timing shows, and what is read from a tempo map while one types."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction

from django.utils.safestring import SafeString
from django.utils.translation import gettext as _
from django.utils.translation import ngettext

from catalogue.drawings.timeline import course_of
from catalogue.facts import CueFacts, TimingFacts, WorkFacts
from catalogue.gathering.performances import gather_performance
from catalogue.gathering.timing import gather_recordings, gather_timing
from catalogue.gathering.works import gather_work
from catalogue.models import Performance, Work
from catalogue.rules.cues import PlacedCue, placed_cues
from catalogue.rules.durations import Lasted, WorkDurations, durations_of
from catalogue.timing import Reckoned, TempoError, duration_of, reckon, write_duration
from catalogue.web.pictures import course_svg
from catalogue.web.readings import Marked


@dataclass(frozen=True, slots=True)
class CueLine:
    """A cue as a page shows it, its time as the map has it, and why it has none."""

    number: str
    bar: str
    time: str
    action: str
    media: str = ""
    length: str = ""
    who: str = ""
    notes: str = ""
    free: str = ""
    wrong: str = ""


@dataclass(frozen=True, slots=True)
class TempoReading:
    """What a tempo map reads as, or why it cannot be read, with the line in which the mistake stands."""

    reason: str = ""
    line: int = 0
    column: int = 0
    marked: Marked | None = None
    duration: str = ""
    movements: tuple[tuple[str, str], ...] = ()
    warnings: tuple[str, ...] = ()
    cues: tuple[CueLine, ...] = ()
    picture: SafeString | str = ""
    bars: int = 0


@dataclass(frozen=True, slots=True)
class Shown:
    """A duration of one kind, in words: what it is, how long, and of how many."""

    name: str
    duration: str
    remark: str = ""


@dataclass(frozen=True, slots=True)
class TimingPage:
    work: WorkFacts
    timing: TimingFacts
    durations: tuple[Shown, ...]
    warnings: tuple[str, ...]
    reading: TempoReading | None
    cues: tuple[CueLine, ...]


def timing_page(work: Work, *, language: str) -> TimingPage:
    """Gather the page of a work that comes from ``with_everything_printed``."""
    facts, timing = gather_work(work), gather_timing(work)
    reckoned = reckoned_or_none(timing.tempo_map)
    durations = work_durations(work, facts, reckoned)
    return TimingPage(
        work=facts,
        timing=timing,
        durations=tuple(shown_durations(durations, facts.duration_typed, language)),
        warnings=durations.warnings,
        reading=tempo_reading(timing.tempo_map, timing.cues, facts, language),
        cues=tuple(cue_line(one, language) for one in placed_cues(timing.cues, reckoned)),
    )


def work_durations(work: Work, facts: WorkFacts, reckoned: Reckoned | None) -> WorkDurations:
    """Gather how long a work is said to last, reckons to, and has lasted."""
    performances = Performance.objects.filter(composer=work.composer_id).of_work(work)
    return durations_of(
        facts,
        reckoned=reckoned.duration if reckoned else None,
        performances=[gather_performance(one) for one in performances.with_everything_printed()],
        recordings=gather_recordings(work),
    )


def reckoned_or_none(text: str) -> Reckoned | None:
    """Return the map reckoned; none where there is none or it cannot be read."""
    try:
        return reckon(text)
    except TempoError:
        return None


# ---- durations


def shown_durations(durations: WorkDurations, typed: str, language: str) -> list[Shown]:
    """Return the durations that are known, each under its name; a published one that cannot be read as it was typed."""

    def written(lasted: Lasted) -> str:
        shortest, longest = (write_duration(one, language=language) for one in (lasted.shortest, lasted.longest))
        return shortest if shortest == longest else _("%(least)s to %(most)s") % {"least": shortest, "most": longest}

    single = (
        (_("Published"), durations.published, _("usually") if durations.least or durations.most else ""),
        (_("At least"), durations.least, ""),
        (_("At most"), durations.most, ""),
        (_("Movements together"), durations.movements, ""),
        (_("Reckoned from the tempo map"), durations.reckoned, _("without breaks between movements")),
    )
    found = [Shown(name, write_duration(one, language=language), remark) for name, one, remark in single if one]
    if durations.published is None and typed:
        found.insert(0, Shown(_("Published"), typed))
    if durations.performed:
        times = durations.performed.times
        remark = ngettext("one performance", "%(n)s performances", times) % {"n": times}
        found.append(Shown(_("Performed"), written(durations.performed), remark))
    if durations.recorded:
        times = durations.recorded.times
        remark = ngettext("one recording", "%(n)s recordings", times) % {"n": times}
        found.append(Shown(_("Recorded"), written(durations.recorded), remark))
    return found


# ---- reading


def tempo_reading(text: str, cues: Sequence[CueFacts], work: WorkFacts, language: str) -> TempoReading | None:
    """Read a tempo map with the cues in it; none where nothing is typed."""
    try:
        reckoned = reckon(text)
    except TempoError as mistake:
        return mistaken(mistake)
    if reckoned is None:
        return None
    placed = placed_cues(cues, reckoned)
    return TempoReading(
        duration=write_duration(reckoned.duration, language=language),
        movements=movement_lines(reckoned, language),
        warnings=durations_of(work, reckoned=reckoned.duration).warnings,
        cues=tuple(cue_line(one, language) for one in placed if one.cue.place),
        picture=picture_of(reckoned, placed, language),
        bars=len(reckoned.line.bars),
    )


def mistaken(mistake: TempoError) -> TempoReading:
    begins = mistake.start - mistake.column + 1
    line = mistake.text[begins:].partition("\n")[0].rstrip("\r")
    marked = Marked.at(line, mistake.column - 1, mistake.column - 1 + mistake.end - mistake.start)
    return TempoReading(reason=mistake.reason, line=mistake.line, column=mistake.column, marked=marked)


def movement_lines(reckoned: Reckoned, language: str) -> tuple[tuple[str, str], ...]:
    """Return the movements with their durations where there are several."""
    if not reckoned.has_several_movements:
        return ()
    pairs = zip(reckoned.tempo_map.movements, reckoned.line.movements, strict=True)
    return tuple(
        (movement.name or f"{place}.", write_duration(duration_of(seconds), language=language))
        for place, (movement, seconds) in enumerate(pairs, start=1)
    )


def cue_line(placed: PlacedCue, language: str) -> CueLine:
    cue = placed.cue
    before = not cue.place.strip()
    return CueLine(
        number=cue.number,
        bar=f"{placed.movement}:{placed.bar}" if placed.movement > 1 else placed.bar,
        time=_("before") if before else clock(placed.seconds),
        action=cue.action,
        media=cue.media,
        length=write_duration(cue.length, "clock", language) if cue.length else "",
        who=cue.who,
        notes=cue.notes,
        free=clock(placed.free),
        wrong=placed.mistake.reason if placed.mistake else "",
    )


def clock(seconds: Fraction | None) -> str:
    return "" if seconds is None else write_duration(duration_of(seconds), "clock")


def picture_of(reckoned: Reckoned, placed: Sequence[PlacedCue], language: str) -> SafeString:
    course = course_of(
        reckoned,
        [(one.seconds, one.cue.number) for one in placed if one.seconds is not None],
        bar=_("bar {n}"),
    )
    lasts = write_duration(reckoned.duration, "words", language)
    cues = ngettext("one cue", "%(n)s cues", len(course.cues)) % {"n": len(course.cues)}
    return course_svg(course, title=_("Timeline of %(lasts)s with %(cues)s") % {"lasts": lasts, "cues": cues})
