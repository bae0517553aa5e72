"""/c/<composer>/works/score/ and /c/<composer>/works/score/keep/"""

from __future__ import annotations

from types import SimpleNamespace
from typing import Any

import pytest
from django.core.files.uploadedfile import SimpleUploadedFile
from django.test import Client

from catalogue.actions.works import save_work
from catalogue.exchange.scores import parsing
from catalogue.models import Composer, Movement, Work
from catalogue.timing import Duration
from catalogue.web import uploads
from catalogue.web.forms.scores import FACTS
from catalogue.web.views import scores as views
from tests.conftest import NOW
from tests.makers import make_work
from tests.score_files import BACKWARD, bar, compressed, score, sound
from tests.unit.exchange.waves import wave_file
from tests.web.pages import Page, with_class

ADDRESS = "/c/ilka-marovand/works/score/"
HEAD = (
    "<work><work-title>Kettle Song</work-title></work><identification>"
    '<creator type="composer">Ada Quill</creator><creator type="lyricist">Bo Reed</creator></identification>'
)
SCORE = score(bar(sound(tempo="60")), bar(after=BACKWARD), head=HEAD, parts=("Soprano", "Piano"))


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
        "saves": "",
        "uid": str(page.field("uid")),
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


def movements_of(work: Work) -> list[Movement]:
    return list(work.movements.order_by("number"))


ODD_SCORE = SCORE.replace(b"</work>", b"</work><movement-title>Boil</movement-title>")


def test_a_file_of_one_movement_offers_that_and_leaves_the_duration_of_the_whole(
    browser: Client, composer: Composer
) -> None:
    page = sent(browser, ODD_SCORE)
    shown = as_shown(page)
    assert (shown["movement"], "take_movement" in shown, "take_duration_typed" in shown) == (
        "Boil c.\u00a016″",
        True,
        False,
    )
    assert "The file is of one movement, “Boil”" in page.text()

    browser.post(f"{ADDRESS}keep/", shown)

    work = Work.objects.get()
    assert (work.duration, work.tempo_map) == (None, "")
    assert [(one.title, one.duration) for one in movements_of(work)] == [("Boil", Duration(16, approximate=True))]


def test_a_movement_that_is_there_gets_the_duration(browser: Client, composer: Composer) -> None:
    work = make_work("Kettle Song", composer=composer, movements=("Fill", "boil", "Pour"))

    browser.post(f"{ADDRESS}keep/", as_shown(sent(browser, ODD_SCORE, work=work.pk)) | {"take_movement": "on"})

    assert [one.duration for one in movements_of(work)] == [None, Duration(16, approximate=True), None]


def test_a_file_that_names_somebody_else_as_composer_is_doubted(browser: Client, composer: Composer) -> None:
    assert "The file names Ada Quill as composer." in sent(browser).text()
    assert "as composer." not in sent(browser, SCORE.replace(b"Ada Quill", b"Ilka Marovand")).text()


def test_what_was_taken_over_is_taken_back(browser: Client, composer: Composer) -> None:
    work = make_work("Song of Kettles", composer=composer, duration="3'", movements=("Fill",))
    every = {f"take_{name}": "on" for name in FACTS}
    browser.post(f"{ADDRESS}keep/", as_shown(sent(browser, ODD_SCORE, work=work.pk)) | every)
    work.refresh_from_db()
    assert (work.title, work.movements.count(), work.text_author) == ("Kettle Song", 2, "Bo Reed")

    undo = Page(browser.get(f"/c/ilka-marovand/works/{work.pk}/")).values("//form[contains(@action, 'undo')]/@action")
    browser.post(undo[0])

    work.refresh_from_db()
    assert (work.title, work.duration, work.duration_typed) == ("Song of Kettles", Duration(180), "")
    assert (work.text_author, work.tempo_map, [one.title for one in movements_of(work)]) == ("", "", ["Fill"])


def test_a_new_work_is_taken_back_by_deleting_it(browser: Client, composer: Composer) -> None:
    page = Page(browser.post(f"{ADDRESS}keep/", as_shown(sent(browser)), follow=True))

    browser.post(page.values("//form[contains(@action, '/delete/')]/@action")[0])

    assert not Work.objects.exists()


def test_facts_that_are_sent_twice_make_one_work(browser: Client, composer: Composer) -> None:
    typed = as_shown(sent(browser))
    for _time in range(2):
        browser.post(f"{ADDRESS}keep/", typed)

    assert Work.objects.count() == 1


def test_a_work_that_was_changed_meanwhile_is_not_written_over(browser: Client, composer: Composer) -> None:
    work = make_work("Song of Kettles", composer=composer)
    typed = as_shown(sent(browser, work=work.pk)) | {"take_title": "on"}
    save_work(work=work, now=NOW)

    page = Page(browser.post(f"{ADDRESS}keep/", typed))

    assert "Somebody has just changed this work" in page.text()
    work.refresh_from_db()
    assert work.title == "Song of Kettles"
    browser.post(f"{ADDRESS}keep/", as_shown(page))
    work.refresh_from_db()
    assert work.title == "Kettle Song"


def test_a_file_that_is_too_large_is_dropped_while_it_comes_in(
    browser: Client, composer: Composer, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setitem(uploads.MOST_BY_PAGE, "score-new", len(SCORE) - 1)

    assert sent(browser).wrong == ["This file is larger than 100 MB."]


# ---- scores that are kept


def keep(browser: Client, work: Work, content: bytes, name: str = "kettle.musicxml") -> str:
    """Keep a file and return the address of its page."""
    file = SimpleUploadedFile(name, content)
    answer = browser.post("/c/ilka-marovand/records/files/new/", {"file": file, "kind": "score", "work": work.pk})
    return answer.headers["Location"]


def test_what_a_score_says_that_is_kept_is_shown_for_its_work(browser: Client, composer: Composer) -> None:
    work = make_work("Song of Kettles", composer=composer)
    page = Page(browser.get(keep(browser, work, compressed(SCORE), "kettle.mxl")))

    (address,) = page.values("//form[contains(@action, '/score/')]/@action")
    shown = as_shown(Page(browser.post(address)))

    assert (shown["title"], shown["work"]) == ("Kettle Song", str(work.pk))


def test_a_kept_score_that_cannot_be_read_says_so(browser: Client, composer: Composer) -> None:
    address = keep(browser, make_work("Song of Kettles", composer=composer), b"<score-partwise/>")

    page = Page(browser.post(f"{address}score/", follow=True))

    assert "There is no part in this score." in page.text()


def test_a_kept_file_that_is_no_score_offers_nothing_of_the_kind(browser: Client, composer: Composer) -> None:
    address = keep(browser, make_work("Song of Kettles", composer=composer), wave_file().getvalue(), "a.wav")

    assert not Page(browser.get(address)).values("//form[contains(@action, '/score/')]/@action")
    assert browser.post(f"{address}score/").status_code == 404


# ---- long scores


@pytest.fixture
def long(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(views, "AT_ONCE", 100)
    monkeypatch.setattr(parsing, "AT_ONCE", 100)
    monkeypatch.setattr(parsing, "PORTION", 300)


def streamed(browser: Client, content: bytes) -> Page:
    answer: Any = browser.post(ADDRESS, {"file": SimpleUploadedFile("kettle.musicxml", content)})
    assert answer.streaming
    return Page(SimpleNamespace(status_code=answer.status_code, content=b"".join(answer.streaming_content)))


@pytest.mark.usefixtures("long")
def test_a_long_score_is_followed_while_it_is_read(browser: Client, composer: Composer) -> None:
    page = streamed(browser, SCORE)

    assert len(page.tree.xpath("//ol[@class='progress']/li/progress")) == -(-len(SCORE) // 300)
    assert "1 of 1 MB read" in page.text(with_class("progress"))
    assert as_shown(page)["title"] == "Kettle Song"
    browser.post(f"{ADDRESS}keep/", as_shown(page))
    assert Work.objects.get().title == "Kettle Song"


@pytest.mark.usefixtures("long")
def test_a_long_score_that_is_cut_off_says_so_where_it_stops(browser: Client, composer: Composer) -> None:
    page = streamed(browser, SCORE[:-30])

    assert page.wrong == ["This file was cut off: it ends in line 1, before the score does."]
    assert page.values("//a[text()='Send another file']/@href") == [ADDRESS]
