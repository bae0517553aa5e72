"""What of a submission breaks a rule of its call whatever its files are: numbers, minutes, mottos, leave to send."""

from __future__ import annotations

from collections.abc import Collection, Iterator

from catalogue.rules.calls.choosing import RECKONED, classes_of
from catalogue.rules.calls.packs import Breach
from catalogue.rules.calls.screening import Screening
from catalogue.rules.calls.submissions import SentWork, SubmissionFacts, heard_seconds
from catalogue.rules.calls.terms import RecordingRule
from catalogue.rules.calls.verdicts import Verdict
from catalogue.terms import Permission, RecordingKind


def of_the_whole(submission: SubmissionFacts) -> Iterator[Breach]:
    """Yield every rule that is broken, with what would mend it."""
    call, works = submission.call, submission.works
    if call.anonymous and not submission.motto:
        yield Breach("The call is anonymous and no motto is chosen.", "Choose one below.")
    if works and call.works_min and len(works) < call.works_min:
        yield Breach(f"{len(works)} of at least {call.works_min} works are chosen.", "Choose more.")
    if call.works_max and len(works) > call.works_max:
        yield Breach(f"{len(works)} works are chosen; {call.works_max} are the most.", "Let one go.")
    yield from minutes(submission)
    yield from kinds(submission)
    for sent in works:
        yield from of_recording(sent, submission)


def unanswering(found: Screening, chosen: Collection[int]) -> Iterator[Breach]:
    """Yield the chosen works, by their numbers, that do not answer the call, with all that stands against each."""
    for one in found.works:
        if one.work.id in chosen and one.verdict is Verdict.NO:
            against = " ".join(dict.fromkeys(judged.reason for judged in one.deciding))
            yield Breach(
                f"“{one.work.title.title}” does not answer the call: {against}", "Leave it out, or correct its record."
            )


def minutes(submission: SubmissionFacts) -> Iterator[Breach]:
    call = submission.call
    lengths = [one.work.duration.seconds for one in submission.works if one.work.duration]
    if not submission.works or not (call.total_min or call.total_max):
        return
    if len(lengths) < len(submission.works):
        yield Breach("The works’ minutes cannot be added up: a duration is missing.", "Enter it.")
    total = sum(lengths)
    if call.total_max and total > call.total_max:
        yield Breach(f"The works last {total // 60} minutes together; {call.total_max // 60} are the most.")
    if call.total_min and total < call.total_min and len(lengths) == len(submission.works):
        yield Breach(f"The works last {total // 60} minutes together; {call.total_min // 60} are the least.")


def kinds(submission: SubmissionFacts) -> Iterator[Breach]:
    """Yield the kinds of works that the call asks for and that are not among those sent."""
    works, rules = submission.works, submission.call.set_rules
    if not works:
        return
    for rule in dict.fromkeys(rules):
        if rule.kind in RECKONED:
            found = sum(rule.kind in classes_of(one.work, rules, int(one.was_played)) for one in works)
            if found < rule.least:
                yield Breach(
                    f"{found} of the works {is_or_are(found)} of the kind “{rule.kind}”; {rule.least} must be."
                )
    if any(rule.kind == "contrasting" for rule in rules) and len({one.work.category for one in works}) == 1 < len(
        works
    ):
        yield Breach("All the works are of one category; the call asks for contrast.")


def is_or_are(number: int) -> str:
    return "is" if number == 1 else "are"


def of_recording(sent: SentWork, submission: SubmissionFacts) -> Iterator[Breach]:
    found, call = sent.recording, submission.call
    if found is None or call.recording in (None, RecordingRule.FORBIDDEN, RecordingRule.NOT_WANTED):
        return
    title = sent.work.title.title
    if found.permission is Permission.REFUSED:
        yield Breach(f"The players have refused that the recording of “{title}” is sent.", "Choose another.")
    if call.recording_live and found.kind is not RecordingKind.LIVE:
        yield Breach(f"The recording of “{title}” is {found.kind}; the call asks for a live one.", "Choose another.")
    seconds = heard_seconds(found)
    if call.portal.excerpt and seconds and seconds > call.portal.excerpt:
        yield Breach(f"The recording of “{title}” is longer than allowed.", "Give its excerpt in and out times.")
