"""A work's own figures against a call's: status, length, date, version, print, electronics and channels."""

from __future__ import annotations

import re
from collections.abc import Iterator
from datetime import date
from functools import lru_cache
from typing import NamedTuple

from catalogue.facts import WorkFacts
from catalogue.rules.calls.families import Candidate
from catalogue.rules.calls.fitting import Answers, needs_electronics
from catalogue.rules.calls.terms import Basis, Call, Electronics, ElectronicsKind, Versions
from catalogue.rules.calls.verdicts import Judged, Verdict
from catalogue.rules.calls.words import NUMBER, number_of, plain
from catalogue.terms import WorkStatus
from catalogue.timing import Duration, PartialDate, write_duration

NEAR = 10  # per cent of an approximate length within which a limit is near
YES, NO, CANNOT_TELL = Verdict.YES, Verdict.NO, Verdict.CANNOT_TELL


def status(one: Candidate) -> Judged:
    record = one.record
    if one.work.status is WorkStatus.WITHDRAWN:
        return Judged("status", NO, "The work is withdrawn by the composer.", record)
    if one.work.status is WorkStatus.IN_PROGRESS:
        return Judged(
            "status", CANNOT_TELL, "The work is still being written.", record, "Finish it before the deadline."
        )
    return Judged("status", YES, "The work is in the catalogue.", record)


# ---- length


@lru_cache(maxsize=256)
def wanted(least: int | None, most: int | None, *, strict: bool = False, tolerance: int | None = None) -> str:
    """Say which durations are asked for, in words; all arguments are seconds."""
    parts = []
    if least is not None:
        parts.append(f"at least {clock(least)}")
    if most is not None:
        parts.append(f"{'under' if strict else 'at most'} {clock(most)}")
    return ", ".join(parts) + (f" (give or take {tolerance} s)" if tolerance else "")


def clock(seconds: int) -> str:
    """Return seconds in primes, whole minutes alone where there are no more.

    >>> clock(300), clock(305)
    ('5′', '5′05″')
    """
    return f"{seconds // 60}′{seconds % 60:02}″" if seconds % 60 else f"{seconds // 60}′"


def length(one: Candidate, call: Call) -> Judged:
    """Judge a work's length; an approximate one near a limit, and a missing one, cannot be told."""
    limits = Limits(call.duration_min, call.duration_max, call.duration_strict, call.duration_tolerance)
    verdict, reason, mend = against(one.work.duration, limits)
    return Judged("duration", verdict, reason, one.record, mend)


class Limits(NamedTuple):
    """What a call says of lengths."""

    least: int | None
    most: int | None
    strict: bool = False
    tolerance: int | None = None


@lru_cache(maxsize=4096)
def against(duration: Duration | None, limits: Limits) -> tuple[Verdict, str, str]:
    """Return what limits make of a length, why, and what would mend it; works that are as long are answered once."""
    asked = wanted(*limits[:2], strict=limits.strict, tolerance=limits.tolerance)
    if duration is None:
        return CANNOT_TELL, f"No duration is recorded; the call asks for {asked}.", "Enter the duration."
    told = write_duration(duration)
    verdict = within(duration, limits)
    if verdict is CANNOT_TELL:
        return verdict, f"{told} is not exact; the call asks for {asked}.", "Time it exactly."
    return verdict, f"{told}; the call asks for {asked}.", mend_of(duration, limits) if verdict is NO else ""


def within(duration: Duration, limits: Limits) -> Verdict:
    loose = limits.tolerance or 0
    least = None if limits.least is None else limits.least - loose
    most = None if limits.most is None else limits.most + loose
    seconds = duration.seconds
    if duration.approximate and any(
        one is not None and abs(one - seconds) * 100 <= NEAR * seconds for one in (least, most)
    ):
        return CANNOT_TELL
    if least is not None and seconds < least:
        return NO
    if most is not None and (seconds > most or (limits.strict and seconds == most)):
        return NO
    return YES


def mend_of(duration: Duration, limits: Limits) -> str:
    """Say how much is too much or too little where it is less than a minute."""
    if limits.most is not None and 0 <= duration.seconds - limits.most < 60:
        over = duration.seconds - limits.most + (1 if limits.strict else 0)
        return f"It is {over} s too long."
    if limits.least is not None and 0 < limits.least - duration.seconds < 60:
        return f"It is {limits.least - duration.seconds} s too short."
    return ""


# ---- date


def dated(one: Candidate, call: Call) -> Judged:
    """Judge the date that the call looks at; what lies on both sides of a limit cannot be told."""
    work = one.work
    dates = Dates(work.begun, work.completed, work.revised)
    rule = DateRule(call.composed_from, call.composed_until, call.composed_basis, call.versions)
    if rule.versions is not Versions.COUNT_AS_NEW and is_of_old_work(one, rule) and placed(dates, rule)[0] is YES:
        reason = f"The version was made {dates} of a work of {one.earlier}; whether that counts as new is not said."
        return Judged("date", CANNOT_TELL, reason, one.record, "Ask the organiser whether a version counts as new.")
    verdict, reason, mend = placed(dates, rule)
    return Judged("date", verdict, reason, one.record, mend)


class Dates(NamedTuple):
    """When a work was begun, completed and revised."""

    begun: PartialDate | None
    completed: PartialDate | None
    revised: PartialDate | None

    def __str__(self) -> str:
        begun = f"{self.begun}–" if self.begun and self.completed != self.begun else ""
        revised = f", revised {self.revised}" if self.revised else ""
        return f"{begun}{self.completed or ''}".replace("/", "–") + revised


class DateRule(NamedTuple):
    """From when and until when a work must date, by which of its dates, and what is said of revisions."""

    since: date | None
    until: date | None
    basis: Basis = Basis.COMPOSED
    versions: Versions = Versions.UNSAID

    def __str__(self) -> str:
        parts = [f"{self.since} or later"] if self.since else []
        return " and ".join(parts + ([f"{self.until} or earlier"] if self.until else []))


@lru_cache(maxsize=4096)
def placed(dates: Dates, rule: DateRule) -> tuple[Verdict, str, str]:
    """Return what a rule makes of dates, why, and what would mend it; works of the same dates are answered once."""
    span = span_of(dates, rule.basis)
    if span is None:
        return CANNOT_TELL, f"No year is recorded; the call asks for {rule}.", "Enter the year."
    own = side_of(*span, rule)
    counts = rule.versions is Versions.COUNT_AS_NEW
    if counts and own is NO and dates.revised and side_of(*days(dates.revised), rule) is YES:
        return YES, f"Revised {dates.revised}, and the call counts revisions; it asks for {rule}.", ""
    look = "completed" if rule.basis is Basis.COMPLETED else "composed"
    return own, f"Year {dates}; the call looks at when it was {look} and asks for {rule}.", ""


def is_of_old_work(one: Candidate, rule: DateRule) -> bool:
    """Whether a work is a version of one that is too old."""
    return one.is_version and one.earlier is not None and side_of(*days(one.earlier), rule) is not YES


def days(when: PartialDate) -> tuple[date, date]:
    """Return the first and last day that a date may mean, a year more on either side where it is about."""
    if when.circa and when.month is None:
        return date(when.first.year - 1, 1, 1), date(when.last.year + 1, 12, 31)
    return when.first, when.last


def span_of(dates: Dates, basis: Basis) -> tuple[date, date] | None:
    """Return the days between which a work was written: a span was begun in its first year, completed in its last."""
    done = dates.completed
    if done is None:
        return None
    first, last = days(done)
    if basis is Basis.COMPLETED:
        return (date(last.year, 1, 1) if done.until else first), last
    return (min(first, days(dates.begun)[0]) if dates.begun else first), last


def side_of(first: date, last: date, rule: DateRule) -> Verdict:
    since, until = rule.since, rule.until
    if (since and last < since) or (until and first > until):
        return NO
    if (since and first < since) or (until and last > until):
        return CANNOT_TELL
    return YES


def version(one: Candidate) -> Judged:
    record = one.record
    if one.is_version:
        of = f" of {one.earlier}" if one.earlier else ""
        return Judged("version", NO, f"It is a version of an earlier work{of}; the call admits none.", record)
    return Judged("version", YES, "It is no version of an earlier work.", record)


def unpublished(one: Candidate) -> Judged:
    record = one.record
    if one.work.publisher:
        return Judged("unpublished", NO, f"It is published by {one.work.publisher}.", record)
    if one.work.published:
        return Judged("unpublished", NO, f"It was published {one.work.published}.", record)
    return Judged("unpublished", YES, "No publisher is recorded.", record)


def unrecorded(one: Candidate) -> Judged:
    record = one.record
    if one.recorded:
        return Judged("recorded", NO, "A recording is released.", record)
    return Judged("recorded", YES, "No released recording is in the catalogue.", record)


# ---- electronics


def has_electronics(work: WorkFacts) -> bool | None:
    """Whether a work needs electronics; ``None`` where its forces are not known."""
    return None if work.instrumentation is None else needs_electronics(work.instrumentation)


def electronics(one: Candidate, answers: Answers) -> Judged:
    record, call = one.record, answers.call
    needs = None if one.work.instrumentation is None else answers.needs_electronics(one.work.instrumentation)
    if needs is None:
        return Judged("electronics", CANNOT_TELL, "Its forces are not recorded.", record, "Enter the instrumentation.")
    if call.electronics is Electronics.REQUIRED:
        reason = "It has electronics." if needs else "There are no electronics in the work."
        return Judged("electronics", YES if needs else NO, reason, record, "" if needs else without(one, want=True))
    reason = "It needs electronics; the call has none." if needs else "It needs no electronics."
    return Judged("electronics", NO if needs else YES, reason, record, without(one, want=False) if needs else "")


def kind_of_electronics(one: Candidate, only: ElectronicsKind, answers: Answers) -> Judged:
    """Judge a work's electronics where the call admits one kind and refuses the other."""
    record, work = one.record, one.work.instrumentation
    if work is None:
        return Judged("electronics", CANNOT_TELL, "Its forces are not recorded.", record, "Enter the instrumentation.")
    if not answers.needs_electronics(work):
        return Judged("electronics", YES, "It needs no electronics.", record)
    if work.electronics == "unspecified":
        reason = f"Which electronics it needs is not recorded; the call has {only} alone."
        return Judged("electronics", CANNOT_TELL, reason, record, "Enter whether they are fixed media or live.")
    refused = ElectronicsKind.LIVE if only is ElectronicsKind.FIXED else ElectronicsKind.FIXED
    if work.electronics in ("both", "live" if only is ElectronicsKind.FIXED else "fixed"):
        reason = f"It needs {refused}; the call has {only} alone."
        return Judged("electronics", NO, reason, record, without(one, want=False))
    return Judged("electronics", YES, f"It needs {only}, which the call has.", record)


def without(one: Candidate, *, want: bool) -> str:
    """Name a version of the work that has, or has not, electronics."""
    for other in one.siblings:
        if has_electronics(other) is want:
            return f"A version {'with' if want else 'without'} electronics is in the catalogue: {other.title.title}."
    return ""


CHANNELS = re.compile(
    rf"(?P<count>{NUMBER})\s*-?\s*(?:ch\b|chan\w*|kanal\w*|canaux|canali|canales|track|speakers|loudspeakers)"
)
NAMED = {"stereo": 2, "quadraphon": 4, "octophon": 8, "mono": 1}


def channels_of(work: WorkFacts) -> int | None:
    """Return how many channels of sound a work's electronics have, where the records say it."""
    said = plain(" ".join((work.instrumentation_typed, work.instrumentation_text, work.electronics_note)))
    counts = [number_of(match["count"]) for match in CHANNELS.finditer(said)]
    return max(counts) if counts else next((count for word, count in NAMED.items() if word in said), None)


def channels(one: Candidate, call: Call) -> Judged | None:
    """Judge the channels of a work with electronics; nothing where it has none."""
    if not has_electronics(one.work):
        return None
    record, count = one.record, channels_of(one.work)
    most, exact = call.channels_max, call.channels_exact
    asked = f"exactly {exact}" if exact is not None else f"at most {most}"
    if count is None:
        return Judged(
            "channels",
            CANNOT_TELL,
            f"The channels are not recorded; the call has {asked}.",
            record,
            "Enter the channels.",
        )
    fits = count == exact if exact is not None else count <= (most or 0)
    mend = "" if fits else f"A mix to {exact or most} channels would do."
    return Judged("channels", YES if fits else NO, f"{count} channels; the call has {asked}.", record, mend)


def all_figures(one: Candidate, answers: Answers) -> Iterator[Judged]:
    """Yield what a call's figures make of a work, one condition at a time."""
    call = answers.call
    asked: Judged | None = None
    yield status(one)
    if call.electronics in (Electronics.EXCLUDED, Electronics.REQUIRED):
        asked = electronics(one, answers)
        yield asked
    if call.electronics_only and (asked is None or asked.verdict is YES):
        yield kind_of_electronics(one, call.electronics_only, answers)
    if call.electronics is not Electronics.EXCLUDED and (call.channels_max or call.channels_exact):
        judged = channels(one, call)
        if judged:
            yield judged
    if call.duration_min is not None or call.duration_max is not None:
        yield length(one, call)
    if call.composed_from or call.composed_until:
        yield dated(one, call)
    if call.versions is Versions.EXCLUDED:
        yield version(one)
    if call.unpublished:
        yield unpublished(one)
    if call.unrecorded:
        yield unrecorded(one)
