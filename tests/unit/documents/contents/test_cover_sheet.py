"""What a jury or an office reads on the first sheet of a pack, as questions to be answered with yes or no."""

from __future__ import annotations

from dataclasses import replace
from datetime import date

import pytest

from catalogue.benches.invented import COMPOSER, work
from catalogue.documents.contents.cover_sheet import Setting, cover_sheet, score_cover
from catalogue.documents.model import Document, Paper
from catalogue.documents.renderers.plain import render_plain
from catalogue.facts import RecordingFacts
from catalogue.rules.calls.submissions import FileFacts, SentWork, SubmissionFacts
from catalogue.rules.calls.terms import Call
from catalogue.terms import FileKind
from catalogue.timing import Duration

SETTING = Setting("en-GB", Paper.A4, date(2027, 3, 1))
PERSON = replace(COMPOSER, email="post@example.org", telephone="01632 960100")
HEARD = RecordingFacts(1, "A trio", id=5, excerpt_from=80, excerpt_until=240, address="https://trio.example/rope")


@pytest.fixture
def submission() -> SubmissionFacts:
    works = tuple(replace(work(number), duration=Duration(600 + number)) for number in (1, 2))
    sent = (SentWork(works[0], recordings=(HEARD,)), SentWork(works[1]))
    return SubmissionFacts(Call(organiser="Lowmarsh"), PERSON, title="Lowmarsh Prize", motto="Grey Heron", works=sent)


def told(document: Document) -> str:
    return render_plain(document).decode()


def test_a_cover_sheet_answers_who_what_how_long_and_what_is_enclosed(submission: SubmissionFacts) -> None:
    text = told(cover_sheet(submission, ["Score: A", "Note: A"], SETTING))

    asked = (PERSON.name, PERSON.email, "Lowmarsh Prize", submission.works[0].work.title.title, "10′01″", "10′02″",
             "20′03″ together", "To be heard from 1′20″ to 4′", "Enclosed", "Note: A", "1 March 2027")  # fmt: skip
    assert [one for one in asked if one not in text.replace("\N{NO-BREAK SPACE}", " ")] == []


@pytest.mark.parametrize(
    ("suffix", "words"),
    [("wav", "An excerpt from 1′20″ to 4′"), ("ogg", "To be heard from 1′20″ to 4′"), ("", "")],
    ids=["cut here", "sent whole", "not enclosed"],
)
def test_a_file_that_is_cut_is_told_as_an_excerpt(submission: SubmissionFacts, suffix: str, words: str) -> None:
    files = (FileFacts(1, FileKind.RECORDING, "0" * 64, suffix, 9, recording_id=5),) if suffix else ()
    sent = replace(submission.works[0], recordings=(replace(HEARD, address=""),), files=files)

    text = told(cover_sheet(replace(submission, works=(sent,)), [], SETTING)).replace("\N{NO-BREAK SPACE}", " ")

    found = [one for one in ("An excerpt from 1′20″ to 4′", "To be heard from 1′20″ to 4′") if one in text]
    assert found == ([words] if words else [])


def test_an_anonymous_cover_sheet_names_the_motto_alone(submission: SubmissionFacts) -> None:
    document = cover_sheet(replace(submission, call=Call(anonymous=True)), [], SETTING)

    assert "Grey Heron" in told(document)
    assert document.author == "Grey Heron"
    assert not any(one in told(document) for one in (PERSON.name, PERSON.email, PERSON.telephone))


def test_nothing_that_is_not_known_is_printed(submission: SubmissionFacts) -> None:
    bare = replace(submission, works=(), composer=replace(PERSON, email="", telephone=""))

    text = told(cover_sheet(bare, [], SETTING))

    assert not any(word in text for word in ("Works", "Enclosed", "Email", "Telephone", "together"))


def test_a_cover_of_a_score_says_no_more_than_title_forces_year_and_length(submission: SubmissionFacts) -> None:
    sent = submission.works[0].work

    lines = told(score_cover(sent, "Grey Heron", SETTING)).split("\n")

    assert any("Grey Heron" in line for line in lines)
    assert PERSON.name not in "\n".join(lines)
