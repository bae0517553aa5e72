"""/c/<composer>/records/files/ — files of works: sent along, looked at, taken away whole or in part."""

from __future__ import annotations

from hashlib import sha256
from typing import Any

import pytest
from django.core.files.storage import default_storage
from django.core.files.uploadedfile import SimpleUploadedFile
from django.test import Client

from catalogue.exchange import file_formats
from catalogue.exchange.pictures import stored_name
from catalogue.models import Composer, Edition, StoredFile, TechnicalSetup, Work
from catalogue.terms import FileKind
from catalogue.web import uploads
from catalogue.web.byte_ranges import Unsatisfiable, asked_range
from tests.makers import make_recording, make_work
from tests.record_makers import make_record
from tests.unit.exchange.hostile_uploads import pdf_with
from tests.unit.exchange.waves import wave_file
from tests.web.pages import Page

ROOT = "/c/ilka-marovand/records/files/"
WHOLE = b"MThd\0\0\0\x06" + bytes(range(92))


@pytest.fixture
def work(composer: Composer) -> Work:
    return make_work("Ash Ferry", composer=composer)


def sent(content: bytes = WHOLE, name: str = "Ash Ferry.mid") -> SimpleUploadedFile:
    return SimpleUploadedFile(name, content, "text/html")


def upload_form(browser: Client, record: Edition) -> dict[str, Any]:
    """Return what the form on the page of an edition sends."""
    page = Page(browser.get(f"/c/ilka-marovand/records/editions/{record.pk}/"))
    (form,) = page.tree.xpath("//section[@id='files']//form")
    return dict(form.form_values())


@pytest.fixture
def kept(browser: Client, work: Work) -> StoredFile:
    browser.post(f"{ROOT}new/", {"kind": "score", "work": work.pk, "file": sent()})
    return StoredFile.objects.get()


def test_file_sent_to_an_edition_is_kept_as_it_came_and_listed_there_and_at_the_work(
    browser: Client, work: Work
) -> None:
    edition = make_record(Edition, work=work)
    typed = upload_form(browser, edition)

    answers = [browser.post(f"{ROOT}new/", {**typed, "file": sent(name="../a\u202eb.mid")}) for _each in range(2)]
    (made,) = StoredFile.objects.all()

    assert {answer.headers["Location"] for answer in answers} == {f"{ROOT}{made.pk}/"}
    assert (made.work, made.edition, made.kind, made.original_name) == (work, edition, FileKind.SCORE, "ab.mid")
    assert (made.suffix, made.byte_count, made.sha256) == ("mid", 100, sha256(WHOLE).hexdigest())
    assert default_storage.open(stored_name(made.sha256, "mid")).read() == WHOLE
    for page in (f"/c/ilka-marovand/records/editions/{edition.pk}/", f"/c/ilka-marovand/works/{work.pk}/"):
        assert f"{ROOT}{made.pk}/" in Page(browser.get(page)).values("//main//a/@href")


def test_file_is_taken_away_as_a_file_and_never_opened_as_a_page(browser: Client, kept: StoredFile) -> None:
    answer = browser.get(f"{ROOT}{kept.pk}/file/")

    assert b"".join(answer.streaming_content) == WHOLE
    assert {name: answer.headers[name] for name in (
        "Content-Type", "Content-Length", "Content-Disposition", "X-Content-Type-Options", "Content-Security-Policy",
        "Cache-Control", "Cross-Origin-Resource-Policy", "Accept-Ranges", "ETag",
    )} == {
        "Content-Type": "audio/midi",
        "Content-Length": "100",
        "Content-Disposition": 'attachment; filename="Ash Ferry.mid"',
        "X-Content-Type-Options": "nosniff",
        "Content-Security-Policy": "default-src 'none'; frame-ancestors 'none'; sandbox",
        "Cache-Control": "private, no-store",
        "Cross-Origin-Resource-Policy": "same-origin",
        "Accept-Ranges": "bytes",
        "ETag": f'"{kept.sha256}"',
    }  # fmt: skip


@pytest.mark.parametrize(
    ("asked", "status", "told", "content"),
    [
        ({"Range": "bytes=0-3"}, 206, "bytes 0-3/100", WHOLE[:4]),
        ({"Range": "bytes=96-"}, 206, "bytes 96-99/100", WHOLE[96:]),
        ({"Range": "bytes=-2"}, 206, "bytes 98-99/100", WHOLE[98:]),
        ({"Range": "bytes=90-500"}, 206, "bytes 90-99/100", WHOLE[90:]),
        ({"Range": "bytes=100-"}, 416, "bytes */100", b""),
        ({"Range": "bytes=-0"}, 416, "bytes */100", b""),
        ({"Range": "bytes=0-1,4-5"}, 200, None, WHOLE),
        ({"Range": "lines=0-1"}, 200, None, WHOLE),
        ({"Range": "bytes=0-3", "If-Range": '"another"'}, 200, None, WHOLE),
    ],
)
def test_range_of_a_file_is_sent_where_one_is_asked_for(
    browser: Client, kept: StoredFile, asked: dict[str, str], status: int, told: str | None, content: bytes
) -> None:
    answer = browser.get(f"{ROOT}{kept.pk}/file/", headers=asked)

    assert (answer.status_code, answer.headers.get("Content-Range")) == (status, told)
    assert (b"".join(answer.streaming_content) if answer.streaming else answer.content) == content


def test_file_is_not_sent_to_who_has_it_or_asks_only_for_its_head(browser: Client, kept: StoredFile) -> None:
    same = browser.get(f"{ROOT}{kept.pk}/file/", headers={"If-None-Match": f'"{kept.sha256}"'})
    head = browser.head(f"{ROOT}{kept.pk}/file/")

    assert (same.status_code, same.content) == (304, b"")
    assert (head.status_code, head.headers["Content-Length"], b"".join(head.streaming_content)) == (200, "100", b"")


def test_range_that_nobody_could_mean_is_the_whole_file_or_none() -> None:
    with pytest.raises(Unsatisfiable):
        asked_range("bytes=0-", 0)
    assert asked_range("bytes=5-2", 100) is None


def test_file_that_is_gone_is_told_as_not_there(browser: Client, kept: StoredFile) -> None:
    default_storage.delete(stored_name(kept.sha256, "mid"))

    assert browser.get(f"{ROOT}{kept.pk}/file/").status_code == 404
    assert browser.get(f"{ROOT}{kept.pk}/").status_code == 200


@pytest.mark.parametrize(
    ("content", "name", "told"),
    [
        (b"<script>alert(1)</script>", "score.pdf", "This is none of the files that are kept here"),
        (b"PK\x03\x04", "score.pdf", "By its name this file is PDF, by its content ZIP archive"),
        (b"", "score.pdf", "The submitted file is empty"),
        (WHOLE, "large.pdf", "This file is larger than 0 MB, the most for one of its kind."),
    ],
)
def test_file_that_is_not_kept_is_told_and_nothing_typed_is_lost(
    browser: Client, work: Work, monkeypatch: pytest.MonkeyPatch, content: bytes, name: str, told: str
) -> None:
    if name == "large.pdf":
        small = file_formats.FileFormat("pdf", "PDF", "application/pdf", 99, ("pdf",))
        monkeypatch.setattr(uploads, "format_of", lambda head, name: small)

    page = Page(browser.post(f"{ROOT}new/", {"kind": "score", "version": "2", "file": sent(content, name)}))

    (reason,) = page.texts("//*[@id='id_file_error']/p")
    assert reason.startswith(told)
    assert page.field("version") == "2"
    assert StoredFile.objects.count() == 0


def test_edition_of_another_work_is_refused(browser: Client, work: Work, composer: Composer) -> None:
    edition = make_record(Edition, work=make_work("Salt", composer=composer))

    page = Page(browser.post(f"{ROOT}new/", {"kind": "score", "work": work.pk, "edition": edition.pk, "file": sent()}))
    browser.post(f"{ROOT}new/", {"kind": "score", "edition": edition.pk, "file": sent()})

    assert len(page.texts("//*[@id='id_edition_error']/p")) == 1
    assert StoredFile.objects.get().work == edition.work


def test_file_is_named_anew_but_not_put_in_the_place_of_another(browser: Client, kept: StoredFile) -> None:
    at = f"{ROOT}{kept.pk}/edit/"
    page = Page(browser.get(at))

    browser.post(
        at, {"kind": "parts", "name": "Parts", "work": kept.work_id, "saves": kept.saves, "file": sent(b"RIFF")}
    )
    kept.refresh_from_db()

    assert page.tree.xpath("//input[@type='file']") == []
    assert (str(kept), kept.kind, kept.sha256) == ("Parts", "parts", sha256(WHOLE).hexdigest())


# ---- what is in a file


def pairs(page: Page) -> list[tuple[str, str]]:
    return list(zip(page.texts("//dl/div/dt"), page.texts("//dl/div/dd"), strict=True))


@pytest.mark.parametrize(("chosen", "kept"), [("score", "recording"), ("parts", "recording"), ("programs", "programs")])
def test_what_sounds_is_kept_as_no_score(browser: Client, work: Work, chosen: str, kept: str) -> None:
    browser.post(
        f"{ROOT}new/", {"kind": chosen, "work": work.pk, "file": sent(wave_file().getvalue(), "Ash Ferry.wav")}
    )

    assert StoredFile.objects.get().kind == kept


def test_sound_of_a_setup_says_what_it_is_and_what_does_not_agree(browser: Client, work: Work) -> None:
    setup = make_record(TechnicalSetup, work=work, sample_rate=44_100, media="tape.wav; 2 channels; 0:03")
    content = wave_file(48_000, channels=1, sample_rate=48_000).getvalue()
    browser.post(f"{ROOT}new/", {"kind": "media", "setup": setup.pk, "file": sent(content, "tape.wav")})
    (made,) = StoredFile.objects.all()

    page = Page(browser.get(f"{ROOT}{made.pk}/"))
    of_setup = Page(browser.get(f"/c/ilka-marovand/records/setups/{setup.pk}/"))

    assert pairs(page)[:4] == [("Duration", "0:01"), ("Channels", "1"), ("Sample rate", "48 kHz"), ("Bits", "16")]
    assert page.wrong == [
        "The file has 48 kHz, the setup 44.1 kHz.",
        "The file has 1 channel, the list of media files 2.",
    ]
    assert [one for one in of_setup.wrong if "tape.wav" in one] == [f"“tape.wav”: {one}" for one in page.wrong]
    assert page.values("//audio/@src") == [f"{ROOT}{made.pk}/file/"]


def test_score_of_an_edition_says_its_pages_and_recording_its_length(browser: Client, work: Work) -> None:
    edition, recording = make_record(Edition, work=work, pages=3), make_recording(work, duration="0:09")
    wave = wave_file(48_000 * 2).getvalue()
    browser.post(
        f"{ROOT}new/", {"kind": "score", "edition": edition.pk, "file": sent(pdf_with(lambda pdf: None), "score.pdf")}
    )
    browser.post(f"{ROOT}new/", {"kind": "recording", "recording": recording.pk, "file": sent(wave, "take.wav")})

    score, take = (Page(browser.get(f"{ROOT}{one.pk}/")) for one in StoredFile.objects.order_by("pk"))

    assert pairs(score)[:2] == [("Pages", "1"), ("Page size", "216 × 279 mm")]
    assert score.wrong == [
        "Page 1 is blank; say so to whoever prints it, or leave blanks out.",
        "The file has 1 page, the edition 3.",
    ]
    assert take.wrong == ["The file lasts 0:02, the record of the recording says 0:09."]
