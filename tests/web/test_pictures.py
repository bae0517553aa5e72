"""/c/<composer>/records/pictures/: a picture is kept as what it is, with words for those who cannot see it."""

from __future__ import annotations

import pytest
from django.core.files.uploadedfile import SimpleUploadedFile
from django.test import Client

from catalogue.models import (
    Composer,
    Picture,
)
from tests.picture_files import picture_file
from tests.web.pages import Page, opened

ROOT = "/c/ilka-marovand/records/"


def picture(content: bytes, name: str = "window.png") -> SimpleUploadedFile:
    return SimpleUploadedFile(name, content, "image/png")


def test_picture_is_kept_and_served_as_what_it_is(browser: Client, composer: Composer) -> None:
    at = f"{ROOT}pictures/new/"
    typed = {**opened(browser, at), "alternative": "A window", "file": picture(picture_file("JPEG"), "../x.html")}

    browser.post(at, typed)
    (made,) = Picture.objects.all()
    served = browser.get(f"{ROOT}pictures/{made.pk}/file/")

    assert (made.suffix, made.width, made.height) == ("jpg", 4, 3)
    assert (served.headers["Content-Type"], served.headers["X-Content-Type-Options"]) == ("image/jpeg", "nosniff")
    assert len(b"".join(served.streaming_content)) == made.byte_count


@pytest.mark.parametrize("content", [b"<script>", b"%PDF-1.7"])
def test_file_that_is_no_picture_is_told_and_nothing_typed_is_lost(
    browser: Client, composer: Composer, content: bytes
) -> None:
    at = f"{ROOT}pictures/new/"

    page = Page(browser.post(at, {**opened(browser, at), "alternative": "A window", "file": picture(content)}))

    assert page.texts("//*[@id='id_file_error']/p") == [
        "This is no picture that can be read; send a PNG, JPEG or WebP file."
    ]
    assert page.field("alternative") == "A window"
    assert Picture.objects.count() == 0


def test_picture_needs_words_for_those_who_cannot_see_it(browser: Client, composer: Composer) -> None:
    at = f"{ROOT}pictures/new/"

    page = Page(browser.post(at, {**opened(browser, at), "file": picture(picture_file())}))

    assert len(page.texts("//*[@id='id_alternative_error']/p")) == 1


# ---- around a work
