"""The papers of a submission that say what is sent: a cover sheet for all of it, and a cover for an anonymous score.

A cover sheet names the call, who sends it (or the motto that stands for the name), each work with its length and its
forces, which part of a recording is to be heard, and the files in their order (common practice).
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date

from catalogue.documents.contents.dates import day_text, year_text
from catalogue.documents.contents.forces import described, forces_line
from catalogue.documents.contents.selection import duration_text
from catalogue.documents.contents.titles import full_title
from catalogue.documents.contents.works_list import capitalised
from catalogue.documents.labels import Labels, labels
from catalogue.documents.model import (
    Block,
    Document,
    Entry,
    Line,
    Lines,
    Opening,
    Pair,
    Pairs,
    Paper,
    Section,
    Text,
    joined,
    value,
    wording,
)
from catalogue.facts import WorkFacts
from catalogue.rules.calls.figures_of_works import clock
from catalogue.rules.calls.submissions import CUT, SentWork, SubmissionFacts
from catalogue.timing import Duration, write_duration


@dataclass(frozen=True, slots=True)
class Setting:
    """The language and paper of a pack, and the day of it."""

    language: str
    paper: Paper
    printed_on: date


def cover_sheet(submission: SubmissionFacts, files: Sequence[str], setting: Setting) -> Document:
    """Tell what is sent to a call and under which name."""
    says = labels(setting.language)
    title = submission.title or says.word("Submission")
    return Document(
        kind="cover-sheet",
        title=title,
        author=submission.signed,
        language=says.language,
        paper=setting.paper,
        blocks=(
            Opening(value(title), value(submission.signed), subtitle=value(submission.call.organiser)),
            *sender(submission, says),
            *works_sent(submission, says),
            *enclosed(files, says),
        ),
        running=(value(submission.signed), value(title)),
        dated=wording(day_text(setting.printed_on, says.language)),
    )


def sender(submission: SubmissionFacts, says: Labels) -> tuple[Block, ...]:
    """How the composer is reached; of an anonymous submission the motto alone."""
    person = submission.composer
    if submission.call.anonymous:
        facts: tuple[tuple[str, Text], ...] = (("Motto", value(submission.motto)),)
    else:
        facts = (
            ("Composer", value(person.name)),
            ("Email", value(person.email, exact=True)),
            ("Telephone", value(person.telephone)),
            ("Address", value(" ".join(person.address.split()))),
        )
    pairs = tuple(Pair(wording(says.word(label)), text) for label, text in facts if text)
    return (Pairs((pairs,)),) if pairs else ()


def works_sent(submission: SubmissionFacts, says: Labels) -> tuple[Block, ...]:
    entries = tuple(entry(one, says) for one in submission.works)
    lengths = [one.work.duration.seconds for one in submission.works if one.work.duration]
    whole = len(lengths) == len(entries) > 1
    total = says.say("{duration} together", duration=write_duration(Duration(sum(lengths)))) if whole else ()
    return (Section(wording(says.word("Works")), entries, aside=total),) if entries else ()


def entry(sent: SentWork, says: Labels) -> Entry:
    work = sent.work
    details = (capitalised(described(work, says)), forces_line(work, says), heard(sent, says))
    return Entry(
        title=full_title(work.title),
        year=wording(year_text(work, "")),
        figure=duration_text(work, says, approximate_list=False),
        details=tuple(text for text in details if text),
    )


def heard(sent: SentWork, says: Labels) -> Text:
    """Which part of the recording is enclosed or to be heard, where it is not all of it."""
    recording, sound = sent.recording, sent.sound
    if recording is None or (recording.excerpt_from is None and recording.excerpt_until is None):
        return ()
    if sound is None and not recording.address:
        return ()
    begins, ends = clock(recording.excerpt_from or 0), recording.excerpt_until
    if sound is not None and sound.suffix in CUT:
        if ends is None:
            return says.say("An excerpt from {begins} on", begins=begins)
        return says.say("An excerpt from {begins} to {ends}", begins=begins, ends=clock(ends))
    if ends is None:
        return says.say("To be heard from {begins}", begins=begins)
    return says.say("To be heard from {begins} to {ends}", begins=begins, ends=clock(ends))


def enclosed(files: Sequence[str], says: Labels) -> tuple[Block, ...]:
    lines = tuple(Line("", value(name, exact=True)) for name in files)
    return (Section(wording(says.word("Enclosed")), (Lines(lines),)),) if lines else ()


def score_cover(work: WorkFacts, signed: str, setting: Setting) -> Document:
    """A score's first page under the name that it goes by: title, forces, length, and nothing that tells more."""
    says = labels(setting.language)
    figure = duration_text(work, says, approximate_list=False)
    below = joined((described(work, says), wording(year_text(work, "")), figure), "\N{EM SPACE}")
    return Document(
        kind="score-cover",
        title=work.title.title,
        author=signed,
        language=says.language,
        paper=setting.paper,
        blocks=(Opening(full_title(work.title), value(signed), subtitle=below),),
        running=(value(signed), ()),
    )
