"""A work's own figures against a call's: status, length, date, version, print, electronics and channels."""

from __future__ import annotations

import re
from collections.abc import Iterator
from datetime import date
from functools import lru_cache

from catalogue.facts import WorkFacts
from catalogue.rules.calls.families import Candidate
from catalogue.rules.calls.terms import Basis, Call, Electronics, Versions
from catalogue.rules.calls.verdicts import Judged, Record, Verdict
from catalogue.rules.calls.words import NUMBER, number_of, plain
from catalogue.terms import WorkStatus
from catalogue.timing import Duration, PartialDate, write_duration

NEAR = 10  # per cent of an approximate length within which a limit is near
YES, NO, CANNOT_TELL = Verdict.YES, Verdict.NO, Verdict.CANNOT_TELL


def status(one: Candidate) -> Judged:
    record = Record("work", one.work.id)
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
    record = Record("work", one.work.id)
    asked = wanted(call.duration_min, call.duration_max, strict=call.duration_strict, tolerance=call.duration_tolerance)
    duration = one.work.duration
    if duration is None:
        return Judged(
            "duration",
            CANNOT_TELL,
            f"No duration is recorded; the call asks for {asked}.",
            record,
            "Enter the duration.",
        )
    told = write_duration(duration)
    verdict = within(duration, call)
    if verdict is YES:
        return Judged("duration", YES, f"{told}; the call asks for {asked}.", record)
    if verdict is CANNOT_TELL:
        return Judged(
            "duration", verdict, f"{told} is not exact; the call asks for {asked}.", record, "Time it exactly."
        )
    return Judged("duration", NO, f"{told}; the call asks for {asked}.", record, mend_of(duration, call))


def within(duration: Duration, call: Call) -> Verdict:
    loose = call.duration_tolerance or 0
    least = None if call.duration_min is None else call.duration_min - loose
    most = None if call.duration_max is None else call.duration_max + loose
    seconds = duration.seconds
    if duration.approximate and any(
        one is not None and abs(one - seconds) * 100 <= NEAR * seconds for one in (least, most)
    ):
        return CANNOT_TELL
    if least is not None and seconds < least:
        return NO
    if most is not None and (seconds > most or (call.duration_strict and seconds == most)):
        return NO
    return YES


def mend_of(duration: Duration, call: Call) -> str:
    """Say how much is too much or too little where it is less than a minute."""
    if call.duration_max is not None and 0 <= duration.seconds - call.duration_max < 60:
        over = duration.seconds - call.duration_max + (1 if call.duration_strict else 0)
        return f"It is {over} s too long."
    if call.duration_min is not None and 0 < call.duration_min - duration.seconds < 60:
        return f"It is {call.duration_min - duration.seconds} s too short."
    return ""


# ---- date


def dated(one: Candidate, call: Call) -> Judged:
    """Judge the date that the call looks at; what lies on both sides of a limit cannot be told."""
    work, record = one.work, Record("work", one.work.id)
    rule = date_rule(call)
    span = span_of(work, call.composed_basis)
    if span is None:
        return Judged("date", CANNOT_TELL, f"No year is recorded; the call asks for {rule}.", record, "Enter the year.")
    own = side_of(*span, call)
    told = told_of(work)
    if (
        call.versions is Versions.COUNT_AS_NEW
        and own is NO
        and work.revised
        and side_of(*days(work.revised), call) is YES
    ):
        return Judged(
            "date", YES, f"Revised {work.revised}, and the call counts revisions; it asks for {rule}.", record
        )
    if own is YES and is_doubtful_version(one, call):
        reason = f"The version was made {told} of a work of {one.earlier}; whether that counts as new is not said."
        return Judged("date", CANNOT_TELL, reason, record, "Ask the organiser whether a version counts as new.")
    look = "completed" if call.composed_basis is Basis.COMPLETED else "composed"
    return Judged("date", own, f"Year {told}; the call looks at when it was {look} and asks for {rule}.", record)


def is_doubtful_version(one: Candidate, call: Call) -> bool:
    """Whether a work is a version of one that is too old, and the call does not say that versions are new."""
    if not one.is_version or one.earlier is None or call.versions is Versions.COUNT_AS_NEW:
        return False
    return side_of(*days(one.earlier), call) is not YES


def date_rule(call: Call) -> str:
    return between(call.composed_from, call.composed_until)


@lru_cache(maxsize=256)
def between(first: date | None, last: date | None) -> str:
    parts = [f"{first} or later"] if first else []
    return " and ".join(parts + ([f"{last} or earlier"] if last else []))


def told_of(work: WorkFacts) -> str:
    begun = f"{work.begun}–" if work.begun and work.completed != work.begun else ""
    revised = f", revised {work.revised}" if work.revised else ""
    return f"{begun}{work.completed or ''}".replace("/", "–") + revised


def days(when: PartialDate) -> tuple[date, date]:
    """Return the first and last day that a date may mean, a year more on either side where it is about."""
    if when.circa and when.month is None:
        return date(when.first.year - 1, 1, 1), date(when.last.year + 1, 12, 31)
    return when.first, when.last


def span_of(work: WorkFacts, basis: Basis) -> tuple[date, date] | None:
    """Return the days between which a work was written: a span was begun in its first year, completed in its last."""
    done = work.completed
    if done is None:
        return None
    first, last = days(done)
    if basis is Basis.COMPLETED:
        return (date(last.year, 1, 1) if done.until else first), last
    return (min(first, days(work.begun)[0]) if work.begun else first), last


def side_of(first: date, last: date, call: Call) -> Verdict:
    since, until = call.composed_from, call.composed_until
    if (since and last < since) or (until and first > until):
        return NO
    if (since and first < since) or (until and last > until):
        return CANNOT_TELL
    return YES


def version(one: Candidate) -> Judged:
    record = Record("work", one.work.id)
    if one.is_version:
        of = f" of {one.earlier}" if one.earlier else ""
        return Judged("version", NO, f"It is a version of an earlier work{of}; the call admits none.", record)
    return Judged("version", YES, "It is no version of an earlier work.", record)


def unpublished(one: Candidate) -> Judged:
    record = Record("work", one.work.id)
    if one.work.publisher:
        return Judged("unpublished", NO, f"It is published by {one.work.publisher}.", record)
    if one.work.published:
        return Judged("unpublished", NO, f"It was published {one.work.published}.", record)
    return Judged("unpublished", YES, "No publisher is recorded.", record)


def unrecorded(one: Candidate) -> Judged:
    record = Record("work", one.work.id)
    if one.recorded:
        return Judged("recorded", NO, "A recording is released.", record)
    return Judged("recorded", YES, "No released recording is in the catalogue.", record)


# ---- electronics


def has_electronics(work: WorkFacts) -> bool | None:
    """Whether a work needs electronics; ``None`` where its forces are not known."""
    if work.instrumentation is None:
        return None
    devices = [line for line in work.instrumentation.lines if line.family == "electronics"]
    if devices:
        return any(not line.optional for line in devices)
    return work.instrumentation.electronics != "none"


def electronics(one: Candidate, call: Call) -> Judged:
    record = Record("work", one.work.id)
    needs = has_electronics(one.work)
    if needs is None:
        return Judged("electronics", CANNOT_TELL, "Its forces are not recorded.", record, "Enter the instrumentation.")
    if call.electronics is Electronics.REQUIRED:
        reason = "It has electronics." if needs else "There are no electronics in the work."
        return Judged("electronics", YES if needs else NO, reason, record, "" if needs else without(one, want=True))
    reason = "It needs electronics; the call has none." if needs else "It needs no electronics."
    return Judged("electronics", NO if needs else YES, reason, record, without(one, want=False) if needs else "")


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
    record, count = Record("work", one.work.id), channels_of(one.work)
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


def all_figures(one: Candidate, call: Call) -> Iterator[Judged]:
    """Yield what a call's figures make of a work, one condition at a time."""
    yield status(one)
    if call.electronics in (Electronics.EXCLUDED, Electronics.REQUIRED):
        yield electronics(one, call)
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
