"""/c/<composer>/records/files/ — files of works: sent along, looked at, taken away whole or in part."""

from __future__ import annotations

from collections.abc import Callable
from hashlib import sha256
from typing import Any

import pytest
from django.contrib.auth.models import User
from django.core.files.storage import default_storage
from django.core.files.uploadedfile import SimpleUploadedFile
from django.test import Client

from catalogue.exchange import file_formats
from catalogue.exchange.pictures import stored_name
from catalogue.models import Composer, Edition, StoredFile, Work
from catalogue.terms import FileKind
from catalogue.web import uploads
from catalogue.web.byte_ranges import Unsatisfiable, asked_range
from tests.makers import make_work
from tests.record_makers import make_record
from tests.web.pages import Page

ROOT = "/c/ilka-marovand/records/files/"
PDF = b"%PDF-1.7\n" + bytes(range(91))


@pytest.fixture
def browser(signed_in: Callable[[User], Client], editor: User) -> Client:
    return signed_in(editor)


@pytest.fixture
def work(composer: Composer) -> Work:
    return make_work("Ash Ferry", composer=composer)


def sent(content: bytes = PDF, name: str = "Ash Ferry.pdf") -> SimpleUploadedFile:
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

    answers = [browser.post(f"{ROOT}new/", {**typed, "file": sent(name="../a\u202eb.pdf")}) for _each in range(2)]
    (made,) = StoredFile.objects.all()

    assert {answer.headers["Location"] for answer in answers} == {f"{ROOT}{made.pk}/"}
    assert (made.work, made.edition, made.kind, made.original_name) == (work, edition, FileKind.SCORE, "ab.pdf")
    assert (made.suffix, made.byte_count, made.sha256) == ("pdf", 100, sha256(PDF).hexdigest())
    assert default_storage.open(stored_name(made.sha256, "pdf")).read() == PDF
    for page in (f"/c/ilka-marovand/records/editions/{edition.pk}/", f"/c/ilka-marovand/works/{work.pk}/"):
        assert f"{ROOT}{made.pk}/" in Page(browser.get(page)).values("//main//a/@href")


def test_file_is_taken_away_as_a_file_and_never_opened_as_a_page(browser: Client, kept: StoredFile) -> None:
    answer = browser.get(f"{ROOT}{kept.pk}/file/")

    assert b"".join(answer.streaming_content) == PDF
    assert {name: answer.headers[name] for name in (
        "Content-Type", "Content-Length", "Content-Disposition", "X-Content-Type-Options", "Content-Security-Policy",
        "Cache-Control", "Cross-Origin-Resource-Policy", "Accept-Ranges", "ETag",
    )} == {
        "Content-Type": "application/pdf",
        "Content-Length": "100",
        "Content-Disposition": 'attachment; filename="Ash Ferry.pdf"',
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
        ({"Range": "bytes=0-3"}, 206, "bytes 0-3/100", PDF[:4]),
        ({"Range": "bytes=96-"}, 206, "bytes 96-99/100", PDF[96:]),
        ({"Range": "bytes=-2"}, 206, "bytes 98-99/100", PDF[98:]),
        ({"Range": "bytes=90-500"}, 206, "bytes 90-99/100", PDF[90:]),
        ({"Range": "bytes=100-"}, 416, "bytes */100", b""),
        ({"Range": "bytes=-0"}, 416, "bytes */100", b""),
        ({"Range": "bytes=0-1,4-5"}, 200, None, PDF),
        ({"Range": "lines=0-1"}, 200, None, PDF),
        ({"Range": "bytes=0-3", "If-Range": '"another"'}, 200, None, PDF),
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
    default_storage.delete(stored_name(kept.sha256, "pdf"))

    assert browser.get(f"{ROOT}{kept.pk}/file/").status_code == 404
    assert browser.get(f"{ROOT}{kept.pk}/").status_code == 200


@pytest.mark.parametrize(
    ("content", "name", "told"),
    [
        (b"<script>alert(1)</script>", "score.pdf", "This is none of the files that are kept here"),
        (b"PK\x03\x04", "score.pdf", "This file is named as PDF, but holds ZIP archive"),
        (b"", "score.pdf", "The submitted file is empty"),
        (PDF, "large.pdf", "This file is larger than 0 MB, the most for one of its kind."),
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
    assert (str(kept), kept.kind, kept.sha256) == ("Parts", "parts", sha256(PDF).hexdigest())
