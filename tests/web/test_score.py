"""/c/<composer>/works/score/ and /c/<composer>/works/score/keep/"""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

import pytest
from django.contrib.auth.models import User
from django.core.files.uploadedfile import SimpleUploadedFile
from django.test import Client

from catalogue.models import Composer, Work
from catalogue.timing import Duration
from tests.score_files import BACKWARD, bar, compressed, score, sound
from tests.web.pages import Page, with_class

ADDRESS = "/c/ilka-marovand/works/score/"
HEAD = (
    "<work><work-title>Kettle Song</work-title></work><identification>"
    '<creator type="composer">Ada Quill</creator><creator type="lyricist">Bo Reed</creator></identification>'
)
SCORE = score(bar(sound(tempo="60")), bar(after=BACKWARD), head=HEAD, parts=("Soprano", "Piano"))


@pytest.fixture
def browser(signed_in: Callable[[User], Client], editor: User) -> Client:
    return signed_in(editor)


def sent(browser: Client, content: bytes = SCORE, **typed: Any) -> Page:
    return Page(browser.post(ADDRESS, {"file": SimpleUploadedFile("kettle.musicxml", content), **typed}))


def as_shown(page: Page) -> dict[str, str]:
    """Return what the form of facts holds, as a browser would send it."""
    fields = page.tree.xpath("//form[.//*[contains(@class, 'savebar')]]//*[@name]")
    return {
        field.get("name"): "on" if field.get("type") == "checkbox" else str(field.value or "").lstrip("\n")
        for field in fields
        if field.get("type") != "checkbox" or field.get("checked") is not None
    }


def test_what_a_score_says_is_shown_and_nothing_is_stored(browser: Client, composer: Composer) -> None:
    page = sent(browser, compressed(SCORE))

    assert as_shown(page) == {
        "csrfmiddlewaretoken": page.tree.xpath("string(//input[@name='csrfmiddlewaretoken']/@value)"),
        "work": "",
        "title": "Kettle Song",
        "take_title": "on",
        "instrumentation_typed": "S – pf",
        "take_instrumentation_typed": "on",
        "duration_typed": "c.\u00a016″",
        "take_duration_typed": "on",
        "tempo_map": "1-2     4/4   q=60\nrepeat 1-2\n",
        "take_tempo_map": "on",
        "text_author": "Bo Reed",
        "take_text_author": "on",
    }
    assert not Work.objects.exists()


def test_all_facts_make_a_new_work(browser: Client, composer: Composer) -> None:
    browser.post(f"{ADDRESS}keep/", as_shown(sent(browser)))

    work = Work.objects.get()
    assert (work.composer, work.title, work.instrumentation, work.duration, work.text_author) == (
        composer,
        "Kettle Song",
        "S – pf",
        Duration(16, approximate=True),
        "Bo Reed",
    )
    assert work.tempo_map.startswith("1-2")


def test_what_a_work_says_already_is_not_ticked_and_stays(browser: Client, composer: Composer) -> None:
    work = Work.objects.create(composer=composer, title="Song of Kettles")
    page = sent(browser, work=work.pk)
    assert "take_title" not in as_shown(page)
    assert "Song of Kettles" in page.text(with_class("typed"))

    browser.post(f"{ADDRESS}keep/", as_shown(page))

    work.refresh_from_db()
    assert (work.title, work.instrumentation) == ("Song of Kettles", "S – pf")


def test_a_fact_that_is_corrected_wrongly_is_shown_with_the_mistake(browser: Client, composer: Composer) -> None:
    typed = as_shown(sent(browser)) | {"duration_typed": "abc", "tempo_map": "nonsense"}

    page = Page(browser.post(f"{ADDRESS}keep/", typed))

    assert page.field("duration_typed") == "abc"
    assert len(page.wrong) == 2
    assert not Work.objects.exists()


def test_a_new_work_needs_a_title(browser: Client, composer: Composer) -> None:
    page = Page(browser.post(f"{ADDRESS}keep/", {"instrumentation_typed": "fl", "take_instrumentation_typed": "on"}))

    assert page.wrong == ["A work needs a title; everything else can wait."]


def test_a_file_that_is_no_score_is_refused_beside_its_field(browser: Client, composer: Composer) -> None:
    page = sent(browser, b"<letter/>")

    assert page.wrong == ["This XML is no MusicXML score: it begins with “letter”, not with score-partwise."]


def test_another_composers_work_cannot_be_meant(browser: Client, composer: Composer) -> None:
    other = Composer.objects.create(name="Other", slug="other")
    work = Work.objects.create(composer=other, title="Theirs")

    page = sent(browser, work=work.pk)

    assert page.wrong
    work.refresh_from_db()
    assert work.instrumentation == ""
