"""What has happened to a work, against a call that wants it unperformed or asks for a live recording."""

from __future__ import annotations

from collections.abc import Iterator
from functools import lru_cache

from catalogue.facts import PerformanceFacts
from catalogue.rules.calls.families import Candidate, Played
from catalogue.rules.calls.terms import Call, Novelty, Players
from catalogue.rules.calls.verdicts import Judged, Record, Verdict
from catalogue.rules.calls.words import has, plain
from catalogue.terms import Audience, Extent, PerformanceKind, PerformanceStatus

YES, NO, CANNOT_TELL = Verdict.YES, Verdict.NO, Verdict.CANNOT_TELL
WORKING = (
    PerformanceKind.READING,
    PerformanceKind.WORKSHOP,
    PerformanceKind.RECORDING_SESSION,
    PerformanceKind.PREVIEW,
)
TO_COME = (PerformanceStatus.PLANNED, PerformanceStatus.CONFIRMED)
AMATEUR = r"amateur|non-?professional|laien|hobby|community|dilettant|aficionad|unpaid"
STUDENT = r"student|school|conservatoire|youth|studierende|schuler|etudiant|jugend|college|academy"
PROFESSIONAL = r"professional|berufs|profi\b|professionn|profesional|salaried"
ORCHESTRA = (
    r"\w*orchest|\w*orkest|\w*orkester|\w*philharmoni|symphony|sinfoni|\w*symphoni|filarmonic|orquesta|\w*zenekar"
)


def unperformed(one: Candidate, call: Call) -> Judged:
    """Judge whether a performance that the call counts has taken place."""
    doubt: Judged | None = None
    for played in one.played:
        counts, why = counted(played, call.novelty)
        record = Record("performance", played.event.id)
        if counts is YES:
            return Judged("unperformed", NO, f"{told(played.event)}{why}.", record)
        if counts is CANNOT_TELL and doubt is None:
            doubt = Judged(
                "unperformed",
                CANNOT_TELL,
                f"{told(played.event)}: {why}.",
                record,
                "Note at the performance who played.",
            )
    return doubt or Judged("unperformed", YES, "No performance that the call counts is recorded.", one.record)


def told(event: PerformanceFacts) -> str:
    place = f" in {event.city}" if event.city else ""
    return f"{event.kind.value.capitalize()} {event.date or 'without date'}{place}"


def counted(played: Played, rule: Novelty) -> tuple[Verdict, str]:
    """Return whether a playing counts under a call's rule, and what is known or not known of it."""
    event = played.event
    happened = event.status is PerformanceStatus.GIVEN
    if not happened and not (rule.planned and event.status in TO_COME):
        return NO, ""
    if rule.country and event.country and event.country != rule.country:
        return NO, ""
    if rule.country and not event.country:
        return CANNOT_TELL, "the country is not recorded"
    public = is_public(event, rule)
    if public is NO:
        return NO, ""
    players, why = by_whom(event, rule)
    if players is NO:
        return NO, ""
    if played.item.extent is not Extent.COMPLETE and players is YES:
        return CANNOT_TELL, "only a part was played; whether that counts is not said"
    return players, why


def is_public(event: PerformanceFacts, rule: Novelty) -> Verdict:
    if rule.closed:
        return YES
    if event.audience is Audience.PUBLIC_REHEARSAL:
        return YES if rule.open_rehearsals else NO
    return YES if event.audience is Audience.PUBLIC and event.kind not in WORKING else NO


def by_whom(event: PerformanceFacts, rule: Novelty) -> tuple[Verdict, str]:
    if rule.by is Players.ANYONE:
        if rule.students:
            return YES, ""
        standing = professional(event)
        return (
            (standing, "")
            if standing is not CANNOT_TELL
            else (CANNOT_TELL, "it is not recorded whether the players were students or amateurs")
        )
    if rule.by in (Players.ORCHESTRA, Players.PROFESSIONAL_ORCHESTRA) and not is_orchestra(event):
        return NO, ""
    if rule.by is Players.ORCHESTRA:
        return YES, ""
    standing = professional(event)
    if standing is CANNOT_TELL:
        return standing, "it is not recorded whether the players are professionals"
    return standing, " by professionals" if standing is YES else ""


def professional(event: PerformanceFacts) -> Verdict:
    """Return whether the players are professionals, by what the notes say; a student recital is not."""
    said = plain(event.notes)
    if event.kind is PerformanceKind.STUDENT_RECITAL or has(AMATEUR, said) or has(STUDENT, said):
        return NO
    return YES if has(PROFESSIONAL, said) else CANNOT_TELL


def is_orchestra(event: PerformanceFacts) -> bool:
    names = " ".join([one.name for one in event.performers])
    return names_orchestra(f"{event.notes} {names}")


@lru_cache(maxsize=4096)
def names_orchestra(said: str) -> bool:
    """Whether an orchestra is named; most evenings of a catalogue are played by the same few."""
    return has(ORCHESTRA, plain(said))


def was_played(one: Candidate) -> Iterator[Played]:
    return (played for played in one.played if played.event.status is PerformanceStatus.GIVEN)


def live_recording(one: Candidate) -> Judged:
    """Judge a call that demands a live recording: of a work that was never played there can be none."""
    first = next(was_played(one), None)
    if first is None:
        return Judged("recording", NO, "It was never played, so there is no live recording.", one.record)
    return Judged(
        "recording",
        YES,
        f"{told(first.event)}; a recording of a performance can exist.",
        Record("performance", first.event.id),
    )
