"""/house/letterheads/: a letterhead and a look for several composers, and their papers."""

from __future__ import annotations

from collections.abc import Callable
from datetime import date
from typing import Any

import pytest
from django.contrib.auth.models import User
from django.core.files.uploadedfile import SimpleUploadedFile
from django.db import connection
from django.test import Client
from django.test.utils import CaptureQueriesContext

from catalogue.documents.model import Document, Opening, Paper, plain
from catalogue.making import Wish, make_document
from catalogue.models import Composer, Hire, HireItem, House, Membership
from catalogue.terms import HouseStyle
from tests.conftest import NOW
from tests.makers import make_composer, make_performance, make_work
from tests.picture_files import picture_file
from tests.web.pages import Page

pytestmark = pytest.mark.signed_in_as("owner")

LIST = "/house/letterheads/"
LETTERHEAD = {
    "name": "Two Quays Music",
    "address": "4 Quay Street\nLeith",
    "telephone": "",
    "email": "hire@example.org",
    "website": "",
    "registration": "Registered in Leith, no. 000 417",
    "logo_alternative": "Two quays",
}
LOOK = {"house_style": "black", "paper_face": "", "paper_ink": "", "paper_margins": "usual"}
HEAD = ("Two Quays Music", "4 Quay Street, Leith, hire@example.org", "Registered in Leith, no. 000 417")


@pytest.fixture
def other(owner: User) -> Composer:
    """A second composer, whose papers look otherwise than papers begin."""
    return make_composer("Bruno Vey", owner=owner, house_style="clear")


def answers(*composers: Composer, **changed: Any) -> dict[str, Any]:
    return {**LETTERHEAD, **LOOK, "saves": "0", "under_it": [one.slug for one in composers], **changed}


def found_house(browser: Client, *composers: Composer) -> House:
    logo = SimpleUploadedFile("logo.png", picture_file(size=(40, 10)))
    assert browser.post(f"{LIST}new/", answers(*composers, logo=logo)).status_code == 302
    return House.objects.get()


def paper(composer: Composer, kind: str, **wished: Any) -> Document:
    wish = Wish(kind, "en-GB", Paper.A4, NOW.date(), **wished)
    return make_document(Composer.objects.get(pk=composer.pk), wish)


def opening_of(document: Document) -> Opening:
    return next(block for block in document.blocks if isinstance(block, Opening))


def letterhead(document: Document) -> tuple[str, ...]:
    return tuple(map(plain, opening_of(document).letterhead))


def test_letterhead_and_look_are_borne_by_the_papers_of_its_composers(browser: Client, composer: Composer) -> None:
    make_performance(make_work("Tides", composer=composer), date="2025-03-28", city="Lyon", country="FR")
    found_house(browser, composer)

    listed = paper(composer, "works-list-by-category")
    others = [letterhead(paper(composer, kind)) for kind in ("performance-history", "press-sheet", "cv-section")]

    assert (letterhead(listed), others) == (HEAD, [HEAD, HEAD, ()])
    assert (listed.house, listed.adjusted.logo and listed.adjusted.logo.alternative) == (HouseStyle.BLACK, "Two quays")


def test_the_house_lends_where_the_terms_name_no_other_lender(browser: Client, composer: Composer) -> None:
    work = make_work("Tides", composer=composer, instrumentation="fl, vc")
    hire = Hire.objects.create(composer=composer, work=work, name="Bell Orchestra", due_on=date(2026, 5, 1))
    HireItem.objects.create(hire=hire, name="Errata list", sent=1)
    found_house(browser, composer)

    note = paper(composer, "delivery-note", hire=hire.pk)

    assert letterhead(note) == HEAD
    assert (note.author, opening_of(note).composer, opening_of(note).aside) == ("Two Quays Music", (), ())


def test_who_had_chosen_a_look_keeps_it_under_the_letterhead(
    browser: Client, composer: Composer, other: Composer
) -> None:
    make_work("Steps", composer=other)
    found_house(browser, composer, other)
    own = paper(other, "works-list-by-category")
    look = f"/c/{other.slug}/profile/look/"

    browser.post(look, {**LOOK, "house_style": "clear", "saves": Composer.objects.get(pk=other.pk).saves})

    assert (own.house, letterhead(own)) == (HouseStyle.CLEAR, HEAD)
    assert paper(other, "works-list-by-category").house == HouseStyle.BLACK
    assert "Else papers look as those of Two Quays Music." in Page(browser.get(look)).text()


def test_who_leaves_takes_their_papers_along(browser: Client, composer: Composer, other: Composer) -> None:
    make_work("Tides", composer=composer)
    house = found_house(browser, composer, other)

    browser.post(f"{LIST}{house.pk}/", answers(other, saves=house.saves))
    alone = letterhead(paper(composer, "works-list-by-category"))
    browser.post(f"/c/{other.slug}/profile/look/leave/")

    assert alone == ()
    assert not House.objects.exists()


def test_dissolved_house_leaves_its_composers(browser: Client, composer: Composer, other: Composer) -> None:
    house = found_house(browser, composer, other)

    said = Page(browser.post(f"{LIST}{house.pk}/dissolve/", follow=True))

    assert "“Two Quays Music” is dissolved" in said.text()
    assert list(Composer.objects.values_list("house", flat=True)) == [None, None]


def test_house_is_kept_by_who_owns_every_composer_in_it(
    browser: Client, composer: Composer, other: Composer, owner: User, signed_in: Callable[[User], Client]
) -> None:
    house = found_house(browser, composer, other)
    Membership.objects.filter(user=owner, composer=other).update(role="editor")

    assert browser.get(f"{LIST}{house.pk}/").status_code == 404
    assert "Two Quays Music" not in Page(browser.get(LIST)).text("//main")


def test_only_composers_whom_one_owns_come_under_a_roof(browser: Client, composer: Composer) -> None:
    stranger = make_composer("Bruno Vey")

    page = Page(browser.post(f"{LIST}new/", answers(composer, stranger)))

    assert "bruno-vey is not one of the available choices" in page.text("//main")
    assert not House.objects.exists()


def test_second_of_two_who_save_is_told(browser: Client, composer: Composer) -> None:
    house = found_house(browser, composer)

    page = Page(browser.post(f"{LIST}{house.pk}/", answers(composer, name="Three Quays", saves=0)))

    assert "Somebody has saved “Two Quays Music” since you opened it" in page.text("//main")
    assert House.objects.get().name == "Two Quays Music"


def test_what_is_no_picture_is_refused_in_words(browser: Client, composer: Composer) -> None:
    logo = SimpleUploadedFile("logo.png", b"no picture")

    page = Page(browser.post(f"{LIST}new/", answers(composer, logo=logo)))

    assert "This is no picture that can be read; send a PNG, JPEG or WebP file." in page.text("//main")


def test_number_of_queries_does_not_grow(browser: Client, composer: Composer, other: Composer) -> None:
    house = found_house(browser, composer)
    few = [queries(browser, address) for address in (LIST, f"{LIST}{house.pk}/")]
    browser.post(f"{LIST}{house.pk}/", answers(composer, other, saves=house.saves))

    assert [queries(browser, address) for address in (LIST, f"{LIST}{house.pk}/")] == few


def queries(browser: Client, address: str) -> int:
    with CaptureQueriesContext(connection) as asked:
        assert browser.get(address).status_code == 200
    return len(asked)
