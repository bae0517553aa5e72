"""/c/<composer>/calls/<call>/pack/: what is in a pack and what lacks, its archive, the referees, what was sent."""

from __future__ import annotations

import zipfile
from io import BytesIO

import pikepdf
from django.core.files.storage import default_storage
from django.db import connection
from django.test import Client
from django.test.utils import CaptureQueriesContext
from django.utils import timezone

from catalogue.actions.calls import choose_works, propose_call
from catalogue.exchange.pdf_text import page_text
from catalogue.exchange.sent_files import keep_sent
from catalogue.gathering.checks import parted_files
from catalogue.models import Call, Composer, Referee, StoredFile, Submission, Work
from catalogue.terms import FileKind, SubmissionStatus
from tests.makers import NOW, make_recording, make_work
from tests.unit.exchange.test_score_covers import pdf_of, widths
from tests.web.pages import Page

ADDRESS = "/c/ilka-marovand/calls/"
DEGREE = """University of Lowmarsh: Doctor of Music in composition
Submit two contrasting works, score and recording of each.
Also needed: a note of at most 12 words on each work, a statement, two academic referees, transcripts.
Closing date: 20 March 2027, noon, UK time."""
ANONYMOUS = """Lowmarsh Prize for Orchestra
Entries are anonymous: a motto on the score, no name. Send the score and a note of at most 40 words, and a biography.
Deadline: 20 March 2027."""
NOTE = "Eight ropes pull at once. " + "They give way again. " * 6


def make_call(composer: Composer, text: str, *titles: str, note: str = NOTE) -> Call:
    call = propose_call(composer=composer, text=text, now=NOW)
    works = [make_work(title, composer=composer, programme_note=note, duration="9'") for title in titles]
    choose_works(call=call, works=works)
    return call


def rows_of(page: Page) -> list[list[str]]:
    return [[" ".join(cell.text_content().split()) for cell in row] for row in page.tree.xpath("//tbody/tr")]


def archive_of(answer: object) -> zipfile.ZipFile:
    content = b"".join(answer.streaming_content)  # type: ignore[attr-defined]
    assert answer.headers["Content-Length"] == str(len(content))  # type: ignore[attr-defined]
    return zipfile.ZipFile(BytesIO(content))


def test_every_thing_that_is_asked_for_has_its_state(browser: Client, composer: Composer) -> None:
    call = make_call(composer, DEGREE, "Slack Rope")

    page = Page(browser.get(f"{ADDRESS}{call.pk}/pack/"))

    found = {(row[0], row[2].partition(".")[0]) for row in rows_of(page)}
    assert found == {
        ("Score", "Missing"),
        ("Recording", "Missing"),
        ("Note", "In the pack"),
        ("Statement", "Missing"),
        ("Referees", "Missing"),
        ("Certificates", "To be done"),
    }
    assert "1 of at least 2 works are chosen." in page.text()


def test_a_note_is_cut_at_a_sentence_to_the_words_that_are_allowed(browser: Client, composer: Composer) -> None:
    call = make_call(composer, DEGREE, "Slack Rope")

    (row,) = [row for row in rows_of(Page(browser.get(f"{ADDRESS}{call.pk}/pack/"))) if row[0] == "Note"]

    assert row[2:] == ["In the pack. 9 words, shortened from 29 of 12 allowed.", "01-note-Slack-Rope.pdf"]


def test_the_archive_holds_the_files_under_their_names(browser: Client, composer: Composer) -> None:
    call = make_call(composer, DEGREE, "Slack Rope", "Long Rope")
    browser.post(f"{ADDRESS}{call.pk}/pack/prepare/", {"statement": "I write for ropes.", "by_hand": ["certificates"]})

    archive = archive_of(browser.get(f"{ADDRESS}{call.pk}/pack/file/"))

    assert archive.namelist() == [
        "01-cover-sheet.pdf",
        "02-note-Slack-Rope.pdf",
        "03-note-Long-Rope.pdf",
        "04-statement.pdf",
    ]
    assert all(archive.read(name).startswith(b"%PDF") for name in archive.namelist())
    assert Submission.objects.get(call=call).by_hand == ["certificates"]


def test_an_anonymous_pack_goes_under_its_motto_and_leaves_out_what_names_the_composer(
    browser: Client, composer: Composer
) -> None:
    call = make_call(composer, ANONYMOUS, "Slack Rope")
    assert "no motto is chosen" in Page(browser.get(f"{ADDRESS}{call.pk}/pack/")).text()

    browser.post(f"{ADDRESS}{call.pk}/pack/prepare/", {"motto": "Grey Heron", "statement": ""})
    page = Page(browser.get(f"{ADDRESS}{call.pk}/pack/?made"))

    assert {(row[0], row[2].partition(".")[0]) for row in rows_of(page)} >= {("Biography", "Left out")}
    assert "Nothing was found that names you." in page.text()
    archive = archive_of(browser.get(f"{ADDRESS}{call.pk}/pack/file/"))
    assert archive.namelist() == ["01-note-Slack-Rope.pdf"]


def test_a_pack_that_names_the_composer_is_not_handed_out(browser: Client, composer: Composer) -> None:
    call = make_call(composer, ANONYMOUS, "Slack Rope", note="Ilka Marovand pulls ropes.")
    browser.post(f"{ADDRESS}{call.pk}/pack/prepare/", {"motto": "Grey Heron", "statement": ""})

    answer = browser.get(f"{ADDRESS}{call.pk}/pack/file/")

    assert answer.headers["Location"] == f"{ADDRESS}{call.pk}/pack/?made#names"
    assert "Ilka Marovand pulls ropes" in Page(browser.get(f"{ADDRESS}{call.pk}/pack/?made")).text()
    assert browser.get(f"{ADDRESS}{call.pk}/pack/file/?anyway").status_code == 200


def test_what_was_sent_is_kept_as_it_was(browser: Client, composer: Composer) -> None:
    call = make_call(composer, DEGREE, "Slack Rope")

    browser.post(f"{ADDRESS}{call.pk}/pack/send/")

    submission = Submission.objects.get(call=call)
    assert submission.status == SubmissionStatus.SENT
    assert [one["name"] for one in submission.sent_files] == ["01-note-Slack-Rope.pdf"]
    answer = browser.get(f"{ADDRESS}{call.pk}/pack/sent/1/")
    assert len(answer.content) == submission.sent_files[0]["bytes"]
    kept = str(submission.sent_files[0]["sha256"])
    assert [one for one in parted_files() if kept in one.title] == []


def test_referees_are_asked_and_their_letters_received(browser: Client, composer: Composer) -> None:
    call, at = make_call(composer, DEGREE, "Slack Rope"), ADDRESS

    browser.post(f"{at}{call.pk}/pack/referees/", {"name": "Ada Lunn", "institution": "Ferry School"})
    browser.post(f"{at}{call.pk}/pack/referees/", {"name": "Bo Lind"})
    first, second = Submission.objects.get(call=call).references.order_by("pk")
    days = {f"asked_on-{first.pk}": "2027-01-05", f"received_on-{first.pk}": "2027-01-20"}
    browser.post(f"{at}{call.pk}/pack/referees/", {**days, f"gone-{second.pk}": "on"})

    (row,) = [row for row in rows_of(Page(browser.get(f"{at}{call.pk}/pack/"))) if row[0] == "Referees"]
    assert row[2] == "Missing. 1 of 2 letters received. Ask 1 more. Begin by 18 Feb 2027."
    assert Referee.objects.filter(composer=composer).count() == 2
    assert [one.referee.name for one in Submission.objects.get(call=call).references.all()] == ["Ada Lunn"]


def test_statement_and_choices_are_taken_over_from_an_earlier_one(browser: Client, composer: Composer) -> None:
    first, second = make_call(composer, DEGREE, "Slack Rope"), make_call(composer, DEGREE, "Long Rope")
    browser.post(f"{ADDRESS}{first.pk}/pack/prepare/", {"statement": "I write for ropes."})
    earlier = Submission.objects.get(call=first)

    browser.post(f"{ADDRESS}{second.pk}/pack/reuse/", {"earlier": earlier.pk})

    assert Submission.objects.get(call=second).statement == "I write for ropes."


def test_a_chosen_work_that_does_not_answer_the_call_is_told_on_both_pages(browser: Client, composer: Composer) -> None:
    call = make_call(composer, f"{ANONYMOUS}\nLength: at most 8 minutes.", "Slack Rope")

    told = [Page(browser.get(f"{ADDRESS}{call.pk}/{path}")).text() for path in ("", "pack/")]

    assert "It does not answer: 9′; the call asks for at most 8′." in told[0]
    assert "“Slack Rope” does not answer the call: 9′; the call asks for at most 8′." in told[1]


def test_number_of_queries_does_not_grow_with_the_works(browser: Client, composer: Composer) -> None:
    counts = []
    for titles in (("Rope 1",), ("Rope 2", "Rope 3", "Rope 4")):
        call = make_call(composer, DEGREE, *titles)
        with CaptureQueriesContext(connection) as asked:
            browser.get(f"{ADDRESS}{call.pk}/pack/")
        counts.append(len(asked))
    assert counts[0] == counts[1]


def keep_file(work: Work, kind: FileKind, content: bytes, suffix: str, **columns: object) -> StoredFile:
    digest = keep_sent(content, suffix, default_storage)
    told = {"original_name": f"take 1.{suffix}", "sha256": digest, "suffix": suffix, "byte_count": len(content)}
    return StoredFile.objects.create(composer=work.composer, work=work, kind=kind.value, **told, **columns)


def test_scores_and_recordings_are_taken_from_the_files_that_are_kept(browser: Client, composer: Composer) -> None:
    call = make_call(composer, DEGREE, "Slack Rope")
    work = Work.objects.get(title="Slack Rope")
    keep_file(work, FileKind.SCORE, b"%PDF-1.7 first", "pdf")
    keep_file(work, FileKind.SCORE, b"%PDF-1.7 second", "pdf", version="2")
    recording = make_recording(work, kind="live", excerpt_from=60, excerpt_until=120)
    keep_file(work, FileKind.RECORDING, b"ID3 sound", "mp3", recording=recording)

    page = Page(browser.get(f"{ADDRESS}{call.pk}/pack/"))

    told = {row[0]: (row[2], row[3]) for row in rows_of(page)}
    assert told["Score"] == ("In the pack. take 1.pdf, 2.", "02-score-Slack-Rope.pdf")
    heard = "In the pack. take 1.mp3, cut from 1′ to 2′."
    assert told["Recording"] == (heard, "03-recording-Slack-Rope.mp3")
    archive = archive_of(browser.get(f"{ADDRESS}{call.pk}/pack/file/"))
    assert archive.read("02-score-Slack-Rope.pdf") == b"%PDF-1.7 second"


def test_an_anonymous_score_goes_under_a_cover_with_the_motto(browser: Client, composer: Composer) -> None:
    call = make_call(composer, ANONYMOUS, "Slack Rope")
    work = Work.objects.get(title="Slack Rope")
    keep_file(work, FileKind.SCORE, pdf_of(101, 102, author="Ilka Marovand"), "pdf")
    browser.post(
        f"{ADDRESS}{call.pk}/pack/prepare/", {"motto": "Grey Heron", "statement": "", f"cover_pages-{work.pk}": "1"}
    )

    archive = archive_of(browser.get(f"{ADDRESS}{call.pk}/pack/file/"))

    content = archive.read("02-score-Slack-Rope.pdf")
    assert widths(content)[1:] == [102]
    with pikepdf.open(BytesIO(content)) as score:
        assert "Grey Heron" in page_text(score.pages[0])


def test_programmes_stand_side_by_side(browser: Client, composer: Composer) -> None:
    make_call(composer, DEGREE, "Slack Rope")
    make_call(composer, DEGREE.replace("Lowmarsh", "Eastmere").replace("two acad", "three acad"), "Long Rope")

    page = Page(browser.get(f"{ADDRESS}degrees/"))

    told = {row[0]: row[1:] for row in rows_of(page)}
    assert len(page.tree.xpath("//thead//a")) == 2
    assert told["Works"] == ["missing 1 chosen 2", "missing 1 chosen 2"]
    assert told["Score"] == ["missing 0 of 1", "missing 0 of 1"]
    assert told["Note"] == ["there 1 of 1 12 words", "there 1 of 1 12 words"]
    assert told["Referees"] == ["missing 0 of 3 letters received. 3", "missing 0 of 2 letters received. 2"]


def test_number_of_queries_of_side_by_side_does_not_grow_with_the_programmes(
    browser: Client, composer: Composer
) -> None:
    counts = []
    for number in (1, 2):
        for index in range(number):
            make_call(composer, DEGREE, f"Rope {number} {index}")
        with CaptureQueriesContext(connection) as asked:
            browser.get(f"{ADDRESS}degrees/")
        counts.append(len(asked))
    assert counts[0] == counts[1]


def test_outcomes_are_told_by_call_and_by_work(browser: Client, composer: Composer) -> None:
    call = make_call(composer, DEGREE, "Slack Rope")
    typed = {"status": "not chosen", "sent_on": "2026-03-01", "decided_on": "2026-05-01", "outcome": "Shortlisted"}
    browser.post(f"{ADDRESS}{call.pk}/sent/", {**typed, "feedback": "Fine ropes."})

    page = Page(browser.get(f"{ADDRESS}outcomes/"))

    (row,) = rows_of(page)
    assert row[1:] == ["Slack Rope", "1 Mar 2026", "1 May 2026", "Not chosen. Shortlisted Fine ropes."]
    assert "1 not chosen." in page.text()


def test_today_tells_what_lacks_a_month_before(browser: Client, composer: Composer) -> None:
    call = make_call(composer, DEGREE.replace("March 2027", "March 2026"), "Slack Rope")

    page = Page(browser.get("/c/ilka-marovand/"))

    (told,) = page.texts(f"//a[@href='{ADDRESS}{call.pk}/pack/']")
    assert told == "6 things are missing."


def test_later_decision_of_somebody_else_stands_beside_ones_own_and_is_not_written_over(
    browser: Client, composer: Composer
) -> None:
    call = make_call(composer, ANONYMOUS, "Slack Rope")
    seen = decided(Page(browser.get(f"{ADDRESS}{call.pk}/pack/")))
    browser.post(f"{ADDRESS}{call.pk}/pack/prepare/", seen | {"statement": "I write for ropes."})

    page = Page(browser.post(f"{ADDRESS}{call.pk}/pack/prepare/", seen | {"statement": "Ropes write for me."}))

    assert "since you opened it" in page.text("//*[@id='conflict-heading']")
    assert page.texts("//dd[@class='versions']/div") == ["Saved I write for ropes.", "Yours Ropes write for me."]
    assert Submission.objects.get().statement == "I write for ropes."
    browser.post(f"{ADDRESS}{call.pk}/pack/prepare/", decided(page))
    assert (Submission.objects.get().statement, Submission.objects.get().saves) == ("Ropes write for me.", 2)


def test_what_is_sent_or_taken_over_counts_as_a_save(browser: Client, composer: Composer) -> None:
    first, call = make_call(composer, DEGREE), make_call(composer, ANONYMOUS, "Slack Rope")
    browser.post(f"{ADDRESS}{first.pk}/pack/prepare/", {"statement": "I write for ropes."})
    seen = decided(Page(browser.get(f"{ADDRESS}{call.pk}/pack/")))

    browser.post(f"{ADDRESS}{call.pk}/pack/reuse/", {"earlier": Submission.objects.get(call=first).pk})
    page = Page(browser.post(f"{ADDRESS}{call.pk}/pack/prepare/", seen))

    assert page.tree.xpath("//*[@id='conflict-heading']")
    browser.post(f"{ADDRESS}{call.pk}/pack/send/")
    stored = Submission.objects.get(call=call)
    assert (stored.statement, stored.status, stored.saves) == ("I write for ropes.", SubmissionStatus.SENT, 2)
    assert stored.changed_at == timezone.now()


def decided(page: Page) -> dict[str, str]:
    (form,) = page.tree.xpath("//form[@data-keep]")
    return {name: (value or "").lstrip("\n") for name, value in form.form_values()}
