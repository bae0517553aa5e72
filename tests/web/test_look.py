"""/c/<composer>/profile/look/ and the document that is shown there."""

from __future__ import annotations

import pytest
from django.core.files.storage import default_storage
from django.test import Client

from catalogue.documents.model import Paper
from catalogue.exchange.pictures import keep_picture, probe_picture
from catalogue.making import Wish, make_document
from catalogue.models import Composer, Picture
from catalogue.terms import FaceFamily, HouseStyle, PaperMargins
from tests.conftest import NOW
from tests.makers import make_work
from tests.picture_files import picture_file
from tests.web.pages import Page

pytestmark = pytest.mark.signed_in_as("owner")

ADDRESS = "/c/ilka-marovand/profile/look/"
SHOWN = f"{ADDRESS}shown/"
CHOICE = {"house_style": "clear", "paper_face": "serif", "paper_ink": "7A1F1F", "paper_margins": "bound", "saves": "0"}


def wish(*, is_anonymous: bool = False) -> Wish:
    return Wish("works-list-by-year", "en-GB", Paper.A4, NOW.date(), is_anonymous=is_anonymous)


def keep_logo(composer: Composer) -> Picture:
    probed = probe_picture(picture_file(size=(40, 10)))
    keep_picture(probed, default_storage)
    told = {"suffix": probed.suffix, "width": 40, "height": 10, "byte_count": len(probed.content)}
    return Picture.objects.create(
        composer=composer, kind="logo", alternative="A quay", sha256=probed.sha256, changed_at=NOW, **told
    )


def test_what_is_chosen_is_worn_by_every_document(browser: Client, composer: Composer) -> None:
    make_work("Tides", composer=composer)

    assert browser.post(ADDRESS, CHOICE).status_code == 302

    made = make_document(Composer.objects.get(pk=composer.pk), wish())
    assert (made.house, made.adjusted.face, made.adjusted.ink, made.adjusted.margins) == (
        HouseStyle.CLEAR, FaceFamily.SERIF, "#7a1f1f", PaperMargins.BOUND,
    )  # fmt: skip


def test_a_pale_colour_is_refused_in_words_and_nothing_is_kept(browser: Client, composer: Composer) -> None:
    page = Page(browser.post(ADDRESS, {**CHOICE, "paper_ink": "#ffe080"}))

    reason = "This colour is too pale: its contrast on white is 1.3 to 1, and text needs 4.5 to 1."
    assert reason in page.text("//div[@id='shown']")
    assert page.tree.xpath("//iframe") == []
    assert Composer.objects.get(pk=composer.pk).house_style == "classic"


def test_second_of_two_who_choose_sees_what_the_first_has_saved(browser: Client, composer: Composer) -> None:
    browser.post(ADDRESS, CHOICE)

    page = Page(browser.post(ADDRESS, {**CHOICE, "house_style": "black"}))

    assert "Sans serifs, heads in sea blue" in page.text("//main")
    assert Composer.objects.get(pk=composer.pk).house_style == "clear"


def test_a_choice_is_shown_before_it_is_saved(browser: Client, composer: Composer) -> None:
    make_work("Tides", composer=composer)
    (frame,) = Page(browser.post(ADDRESS, {**CHOICE, "show": "1"})).tree.xpath("//iframe")

    shown = browser.get(frame.get("src"))

    assert frame.get("src") == f"{SHOWN}?house_style=clear&paper_face=serif&paper_ink=%237a1f1f&paper_margins=bound"
    assert b"Tides" in shown.content
    assert b"color: #7a1f1f" in shown.content
    assert Composer.objects.get(pk=composer.pk).house_style == "classic"


def test_what_is_shown_may_stand_in_our_own_page_and_do_nothing_else(browser: Client, composer: Composer) -> None:
    shown, page = browser.get(SHOWN), browser.get(ADDRESS)

    rules = shown.headers["Content-Security-Policy"]
    assert all(rule in rules for rule in ("default-src 'none'", "frame-ancestors 'self'", "style-src 'sha256-"))
    assert rules.endswith("; sandbox")
    assert shown.headers["X-Frame-Options"] == "SAMEORIGIN"
    assert "frame-src 'self'" in page.headers["Content-Security-Policy"]


def test_a_picture_of_the_kind_logo_heads_documents_but_none_that_is_anonymous(
    browser: Client, composer: Composer
) -> None:
    make_work("Tides", composer=composer)
    keep_logo(composer)

    made = make_document(composer, wish())

    assert made.adjusted.logo is not None
    assert (made.adjusted.logo.alternative, made.adjusted.logo.width) == ("A quay", 40)
    assert make_document(composer, wish(is_anonymous=True)).adjusted.logo is None
    assert Page(browser.get(ADDRESS)).tree.xpath("//img[@class='logo']/@alt") == ["A quay"]


def test_a_logo_whose_file_is_gone_is_left_out(composer: Composer) -> None:
    Picture.objects.create(
        composer=composer, kind="logo", alternative="Gone", sha256="0" * 64, suffix="png", width=1, height=1,
        byte_count=1, changed_at=NOW,
    )  # fmt: skip

    assert make_document(composer, wish()).adjusted.logo is None
